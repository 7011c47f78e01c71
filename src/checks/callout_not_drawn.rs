//! A part has a number that the drawing does not show.
use super::{Rule, Subject};
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "callout-not-drawn",
    severity: Severity::Warning,
    waivable: true,
    summary: "A part's number is not in the drawing",
    explain: "\
The list under the figure says that the gasket is number 3, and the reader searches the drawing for a 3 that is not
there.

Only the words of an SVG are seen, and only where it holds numbers at all. Mend the callout, or draw the number.
",
    bad: r#"parts
    cover  "Bearing cover"  callout 1 on fig-1
    shim   "Shim"           callout 2 on fig-1
    gasket "Cover gasket"   callout 7 on fig-1

figures
    fig-1 "Drive end"  picture "figures/drive-end.svg", alt "The cover sits on the gasket"

remove cover, gasket, shim from "the housing"
    figure: fig-1
clean cover, gasket, shim
install shim, gasket, cover on "the housing"
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
    for (figure, _) in subject.illustrations() {
        let Some(picture) = figure.picture().filter(|picture| !picture.numbers.is_empty()) else { continue };
        for callout in subject.callouts(figure).filter(|it| !picture.numbers.contains(&it.number.value)) {
            let (name, number) = (&figure.thing.name.value, callout.number.value);
            let message = format!("The drawing of `{name}` has no {number}, and the reader looks for it");
            findings.push(
                Finding::new(RULE.id, callout.number.span, message)
                    .help("Give the part the number it has in the drawing, or draw it"),
            );
        }
    }
}
