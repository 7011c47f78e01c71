//! Amounts and fasteners given as arguments: read as a source is read, with the same answers to a slip.
use super::trouble::Trouble;
use crate::compile;
use crate::model::catalogues::Catalogues;
use crate::model::declarations::{Part, Tool};
use crate::model::quantity::Quantity;
use crate::model::torque::Torque;
use crate::model::{Register, Settings, Surroundings};
use crate::report::Finding;
use crate::source::{FileId, SourceFile};
use crate::{Compiled, checks};

/// What was written, by argument.
#[derive(Debug, Default, Clone, Copy)]
pub struct Written<'a> {
    pub torque: &'a str,
    pub thread: Option<&'a str>,
    pub class: Option<&'a str>,
    pub grade: Option<&'a str>,
    pub wrench: Option<&'a str>,
    pub adapter: Option<&'a str>,
    pub angle: Option<&'a str>,
}

/// What it means.
#[derive(Debug)]
pub struct Read {
    pub torque: Torque,
    /// With thread and class, where a thread was given.
    pub fastener: Option<Part>,
    pub wrench: Option<Quantity>,
    pub adapter: Option<Quantity>,
    pub angle: Option<Quantity>,
}

/// Each argument as a declaration of its own: what a line has to say is said of that argument.
type Line = (&'static str, String);

/// Reads the arguments.
///
/// # Errors
/// With everything that could not be read, each as a trouble of its argument.
pub fn read(written: &Written<'_>) -> Result<Read, Vec<Trouble>> {
    let (parts, tools) = (parts(written), tools(written));
    let all = parts.iter().chain(&tools);
    let torn: Vec<Trouble> = all.filter_map(|(name, line)| not_one_line(name, line)).collect();
    if !torn.is_empty() {
        return Err(torn);
    }
    let compiled = compiled(&parts, &tools);
    let troubles: Vec<Trouble> =
        compiled.1.findings.iter().filter_map(|it| trouble(it, &compiled.0, &parts, &tools)).collect();
    if !troubles.is_empty() {
        return Err(troubles);
    }
    meaning(&compiled.1).ok_or_else(|| vec![Trouble::new("torque", "this is no torque")])
}

fn parts(written: &Written<'_>) -> Vec<Line> {
    let mut lines = vec![("torque", format!("torque {}", written.torque))];
    if let Some(thread) = written.thread {
        lines.push(("--thread", format!("thread {thread}")));
        // With the thread again: not every class is made in every diameter.
        let strengths = [("--class", "class", written.class), ("--grade", "grade", written.grade)];
        let strengths = strengths.into_iter().filter_map(|(name, word, value)| Some((name, word, value?)));
        lines.extend(strengths.map(|(name, word, value)| (name, format!("thread {thread}, {word} {value}"))));
    }
    lines
}

fn tools(written: &Written<'_>) -> Vec<Line> {
    let all = [
        ("--wrench", "length", written.wrench),
        ("--adapter", "adapter", written.adapter),
        ("--angle", "range", written.angle),
    ];
    let given = all.into_iter().filter_map(|(name, key, value)| Some((name, key, value?)));
    given.map(|(name, key, value)| (name, format!("{key} {value}"))).collect()
}

/// What would be more than one attribute, or hide the rest of the line.
fn not_one_line(name: &str, line: &str) -> Option<Trouble> {
    let commas = usize::from(matches!(name, "--class" | "--grade"));
    let wrong = line.contains(['\n', '\r', '"', '[']) || line.matches(',').count() > commas;
    wrong.then(|| Trouble::new(name, "one amount is wanted, without commas, quotes and line ends"))
}

fn compiled(parts: &[Line], tools: &[Line]) -> (SourceFile, Compiled) {
    let mut text = String::from("catalogue \"Arguments\"\nparts\n");
    let mut block = |lines: &[Line]| {
        for (at, (_, line)) in lines.iter().enumerate() {
            text.push_str(&format!("    given-{}-{at} \"Given\" {line}\n", lines.len()));
        }
    };
    block(parts);
    if !tools.is_empty() {
        text.push_str("tools\n");
        for (name, line) in tools {
            text.push_str(&format!("    tool{name} \"Given\" {line}\n"));
        }
    }
    let source = SourceFile::new(FileId(0), "arguments", text);
    let (settings, register, catalogues) = (Settings::default(), Register::default(), Catalogues::default());
    let around = Surroundings { settings: &settings, register: &register, catalogues: &catalogues };
    let compiled = compile(&source, &around);
    (source, compiled)
}

/// Why an argument cannot be used; none for matters of craft, which the command says in its own way.
fn trouble(finding: &Finding, source: &SourceFile, parts: &[Line], tools: &[Line]) -> Option<Trouble> {
    let unreadable = match checks::find(finding.rule) {
        Some(rule) => {
            !rule.waivable || matches!(rule.id, "unknown-thread" | "unknown-strength" | "empty-range")
        }
        None => true,
    };
    let line = source.line_column(finding.span.start).0;
    // Behind the heads of the file and of the two blocks.
    let name = match line.checked_sub(3) {
        Some(at) if at < parts.len() => parts.get(at).map(|line| line.0),
        Some(at) => tools.get(at.checked_sub(parts.len() + 1)?).map(|line| line.0),
        None => None,
    };
    // An unknown thread is said once, of the thread.
    let name = name.filter(|name| finding.rule != "unknown-thread" || *name == "--thread")?;
    let trouble = Trouble::new(name, finding.message.clone());
    let trouble = match &finding.help {
        Some(help) => trouble.help(help.clone()),
        None => trouble,
    };
    unreadable.then_some(trouble)
}

fn meaning(compiled: &Compiled) -> Option<Read> {
    let declarations = &compiled.document.declarations;
    let torque = declarations.parts.first()?.torque.clone()?;
    let tool =
        |pick: fn(&Tool) -> &Option<Quantity>| declarations.tools.iter().find_map(|it| pick(it).clone());
    Some(Read {
        torque,
        fastener: declarations.parts.iter().skip(1).next_back().cloned(),
        wrench: tool(|it| &it.length),
        adapter: tool(|it| &it.adapter),
        angle: tool(|it| &it.range),
    })
}
