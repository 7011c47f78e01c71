//! How long checking and building take beside reading the same bytes and beside pulldown-cmark making HTML of
//! them: one thread, in memory, everything in one run, as ratios.
//!
//! `cargo bench --bench ratios` prints criterion's report and then the table with its limits; over a limit it fails.
#![allow(clippy::print_stdout, clippy::disallowed_methods, clippy::indexing_slicing, clippy::expect_used)]
mod corpus;
mod following;

use cotter::model::catalogues::Catalogues;
use cotter::model::{Register, Settings};
use cotter::sheets::language::{Language, Words};
use cotter::sheets::{Context, Said, bench, checklist};
use cotter::source::{FileId, SourceFile};
use cotter::{Compiled, Surroundings, compile};
use criterion::{Criterion, SamplingMode};
use std::hint::black_box;
use std::path::Path;
use std::process::ExitCode;
use std::sync::Arc;
use std::time::Duration;

/// The program's own allocator, for both sides of every ratio.
#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

/// What every file of the corpus is compiled against.
struct Shop {
    settings: Settings,
    register: Register,
    catalogues: Catalogues,
}

impl Shop {
    fn with(settings: Settings) -> Shop {
        Shop { settings, register: Register::default(), catalogues: Catalogues::default() }
    }
    fn compile(&self, text: &Arc<str>) -> (SourceFile, Compiled) {
        let source = SourceFile::new(FileId(0), "bench.cotter", Arc::clone(text));
        let around =
            Surroundings { settings: &self.settings, register: &self.register, catalogues: &self.catalogues };
        let compiled = compile(&source, &around);
        (source, compiled)
    }
    fn check(&self, text: &Arc<str>) -> usize {
        self.compile(text).1.findings.len()
    }
    fn build(&self, text: &Arc<str>) -> usize {
        let (_, compiled) = self.compile(text);
        let context = Context::new(&self.settings, &self.register, Words::of(Language::English));
        let said = Said::of(&compiled.document, &context);
        let context = Context { said: Some(&said), ..context };
        let pages =
            [bench::render(&compiled.document, &context), checklist::render(&compiled.document, &context)];
        pages.into_iter().map(|page| page.expect("the corpus has sheets").len()).sum()
    }
}

fn read(text: &str) -> u64 {
    text.bytes().fold(0, |sum, byte| sum.wrapping_mul(31).wrapping_add(u64::from(byte)))
}

fn markdown(text: &str) -> usize {
    let mut html = String::with_capacity(text.len() * 2);
    pulldown_cmark::html::push_html(&mut html, pulldown_cmark::Parser::new(text));
    html.len()
}

/// Works through the corpus on `threads` threads, each with its share.
fn spread(threads: usize, texts: &[Arc<str>], work: impl Fn(&Arc<str>) -> usize + Sync) -> usize {
    std::thread::scope(|scope| {
        let share = texts.len().div_ceil(threads);
        let work = &work;
        let parts: Vec<_> = texts
            .chunks(share)
            .map(|part| scope.spawn(move || part.iter().map(work).sum::<usize>()))
            .collect();
        parts.into_iter().map(|part| part.join().expect("no share panics")).sum()
    })
}

fn main() -> ExitCode {
    let texts: Vec<Arc<str>> = (0..corpus::FILES).map(|file| corpus::procedure(file).into()).collect();
    let shop = Shop::with(Settings::default());
    let without_following = Shop::with(following::off());
    let found: usize = texts.iter().map(|text| shop.check(text)).sum();
    assert_eq!(found, 0, "the corpus is clean");
    let folder = tempfile::tempdir().expect("a folder for the measurements");
    let mut criterion = Criterion::default()
        .output_directory(folder.path())
        .without_plots()
        .warm_up_time(Duration::from_secs(1))
        .measurement_time(Duration::from_secs(4))
        .sample_size(10);
    let mut group = criterion.benchmark_group("corpus");
    group.sampling_mode(SamplingMode::Flat);
    let each =
        |work: &dyn Fn(&Arc<str>) -> usize| texts.iter().map(|text| work(black_box(text))).sum::<usize>();
    group.bench_function("read", |b| b.iter(|| texts.iter().map(|text| read(black_box(text))).sum::<u64>()));
    group.bench_function("markdown", |b| b.iter(|| each(&|text| markdown(text))));
    group.bench_function("check-lines", |b| b.iter(|| each(&|text| without_following.check(text))));
    group.bench_function("check", |b| b.iter(|| each(&|text| shop.check(text))));
    group.bench_function("build", |b| b.iter(|| each(&|text| shop.build(text))));
    group.bench_function("check-1", |b| b.iter(|| spread(1, &texts, |text| shop.check(text))));
    group.bench_function("check-2", |b| b.iter(|| spread(2, &texts, |text| shop.check(text))));
    group.finish();
    report(folder.path())
}

/// The table of ratios; fails where one is over its limit.
fn report(folder: &Path) -> ExitCode {
    let time = |name: &str| {
        let path = folder.join("corpus").join(name).join("new/estimates.json");
        let text = std::fs::read_to_string(path).expect("criterion leaves its estimates");
        let value: serde_json::Value = serde_json::from_str(&text).expect("the estimates are JSON");
        value["median"]["point_estimate"].as_f64().expect("the median is a number")
    };
    let markdown = time("markdown");
    println!("\n{:<52}{:>8}{:>10}", "", "ratio", "limit");
    let mut over = false;
    let mut row = |name: &str, ratio: f64, limit: f64, least: bool| {
        let bad = if least { ratio < limit } else { ratio > limit };
        over |= bad;
        let sign = if least { "≥" } else { "≤" };
        println!(
            "{name:<52}{ratio:>8.2}{:>10}{}",
            format!("{sign} {limit}"),
            if bad { "  over" } else { "" }
        );
    };
    row("reading the bytes / markdown", time("read") / markdown, 1.0, false);
    row("check, rules of lines and declarations / markdown", time("check-lines") / markdown, 3.0, false);
    row("check, all rules / markdown", time("check") / markdown, 4.0, false);
    row("check and both sheets / markdown", time("build") / markdown, 12.0, false);
    row("two threads against one, check", time("check-1") / time("check-2"), 1.8, true);
    if over { ExitCode::FAILURE } else { ExitCode::SUCCESS }
}
