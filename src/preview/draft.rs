//! The text in the box: as it is on the disk, checked as it is typed, and saved where nobody else has changed it.
use super::shop::{Shop, with_help};
use super::told::{Told, told};
use crate::compile;
use crate::source::SourceFile;
use crate::workspace::{self, files};
use serde::{Deserialize, Serialize};
use sha2::{Digest, Sha256};

const BOM: char = '\u{feff}';

/// What the box is filled with.
#[derive(Debug, Serialize)]
pub struct Opened {
    pub file: String,
    /// With `\n` as line ends, as a text box has them.
    pub text: String,
    /// Of what lies on the disk; to be handed back with the next save.
    pub state: String,
}

/// A text from the box.
#[derive(Debug, Deserialize)]
pub struct Draft {
    pub file: String,
    pub text: String,
    /// What the box was filled from; may be left out for a check.
    #[serde(default)]
    pub state: String,
}

/// Why a text was not saved or opened.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Refusal {
    /// No file of the workspace.
    Unknown,
    /// The file has another text now.
    Changed,
    /// It cannot be read or written; a sentence.
    Trouble(String),
}

/// The file as it lies on the disk now.
///
/// # Errors
/// Where it is none of the workspace, or cannot be read.
pub fn open(shop: &Shop, name: &str) -> Result<Opened, Refusal> {
    let text = read(shop, name)?;
    let state = state(&text);
    let text = text.strip_prefix(BOM).unwrap_or(&text).replace("\r\n", "\n");
    Ok(Opened { file: name.to_owned(), text, state })
}

/// What is wrong with the text, before it is saved.
///
/// # Errors
/// Where the file is none of the workspace.
pub fn check(shop: &Shop, draft: &Draft) -> Result<Vec<Told>, Refusal> {
    let (workspace, id) = shop.file(&draft.file).ok_or(Refusal::Unknown)?;
    let source = SourceFile::new(id, draft.file.as_str(), draft.text.as_str());
    let compiled = compile(&source, &workspace::surroundings(&workspace));
    Ok(told(&compiled, &workspace, &source))
}

/// Writes the text, with the line ends that the file had. Gives the new state.
///
/// # Errors
/// Where the file is not as the box was filled from, or cannot be written: then it stays as it is.
pub fn save(shop: &Shop, draft: &Draft) -> Result<String, Refusal> {
    let before = read(shop, &draft.file)?;
    if state(&before) != draft.state {
        return Err(Refusal::Changed);
    }
    let mut text = draft.text.replace("\r\n", "\n");
    // A file with both kinds gets the plain one.
    if before.contains("\r\n") && before.matches('\n').count() == before.matches("\r\n").count() {
        text = text.replace('\n', "\r\n");
    }
    if before.starts_with(BOM) {
        text.insert(0, BOM);
    }
    let path = shop.root().join(&draft.file);
    files::save(shop.root(), &path, &before, &text)
        .map_err(|error| Refusal::Trouble(format!("{} cannot be written: {error}", draft.file)))?;
    shop.look();
    Ok(state(&text))
}

/// Only what the workspace lists: no path of the caller's own.
fn read(shop: &Shop, name: &str) -> Result<String, Refusal> {
    let (workspace, id) = shop.file(name).ok_or(Refusal::Unknown)?;
    let name = workspace.name(id);
    files::read_inside(shop.root(), &workspace.path(name), name)
        .map_err(|trouble| Refusal::Trouble(with_help(&trouble)))
}

fn state(text: &str) -> String {
    Sha256::digest(text.as_bytes()).iter().map(|byte| format!("{byte:02x}")).collect()
}
