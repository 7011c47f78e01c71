//! A supply has a hazard code that the GHS does not know.
use super::suggestion::{did_you_mean, nearest};
use super::{Rule, Subject};
use crate::model::ghs;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "unknown-hazard-code",
    severity: Severity::Error,
    waivable: true,
    summary: "A supply has a hazard code that the GHS does not know",
    explain: "\
Which messages a step needs follows from the codes of what it uses. A code that means nothing asks for none: the \
solvent is used beside the welder, and the sheet is silent.

The codes stand in section 2 of the safety data sheet: `H200` to `H420`, some with letters behind (`H360FD`), and \
those of the European Union that start with `EUH`.",
    bad: "\
supplies
    solvent \"Degreaser\"  hazards H999

do \"open the windows\" using solvent
",
    good: "\
supplies
    solvent \"Degreaser\"  hazards H413

do \"open the windows\" using solvent
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    let supplies = subject.document.declarations.supplies.iter();
    let codes = supplies.flat_map(|supply| &supply.hazards).filter(|code| subject.owns(code.span));
    findings.extend(codes.filter(|code| !ghs::is_code(code.as_str())).map(|code| {
        // What is no word at all has its text in the source only.
        let written = subject.source.slice(code.span);
        let message = format!("`{written}` is no hazard code of the GHS, and no message follows from it");
        let help = did_you_mean(&nearest(written, ghs::codes()));
        let help = help.unwrap_or_else(|| "Take it from section 2 of the safety data sheet".to_owned());
        Finding::new(RULE.id, code.span, message).help(help)
    }));
}
