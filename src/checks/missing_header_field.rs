//! The head of the procedure is silent where it must speak.
use super::{Rule, Subject};
use crate::model::Procedure;
use crate::model::slip::Slip;
use crate::report::{Edit, Finding, Severity};
use crate::source::Span;

pub static RULE: Rule = Rule {
    id: "missing-header-field",
    severity: Severity::Error,
    waivable: true,
    summary: "A field of the head, or a list of parts, tools or supplies, is missing",
    explain: "A sheet that does not say which revision it is, which machines it is for or what must be done first is \
used on the wrong machine, or too early. An empty list may mean that nothing is needed, or that it was forgotten; \
only the author can say which.

The house settings name the fields (`required-header`). Write every one; `none` is a value: `requires: none`. \
The same holds for `parts`, `tools` and `supplies`: a block, a catalogue that lends at least one thing of the \
kind, or `tools none`. The mend writes `none` for a list that no step draws on.",
    bad: "\
procedure EX-001 \"Check the pump\"
    revision:   A, 2026-11-02
    equipment:  F40 transfer pump
    models:     F40, F40S
    source:     manual \"F40 workshop manual, issue 7\"
    time:       30 min
    people:     1
    outcome:    Know that the pump is cold.
    afterwards: none
    leaves:     none

parts none
tools none
supplies none

check \"make sure that the pump is cold\"
    if not ok: stop \"Let the pump cool down.\"
",
    good: "\
procedure EX-001 \"Check the pump\"
    revision:   A, 2026-11-02
    equipment:  F40 transfer pump
    models:     F40, F40S
    source:     manual \"F40 workshop manual, issue 7\"
    time:       30 min
    people:     1
    outcome:    Know that the pump is cold.
    requires:   none
    afterwards: none
    leaves:     none

parts none
tools none
supplies none

check \"make sure that the pump is cold\"
    if not ok: stop \"Let the pump cool down.\"
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    let Some(procedure) = subject.procedure() else { return };
    for field in &subject.settings.required_header {
        if !procedure.header.has(field) && !misspelt(field, subject) {
            let text = format!("The head does not say {}", wanted(field));
            findings.push(Finding::new(RULE.id, procedure.span, text).help(form(field)));
        }
    }
    // What could not be read may be the list, or the step that uses a thing of it.
    if subject.has_holes() {
        return;
    }
    let silent = silent_blocks(subject);
    findings.extend(silent.map(|(kind, why)| silence(kind, why, procedure, subject)));
}

/// The field is there, but misspelt or where it cannot be read: that has its own finding.
fn misspelt(field: &str, subject: &Subject<'_>) -> bool {
    subject.document.slips.iter().any(|slip| match slip {
        Slip::UnknownDetail { near, .. } => near.iter().any(|near| near == field),
        Slip::UnusableStatement { span, .. } => {
            let written = subject.source.slice(*span);
            written.lines().any(|line| line.contains(field) && line.contains(':'))
        }
        _ => false,
    })
}

/// What the reader misses without the field.
fn wanted(field: &str) -> String {
    match field {
        "revision" => "which revision this is (`revision`)".to_owned(),
        "equipment" => "what machine it is for (`equipment`)".to_owned(),
        "models" => "which models it is for (`models`)".to_owned(),
        "source" => "what document it follows (`source`)".to_owned(),
        "time" => "how long the work takes (`time`)".to_owned(),
        "people" => "how many people it takes (`people`)".to_owned(),
        "outcome" => "what is reached at the end (`outcome`)".to_owned(),
        "requires" => "what must be done before (`requires`)".to_owned(),
        "afterwards" => "what must be done after (`afterwards`)".to_owned(),
        "leaves" => "what state it leaves the machine in (`leaves`)".to_owned(),
        "approved" => "who approved it (`approved`)".to_owned(),
        other => format!("`{other}`"),
    }
}

fn form(field: &str) -> String {
    match field {
        "requires" | "afterwards" => format!("Write `{field}: NUMBER \"state\"`, or `{field}: none`"),
        "revision" => "Write `revision: A, 2026-11-02`".to_owned(),
        "time" => "Write `time: 90 min`".to_owned(),
        _ => format!("Write `{field}:` and its value, or `none`, under the `procedure` line"),
    }
}

/// The lists that neither a block nor a catalogue fills.
fn silent_blocks(subject: &Subject<'_>) -> impl Iterator<Item = (&'static str, &'static str)> {
    let document = subject.document;
    let all = &document.declarations;
    [
        ("parts", "what parts the work handles", all.parts.is_empty()),
        ("tools", "what tools to fetch", all.tools.is_empty()),
        ("supplies", "what supplies to fetch", all.supplies.is_empty()),
    ]
    .into_iter()
    .filter(|(kind, _, empty)| *empty && !has_block(kind, subject))
    .map(|(kind, why, _)| (kind, why))
}

/// Also where the line that opens it could not be read.
fn has_block(kind: &str, subject: &Subject<'_>) -> bool {
    subject.document.blocks.iter().any(|block| block.kind == kind)
        || subject.source.text.lines().any(|line| line.starts_with(kind))
}

fn silence(kind: &str, why: &str, procedure: &Procedure, subject: &Subject<'_>) -> Finding {
    let mut finding =
        Finding::new(RULE.id, procedure.span, format!("The procedure does not say {why} (`{kind}`)"))
            .help(format!("List them under `{kind}`, or write `{kind} none`"));
    finding.edits.extend(write_none(kind, procedure, subject));
    finding
}

/// `tools none` as a line of its own, before the first block, or else before the first section or step.
fn write_none(kind: &str, procedure: &Procedure, subject: &Subject<'_>) -> Option<Edit> {
    let block =
        subject.document.blocks.iter().map(|block| block.span).filter(|span| subject.owns(*span)).min();
    let section =
        procedure.sections.iter().find(|section| section.title.is_some()).map(|section| section.span);
    let message = procedure.messages().map(|(message, _)| message.span).min();
    let step = procedure.steps().next().map(|step| step.span);
    let before = block.or_else(|| [section, message, step].into_iter().flatten().min())?;
    let line = subject.source.line_range(subject.source.line_column(before.start).0);
    Some(Edit { span: Span::new(before.file, line.start, line.start), text: format!("{kind} none\n\n") })
}
