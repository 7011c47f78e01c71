//! How much of the heap checking a large file takes at its highest, over the file's size.
//!
//! `cargo bench --bench heap` prints it with its limit; over the limit it fails.
#![allow(clippy::print_stdout, clippy::indexing_slicing)]
#[allow(dead_code)]
mod corpus;
#[allow(dead_code)]
mod large;

use cotter::model::catalogues::Catalogues;
use cotter::model::{Register, Settings};
use cotter::source::{FileId, SourceFile};
use cotter::{Surroundings, compile};
use peak_alloc::PeakAlloc;
use std::process::ExitCode;

/// Counts what the program asks for, whichever allocator would serve it.
#[global_allocator]
static HEAP: PeakAlloc = PeakAlloc;

const LIMIT: f64 = 8.0;

fn main() -> ExitCode {
    let text = large::of_size(10_000_000);
    let before = HEAP.current_usage();
    HEAP.reset_peak_usage();
    let source = SourceFile::new(FileId(0), "bench.cotter", text.as_str());
    let settings = Settings::default();
    let (register, catalogues) = (Register::default(), Catalogues::default());
    let around = Surroundings { settings: &settings, register: &register, catalogues: &catalogues };
    assert_eq!(compile(&source, &around).findings.len(), 0, "the corpus is clean");
    let ratio = (HEAP.peak_usage() - before) as f64 / text.len() as f64;
    println!("heap of a 10 MB file / its size {ratio:.2}, limit {LIMIT}");
    if ratio > LIMIT { ExitCode::FAILURE } else { ExitCode::SUCCESS }
}
