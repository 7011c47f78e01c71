//! Mends that can be chosen at a finding: those the rules offer, and a few that need somebody who looks.
use crate::checks;
use crate::ledger::hazards::{self, Demand};
use crate::model::document::Standing;
use crate::model::message::Signal;
use crate::model::{Document, Settings, Slip, Step};
use crate::report::{Edit, Finding};
use crate::source::{SourceFile, Span};
use crate::syntax::ast::{BlockKind, Head, Statement, Tree};
use std::ops::Range;

/// A file as it was looked at.
#[derive(Clone, Copy)]
pub struct Looked<'p> {
    pub settings: &'p Settings,
    pub source: &'p SourceFile,
    pub document: &'p Document,
    pub findings: &'p [Finding],
    pub tree: &'p Tree,
}

impl Looked<'_> {
    fn text(&self) -> &str {
        &self.source.text
    }
}

/// One mend.
#[derive(Debug, Clone)]
pub struct Fix<'p> {
    /// What it does, as a sentence without its full stop.
    pub title: String,
    pub finding: &'p Finding,
    pub edits: Vec<Edit>,
    /// It may be applied without a look.
    pub safe: bool,
}

/// The mends of the findings that touch `range`, each finding's best first.
pub fn at<'p>(page: &Looked<'p>, range: &Range<usize>) -> Vec<Fix<'p>> {
    let touches = |it: &&Finding| it.span.start as usize <= range.end && range.start <= it.span.end as usize;
    page.findings.iter().filter(touches).flat_map(|finding| of(page, finding)).collect()
}

/// Those of one finding, the best first.
pub fn of<'p>(page: &Looked<'p>, finding: &'p Finding) -> Vec<Fix<'p>> {
    let mut fixes = match finding.rule {
        "missing-caution" => cautions(page, finding),
        "undeclared-name" => offered(finding).into_iter().chain(declarations(page, finding)).collect(),
        _ => offered(finding).into_iter().collect::<Vec<_>>(),
    };
    fixes.extend(waiver(page, finding));
    fixes
}

/// What the rule offers itself.
fn offered(finding: &Finding) -> Option<Fix<'_>> {
    let title =
        finding.help.as_ref().map_or_else(|| format!("Mend `{}`", finding.rule), |help| help.to_string());
    let edits = finding.edits.clone();
    (!edits.is_empty()).then_some(Fix { title, finding, edits, safe: !finding.guessed })
}

/// The shop's standing messages of that class, then one written out with the places of what only the author knows.
fn cautions<'p>(page: &Looked<'_>, finding: &'p Finding) -> Vec<Fix<'p>> {
    let demands = hazards::demands(page.document, page.settings);
    // Of several at one place each names its class.
    let is_told = |it: &&Demand<'_>| finding.message.contains(&format!("`{}`", it.row.class().name));
    let Some(demand) = demands.iter().filter(|it| it.span == finding.span).find(is_told) else {
        return Vec::new();
    };
    let class = demand.row.class();
    let standing: Vec<&Standing> =
        page.document.standing.iter().filter(|it| std::ptr::eq(it.hazard, class)).collect();
    let put = |title: String, signal: Signal, text: String, safe| Fix {
        title,
        finding,
        edits: vec![Edit { span: before(demand.step, signal), text }],
        safe,
    };
    let call = |it: &&Standing| {
        let line = format!("{} {}", it.signal.word(), it.name.as_str());
        let title = format!("Call the standing message `{line}` before the step");
        put(title, it.signal, format!("{line}\n"), standing.len() == 1)
    };
    let offered = finding.edits.first().and_then(|edit| Signal::from_word(edit.text.split(' ').next()?));
    let signal = offered.or_else(|| standing.first().map(|it| it.signal)).unwrap_or(Signal::Warning);
    let line = format!("{} {}", signal.word(), class.name);
    let blanks = ["hazard: ", "harm:   ", "avoid:  "].map(|key| format!("    {key}\"…\"\n")).concat();
    let worn: Vec<&str> = demand.lacks().map(|wear| wear.name.as_str()).collect();
    let worn = if worn.is_empty() { String::new() } else { format!("    wear:   {}\n", worn.join(", ")) };
    let title = format!("Put `{line}` before the step, to be filled in");
    let written_out = put(title, signal, format!("{line}\n{blanks}{worn}"), false);
    standing.iter().map(call).chain([written_out]).collect()
}

/// Before the step, behind the messages that are as severe.
fn before(step: &Step, signal: Signal) -> Span {
    let milder = step.messages.iter().find(|message| message.signal.value < signal);
    let start = milder.map_or(step.span, |message| message.span);
    Span { end: start.start, ..start }
}

/// The name as a part, a tool or a supply; what fits the place first.
fn declarations<'p>(page: &Looked<'_>, finding: &'p Finding) -> Vec<Fix<'p>> {
    let named = |slip: &Slip| match slip {
        Slip::UndeclaredName { name, .. } if name.span == finding.span => Some(name.value.to_string()),
        _ => None,
    };
    let Some(name) = page.document.slips.iter().find_map(named) else { return Vec::new() };
    let line = page.text().get(..finding.span.start as usize).unwrap_or("");
    let line = line.rsplit('\n').next().unwrap_or("");
    let leading = line.split_whitespace().rev().find(|word| matches!(*word, "with" | "using"));
    let mut kinds = [
        (BlockKind::Parts, "parts", "a part"),
        (BlockKind::Tools, "tools", "a tool"),
        (BlockKind::Supplies, "supplies", "a supply"),
    ];
    match leading {
        Some("with") => kinds.swap(0, 1),
        Some("using") => kinds.rotate_right(1),
        _ => {}
    }
    let fix = |(kind, block, said): (BlockKind, &str, &str)| Fix {
        title: format!("Declare `{name}` as {said}"),
        finding,
        edits: vec![declaring(page, kind, block, &name)],
        safe: false,
    };
    kinds.into_iter().map(fix).collect()
}

/// A line for the name at the end of the block, or the block with it before the steps.
fn declaring(page: &Looked<'_>, kind: BlockKind, block: &str, name: &str) -> Edit {
    let words = name.replace('-', " ");
    let mut letters = words.chars();
    let first: String = letters.next().into_iter().flat_map(char::to_uppercase).collect();
    let line = format!("    {name} \"{first}{}\"\n", letters.as_str());
    let statements = &page.tree.statements;
    let of_kind = |it: &&Statement| matches!(it.head, Head::Block { kind: own, .. } if own == kind);
    if let Some(statement) = statements.iter().rfind(of_kind) {
        // `tools none` is no longer so.
        if matches!(statement.head, Head::Block { none: true, .. }) {
            return Edit { span: statement.span, text: format!("{block}\n{}", line.trim_end()) };
        }
        return after(page, statement.extent, &line);
    }
    let opens = |it: &&Statement| {
        matches!(
            it.head,
            Head::Procedure { .. } | Head::Catalogue { .. } | Head::Use { .. } | Head::Block { .. }
        )
    };
    match statements.iter().rfind(opens) {
        Some(last) => after(page, last.extent, &format!("\n{block}\n{line}")),
        None => Edit { span: Span::new(page.source.id, 0, 0), text: format!("{block}\n{line}\n") },
    }
}

/// An edit that puts lines behind a span.
fn after(page: &Looked<'_>, span: Span, lines: &str) -> Edit {
    let text = page.text();
    let end = span.end as usize;
    let line_end = text.get(end..).and_then(|rest| rest.find('\n')).map(|at| end + at + 1);
    match line_end {
        Some(at) => Edit { span: Span::new(span.file, at, at), text: lines.to_owned() },
        None => {
            let at = text.len();
            Edit { span: Span::new(span.file, at, at), text: format!("\n{}", lines.trim_end_matches('\n')) }
        }
    }
}

/// Silences the rule at this statement, once somebody writes down why.
fn waiver<'p>(page: &Looked<'_>, finding: &'p Finding) -> Option<Fix<'p>> {
    checks::find(finding.rule).filter(|rule| rule.waivable)?;
    let holds =
        |span: Span| span.start <= finding.span.start && finding.span.start < span.end.max(span.start + 1);
    let statement = page.tree.statements.iter().find(|statement| holds(statement.extent))?;
    let (line, indent) = match &statement.head {
        Head::Block { declarations, .. } => (declarations.iter().find(|it| holds(it.span))?.span, "        "),
        Head::Use { .. } | Head::Unread => return None,
        _ => (statement.span, "    "),
    };
    let edit = after(page, line, &format!("{indent}waive: {} \"…\"\n", finding.rule));
    let title = format!("Waive `{}` here, with a reason", finding.rule);
    Some(Fix { title, finding, edits: vec![edit], safe: false })
}
