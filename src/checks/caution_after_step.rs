//! A safety message stands under its step instead of before it.
use super::{Rule, Subject};
use crate::model::message::Signal;
use crate::model::step::LateMessage;
use crate::model::{Step, hazard::Hazard};
use crate::report::{Edit, Finding, Severity};
use crate::source::{SourceFile, Span};

pub static RULE: Rule = Rule {
    id: "caution-after-step",
    severity: Severity::Error,
    waivable: false,
    summary: "A safety message stands after the step it guards",
    explain:
        "People work line by line. Whoever reads the warning after the step has already opened the joint, \
freed the spring or touched the terminal.

A safety message is a statement of its own at the margin, before the step it guards. The mend moves it there \
and keeps the most severe message first. Words such as `Caution:` at the start of prose are found too; give \
them a hazard class, and say what can happen and how to avoid it.",
    bad: "\
parts
    ring \"Retaining ring\" spring-loaded, stays off

remove ring from \"the shaft\"
    warning ejection
        hazard: The ring is under tension.
        harm:   Eye injury.
        avoid:  Hold a hand over the ring.
        wear:   eye protection
clean ring
",
    good: "\
parts
    ring \"Retaining ring\" spring-loaded, stays off

warning ejection
    hazard: The ring is under tension.
    harm:   Eye injury.
    avoid:  Hold a hand over the ring.
    wear:   eye protection
remove ring from \"the shaft\"
clean ring
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    for step in subject.contents.detailed.iter().copied() {
        for late in &step.late_messages {
            let word = late.word.value.to_lowercase();
            let message = format!("This {word} stands after its step: it is read when the work is done");
            let mut finding = Finding::new(RULE.id, late.word.span, message)
                .label(late.step, format!("the {word} belongs before this line"));
            finding.edits = move_up(late, step, subject.source);
            let help = if finding.edits.is_empty() {
                form(&word)
            } else {
                "Move it before the step, at the margin".to_owned()
            };
            findings.push(finding.help(help));
        }
    }
}

/// What the message should look like, for words that are not yet one.
fn form(word: &str) -> String {
    if Signal::from_word(word) == Some(Signal::Note) {
        return "Put it before the step, at the margin: `note \"what is good to know\"`".to_owned();
    }
    format!(
        "Put it before the step, at the margin: `{word} CLASS`, with `hazard:`, `harm:` and `avoid:` under it"
    )
}

/// Takes the message out and puts it, at the margin, before the step and before milder messages.
fn move_up(late: &LateMessage, step: &Step, source: &SourceFile) -> Vec<Edit> {
    let lines = source.whole_lines(late.extent);
    let text = source.slice(lines);
    let Some(signal) = Signal::from_word(&late.word.value) else { return Vec::new() };
    let Some(statement) = statement(signal, text) else { return Vec::new() };
    let milder = step.messages.iter().find(|message| message.signal.value < signal);
    let before = milder.map_or(late.step, |message| message.span);
    let start = source.whole_lines(before).start as usize;
    vec![
        Edit { span: Span::new(lines.file, start, start), text: statement },
        Edit { span: lines, text: String::new() },
    ]
}

/// The lines as a statement at the margin; `None` where they are no message but for their place: `Warning: hot!`.
fn statement(signal: Signal, text: &str) -> Option<String> {
    let (first, deeper) = text.split_once('\n').unwrap_or((text, ""));
    let rest = first.trim().strip_prefix(signal.word())?;
    let classed = rest.starts_with(' ') && rest.split_whitespace().next().and_then(Hazard::find).is_some();
    let plain = signal == Signal::Note && (rest.is_empty() && !deeper.trim().is_empty() || is_quoted(rest));
    if classed || plain {
        return Some(at_margin(text));
    }
    let words = rest.strip_prefix(':').filter(|_| signal == Signal::Note)?;
    let words: Vec<&str> = words.split_whitespace().chain(deeper.split_whitespace()).collect();
    let words = words.join(" ");
    // Where a sentence does not end it may go on below.
    let whole = words.ends_with(['.', '!', '?']) && !words.contains(['"', '“', '”', '\\', '#']);
    whole.then(|| format!("note \"{words}\"\n"))
}

/// One text in quotes and nothing else.
fn is_quoted(text: &str) -> bool {
    let inner = text.trim().strip_prefix('"').and_then(|text| text.strip_suffix('"'));
    inner.is_some_and(|inner| !inner.contains(['"', '\\']))
}

/// The lines without the indentation of the first.
fn at_margin(text: &str) -> String {
    let indentation = text.len() - text.trim_start_matches([' ', '\t']).len();
    let mut moved = String::with_capacity(text.len());
    for line in text.lines() {
        let own = line.len() - line.trim_start_matches([' ', '\t']).len();
        moved.push_str(line.get(indentation.min(own)..).unwrap_or(line));
        moved.push('\n');
    }
    moved
}
