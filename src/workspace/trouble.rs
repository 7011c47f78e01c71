//! What kept a file from being read or written: not a finding about a procedure, but about the run itself.
use serde::Serialize;
use std::fmt::{self, Display, Formatter};

/// One thing that went wrong with a file, and the mend.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Trouble {
    /// The file or folder, as shown to the user.
    pub file: String,
    /// Line and column from 1, where there is a place inside the file.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub line: Option<usize>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub column: Option<usize>,
    pub message: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub help: Option<String>,
}

impl Trouble {
    pub fn new(file: impl Into<String>, message: impl Into<String>) -> Trouble {
        Trouble { file: file.into(), line: None, column: None, message: message.into(), help: None }
    }
    #[must_use]
    pub fn at(mut self, (line, column): (usize, usize)) -> Trouble {
        self.line = Some(line);
        self.column = Some(column);
        self
    }
    #[must_use]
    pub fn help(mut self, help: impl Into<String>) -> Trouble {
        self.help = Some(help.into());
        self
    }
}

impl Display for Trouble {
    fn fmt(&self, f: &mut Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.file)?;
        if let (Some(line), Some(column)) = (self.line, self.column) {
            write!(f, ":{line}:{column}")?;
        }
        write!(f, ": {}", self.message)
    }
}
