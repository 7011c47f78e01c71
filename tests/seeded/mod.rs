//! Seeded faults: each clean procedure is broken in one place in one known way, and the right rule must say so, once.
//! The table of what was caught is printed by the test run.
mod faults;
mod hazards;
mod source;

use crate::support::shop::{self, Shop};
use cotter::report::Finding;
use cotter::source::{FileId, SourceFile};
use faults::{FAULTS, Fault};
use source::Lines;

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
    println!("\n{:<40}{:>8}{:>8}{:>8}", "seeded fault", "mutants", "caught", "extra");
    let mut failures = Vec::new();
    let (mut all, mut caught, mut extra) = (0, 0, 0);
    for fault in FAULTS {
        let score = score(&shop, &clean, fault);
        println!("{:<40}{:>8}{:>8}{:>8}", fault.name, score.mutants, score.caught, score.extra);
        (all, caught, extra) = (all + score.mutants, caught + score.caught, extra + score.extra);
        if score.mutants == 0 {
            failures.push(format!("{}: nowhere to seed it", fault.name));
        }
        failures.extend(score.missed.into_iter().take(3));
    }
    println!("{:<40}{all:>8}{caught:>8}{extra:>8}", "all");
    assert!(failures.is_empty(), "{}", failures.join("\n"));
    assert!(extra * 5 <= all, "{extra} findings beside the seeded ones in {all} mutants");
}

fn score(shop: &Shop, clean: &[(String, String)], fault: &Fault) -> Score {
    let mut score = Score::default();
    for (name, text) in clean {
        for mutant in (fault.seed)(&Lines::of(text)) {
            let findings = check(shop, name, &mutant);
            let right = findings.iter().filter(|f| fault.rules.contains(&f.rule)).count();
            score.mutants += 1;
            score.caught += usize::from(right > 0);
            score.extra += findings.len().saturating_sub(1);
            if right == 0 {
                let changed = mutant.lines().zip(text.lines()).find(|(new, old)| new != old);
                let line = changed.map_or_else(|| mutant.lines().last().unwrap_or(""), |(new, _)| new);
                let found: Vec<&str> = findings.iter().map(|f| f.rule).collect();
                score.missed.push(format!("{}: {name}: `{line}` gave {found:?}", fault.name));
            }
        }
    }
    score
}

/// Name and text of every demo procedure.
fn procedures() -> Vec<(String, String)> {
    let root = shop::package("");
    let sources = shop::sources(&shop::package("procedures"));
    let read = sources.iter().map(|path| (shop::name(&root, path), std::fs::read_to_string(path).unwrap()));
    read.filter(|(_, text)| text.lines().any(|line| line.starts_with("procedure "))).collect()
}

fn check(shop: &Shop, name: &str, text: &str) -> Vec<Finding> {
    shop.compile(&SourceFile::new(FileId(0), name, text)).findings
}
