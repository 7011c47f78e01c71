//! A drawing points at something that no part stands for.
use super::{Rule, Subject};
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "callout-without-part",
    severity: Severity::Warning,
    waivable: true,
    summary: "A number in a drawing belongs to no part",
    explain: "\
The reader sees a number in the drawing, looks for it in the list under it, and finds nothing: perhaps the part that
the step forgot.

Numbers that stand alone in an SVG's words are its callouts; those of a photograph are not seen. Give the part its
`callout 3 on fig-1`, or take the number out of the drawing. Where it is a dimension, write it with its unit.
",
    bad: r#"parts
    cover  "Bearing cover"  callout 1 on fig-1
    gasket "Cover gasket"

figures
    fig-1 "Drive end"  picture "figures/drive-end.svg", alt "The cover sits on the gasket"

remove cover, gasket from "the housing"
    figure: fig-1
clean cover, gasket
install gasket, cover on "the housing"
"#,
    good: r#"parts
    cover  "Bearing cover"  callout 1 on fig-1
    gasket "Cover gasket"   callout 2 on fig-1

figures
    fig-1 "Drive end"  picture "figures/drive-end.svg", alt "The cover sits on the gasket"

remove cover, gasket from "the housing"
    figure: fig-1
clean cover, gasket
install gasket, cover on "the housing"
"#,
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    if subject.has_holes() {
        return;
    }
    for (figure, illustration) in subject.illustrations() {
        let Some(picture) = figure.picture() else { continue };
        let known: Vec<u32> = subject.callouts(figure).map(|callout| callout.number.value).collect();
        let lost: Vec<String> =
            picture.numbers.iter().filter(|number| !known.contains(number)).map(u32::to_string).collect();
        if !lost.is_empty() {
            let name = &figure.thing.name.value;
            let (numbers, first) = (lost.join(", "), lost.first().map_or("", String::as_str));
            let message = format!("No part is number {numbers} in `{name}`, and the reader looks for it");
            findings.push(Finding::new(RULE.id, illustration.path.span, message).help(format!(
                "Give the part its `callout {first} on {name}`, or take the number out of the drawing"
            )));
        }
    }
}
