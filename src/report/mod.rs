//! A finding as plain data: what is wrong, where, why it matters in the workshop, and the mend.
use crate::source::Span;
use serde::{Deserialize, Serialize};
use std::borrow::Cow;

/// How much a finding weighs. Only `Error` keeps a sheet from being made.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Severity {
    Advice,
    Warning,
    Error,
}

impl Severity {
    pub fn name(self) -> &'static str {
        match self {
            Severity::Advice => "advice",
            Severity::Warning => "warning",
            Severity::Error => "error",
        }
    }
}

/// Replace the text at `span` by `text`. The edits of one finding never overlap.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Edit {
    pub span: Span,
    pub text: String,
}

/// A second place that explains the first.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Label {
    pub span: Span,
    pub text: Cow<'static, str>,
}

/// One thing wrong. `message` is what; `labels` are why; `help` is what to do. A file at fault may have very many: texts that
/// are the same for all are not copied.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Finding {
    pub rule: &'static str,
    pub severity: Severity,
    pub span: Span,
    pub message: Cow<'static, str>,
    pub labels: Vec<Label>,
    pub help: Option<Cow<'static, str>>,
    /// The mend; empty where there is none.
    pub edits: Vec<Edit>,
    /// The mend is a guess, which somebody has to look at before it is applied.
    pub guessed: bool,
}

impl Finding {
    /// A finding of `rule` at `span`; the loop that runs the rules sets the severity in force.
    #[cold]
    pub fn new(rule: &'static str, span: Span, message: impl Into<Cow<'static, str>>) -> Finding {
        Finding {
            rule,
            severity: Severity::Error,
            span,
            message: message.into(),
            labels: Vec::new(),
            help: None,
            edits: Vec::new(),
            guessed: false,
        }
    }
    #[must_use]
    pub fn label(mut self, span: Span, text: impl Into<Cow<'static, str>>) -> Finding {
        self.labels.push(Label { span, text: text.into() });
        self
    }
    #[must_use]
    pub fn help(mut self, text: impl Into<Cow<'static, str>>) -> Finding {
        self.help = Some(text.into());
        self
    }
    /// Its mend is not applied unless somebody asks for it.
    #[must_use]
    pub fn guessed(mut self) -> Finding {
        self.guessed = true;
        self
    }
    #[must_use]
    pub fn edit(mut self, span: Span, text: impl Into<String>) -> Finding {
        self.edits.push(Edit { span, text: text.into() });
        self
    }
}
