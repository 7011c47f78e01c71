//! Air for cleaning is at 30 psi or more.
use super::{Rule, Subject};
use crate::model::action::{PlaceTarget, Work};
use crate::model::quantity::{Dimension, Quantity};
use crate::model::verb::Effect;
use crate::report::{Finding, Severity};
use std::sync::LazyLock;

pub static RULE: Rule = Rule {
    id: "air-above-limit",
    severity: Severity::Error,
    waivable: true,
    summary: "Parts are blown off with air of 30 psi or more",
    explain: "Air at line pressure drives chips through the skin and air into the blood. 29 CFR 1910.242(b) allows \
compressed air for cleaning only where it is reduced to less than 30 psi (2.07 bar), with chip guarding and \
protective equipment.

The rule looks at the pressure on the line of a verb that blows air, as `max 2 bar`. Regulate the air down, or \
clean another way.",
    bad: "\
parts
    fins \"Cooling fin\"

tools
    air-gun \"Air gun\"

warning eye-injury
    hazard: The air throws dust.
    harm:   Eye injury.
    avoid:  Blow away from your face.
    wear:   eye protection
blow out fins max 6 bar with air-gun
",
    good: "\
parts
    fins \"Cooling fin\"

tools
    air-gun \"Air gun\"

warning eye-injury
    hazard: The air throws dust.
    harm:   Eye injury.
    avoid:  Blow away from your face.
    wear:   eye protection
blow out fins max 2 bar with air-gun
",
    check,
};

static LIMIT: LazyLock<Option<Quantity>> = LazyLock::new(|| Quantity::read("30 psi"));

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    let works = subject.contents.works.iter().filter(|work| work.verb.does(Effect::BlowsAir));
    findings.extend(works.flat_map(|work| pressures(work).filter(|it| is_too_much(it)).map(finding)));
}

/// The pressures that stand on the line.
fn pressures(work: &Work) -> impl Iterator<Item = &Quantity> {
    let at = work.places.iter().filter_map(|place| match &place.what {
        PlaceTarget::Quantity(quantity) => Some(quantity),
        PlaceTarget::Objects(_) | PlaceTarget::Text(_) => None,
    });
    work.quantity.iter().chain(at).filter(|quantity| quantity.dimension() == Dimension::Pressure)
}

/// Not less than the limit, or without an upper end.
fn is_too_much(pressure: &Quantity) -> bool {
    let limit = LIMIT.as_ref().and_then(Quantity::upper);
    pressure.upper().is_none_or(|most| limit.is_some_and(|limit| most >= limit))
}

fn finding(pressure: &Quantity) -> Finding {
    let text =
        format!("Air at {} is too strong to clean with: less than 30 psi (2.07 bar)", pressure.print());
    Finding::new(RULE.id, pressure.span(), text)
        .help("Regulate the air to less than 30 psi, as `max 2 bar` (29 CFR 1910.242(b))")
}
