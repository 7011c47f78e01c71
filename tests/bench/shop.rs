//! A shop of 10,000 procedures: looked at for the first time, again, and after one change; beside reading and hashing
//! the same bytes, reading them only, pulldown-cmark on them, and starting the program.
//!
//! `cargo bench --bench shop` prints the table with its limits; over a limit it fails. Clock times are the least of
//! several runs; what the program computes is its own time on all processors, as the system counts it.
#![allow(
    clippy::print_stdout,
    clippy::disallowed_methods,
    clippy::disallowed_types,
    clippy::indexing_slicing,
    clippy::expect_used
)]
#[allow(dead_code)]
mod corpus;

use rayon::prelude::*;
use sha2::{Digest, Sha256};
use std::path::{Path, PathBuf};
use std::process::{Command, ExitCode, Stdio};
use std::time::{Duration, Instant};
use wait4::Wait4;

const PROGRAM: &str = env!("CARGO_BIN_EXE_cotter");
const FILES: usize = 10_000;

fn main() -> ExitCode {
    let shop = Shop::new();
    let reading = least(5, || shop.each(|bytes| drop(std::hint::black_box(bytes))));
    let hashing = least(5, || {
        shop.each(|bytes| {
            std::hint::black_box(Sha256::digest(&bytes));
        });
    });
    let markdown = least(3, || {
        shop.each(|bytes| {
            let text = String::from_utf8(bytes).expect("the corpus is text");
            std::hint::black_box(pulldown_cmark::Parser::new(&text).count());
        });
    });
    let start = (0..50).map(|_| run(&shop, &["--version"])).min_by(Cost::wall).expect("it ran");
    let cold = run(&shop, &["check", "--no-cache"]);
    let first = run(&shop, &["check"]);
    // Until the times of the files are old enough to be trusted.
    std::thread::sleep(Duration::from_secs(3));
    let [_, again] = [run(&shop, &["check"]), run(&shop, &["check"])];
    let warm = (0..5).map(|_| run(&shop, &["check"])).chain([again]).min_by(Cost::wall).expect("it ran");
    let one = (0..5).map(|round| shop.change(round, &["check"])).min_by(Cost::work).expect("it ran");
    println!("{FILES} files of {:.0} MB", shop.bytes as f64 / 1e6);
    println!("{:<58}{:>8.0} ms", "computed by check again, beyond starting", (warm.work - start.work) * 1e3);
    for (name, seconds) in [
        ("reading the bytes", reading),
        ("reading and hashing them", hashing),
        ("reading them and pulldown-cmark", markdown),
        ("starting the program", start.wall),
        ("check, no store", cold.wall),
        ("check, first run with a store", first.wall),
        ("check again", warm.wall),
        ("check after one change", one.wall),
    ] {
        println!("{name:<58}{:>8.0} ms", seconds * 1e3);
    }
    let mut over = false;
    let mut row = |name: &str, value: f64, limit: f64| {
        let bad = value > limit;
        over |= bad;
        println!("{name:<58}{value:>8.2}{:>8}{}", format!("≤ {limit}"), if bad { "  over" } else { "" });
    };
    row("check again / reading and hashing the files", warm.wall / hashing, 2.0);
    row("check after one change, computed beyond checking again (ms)", (one.work - warm.work) * 1e3, 50.0);
    row("check, first run with a store / without", first.wall / cold.wall, 1.2);
    let built = run(&shop, &["build"]);
    std::thread::sleep(Duration::from_secs(3));
    let _ = run(&shop, &["build"]);
    let again = (0..6).map(|_| run(&shop, &["build"])).min_by(Cost::work).expect("it ran");
    let one = (0..6).map(|round| shop.change(round, &["build"])).min_by(Cost::work).expect("it ran");
    for (name, cost) in
        [("build, the first", &built), ("build again", &again), ("build after one change", &one)]
    {
        println!("{name:<58}{:>8.0} ms, {:.0} ms computed", cost.wall * 1e3, cost.work * 1e3);
    }
    let path = shop.paths[FILES / 2].to_string_lossy().into_owned();
    let alone = (0..6).map(|round| shop.change(round, &["build", &path])).min_by(Cost::work).expect("it ran");
    println!(
        "{:<58}{:>8.0} ms, {:.0} ms computed",
        "build of one file after it changed",
        alone.wall * 1e3,
        alone.work * 1e3
    );
    row("build again / the first", again.wall / built.wall, 0.1);
    row("build after one change, computed beyond building again (ms)", (one.work - again.work) * 1e3, 50.0);
    if over { ExitCode::FAILURE } else { ExitCode::SUCCESS }
}

/// What one run took, in seconds.
struct Cost {
    wall: f64,
    work: f64,
}

impl Cost {
    fn wall(a: &Cost, b: &Cost) -> std::cmp::Ordering {
        a.wall.total_cmp(&b.wall)
    }
    fn work(a: &Cost, b: &Cost) -> std::cmp::Ordering {
        a.work.total_cmp(&b.work)
    }
}

struct Shop {
    folder: tempfile::TempDir,
    paths: Vec<PathBuf>,
    bytes: usize,
}

impl Shop {
    fn new() -> Shop {
        let folder = tempfile::tempdir().expect("a folder to work in");
        let root = folder.path().join("shop");
        let mut bytes = 0;
        let write = |path: &Path, text: &str| {
            std::fs::create_dir_all(path.parent().expect("below the root")).expect("it can be written");
            std::fs::write(path, text).expect("it can be written");
        };
        write(&root.join("cotter.toml"), "");
        let paths: Vec<PathBuf> = (0..FILES)
            .map(|number| {
                let path = root.join(format!("machine-{:03}/p{number:05}.cotter", number / 100));
                let text = corpus::procedure(number);
                bytes += text.len();
                write(&path, &text);
                path
            })
            .collect();
        Shop { folder, paths, bytes }
    }

    fn each(&self, work: impl Fn(Vec<u8>) + Sync) {
        self.paths.par_iter().for_each(|path| work(std::fs::read(path).expect("it was written")));
    }

    /// Runs it after one file was changed.
    fn change(&self, round: usize, arguments: &[&str]) -> Cost {
        let path = &self.paths[FILES / 2];
        let text = corpus::procedure(FILES / 2);
        let changed = format!("{text}\n# {round} {}\n", arguments.join(" "));
        std::fs::write(path, changed).expect("it can be written");
        run(self, arguments)
    }
}

fn run(shop: &Shop, arguments: &[&str]) -> Cost {
    let start = Instant::now();
    let mut child = Command::new(PROGRAM)
        .args(arguments)
        .current_dir(shop.folder.path().join("shop"))
        .env("COTTER_CACHE", shop.folder.path().join("store"))
        .stdout(Stdio::null())
        .spawn()
        .expect("the program starts");
    let usage = child.wait4().expect("the program ends");
    let wall = start.elapsed().as_secs_f64();
    assert!(usage.status.success(), "{arguments:?}");
    Cost { wall, work: (usage.rusage.utime + usage.rusage.stime).as_secs_f64() }
}

/// The least time of several runs, in seconds.
fn least(runs: usize, mut work: impl FnMut()) -> f64 {
    let once = |_| {
        let start = Instant::now();
        work();
        start.elapsed().as_secs_f64()
    };
    (0..runs).map(once).fold(f64::MAX, f64::min)
}
