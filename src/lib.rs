//! Cotter reads repair procedures written in a plain-text language, says what is wrong with them, and
//! makes the sheets people work from.
//!
//! Modules in reading order; each uses only those before it.
pub mod source;
pub mod report;
pub mod syntax;
pub mod model;
pub mod ledger;
pub mod draft;
pub mod record;
pub mod checks;
pub mod compare;
pub mod import;
pub mod sheets;
pub mod handbook;
pub mod workspace;
#[cfg(feature = "editor")]
pub mod preview;
pub mod cli;
#[cfg(feature = "editor")]
pub mod editor;

use checks::Subject;
use model::Document;
pub use model::Surroundings;
use model::resolve::{self, Resolved};
use report::Finding;
use source::SourceFile;

/// One file, resolved as far as it could be, and all that is wrong with it.
#[derive(Debug, Clone)]
pub struct Compiled {
    pub document: Document,
    /// By place. A sheet may be made where none is an error.
    pub findings: Vec<Finding>,
}

/// Reads, resolves and checks one file. Never fails: faults are findings.
pub fn compile(source: &SourceFile, around: &Surroundings<'_>) -> Compiled {
    let Resolved { document, unread } = resolve::resolve(source, around);
    let Surroundings { settings, register, .. } = *around;
    let mut findings = checks::run(&Subject::new(&document, &unread, settings, register, source));
    findings.extend(unread);
    findings.sort_by_key(|finding| (finding.span.start, finding.span.end, finding.rule));
    Compiled { document, findings }
}
