//! Reads `cotter.toml`; what is wrong with it is told with its place.
use super::files;
use super::trouble::Trouble;
use crate::checks;
use crate::model::Settings;
use crate::model::settings::NEWEST_EDITION;
use crate::model::verb::Verb;
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
    // Before all else: a newer edition may have settings and words that are not known here.
    readable(text, shown)?;
    let settings: Settings = toml::from_str(text).map_err(|error| {
        trouble(text, shown, error.span(), &plainly(error.message().trim()))
            .help("mend it first: it holds for every file here, so none was looked at")
    })?;
    if let Some((rule, message, help)) = checks::misconfigured(&settings) {
        return Err(trouble(text, shown, place_of(text, "rules", rule), &message).help(help));
    }
    if let Some((own, verb)) = settings.verbs.iter().find(|(_, verb)| Verb::find(verb).is_none()) {
        let message = format!("`{own}` is to mean `{verb}`, and there is no such verb");
        return Err(trouble(text, shown, place_of(text, "verbs", own), &message).help(near_verb(verb)));
    }
    Ok(settings)
}

/// Whether the files are of an edition of the language that this program reads.
fn readable(text: &str, shown: &str) -> Result<(), Trouble> {
    let Ok(table) = DeTable::parse(text) else { return Ok(()) };
    let Some((_, value)) = table.get_ref().iter().find(|(key, _)| key.get_ref() == "edition") else {
        return Ok(());
    };
    let Some(written) = value.get_ref().as_integer() else { return Ok(()) };
    let edition = i128::from_str_radix(written.as_str(), written.radix()).ok();
    let told = |message: &str, help: &str| Err(trouble(text, shown, Some(value.span()), message).help(help));
    match edition {
        Some(edition) if (1..=i128::from(NEWEST_EDITION)).contains(&edition) => Ok(()),
        Some(edition) if edition < 1 => told(
            &format!("there is no edition {edition} of the language: editions count from 1"),
            &format!(
                "write `edition = {NEWEST_EDITION}`, the newest, or take the line out: without it the files are read as edition 1"
            ),
        ),
        _ => told(
            &format!(
                "the files are written in edition {written} of the language, and this program, {}, reads up to edition {NEWEST_EDITION}",
                env!("CARGO_PKG_VERSION"),
                written = written.as_str(),
            ),
            "install a newer Cotter; with the line taken out or lowered the same words could come to mean something else",
        ),
    }
}

/// In words of those who write settings, not of those who write programs.
fn plainly(message: &str) -> String {
    let other_kind = message.strip_prefix("invalid type: ").and_then(|it| it.split_once(", expected "));
    if let Some((found, wanted)) = other_kind {
        let wanted = match wanted {
            "u8" | "u16" | "u32" | "u64" => "a whole number",
            "a string" => "a text in quotes",
            "a boolean" => "`true` or `false`",
            other => other,
        };
        let found = ["string ", "integer ", "floating point ", "boolean "]
            .iter()
            .find_map(|kind| found.strip_prefix(kind))
            .unwrap_or(found);
        return format!("{wanted} belongs here, not {found}");
    }
    let words = [
        ("unknown field", "there is no setting"),
        ("unknown variant", "there is no word"),
        (", expected one of", " here; one of these can stand:"),
        (", expected", " here; this can stand:"),
    ];
    words.iter().fold(message.to_owned(), |message, (theirs, ours)| message.replacen(theirs, ours, 1))
}

fn near_verb(verb: &str) -> String {
    let near = Verb::words().min_by_key(|word| strsim::osa_distance(word, verb));
    match near.filter(|word| strsim::osa_distance(word, verb) <= 2) {
        Some(near) => format!("did you mean `{near}`?"),
        None => "name a verb of the language reference".to_owned(),
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

/// Where `[table]` has that key.
fn place_of(text: &str, table: &str, wanted: &str) -> Option<Range<usize>> {
    let all = DeTable::parse(text).ok()?;
    let (_, table) = all.get_ref().iter().find(|(key, _)| key.get_ref() == table)?;
    let keys = table.get_ref().as_table()?;
    keys.keys().find(|key| key.get_ref() == wanted).map(|key| key.span())
}

fn trouble(text: &str, shown: &str, span: Option<Range<usize>>, message: &str) -> Trouble {
    let trouble = Trouble::new(shown, message.replace('\n', ", "));
    match span.and_then(|span| u32::try_from(span.start).ok()) {
        Some(start) => trouble.at(SourceFile::new(FileId::default(), "", text).line_column(start)),
        None => trouble,
    }
}
