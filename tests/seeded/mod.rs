//! Seeded faults: each clean procedure is broken in one place in one known way, and the right rule must say so, once.
//! The table of what was caught is printed by the test run.
mod actions;
mod faults;
mod hazards;
mod ledger;
pub(crate) mod source;
mod standing;

use crate::support::shop::{self, Shop};
use cotter::report::Finding;
use cotter::source::{FileId, SourceFile};
use faults::{FAULTS, Fault};
use rayon::prelude::*;
use source::Lines;
use std::path::PathBuf;

const TABLE: &str = "\
# What the rules catch

Each demo procedure is clean. Here each is broken in one place in one known way, at every place where that can be
done, and one of the named rules must say so. *Extra* counts findings beside it. Written by `tests/seeded/`.

| Fault | Mutants | Caught | Extra | By |
| --- | ---: | ---: | ---: | --- |
";

/// What came of one kind of fault.
#[derive(Default)]
struct Score {
    mutants: usize,
    caught: usize,
    extra: usize,
    missed: Vec<String>,
}

#[test]
fn every_seeded_fault_is_caught_by_its_rule() {
    let shop = Shop::demo();
    let clean = procedures();
    for (name, text) in &clean {
        let findings = check(&shop, name, text);
        assert_eq!(findings, [], "{name} is clean before it is broken");
    }
    let faults: Vec<&Fault> = FAULTS.iter().chain(ledger::FAULTS).chain(standing::FAULTS).collect();
    let scores = scores(&shop, &clean, &faults);
    println!("\n{:<40}{:>8}{:>8}{:>8}", "seeded fault", "mutants", "caught", "extra");
    let mut table = String::from(TABLE);
    let (mut failures, mut missed) = (Vec::new(), Vec::new());
    let (mut all, mut caught, mut extra) = (0, 0, 0);
    for (fault, score) in faults.iter().zip(scores) {
        println!("{:<40}{:>8}{:>8}{:>8}", fault.name, score.mutants, score.caught, score.extra);
        let (name, rules) = (fault.name, fault.rules.join("`, `"));
        let row = format!("| {} | {} | {} | `{rules}` |\n", score.mutants, score.caught, score.extra);
        table.push_str(&format!("| {name} {row}"));
        (all, caught, extra) = (all + score.mutants, caught + score.caught, extra + score.extra);
        if score.mutants == 0 {
            failures.push(format!("{}: nowhere to seed it", fault.name));
        }
        missed.extend(score.missed);
    }
    println!("{:<40}{all:>8}{caught:>8}{extra:>8}", "all");
    table.push_str(&format!("| **all** | {all} | {caught} | {extra} | |\n"));
    assert!(failures.is_empty(), "{}", failures.join("\n"));
    // What a seed takes out may be settled elsewhere: a tray left under the pump is taken away by the procedure that
    // `afterwards:` names. One in a thousand is let pass, and told.
    println!("{missed:#?}");
    assert!(missed.len() * 1_000 <= all, "{missed:#?}");
    crate::docs::is_current("grammar/faults.md", &table);
    assert!(extra * 5 <= all, "{extra} findings beside the seeded ones in {all} mutants");
}

/// What is left out of the seeding is no more than it must be: each reason is needed, and none hides a message that a
/// rule would miss.
#[test]
fn messages_from_knowledge_are_owed_to_no_rule() {
    let shop = Shop::demo();
    let reasons: Vec<String> = hazards::reasons().collect();
    let mut used = vec![false; reasons.len()];
    for (name, text) in &procedures() {
        for (reason, mutant) in hazards::unowed_dropped(&Lines::of(text)) {
            used[reason] = true;
            let found = check(&shop, name, &mutant);
            let owed = found.iter().any(|finding| finding.rule == "missing-caution");
            assert!(!owed, "{name}: a rule asks for it, seed it: {}", reasons[reason]);
        }
    }
    let idle: Vec<&String> = reasons.iter().zip(used).filter(|(_, used)| !used).map(|(it, _)| it).collect();
    assert!(idle.is_empty(), "no such message: {idle:#?}");
}

/// Of each kind of fault in turn; the mutants are compiled side by side.
fn scores(shop: &Shop, clean: &[(String, String)], faults: &[&Fault]) -> Vec<Score> {
    let kinds = faults.par_iter().enumerate();
    let seeded: Vec<(usize, usize, String)> = kinds
        .flat_map_iter(|(kind, fault)| {
            let files = clean.iter().enumerate();
            let mutants = files.map(move |(file, (_, text))| (file, (fault.seed)(&Lines::of(text))));
            mutants.flat_map(move |(file, mutants)| mutants.into_iter().map(move |it| (kind, file, it)))
        })
        .collect();
    let rules = |(_, file, mutant): &(usize, usize, String)| {
        check(shop, &clean[*file].0, mutant).iter().map(|finding| finding.rule).collect()
    };
    let found: Vec<Vec<&str>> = seeded.par_iter().map(rules).collect();
    let told = std::env::var_os("COTTER_TOLD").is_some();
    let mut scores: Vec<Score> = faults.iter().map(|_| Score::default()).collect();
    for ((kind, file, mutant), found) in seeded.iter().zip(found) {
        let (fault, score) = (faults[*kind], &mut scores[*kind]);
        let (name, text) = &clean[*file];
        let right = found.iter().any(|rule| fault.rules.contains(rule));
        score.mutants += 1;
        score.caught += usize::from(right);
        score.extra += found.len().saturating_sub(1);
        if right && !(told && found.len() > 1) {
            continue;
        }
        let changed = mutant.lines().zip(text.lines()).find(|(new, old)| new != old);
        let line = changed.map_or_else(|| mutant.lines().last().unwrap_or(""), |(new, _)| new);
        let what = format!("{}: {name}: `{line}` gave {found:?}", fault.name);
        if told {
            println!("{} {what}", if right { "EXTRA" } else { "MISSED" });
        }
        if !right {
            score.missed.push(what);
        }
    }
    scores
}

/// Name and text of every demo procedure.
pub(crate) fn procedures() -> Vec<(String, String)> {
    let root = shop::package("");
    let sources = shop::sources(&shop::package("procedures"));
    let text = |path: &PathBuf| source::one_line_each(&std::fs::read_to_string(path).unwrap());
    let read = sources.iter().map(|path| (shop::name(&root, path), text(path)));
    read.filter(|(_, text)| text.lines().any(|line| line.starts_with("procedure "))).collect()
}

fn check(shop: &Shop, name: &str, text: &str) -> Vec<Finding> {
    shop.compile(&SourceFile::new(FileId(0), name, text)).findings
}
