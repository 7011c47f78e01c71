//! The file of a picture is none that a sheet can hold.
use super::{Rule, Subject};
use crate::model::picture::Fault;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "unusable-picture",
    severity: Severity::Error,
    waivable: false,
    summary: "The file of a picture is damaged, of another kind, or holds what may not be on a sheet",
    explain: "\
Sheets run nothing and load nothing: they are opened on the shop's tablets and handed on. A drawing with a script,
a link or another picture in it would be shown with holes, or worse, without them.

A picture is a PNG, a JPEG or an SVG by what is in the file, not by its name. An SVG may hold shapes, groups and
words with their colours, lines and places; no `<style>`, `<use>`, `<image>`, gradients or filters. Save it as plain
SVG with its styles in attributes, or export it as PNG.
",
    bad: r#"parts
    cover  "Bearing cover"  callout 1 on fig-1
    gasket "Cover gasket"   callout 2 on fig-1

figures
    fig-1 "Drive end"  picture "figures/with-script.svg", alt "The cover sits on the gasket"

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
        if let Err(Fault::Unusable(why)) = &illustration.picture {
            let path = &illustration.path;
            let message = format!("`{}` cannot be shown: {why}", path.value);
            findings.push(
                Finding::new(RULE.id, path.span, message)
                    .help("Save it as plain SVG with shapes and words alone, or export it as PNG"),
            );
        }
    }
}
