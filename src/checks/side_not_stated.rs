//! A part with a side is fitted without saying which way it faces.
use super::{Rule, Subject, part_objects};
use crate::model::action::{Object, PlaceTarget, Work};
use crate::model::declarations::Part;
use crate::model::verb::Effect;
use crate::report::{Finding, Severity};
use crate::source::Span;
use std::collections::HashSet;

pub static RULE: Rule = Rule {
    id: "side-not-stated",
    severity: Severity::Error,
    waivable: true,
    summary: "A sided part is fitted without `facing`",
    explain:
        "A lip seal the wrong way round lets the oil out, a retaining ring with its rounded edge to the load \
climbs out of its groove. Both look right once they are in.

A part declared `sided` needs `facing \"…\"` in every step that fits it. Say which side, and toward what: \
`facing \"the lip toward the bearing\"`. `cotter check --fix` writes the phrase with dots in it, which is an error \
of its own until you fill it in.",
    bad: "\
parts
    hub-seal \"Hub seal\"  single-use, sided

remove hub-seal from \"the hub\"; discard hub-seal
install new hub-seal in \"the hub\"
",
    good: "\
parts
    hub-seal \"Hub seal\"  single-use, sided

remove hub-seal from \"the hub\"; discard hub-seal
install new hub-seal in \"the hub\" facing \"the lip toward the bearing\"
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    let declarations = &subject.document.declarations;
    if declarations.parts.iter().all(|part| part.sided.is_none()) {
        return;
    }
    let works = || subject.contents.works.iter().copied();
    let sided = |(_, _, part): &(u32, &Object, &Part)| part.sided.is_some();
    let fitted = works().filter(|work| work.fits());
    let fitted: HashSet<u32> = fitted
        .flat_map(|work| part_objects::of(work, declarations).filter(sided))
        .map(|(id, ..)| id)
        .collect();
    for work in works().filter(|work| work.facing.is_none()) {
        // A part that another step fits is renewed on the bench, where it faces nothing yet.
        let renews = |id: &u32| work.verb.does(Effect::Renews) && !fitted.contains(id);
        let blind =
            part_objects::of(work, declarations).filter(sided).filter(|(id, ..)| work.fits() || renews(id));
        findings.extend(blind.map(|(_, object, part)| finding(work, object, part, subject)));
    }
}

fn finding(work: &Work, object: &Object, part: &Part, subject: &Subject<'_>) -> Finding {
    let (name, verb) = (&object.word.value, &work.verb.name);
    let text = format!("`{name}` has a side, and `{verb}` does not say which way it faces");
    let mut finding = Finding::new(RULE.id, object.word.span, text)
        .help("Say which side faces what: `facing \"the lip toward the bearing\"`");
    if let Some(end) = end_of_objects(work) {
        // Which side it is only the author knows: the dots are refused in their turn.
        finding = finding.edit(Span { start: end, end, ..object.word.span }, " facing \"…\"");
    }
    match part.sided.filter(|span| subject.owns(*span)) {
        Some(span) => finding.label(span, "declared sided here"),
        None => finding,
    }
}

/// Behind what is fitted and where to, so that tools and the author's own sentence come after it.
fn end_of_objects(work: &Work) -> Option<u32> {
    let placed = work.places.iter().flat_map(|place| match &place.what {
        PlaceTarget::Objects(objects) => objects.iter().map(|it| it.word.span.end).collect(),
        PlaceTarget::Text(text) => vec![text.span.end],
        PlaceTarget::Quantity(_) => Vec::new(),
    });
    work.objects.iter().map(|it| it.word.span.end).chain(placed).max()
}
