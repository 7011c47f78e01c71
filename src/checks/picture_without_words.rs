//! Nothing says what a picture shows.
use super::{Rule, Subject};
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "picture-without-words",
    severity: Severity::Warning,
    waivable: true,
    summary: "A picture has no words for those who do not see it",
    explain: "\
Who has the page read out, or a print too pale to make out, gets nothing from the picture but its title.

Say with `alt` what it shows that matters for the work, as you would on the telephone: the open end of the
spring clip points down.
",
    bad: r#"parts
    cover  "Bearing cover"  callout 1 on fig-1
    gasket "Cover gasket"   callout 2 on fig-1

figures
    fig-1 "Drive end"  picture "figures/drive-end.svg"

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
    for (figure, illustration) in subject.illustrations() {
        let said = figure.alt.as_ref().is_some_and(|alt| !alt.value.trim().is_empty());
        if illustration.picture.is_ok() && !said {
            let name = &figure.thing.name.value;
            let message = format!("`{name}` has a picture and no words: who does not see it gets nothing");
            findings.push(
                Finding::new(RULE.id, illustration.path.span, message)
                    .help("Say what it shows: `alt \"…\"` behind the picture"),
            );
        }
    }
}
