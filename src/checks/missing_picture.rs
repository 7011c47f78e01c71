//! The picture of a figure is not there.
use super::{Rule, Subject};
use crate::model::picture::Fault;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "missing-picture",
    severity: Severity::Error,
    waivable: false,
    summary: "The file of a picture cannot be had",
    explain: "\
A step that sends the reader to a figure with a hole in its place costs a walk to the office, or a guess.

Mend the path: it is read from the folder of the file that names it, with forward slashes, and may not leave the
workspace, so that a procedure can be handed on with its pictures.
",
    bad: r#"parts
    cover  "Bearing cover"  callout 1 on fig-1
    gasket "Cover gasket"   callout 2 on fig-1

figures
    fig-1 "Drive end"  picture "figures/drive-and.svg", alt "The cover sits on the gasket"

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
    for (_, illustration) in subject.illustrations() {
        if let Err(Fault::Missing(why)) = &illustration.picture {
            let path = &illustration.path;
            let message = format!("`{}` cannot be shown: {why}", path.value);
            findings.push(
                Finding::new(RULE.id, path.span, message)
                    .help("Mend the path; it starts at the folder of this file and stays in the workspace"),
            );
        }
    }
}
