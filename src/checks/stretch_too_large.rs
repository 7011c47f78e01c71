//! A fastener would be stretched until it breaks.
use super::bolt_length::bolt_length;
use super::judged::thread_of;
use super::{Rule, Subject};
use crate::model::declarations::Part;
use crate::model::quantity::{Dimension, Quantity, as_float};
use crate::model::torque::{PassTarget, Torque};
use crate::report::{Finding, Severity};
use crate::source::Span;
use std::collections::HashSet;

pub static RULE: Rule = Rule {
    id: "stretch-too-large",
    severity: Severity::Error,
    waivable: true,
    summary: "A fastener is tightened by a stretch that no bolt comes back from",
    explain: "A length behind `tighten` is how far the bolt stretches. A rod bolt stretches by a tenth of a \
millimetre or two; whoever reads 20 mm pulls until it breaks, or gives up and guesses.

Steel is at its yield when it is stretched by half a hundredth of its length (class 12.9; proof strength over 205 GPa), \
and one of class 12.9 breaks at about eight hundredths (ISO 898-1, from memory). The rule speaks from one hundredth \
on: of the length in the part's text (`M8 x 65`), or of a hundred diameters where it has none.

Mend the unit where a torque is meant. Where it is how far the bolt stands out, measure it.",
    bad: "\
parts
    bolts \"Cover bolt, M8 x 25\"  x4  thread M8, class 8.8, dry, torque 20 to 24 N.m (177 to 212 lb-in)

tools
    wrench \"Torque wrench M\"  range 10 to 50 N.m

clean bolts
tighten bolts 20 to 24 mm (0.79 to 0.94 in) with wrench
",
    good: "\
parts
    bolts \"Cover bolt, M8 x 25\"  x4  thread M8, class 8.8, dry, torque 20 to 24 N.m (177 to 212 lb-in)

tools
    wrench \"Torque wrench M\"  range 10 to 50 N.m

clean bolts
tighten bolts with wrench
",
    check,
};

/// Of the length.
const MOST: f64 = 0.01;
/// The length of a bolt whose text tells none, in diameters.
const LONGEST: f64 = 100.0;

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    let mut said = HashSet::new();
    for tightening in subject.tightenings() {
        let mut lengths = stretches(&tightening.torque).peekable();
        // Nearly none is tightened by a length; how far the others may be stretched need not be known.
        if lengths.peek().is_none() {
            continue;
        }
        let part = tightening.fastener.map(|of| of.part);
        let Some((part, most)) = part.and_then(|part| Some((part, most(part)?))) else { continue };
        let too_large = lengths.filter(|stretch| {
            stretch.lower().or(stretch.upper()).is_some_and(|least| 1000.0 * as_float(least) > most)
        });
        for stretch in too_large.filter(|it| said.insert(it.span())) {
            let place = Some(stretch.span()).filter(|span| subject.owns(*span));
            findings.push(finding(part, stretch, place.unwrap_or(tightening.span())));
        }
    }
}

/// Of a fastener with a known thread, in mm.
fn most(part: &Part) -> Option<f64> {
    let thread = thread_of(part)?;
    Some(bolt_length(part).unwrap_or(thread.diameter * LONGEST) * MOST)
}

fn stretches(torque: &Torque) -> impl Iterator<Item = &Quantity> {
    let passes = torque.passes.iter().filter_map(|pass| match &pass.target {
        PassTarget::Length(stretch) => Some(stretch),
        _ => None,
    });
    let values = [&torque.value, &torque.new, &torque.reused].into_iter().flatten();
    passes.chain(values.filter(|value| value.dimension() == Dimension::Length))
}

fn finding(part: &Part, stretch: &Quantity, at: Span) -> Finding {
    let (name, stretch) = (&part.thing.name.value, stretch.print());
    let text = format!("`{name}` would be stretched by {stretch}: a bolt breaks long before");
    let help = format!(
        "Write `N.m` where a torque is meant; how far a bolt stands out is measured: `measure {name} \"height\" …`"
    );
    Finding::new(RULE.id, at, text).help(help)
}
