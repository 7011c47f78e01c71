//! Two parts have the same number in one figure.
use super::{Rule, Subject};
use crate::model::Name;
use crate::model::declarations::{Applies, Callout, Part};
use crate::report::{Finding, Severity};
use std::collections::HashMap;

pub static RULE: Rule = Rule {
    id: "callout-clash",
    severity: Severity::Error,
    waivable: true,
    summary: "Two parts have the same callout in one figure",
    explain:
        "The reader finds a part in the drawing by its number. Where two parts share one, half the readers \
take off the wrong part.

A callout belongs to a figure: the same number in another figure is no clash, and neither is one number for \
variants that never sit in the same machine (`models F40` and `models F40S`).",
    bad: "\
parts
    cover  \"Bearing cover\"  callout 2 on fig-1
    gasket \"Cover gasket\"   callout 2 on fig-1

figures
    fig-1 \"Drive end, exploded view\"

remove cover, gasket from \"the housing\"
    figure: fig-1
clean cover, gasket
install gasket, cover on \"the housing\"
",
    good: "\
parts
    cover  \"Bearing cover\"  callout 2 on fig-1
    gasket \"Cover gasket\"   callout 3 on fig-1

figures
    fig-1 \"Drive end, exploded view\"

remove cover, gasket from \"the housing\"
    figure: fig-1
clean cover, gasket
install gasket, cover on \"the housing\"
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    let mut taken: HashMap<(Option<Name>, u32), Vec<&Part>> = HashMap::new();
    for part in subject.document.declarations.parts.iter().filter(|part| !part.thing.from_catalogue) {
        for callout in &part.callouts {
            let figure = callout.figure.as_ref().map(|figure| figure.value);
            let others = taken.entry((figure, callout.number.value)).or_default();
            // Compared with a few only: a callout used a thousand times stays cheap.
            if let Some(other) = others.iter().take(8).find(|other| meet(&part.applies, &other.applies)) {
                findings.push(clash(part, callout, other, subject));
            }
            others.push(part);
        }
    }
}

/// Whether one machine can have both.
fn meet(a: &Applies, b: &Applies) -> bool {
    a.models.is_empty() || b.models.is_empty() || a.models.iter().any(|model| b.to_model(&model.value))
}

fn clash(part: &Part, callout: &Callout, other: &Part, subject: &Subject<'_>) -> Finding {
    let number = callout.number.value;
    let (name, first) = (&part.thing.name.value, &other.thing.name.value);
    let written = callout.figure.as_ref().map_or("", |figure| subject.source.slice(figure.span));
    let place = if written.is_empty() { "the figure".to_owned() } else { format!("`{written}`") };
    let text = format!(
        "`{name}` and `{first}` are both number {number} in {place}, so the reader finds the wrong part"
    );
    Finding::new(RULE.id, callout.number.span, text)
        .label(other.thing.name.span, format!("`{first}` has number {number} already"))
        .help("Give each part the number it has in the drawing")
}
