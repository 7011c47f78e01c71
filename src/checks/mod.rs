//! The rules. One rule, one file; this file holds the list and the loop.
use crate::model::settings::{Level, Settings};
use crate::model::{Document, Procedure, Register};
use crate::report::{Finding, Severity};
use crate::source::SourceFile;

/// One rule as plain data and one function.
pub struct Rule {
    /// The file's name with hyphens; names the fault.
    pub id: &'static str,
    pub severity: Severity,
    /// One line: what is wrong, in the present tense.
    pub summary: &'static str,
    /// CommonMark: what it costs in the workshop, what the rule looks at, how to mend it.
    pub explain: &'static str,
    /// A whole file that gives exactly one finding, this rule's.
    pub bad: &'static str,
    /// A whole file that gives none from any rule.
    pub good: &'static str,
    pub check: fn(&Subject<'_>, &mut Vec<Finding>),
}

/// What a rule looks at.
pub struct Subject<'a> {
    pub document: &'a Document,
    pub settings: &'a Settings,
    pub register: &'a Register,
    pub source: &'a SourceFile,
}

impl Subject<'_> {
    pub fn procedure(&self) -> Option<&Procedure> {
        self.document.procedure()
    }
}

/// Every rule, by name.
pub static RULES: &[&Rule] = &[];

/// The rule of that name.
pub fn find(id: &str) -> Option<&'static Rule> {
    RULES.iter().find(|rule| rule.id == id).copied()
}

/// Runs every rule that is not off, applies house levels and waivers, and sorts by place.
pub fn run(subject: &Subject<'_>) -> Vec<Finding> {
    let mut findings = Vec::new();
    for rule in RULES {
        let severity = match subject.settings.rules.get(rule.id) {
            Some(Level::Off) => continue,
            Some(Level::Error) => Severity::Error,
            Some(Level::Warning) => Severity::Warning,
            Some(Level::Advice) => Severity::Advice,
            None => rule.severity,
        };
        let from = findings.len();
        (rule.check)(subject, &mut findings);
        for finding in findings.iter_mut().skip(from) {
            finding.severity = severity;
        }
    }
    findings.sort_by_key(|f| (f.span.start, f.span.end, f.rule));
    findings
}
