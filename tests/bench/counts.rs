//! The limits of speed in instructions, counted by valgrind: the same to a thousandth whatever else the machine does, so
//! that they can be a gate. What the clock says of the same work is in `ratios.rs` and `scale.rs`.
//!
//! `cargo bench --bench counts` prints the table; over a limit it fails. It needs valgrind.
#![allow(
    clippy::print_stdout,
    clippy::disallowed_methods,
    clippy::disallowed_types,
    clippy::indexing_slicing,
    clippy::expect_used
)]
mod corpus;
mod following;
mod large;
mod valgrind;

use cotter::model::catalogues::Catalogues;
use cotter::model::{Register, Settings};
use cotter::record::fingerprint;
use cotter::sheets::language::{Language, Words};
use cotter::sheets::{Context, Said, bench, checklist};
use cotter::source::{FileId, SourceFile};
use cotter::{Compiled, Surroundings, compile};
use std::hint::black_box;
use std::process::ExitCode;

/// The program's own allocator, for both sides of every ratio.
#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

/// Files of two runs whose difference is counted, so that what comes before the first file cancels.
const FEW: usize = 50;
const MANY: usize = 150;

fn main() -> ExitCode {
    let mut words = std::env::args().skip(1).filter(|word| word != "--bench");
    match (words.next(), words.next().and_then(|size| size.parse().ok())) {
        (Some(work), Some(size)) => {
            done(&work, size);
            ExitCode::SUCCESS
        }
        _ => counted(),
    }
}

/// One run under valgrind.
fn done(work: &str, size: usize) {
    // Tables are made once, before anything is counted by difference.
    black_box(check(&corpus::procedure(0), &Settings::default()));
    match work {
        "corpus" | "read" | "markdown" | "lines" | "check" | "hash" | "build" => {
            let settings = if work == "lines" { following::off() } else { Settings::default() };
            for file in 0..size {
                black_box(of_corpus(work, &corpus::procedure(file), &settings));
            }
        }
        "text of size" => {
            black_box(large::of_size(size));
        }
        "check of size" => {
            black_box(check(&large::of_size(size), &Settings::default()));
        }
        "text of models" => {
            black_box(large::of_models(size));
        }
        "check of models" => {
            black_box(check(&large::of_models(size), &Settings::default()));
        }
        other => {
            let (what, name) = other.split_once(' ').expect("text or check");
            let input = large::HOSTILE.iter().find(|(known, _)| *known == name).expect("an input").1;
            let text = format!("{}{}", corpus::rounds(1, 0), input(size));
            if what == "check" {
                black_box(check(&text, &Settings::default()));
            }
        }
    }
}

fn of_corpus(work: &str, text: &str, settings: &Settings) -> usize {
    match work {
        "read" => text.bytes().fold(0, |sum: usize, byte| sum.wrapping_mul(31).wrapping_add(byte.into())),
        "markdown" => {
            let mut html = String::with_capacity(text.len() * 2);
            pulldown_cmark::html::push_html(&mut html, pulldown_cmark::Parser::new(text));
            html.len()
        }
        "lines" | "check" => check(text, settings),
        "hash" => fingerprint(&compiled(text, settings).document).len(),
        "build" => build(text, settings),
        _ => 0,
    }
}

fn compiled(text: &str, settings: &Settings) -> Compiled {
    let source = SourceFile::new(FileId(0), "bench.cotter", text);
    let (register, catalogues) = (Register::default(), Catalogues::default());
    compile(&source, &Surroundings { settings, register: &register, catalogues: &catalogues })
}

fn check(text: &str, settings: &Settings) -> usize {
    compiled(text, settings).findings.len()
}

fn build(text: &str, settings: &Settings) -> usize {
    let register = Register::default();
    let document = compiled(text, settings).document;
    let words = Words::of(Language::English);
    let context = Context::new(settings, &register, words);
    let said = Said::of(&document, &context);
    let context = Context { said: Some(&said), ..context };
    let pages = [bench::render(&document, &context), checklist::render(&document, &context)];
    pages.into_iter().map(|page| page.expect("the corpus has sheets").len()).sum()
}

/// How many instructions a run takes.
fn instructions(work: &str, size: usize) -> f64 {
    let own = std::env::current_exe().expect("the bench has a path");
    valgrind::instructions(&own, &[work, &size.to_string()])
}

fn counted() -> ExitCode {
    let mut table = Table::default();
    let each = |work: &str| (instructions(work, MANY) - instructions(work, FEW)) / (MANY - FEW) as f64;
    let corpus = each("corpus");
    let [read, markdown, lines, check, hash, build] =
        ["read", "markdown", "lines", "check", "hash", "build"].map(|work| each(work) - corpus);
    println!("\n{:<66}{:>9.0} a file", "pulldown-cmark", markdown);
    table.row("reading the bytes / markdown", read / markdown, 1.0);
    table.row("check, rules of lines and declarations / markdown", lines / markdown, 3.0);
    table.row("check, all rules / markdown", check / markdown, 4.0);
    // Processors have instructions for it, and valgrind has not: it would count for four times a whole check.
    let build = build - (hash - check);
    table.row("check and both sheets, without the hash of the text / markdown", build / markdown, 12.0);
    let growth = |of: &str, small: usize, large: usize| {
        let (text, check) = (format!("text {of}"), format!("check {of}"));
        let own = |size| instructions(&check, size) - instructions(&text, size);
        own(large) / own(small)
    };
    let exponent = |grown: f64, larger: f64| grown.ln() / larger.ln();
    table.row(
        "growth of check, 10 KB to 10 MB (exponent)",
        exponent(growth("of size", 10_000, 10_000_000), 1_000.0),
        1.05,
    );
    table.row(
        "growth of check, 500 to 5,000 steps for 16 models",
        exponent(growth("of models", 500, 5_000), 10.0),
        1.05,
    );
    for (name, input) in large::HOSTILE {
        let larger = input(100_000).len() as f64 / input(10_000).len() as f64;
        let grown = exponent(growth(name, 10_000, 100_000), larger);
        table.row(&format!("growth over a tenth of it: {name}"), grown, 1.05);
    }
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
        println!("{name:<66}{value:>9.3}{:>8}{}", format!("≤ {limit}"), if bad { "  over" } else { "" });
    }
}
