//! One side of a comparison: a file as it lies here, or as it was in a git revision, with its own workspace around it.
use super::git::{Git, Unpacked};
use super::one::{self, One};
use super::trouble::Trouble;
use super::{paths, run};
use crate::model::resolve::{self, Resolved};
use crate::model::{Document, Slip};
use crate::source::{SourceFile, Span};
use std::path::{Path, PathBuf};

/// A resolved file and what is needed to name its places.
pub struct Side {
    one: One,
    source: SourceFile,
    pub document: Document,
    /// `HEAD~1:` before the names of an earlier revision's files, else empty.
    prefix: String,
    /// As the user wrote it.
    pub asked: String,
    /// Lines that could not be made sense of.
    pub unclear: bool,
    _unpacked: Option<Unpacked>,
}

impl Side {
    /// A file, or `REVISION:PATH`.
    pub fn open(asked: &Path) -> Result<Side, Trouble> {
        let words = asked.to_string_lossy().into_owned();
        match words.split_once(':').filter(|_| !asked.exists()) {
            Some((revision, path)) => Side::of_revision(&words, revision, path),
            None => Side::of(one::open(asked)?, &words, String::new(), None),
        }
    }

    fn of_revision(words: &str, revision: &str, path: &str) -> Result<Side, Trouble> {
        let here = run::here()?;
        let git = Git::around(&here)?;
        let unpacked = git.unpack(&git.commit(revision)?)?;
        let file = within(&git, &here, unpacked.top(), path).ok_or_else(|| {
            Trouble::new(words, "the revision has no such file")
                .help("name it from the outermost folder of the repository, or as it lies from here")
        })?;
        let one = one::open_in(unpacked.top(), &file, words)?;
        Side::of(one, words, format!("{revision}:"), Some(unpacked))
    }

    fn of(one: One, asked: &str, prefix: String, unpacked: Option<Unpacked>) -> Result<Side, Trouble> {
        let workspace = &one.selection.workspace;
        let source = run::source(workspace, one.id)?;
        let Resolved { document, unread } = resolve::resolve(&source, &run::surroundings(workspace));
        let unclear = !unread.is_empty() || document.slips.iter().any(is_unclear);
        Ok(Side { source, document, prefix, asked: asked.to_owned(), unclear, _unpacked: unpacked, one })
    }

    pub fn workspace(&self) -> &super::workspace::Workspace {
        &self.one.selection.workspace
    }

    /// File, line and column of a place, from 1.
    pub fn place(&self, span: Span) -> (String, usize, usize) {
        let places = super::plain::Places { workspace: self.workspace(), source: &self.source };
        let file = places.file(span).unwrap_or(&self.source);
        let (line, column) = file.line_column(span.start);
        (format!("{}{}", self.prefix, self.workspace().shown(&file.name)), line, column)
    }
}

/// Not what is read and is wrong: a number that two files share, two units that disagree.
fn is_unclear(slip: &Slip) -> bool {
    !matches!(
        slip,
        Slip::DuplicateProcedure { .. }
            | Slip::UnknownProcedure { .. }
            | Slip::EmptyRange { .. }
            | Slip::UnitsDisagree { .. }
    )
}

/// The file in the unpacked revision: its path as seen from the outermost folder, or from here.
fn within(git: &Git, here: &Path, top: &Path, path: &str) -> Option<PathBuf> {
    let here = here.canonicalize().unwrap_or_else(|_| here.to_path_buf());
    let from_here = here.strip_prefix(&git.top).unwrap_or(Path::new("")).join(path);
    let candidates = [paths::tidy(top, Path::new(path)), paths::tidy(top, &from_here)];
    candidates.into_iter().find(|file| file.starts_with(top) && file.is_file())
}
