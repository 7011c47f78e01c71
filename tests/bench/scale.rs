//! How time and memory grow: with the file, with the number of files, with hostile input, with how late a finding
//! stands; and what starting the program costs. How much of the heap a large file takes is in `heap.rs`. Clock times are the least of several runs, compared within this run.
//!
//! `cargo bench --bench scale` prints the table with its limits; over a limit it fails.
#![allow(
    clippy::print_stdout,
    clippy::disallowed_methods,
    clippy::disallowed_types,
    clippy::indexing_slicing,
    clippy::expect_used
)]
mod corpus;
mod large;

use cotter::model::catalogues::Catalogues;
use cotter::model::verb::Verb;
use cotter::model::{Register, Settings};
use cotter::source::{FileId, SourceFile};
use cotter::syntax::ast::Statement;
use cotter::syntax::{self, Entry, Stepwise};
use cotter::{Surroundings, compile};
use std::hint::black_box;
use std::path::Path;
use std::process::{Command, ExitCode, Stdio};
use std::time::{Duration, Instant};
use wait4::Wait4;

/// The program's own allocator.
#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

const PROGRAM: &str = env!("CARGO_BIN_EXE_cotter");

/// Of the allocator: when it gives freed memory back to the system.
const GIVES_BACK: &str = "MIMALLOC_PURGE_DELAY";

fn main() -> ExitCode {
    // Freed memory is to stay: else a large input would pay for new pages in every run, and a small one in none.
    if std::env::var_os(GIVES_BACK).is_none() {
        let own = std::env::current_exe().expect("the bench has a path");
        let status = Command::new(own).args(std::env::args_os().skip(1)).env(GIVES_BACK, "-1").status();
        return if status.expect("the bench starts").success() {
            ExitCode::SUCCESS
        } else {
            ExitCode::FAILURE
        };
    }
    let mut table = Table::default();
    growth(&mut table, "reading", 1.05, read);
    // A document of 10 MB no longer fits the caches.
    growth(&mut table, "check", CACHES, |text| assert_eq!(check(text), 0));
    models(&mut table);
    hostile(&mut table);
    let folder = tempfile::tempdir().expect("a folder to work in");
    late_report(&mut table, folder.path());
    memory_of_many_files(&mut table, folder.path());
    start_up(&mut table, folder.path());
    if table.over { ExitCode::FAILURE } else { ExitCode::SUCCESS }
}

#[derive(Default)]
struct Table {
    over: bool,
}

impl Table {
    fn row(&mut self, name: &str, value: f64, limit: f64) {
        let bad = value > limit;
        self.over |= bad;
        println!("{name:<58}{value:>8.2}{:>8}{}", format!("≤ {limit}"), if bad { "  over" } else { "" });
    }
}

fn check(text: &str) -> usize {
    let source = SourceFile::new(FileId(0), "bench.cotter", text);
    let settings = Settings::default();
    let (register, catalogues) = (Register::default(), Catalogues::default());
    let around = Surroundings { settings: &settings, register: &register, catalogues: &catalogues };
    compile(&source, &around).findings.len()
}

/// The least time of several runs, in seconds.
fn least(runs: usize, mut work: impl FnMut()) -> f64 {
    let once = |_| {
        let start = Instant::now();
        work();
        start.elapsed()
    };
    (0..runs).map(once).min().unwrap_or(Duration::MAX).as_secs_f64()
}

/// What the caches may add to an exponent by the clock; `counts.rs` holds the work itself to less.
const CACHES: f64 = 1.15;

/// Reads every statement, each when its turn comes.
fn read(text: &str) {
    let source = SourceFile::new(FileId(0), "bench.cotter", text);
    let starts_step = |word: &str| Verb::find(word).is_some();
    let Stepwise { tree, order, mut steps } = syntax::open(&source, &starts_step);
    black_box(tree);
    let mut statement = Statement::default();
    for entry in order {
        if let Entry::Waits(waiting) = entry {
            assert!(steps.read(waiting, &mut statement));
        }
    }
    assert!(steps.all_read());
}

/// The exponent of time over size from 10 KB to 10 MB: 1 is linear.
fn growth(table: &mut Table, what: &str, limit: f64, work: impl Fn(&str)) {
    let points: Vec<(f64, f64)> = [10_000, 100_000, 1_000_000, 10_000_000]
        .map(|bytes| {
            let text = large::of_size(bytes);
            let time = least(if bytes > 500_000 { 10 } else { 200 }, || work(&text));
            println!("{what}, {:>10} bytes: {:>8.1} ns a byte", text.len(), time * 1e9 / text.len() as f64);
            ((text.len() as f64).ln(), time.ln())
        })
        .to_vec();
    table.row(&format!("growth of {what}, 10 KB to 10 MB (exponent)"), slope(&points), limit);
}

/// 5,000 steps that are followed for each of 16 models, with a branch under every other one.
fn models(table: &mut Table) {
    let point = |steps: usize| {
        let text = large::of_models(steps);
        let time = least(8, || {
            black_box(check(&text));
        });
        ((text.len() as f64).ln(), time.ln())
    };
    table.row(
        "growth of check, 500 to 5,000 steps for 16 models",
        slope(&[point(500), point(5_000)]),
        CACHES,
    );
}

fn slope(points: &[(f64, f64)]) -> f64 {
    let n = points.len() as f64;
    let mean = |pick: fn(&(f64, f64)) -> f64| points.iter().map(pick).sum::<f64>() / n;
    let (x, y) = (mean(|p| p.0), mean(|p| p.1));
    let above: f64 = points.iter().map(|p| (p.0 - x) * (p.1 - y)).sum();
    let below: f64 = points.iter().map(|p| (p.0 - x).powi(2)).sum();
    above / below
}

/// Hostile input ten times as long may take no more than ten times as long: the exponent of its growth.
fn hostile(table: &mut Table) {
    let head = corpus::rounds(1, 0);
    for (name, input) in large::HOSTILE {
        let point = |n: usize| {
            let text = format!("{head}{}", input(n));
            let time = least(8, || {
                black_box(check(&text));
            });
            ((text.len() as f64).ln(), time.ln())
        };
        table.row(
            &format!("growth over a tenth of it: {name}"),
            slope(&[point(10_000), point(100_000)]),
            CACHES,
        );
    }
}

/// Time of the program on 5,000 lines with one fault near the start and with one near the end.
fn late_report(table: &mut Table, folder: &Path) {
    let text = corpus::rounds(1, 200);
    let broken = |at_start: bool| {
        let fault = "remove nothing-known\n";
        if at_start {
            text.replacen("clean cover", &format!("{fault}clean cover"), 1)
        } else {
            format!("{text}{fault}")
        }
    };
    let time = |name: &str, text: &str| {
        let path = folder.join(name);
        std::fs::write(&path, text).expect("the folder can be written");
        least(40, || {
            let status = Command::new(PROGRAM).arg("check").arg(&path).stdout(Stdio::null()).status();
            assert_eq!(status.expect("the program starts").code(), Some(1));
        })
    };
    let (early, late) = (time("early.cotter", &broken(true)), time("late.cotter", &broken(false)));
    table.row("a finding late in 5,000 lines / one at the start", late / early, 1.1);
}

/// Resident memory of the program, in KB, on `paths`.
fn resident(arguments: &[&str], path: &Path) -> f64 {
    let mut child = Command::new(PROGRAM);
    let mut child =
        child.args(arguments).arg(path).stdout(Stdio::null()).spawn().expect("the program starts");
    let usage = child.wait4().expect("the program ends");
    usage.rusage.maxrss as f64
}

fn memory_of_many_files(table: &mut Table, folder: &Path) {
    let [one, many] = ["one", "many"].map(|name| folder.join(name));
    for (path, files) in [(&one, 1), (&many, corpus::FILES)] {
        std::fs::create_dir_all(path).expect("the folder can be written");
        std::fs::write(path.join("cotter.toml"), "").expect("the folder can be written");
        for number in 0..files {
            let name = path.join(format!("p{number:05}.cotter"));
            std::fs::write(name, corpus::procedure(number)).expect("the folder can be written");
        }
    }
    let ratio = resident(&["check"], &many) / resident(&["check"], &one);
    table.row("memory of checking 2,000 files / one file", ratio, 1.2);
    let ratio = resident(&["build"], &many) / resident(&["build"], &one);
    table.row("memory of building 2,000 files / one file", ratio, 1.2);
}

/// Starting `cotter --version` beside starting a program that prints one line. Both are copied first, as when they are
/// installed: what a linker has just written lies in small pieces in the system's cache, and takes longer to be mapped.
fn start_up(table: &mut Table, folder: &Path) {
    let source = folder.join("hello.rs");
    let [built, hello, cotter] = ["built", "hello", "cotter"].map(|name| folder.join(name));
    std::fs::write(&source, "fn main() { println!(\"hello\"); }").expect("the folder can be written");
    let compiled = Command::new("rustc").args(["-O", "-o"]).arg(&built).arg(&source).status();
    assert!(compiled.expect("rustc starts").success());
    for (from, to) in [(built.as_path(), &hello), (Path::new(PROGRAM), &cotter)] {
        std::fs::copy(from, to).expect("the folder can be written");
    }
    let start = |program: &Path| {
        let status = Command::new(program).arg("--version").stdout(Stdio::null()).status();
        assert!(status.expect("the program starts").success());
    };
    let (mut own, mut other) = (f64::MAX, f64::MAX);
    // In turns, so that both see the same machine.
    for _ in 0..300 {
        own = own.min(least(1, || start(&cotter)));
        other = other.min(least(1, || start(&hello)));
    }
    table.row("starting cotter / starting a one-line program", own / other, 1.5);
}
