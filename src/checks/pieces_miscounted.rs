//! A part has more pieces than names for them, or fewer.
use super::{Rule, Subject};
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "pieces-miscounted",
    severity: Severity::Error,
    waivable: false,
    summary: "A part has more pieces than names for them, or fewer",
    explain: "\
Three bolts of which two have names: the third is never tightened by its own line, and nobody misses it on the sheet.

Where pieces have names of their own, each has one: `x2 as first-bolt, second-bolt`.",
    bad: "\
parts
    bolts \"Rod bolt\"  x3 as first-bolt, second-bolt

clean first-bolt, second-bolt
",
    good: "\
parts
    bolts \"Rod bolt\"  x2 as first-bolt, second-bolt

clean first-bolt, second-bolt
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    for part in subject.document.declarations.parts.iter().filter(|part| subject.owns(part.thing.span)) {
        let (Some(first), Some(last), named) = (part.pieces.first(), part.pieces.last(), part.pieces.len())
        else {
            continue;
        };
        if part.count as usize == named {
            continue;
        }
        let pieces = if part.count == 1 { "piece" } else { "pieces" };
        let names = if named == 1 { "name" } else { "names" };
        let message =
            format!("`{}` has {} {pieces} and {named} {names} for them", part.thing.name.value, part.count);
        let help = format!("Write `x{named}`, or give each piece its name");
        findings.push(Finding::new(RULE.id, first.span.to(last.span), message).help(help));
    }
}
