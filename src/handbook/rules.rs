//! The rule handbook: every rule with what it is for, a bad and a good example, and the words it says.
use super::generated;
use crate::checks::{self, RULES, Rule};
use crate::compile;
use crate::model::resolve::Surroundings;
use crate::model::settings::Settings;
use crate::report::{Finding, Severity};
use crate::source::{FileId, SourceFile};
use std::fmt::Write;

const HEAD: &str = "\
# The rules

What Cotter finds, and why it matters in the workshop. `cotter explain RULE` shows the same on a terminal.

An **error** keeps a procedure from becoming a sheet. A **warning** says that something is most likely wrong. An
**advice** is about style. A house can set the level of a rule in `cotter.toml`; one statement can be excused
with a written reason, `waive: rule-name \"why\"`. Neither is possible for the rules of the first group: where a
line is not understood, the sheet would have a hole.

Examples leave out the head of the file, and blocks that hold nothing.
";

/// The groups of the handbook, each with the rules in it.
type Group = (&'static str, &'static str, fn(&Rule) -> bool);

/// Every rule is in one of them by what it is, so that a new rule needs no entry here.
const GROUPS: [Group; 4] = [
    ("What is not understood", "These cannot be waived.", |rule| !rule.waivable),
    ("Errors", "No sheet is made.", |rule| rule.waivable && rule.severity == Severity::Error),
    ("Warnings", "The sheet is made; look at each.", |rule| {
        rule.waivable && rule.severity == Severity::Warning
    }),
    ("Advice", "Style, for sheets that are read well.", |rule| {
        rule.waivable && rule.severity == Severity::Advice
    }),
];

/// The rule handbook, as Markdown.
pub fn rules() -> String {
    let mut page = generated("the rules in src/checks");
    page.push_str(HEAD);
    page.push_str(&contents());
    for (title, about, belongs) in GROUPS {
        let _ = write!(page, "\n## {title}\n\n{about}\n");
        for rule in RULES.iter().filter(|rule| belongs(rule)) {
            page.push_str(&entry(rule));
        }
    }
    page
}

fn contents() -> String {
    let mut text = "\n| Rule | Level | What is wrong |\n| --- | --- | --- |\n".to_owned();
    for rule in RULES {
        let (id, level, summary) = (rule.id, rule.severity.name(), rule.summary.replace('|', "\\|"));
        let _ = writeln!(text, "| [{id}](#{id}) | {level} | {summary} |");
    }
    text
}

fn entry(rule: &Rule) -> String {
    let (id, level) = (rule.id, rule.severity.name());
    let (summary, explain) = (rule.summary, rule.explain.trim());
    let (bad, good) = (rule.bad.trim_end(), rule.good.trim_end());
    let said = said(rule);
    format!(
        "\n### {id}\n\n**{summary}** ({level})\n\n{explain}\n\nFound in:\n\n```cotter bad\n{bad}\n```\n\n{said}\
         Nothing is wrong with:\n\n```cotter\n{good}\n```\n"
    )
}

/// What the rule says to its bad example, as a quotation.
fn said(rule: &Rule) -> String {
    let Some(finding) = finding(rule) else { return String::new() };
    let mut text = format!("> {}: {}", finding.severity.name(), finding.message);
    for label in &finding.labels {
        let _ = write!(text, "\\\n> {}", label.text);
    }
    if let Some(help) = &finding.help {
        let _ = write!(text, "\\\n> help: {help}");
    }
    text.push_str("\n\n");
    text
}

fn finding(rule: &Rule) -> Option<Finding> {
    let source = SourceFile::new(FileId(0), "example.cotter", checks::example(rule.bad));
    let (settings, catalogues) = (Settings::default(), checks::example_catalogues());
    let register = checks::example_register();
    let around = Surroundings { settings: &settings, register: &register, catalogues: &catalogues };
    compile(&source, &around).findings.into_iter().find(|finding| finding.rule == rule.id)
}
