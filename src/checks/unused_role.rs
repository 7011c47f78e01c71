//! A verb is given something it has no use for.
use super::{Rule, Subject};
use crate::model::Slip;
use crate::model::slip::{BARE_SUPPLY, BARE_TOOL};
use crate::report::{Finding, Severity};
use crate::source::Span;

pub static RULE: Rule = Rule {
    id: "unused-role",
    severity: Severity::Error,
    waivable: false,
    summary: "A verb is given something it has no use for",
    explain: "\
What a verb has no place for cannot be put into its sentence, so it would be missing on the sheet
though it stands in the source.

Take it out, move it to the action it belongs to, or use another verb.
",
    bad: r#"parts
    cover "Bearing cover"

clean cover finger tight
"#,
    good: r#"parts
    cover "Bearing cover"

clean cover
"#,
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    let mut last = None;
    for slip in &subject.document.slips {
        if let Slip::UnusedRole { verb, span, given } = slip {
            let again = last.replace(verb.span) == Some(verb.span);
            if again || says_why(verb.span.to(*span), subject) {
                continue;
            }
            if let BARE_TOOL | BARE_SUPPLY = *given {
                let (name, kind, word) = match *given {
                    BARE_TOOL => (&verb.value, "tool", "with"),
                    _ => (&verb.value, "supply", "using"),
                };
                let message = format!("`{name}` is a {kind}, and would be worked on like a part");
                let help = format!("Write `{word} {name}`");
                findings.push(Finding::new(RULE.id, *span, message).help(help));
                continue;
            }
            let message =
                format!("`{}` has no use for {given}, which would be missing on the sheet", verb.value);
            let help = match subject.source.slice(*span) {
                way @ "clockwise" => {
                    format!(
                        "Where it only says which way, say so in the prose below, or write the whole sentence: `\"… {way} …\"`"
                    )
                }
                _ => "Take it out, or move it to the action it belongs to".to_owned(),
            };
            findings.push(Finding::new(RULE.id, *span, message).help(help));
        }
    }
}

/// A misspelt word makes other phrases of the line than were meant; it has its own finding.
fn says_why(action: Span, subject: &Subject<'_>) -> bool {
    subject.slips_in(action).any(|slip| !matches!(slip, Slip::UnusedRole { .. }))
}
