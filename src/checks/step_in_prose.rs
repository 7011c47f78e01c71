//! A line of prose that looks like a step.
use super::passages::{Kind, Passage};
use super::{Rule, Subject};
use crate::model::verb::Verb;
use crate::report::{Finding, Severity};
use crate::source::Span;

pub static RULE: Rule = Rule {
    id: "step-in-prose",
    severity: Severity::Advice,
    waivable: true,
    summary: "A line under a step reads like a step of its own",
    explain: "\
One blank before a line makes it prose of the step above: it gets no number and no box to tick, and nothing in it is \
checked. A line that starts with a verb in small letters and goes on with a declared name was most likely meant as a \
step.

Where prose is meant, start it as a sentence, with a capital letter.",
    bad: "\
parts
    cover \"Bearing cover\"  stays off
    ring  \"Retaining ring\"

clean ring
remove cover
 wipe ring
",
    good: "\
parts
    cover \"Bearing cover\"  stays off
    ring  \"Retaining ring\"

clean ring
remove cover
wipe ring
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    for passage in &subject.contents.passages {
        let Passage::Prose(Kind::Instruction, prose) = passage else { continue };
        // Nearly all prose is one sentence on one line.
        if prose.lines.is_empty() && !starts_small(&prose.source) {
            continue;
        }
        let mut goes_on = false;
        for (start, place) in prose.line_starts() {
            let line = prose.source.get(start as usize..).and_then(|rest| rest.lines().next()).unwrap_or("");
            let step = is_step(line, subject);
            if step && !goes_on {
                findings.push(finding(line, place, subject));
            }
            goes_on = !step && !line.is_empty() && !line.trim_end().ends_with(['.', ':', ';']);
        }
    }
}

/// A verb and a declared name, as a step starts.
fn is_step(line: &str, subject: &Subject<'_>) -> bool {
    if !starts_small(line) || line.trim_end().ends_with('.') {
        return false;
    }
    let Some((verb, rest)) = line.split_once(' ') else { return false };
    let name = rest.trim_start_matches("new ").split([' ', ',', ';', '.']).next().unwrap_or("");
    !name.is_empty() && Verb::find(verb).is_some() && subject.document.declarations.find(name).is_some()
}

fn starts_small(line: &str) -> bool {
    line.starts_with(|c: char| c.is_ascii_lowercase())
}

fn finding(line: &str, place: u32, subject: &Subject<'_>) -> Finding {
    let from = place as usize;
    let span = Span::new(subject.source.id, from, from + line.trim_end().len());
    let before = subject.source.text.get(..from).unwrap_or("");
    let indent = before.len() - before.trim_end_matches([' ', '\t']).len();
    Finding::new(RULE.id, span, "This line reads like a step, and is prose of the step above it")
        .help("Move it to the margin; where prose is meant, start it with a capital letter")
        .edit(Span::new(subject.source.id, from - indent, from), "")
}
