//! A part that is easily mistaken for another is fitted unseen.
use super::obligations::{self, Broken};
use super::{Rule, Subject};
use crate::ledger::{Breach, Kind};
use crate::model::Name;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "unidentified-look-alike",
    severity: Severity::Error,
    waivable: true,
    summary: "A part that is easily mistaken for another is fitted unseen",
    explain: "\
Two covers, one port apart, lie on the same bench.

A part that `looks-like` another is told apart in the procedure before it is fitted: `identify cover \"no flush \
port\"`.",
    bad: "\
parts
    cover   \"Cover, plain\"      starts off, looks-like cover-s by \"no flush port\"
    cover-s \"Cover, with port\"  starts off

install cover on \"the housing\"
clean cover-s
",
    good: "\
parts
    cover   \"Cover, plain\"      starts off, looks-like cover-s by \"no flush port\"
    cover-s \"Cover, with port\"  starts off

identify cover \"no flush port\"
install cover on \"the housing\"
clean cover-s
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    findings.extend(obligations::of(subject, &[Kind::Unidentified]).map(|broken| {
        let Broken { name, other, .. } = &broken;
        let text = format!("`{name}` is fitted without a look whether it is `{other}`");
        let by = told_apart(subject, broken.breach).unwrap_or("…");
        broken.finding(RULE.id, &text, "", format!("Add `identify {name} \"{by}\"` before it"))
    }));
}

/// What the declaration of the part that is fitted says of how it looks.
fn told_apart<'s>(subject: &'s Subject<'_>, breach: &Breach) -> Option<&'s str> {
    let Name::Part(id) = breach.what else { return None };
    let part = subject.document.declarations.part(id)?;
    let like = part.looks_like.iter().find(|like| Some(like.other.value) == breach.other)?;
    like.by.as_ref().map(|by| by.as_str())
}
