//! Writes pages: whole or not at all, only where something changed, and never outside the chosen folder.
use super::files;
use super::trouble::Trouble;
use super::workspace::store::Stamp;
use std::fs::Metadata;
use std::io;
use std::path::{Path, PathBuf};

/// Longer numbers make paths that some file systems refuse.
const LONGEST: usize = 100;

/// Names that are devices on Windows, with or without an extension.
const DEVICES: &[&str] = &["con", "prn", "aux", "nul"];

/// What became of a page.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Written {
    Changed,
    /// As it was; with its stamp from before it was held against what is made.
    Same(Option<Stamp>),
}

/// The folder that a build writes into.
#[derive(Debug)]
pub struct Output {
    pub folder: PathBuf,
    /// As the user would write it.
    pub shown: String,
}

impl Output {
    /// Writes `folder/name` below the output folder; an empty `folder` means the output folder itself.
    pub fn write(&self, folder: &str, name: &str, bytes: &[u8]) -> Result<Written, Trouble> {
        let place = self.folder.join(folder);
        let shown = if folder.is_empty() { name.to_owned() } else { format!("{folder}/{name}") };
        self.enter(folder, &place)
            .and_then(|()| replace(&place, name, bytes))
            .map_err(|error| refused(format!("{}/{shown}", self.shown), &error))
    }

    /// Takes away what a build that was stopped in the middle left behind among the sheets of these procedures.
    pub fn clear<'n>(&self, numbers: impl Iterator<Item = &'n str>) {
        files::clear_unfinished(&self.folder);
        for number in numbers.filter(|number| folder_name(number).is_ok()) {
            if self.has_folder(number) {
                files::clear_unfinished(&self.folder.join(number));
            }
        }
    }

    /// Whether the folder of its sheets is there, and no link.
    pub fn has_folder(&self, number: &str) -> bool {
        std::fs::symlink_metadata(self.folder.join(number)).is_ok_and(|meta| meta.is_dir())
    }

    /// Whether the procedure has a bench sheet here already.
    pub fn has(&self, number: &str) -> bool {
        self.folder.join(number).join(BENCH).is_file()
    }

    /// Sheets of the procedure that only some builds make, which lie here and are not among `made`: they are of an
    /// earlier build, and may say what no longer holds.
    pub fn outdated(&self, number: &str, made: &[&str]) -> Vec<String> {
        let pages = [CHECKLIST, ASSESSMENT, KIT, HANDOUT_CHECKLIST, ANSWERS];
        let pdfs = pages.iter().filter_map(|page| Some(format!("{}.pdf", page.strip_suffix(".html")?)));
        let handouts = [HANDOUT, HANDOUT_CHECKLIST, ANSWERS].map(str::to_owned);
        let perhaps = handouts.into_iter().chain(pdfs);
        let old =
            |name: &String| !made.contains(&name.as_str()) && self.folder.join(number).join(name).is_file();
        perhaps.filter(old).map(|name| format!("{number}/{name}")).collect()
    }

    /// Folders with sheets that `known` does not claim, sorted.
    pub fn strangers(&self, known: impl Fn(&str) -> bool) -> Vec<String> {
        let entries = std::fs::read_dir(&self.folder).into_iter().flatten().flatten();
        let mut names: Vec<String> = entries
            .filter_map(|entry| entry.file_name().into_string().ok())
            .filter(|name| !known(name) && self.has(name))
            .collect();
        names.sort();
        names
    }

    /// Makes the folder. A link at its place may lead anywhere, so it is refused.
    fn enter(&self, folder: &str, place: &Path) -> io::Result<()> {
        if !folder.is_empty() && std::fs::symlink_metadata(place).is_ok_and(|meta| meta.is_symlink()) {
            return Err(io::Error::other("its folder is a link, which may lead out of the output folder"));
        }
        std::fs::create_dir_all(place)
    }
}

/// The page people work from.
pub const BENCH: &str = "bench.html";
/// The page people print and sign.
pub const CHECKLIST: &str = "checklist.html";
/// The page people teach from.
pub const INSTRUCTOR: &str = "instructor.html";
/// The page people are judged by.
pub const ASSESSMENT: &str = "assessment.html";
/// What to order and lay out.
pub const KIT: &str = "kit.html";
/// The procedure for other programs.
pub const MACHINE: &str = "procedure.json";
/// What every build makes besides the bench sheet, to be opened.
pub const ALWAYS: [&str; 4] = [CHECKLIST, INSTRUCTOR, ASSESSMENT, KIT];
/// The pages of learners, with blanks, and what the blanks stand for.
pub const HANDOUT: &str = "handout.html";
pub const HANDOUT_CHECKLIST: &str = "handout-checklist.html";
pub const ANSWERS: &str = "answers.html";
/// What is made for paper, and so as PDF where that is asked for.
#[cfg(feature = "pdf")]
pub const PRINTED: [&str; 5] = [CHECKLIST, ASSESSMENT, KIT, HANDOUT_CHECKLIST, ANSWERS];
/// The list of all procedures.
pub const INDEX: &str = super::workspace::collect::LIST;

/// Whether a procedure's number can name a folder everywhere; else why not.
pub fn folder_name(number: &str) -> Result<(), &'static str> {
    let fits = |c: char| c.is_ascii_alphanumeric() || matches!(c, '-' | '_' | '.');
    let stem = number.split('.').next().unwrap_or("").to_ascii_lowercase();
    let port = stem.strip_prefix("com").or_else(|| stem.strip_prefix("lpt"));
    if number.is_empty() || number.len() > LONGEST {
        Err("it has no letters, or more than 100")
    } else if !number.chars().all(fits) {
        Err("only letters A to Z, digits, `-`, `_` and `.` can stand in it")
    } else if !number.starts_with(|c: char| c.is_ascii_alphanumeric()) || number.ends_with('.') {
        Err("it must begin with a letter or digit, and not end in a dot")
    } else if DEVICES.contains(&stem.as_str()) || port.is_some_and(|p| p.len() == 1 && p != "0") {
        Err("it is the name of a device on some computers")
    } else if number.eq_ignore_ascii_case(INDEX) {
        Err("it is the name of the list of procedures")
    } else {
        Ok(())
    }
}

fn replace(folder: &Path, name: &str, bytes: &[u8]) -> io::Result<Written> {
    let path = folder.join(name);
    let stamp = Stamp::of(&path);
    // Whatever else stands there may be endless, and is replaced.
    let comparable = |meta: Metadata| meta.is_file() && meta.len() == bytes.len() as u64;
    if std::fs::symlink_metadata(&path).is_ok_and(comparable)
        && std::fs::read(&path).is_ok_and(|old| old == bytes)
    {
        return Ok(Written::Same(stamp));
    }
    files::write(&path, bytes)?;
    Ok(Written::Changed)
}

fn refused(shown: String, error: &io::Error) -> Trouble {
    match error.kind() {
        io::ErrorKind::PermissionDenied | io::ErrorKind::ReadOnlyFilesystem => {
            Trouble::new(shown, "may not be written")
                .help("give yourself the right to write there, or choose another folder with `--output`")
        }
        io::ErrorKind::StorageFull | io::ErrorKind::QuotaExceeded | io::ErrorKind::FileTooLarge => {
            Trouble::new(shown, "cannot be written: there is no room left for it")
                .help("make room and build again; what was there before is still whole")
        }
        io::ErrorKind::NotADirectory | io::ErrorKind::AlreadyExists => Trouble::new(
            shown,
            "cannot be written: a file, or a link that leads nowhere, stands where its folder should be",
        )
        .help("take it away, or choose another folder with `--output`"),
        io::ErrorKind::IsADirectory => {
            Trouble::new(shown, "cannot be written: a folder stands in its place").help("take it away")
        }
        _ => Trouble::new(shown, format!("cannot be written: {error}")),
    }
}
