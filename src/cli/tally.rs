//! How many findings of each weight a run gave, and what that means for the exit code.
use crate::report::{Finding, Severity};
use serde::Serialize;

/// Counts of one run.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize)]
pub struct Tally {
    pub files: usize,
    pub errors: usize,
    pub warnings: usize,
    pub advice: usize,
}

impl Tally {
    /// The counts of one file.
    pub fn of(findings: &[Finding]) -> Tally {
        let count = |severity| findings.iter().filter(|f| f.severity == severity).count();
        Tally {
            files: 1,
            errors: count(Severity::Error),
            warnings: count(Severity::Warning),
            advice: count(Severity::Advice),
        }
    }

    /// Whether nothing was found.
    pub fn is_clean(self) -> bool {
        self.errors + self.warnings + self.advice == 0
    }

    pub fn add(&mut self, other: Tally) {
        self.files += other.files;
        self.errors += other.errors;
        self.warnings += other.warnings;
        self.advice += other.advice;
    }

    /// Whether a finding weighs `threshold` or more.
    pub fn reaches(&self, threshold: Severity) -> bool {
        self.errors > 0
            || (self.warnings > 0 && threshold <= Severity::Warning)
            || (self.advice > 0 && threshold <= Severity::Advice)
    }

    /// `3 files: 1 error, 2 warnings` or `3 files: nothing to mend`, as a line; empty where no file could be had.
    pub fn line(&self) -> String {
        if self.files == 0 {
            return String::new();
        }
        let counted = [(self.errors, "error"), (self.warnings, "warning"), (self.advice, "piece of advice")];
        let parts: Vec<String> =
            counted.into_iter().filter(|(n, _)| *n > 0).map(|(n, noun)| count(n, noun)).collect();
        let found = if parts.is_empty() { "nothing to mend".to_owned() } else { parts.join(", ") };
        format!("{}: {found}\n", count(self.files, "file"))
    }
}

/// `1 file`, `2 files`, `2 pieces of advice`.
pub fn count(n: usize, noun: &str) -> String {
    match (n, noun.split_once(' ')) {
        (1, _) => format!("1 {noun}"),
        (_, Some((head, rest))) => format!("{n} {head}s {rest}"),
        (_, None) => format!("{n} {noun}s"),
    }
}
