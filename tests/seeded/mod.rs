//! Seeded faults: each clean procedure is broken in one place in one known way, and the right rule must say so, once.
//! The table of what was caught is printed by the test run.
mod actions;
mod faults;
mod hazards;
mod ledger;
mod source;

use crate::support::shop::{self, Shop};
use cotter::report::Finding;
use cotter::source::{FileId, SourceFile};
use faults::{FAULTS, Fault};
use source::Lines;

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
    println!("\n{:<40}{:>8}{:>8}{:>8}", "seeded fault", "mutants", "caught", "extra");
    let mut table = String::from(TABLE);
    let (mut failures, mut missed) = (Vec::new(), Vec::new());
    let (mut all, mut caught, mut extra, mut ordered) = (0, 0, 0, 0);
    for fault in FAULTS.iter().chain(ledger::FAULTS) {
        let score = score(&shop, &clean, fault);
        println!("{:<40}{:>8}{:>8}{:>8}", fault.name, score.mutants, score.caught, score.extra);
        let (name, rules) = (fault.name, fault.rules.join("`, `"));
        let row = format!("| {} | {} | {} | `{rules}` |\n", score.mutants, score.caught, score.extra);
        table.push_str(&format!("| {name} {row}"));
        if ledger::FAULTS.iter().any(|it| it.name == fault.name) {
            ordered += score.mutants;
        }
        (all, caught, extra) = (all + score.mutants, caught + score.caught, extra + score.extra);
        if score.mutants == 0 {
            failures.push(format!("{}: nowhere to seed it", fault.name));
        }
        missed.extend(score.missed);
    }
    println!("{:<40}{all:>8}{caught:>8}{extra:>8}", "all");
    table.push_str(&format!("| **all** | {all} | {caught} | {extra} | |\n"));
    assert!(failures.is_empty(), "{}", failures.join("\n"));
    // Of the order of work no more than one in a hundred; of everything else none.
    let by_itself = |it: &&String| FAULTS.iter().any(|fault| it.starts_with(&format!("{}: ", fault.name)));
    let plain: Vec<&String> = missed.iter().filter(by_itself).collect();
    assert!(plain.is_empty(), "{plain:#?}");
    assert!(missed.len() * 100 <= ordered, "{missed:#?}");
    crate::docs::is_current("grammar/faults.md", &table);
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
            if std::env::var_os("COTTER_TOLD").is_some() && right > 0 && findings.len() > 1 {
                let found: Vec<&str> = findings.iter().map(|f| f.rule).collect();
                let changed = mutant.lines().zip(text.lines()).find(|(new, old)| new != old);
                println!("EXTRA {}: {name}: {changed:?} gave {found:?}", fault.name);
            }
            if right == 0 {
                let changed = mutant.lines().zip(text.lines()).find(|(new, old)| new != old);
                let line = changed.map_or_else(|| mutant.lines().last().unwrap_or(""), |(new, _)| new);
                let found: Vec<&str> = findings.iter().map(|f| f.rule).collect();
                if std::env::var_os("COTTER_TOLD").is_some() {
                    println!("MISSED {}: {name}: `{line}` gave {found:?}", fault.name);
                }
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
