//! Where a line could not be wholly resolved, what it seems to leave out may only be misspelt.
use super::extents::Extents;
use super::{Subject, find};
use crate::report::Finding;
use crate::source::Span;

/// Takes out what the rules of the craft say about actions and declarations that have a slip: one mistake, one
/// finding. It comes back when the slip is mended.
pub fn hush(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    if findings.is_empty() {
        return;
    }
    let craft = |finding: &Finding| find(finding.rule).is_some_and(|rule| rule.waivable);
    let unclear = Extents::of(lines(subject).filter(|line| subject.unclear(*line)));
    findings.retain(|finding| !(craft(finding) && unclear.hold(finding.span.start)));
}

/// Every action and every declaration.
fn lines<'s>(subject: &'s Subject<'_>) -> impl Iterator<Item = Span> + 's {
    let all = &subject.document.declarations;
    let parts = all.parts.iter().map(|it| it.thing.span);
    let tools = all.tools.iter().map(|it| it.thing.span);
    let supplies = all.supplies.iter().map(|it| it.thing.span);
    let works = subject.contents.works.iter().map(|work| work.span);
    parts.chain(tools).chain(supplies).chain(works)
}
