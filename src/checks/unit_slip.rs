//! A torque fits its fastener in another unit only.
use super::judged::Judged;
use super::{Rule, Subject};
use crate::model::fastener::preload::{Verdict, share_of};
use crate::model::quantity::{Unit, as_float};
use crate::report::{Edit, Finding, Severity};
use crate::source::Span;

pub static RULE: Rule = Rule {
    id: "unit-slip",
    severity: Severity::Error,
    waivable: true,
    summary: "A torque fits its fastener only if its unit were another",
    explain: "Inch-pounds read as foot-pounds are twelve times too much: the small screw shears, or its thread comes \
out of the casting. The other way round nothing is clamped.

The rule looks at the preload F = T / (K·d) as a share of the proof load of thread and class. A torque that takes \
the fastener past one and a half times its proof load at the usual nut factor K, or to less than a tenth of it at \
the least, is tried in newton metres, pound-feet, pound-inches and kilogram-force metres. Where the same figures \
fit in one of them the unit is the likeliest slip, and this finding takes the place of `torque-would-yield` and \
`torque-too-low-to-hold`. A torque given in two units that agree is no slip of the unit.

Hold the unit against the source. Where one unit alone fits, the mend writes it.",
    bad: "\
parts
    screws \"Retaining screw\"  x4  thread #10-24 UNC, grade 5, plated, torque 20 to 30 ft-lb

tools
    wrench \"Torque wrench\"  range 10 to 75 ft-lb

clean screws
tighten screws with wrench
",
    good: "\
parts
    screws \"Retaining screw\"  x4  thread #10-24 UNC, grade 5, plated, torque 20 to 30 in-lb

tools
    wrench \"Torque wrench\"  range 10 to 75 in-lb

clean screws
tighten screws with wrench
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    for judged in subject.judged() {
        if let Verdict::OtherUnit(units) = &judged.judgement.verdict {
            findings.push(finding(judged, units, subject));
        }
    }
}

fn finding(judged: &Judged<'_>, units: &[&'static Unit], subject: &Subject<'_>) -> Finding {
    let value = &judged.value;
    let (written, unit) = (value.print(), value.unit());
    let as_written = judged.usual_share();
    let whose = judged.whose_proof_load();
    let would_be = share_of(as_written, &whose);
    let text = format!("`{}` cannot be meant in {}: {written} is {would_be}", judged.name(), unit.symbol);
    let mend = |other: &&'static Unit| {
        let in_other = as_written * as_float(other.factor) / as_float(unit.factor);
        format!("in `{}` it is {}", other.source, share_of(in_other, "that"))
    };
    let fitting: Vec<String> = units.iter().map(mend).collect();
    let help = format!("Hold the unit against the source: {}", fitting.join(", "));
    let mut finding = Finding::new(RULE.id, judged.span, text).help(help);
    if let [only] = units {
        finding = finding.guessed();
        finding.edits.extend(edit(judged, only, subject));
    }
    judged.with_sum(finding, subject)
}

/// The other unit in place of the one behind the figures; none where the unit is written twice, or elsewhere.
fn edit(judged: &Judged<'_>, unit: &Unit, subject: &Subject<'_>) -> Option<Edit> {
    let span = Some(judged.value.span()).filter(|span| subject.owns(*span))?;
    let written = subject.source.slice(span);
    let figures = written.trim_end_matches(|c: char| !c.is_ascii_digit());
    if figures.is_empty() || Unit::find(written.get(figures.len()..)?) != Some(judged.value.unit()) {
        return None;
    }
    let words = figures.split(|c: char| !c.is_alphabetic()).filter(|word| !word.is_empty());
    let span = Span::new(span.file, span.start as usize + figures.len(), span.end as usize);
    let blank = if written.get(figures.len()..)?.starts_with(' ') { " " } else { "" };
    let once = words.into_iter().all(|word| matches!(word, "to" | "max" | "min"));
    once.then(|| Edit { span, text: format!("{blank}{}", unit.source) })
}
