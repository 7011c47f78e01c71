//! Reads `cotter.toml`; what is wrong with it is told with its place.
use super::files;
use super::trouble::Trouble;
use crate::checks;
use crate::model::Settings;
use crate::source::{FileId, SourceFile};
use std::ops::Range;
use std::path::Path;
use toml::de::DeTable;

/// The name of the file that makes its folder a workspace.
pub const FILE_NAME: &str = "cotter.toml";

/// The settings of the workspace at `root`; the defaults where it has none.
pub fn load(root: &Path, shown: &str) -> Result<Settings, Trouble> {
    let path = root.join(FILE_NAME);
    if !path.is_file() {
        return Ok(Settings::default());
    }
    read(&files::read(&path, shown)?, shown)
}

/// Settings from the text of a `cotter.toml`.
pub fn read(text: &str, shown: &str) -> Result<Settings, Trouble> {
    let settings: Settings = toml::from_str(text).map_err(|error| {
        trouble(text, shown, error.span(), error.message().trim())
            .help("mend it first: it holds for every file here, so none was looked at")
    })?;
    match checks::misconfigured(&settings) {
        Some((rule, message, help)) => {
            Err(trouble(text, shown, place_of_rule(text, rule), &message).help(help))
        }
        None => Ok(settings),
    }
}

/// The house's own catalogue cannot be used: `why` is the tail of a sentence.
pub fn unusable_cautions(root: &Path, shown: &str, written: &str, why: &str) -> Trouble {
    let text = files::read(&root.join(FILE_NAME), shown).unwrap_or_default();
    let message = format!("the house's `cautions`, `{written}`, cannot be used: {why}");
    trouble(&text, shown, place_of_cautions(&text), &message).help(
        "name a catalogue of this workspace or take the line out: every procedure draws on it, so none was looked at",
    )
}

/// Where the settings say which catalogue it is.
fn place_of_cautions(text: &str) -> Option<Range<usize>> {
    let table = DeTable::parse(text).ok()?;
    let (_, path) = table.get_ref().iter().find(|(key, _)| key.get_ref() == "cautions")?;
    Some(path.span())
}

/// Where `[rules]` has that key.
fn place_of_rule(text: &str, rule: &str) -> Option<Range<usize>> {
    let table = DeTable::parse(text).ok()?;
    let (_, rules) = table.get_ref().iter().find(|(key, _)| key.get_ref() == "rules")?;
    let keys = rules.get_ref().as_table()?;
    keys.keys().find(|key| key.get_ref() == rule).map(|key| key.span())
}

fn trouble(text: &str, shown: &str, span: Option<Range<usize>>, message: &str) -> Trouble {
    let trouble = Trouble::new(shown, message.replace('\n', ", "));
    match span.and_then(|span| u32::try_from(span.start).ok()) {
        Some(start) => trouble.at(SourceFile::new(FileId::default(), "", text).line_column(start)),
        None => trouble,
    }
}
