//! Paths as text: made absolute and tidy without asking the disk, and shown as short as they can be.
use std::path::{Component, Path, PathBuf};

/// `path` seen from `here`, without `.` and `..`. Links are not followed: a path means what it says.
pub fn tidy(here: &Path, path: &Path) -> PathBuf {
    let mut tidied = PathBuf::new();
    for component in here.join(path).components() {
        match component {
            Component::CurDir => {}
            Component::ParentDir => {
                tidied.pop();
            }
            other => tidied.push(other),
        }
    }
    tidied
}

/// The parts of a relative path joined by forward slashes.
pub fn slashed(path: &Path) -> String {
    let tidy = |text: &&str| !text.split('/').any(|part| part.is_empty() || part == ".");
    // Every file of a shop is named so at each run.
    if let Some(text) = path.to_str().filter(|_| std::path::MAIN_SEPARATOR == '/').filter(tidy) {
        return text.to_owned();
    }
    let parts: Vec<_> = path.components().map(|part| part.as_os_str().to_string_lossy()).collect();
    parts.join("/")
}

/// Whether a character may change how what follows it looks on a terminal.
pub fn harmful(c: char) -> bool {
    let reorders = matches!(c, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}' | '\u{200e}' | '\u{200f}');
    (c.is_control() && !matches!(c, '\n' | '\t')) || reorders
}

/// A name as it can be printed: on one line, and with nothing in it that steers a terminal.
pub fn printable(name: &str) -> String {
    name.chars().map(|c| if c.is_control() || harmful(c) { '?' } else { c }).collect()
}

/// `path` as a user in folder `here` would write it. Both are absolute and tidy.
pub fn shown(here: &Path, path: &Path) -> String {
    if let Ok(below) = path.strip_prefix(here) {
        let name = slashed(below);
        return if name.is_empty() { ".".to_owned() } else { name };
    }
    let mut up = String::new();
    for folder in here.ancestors().skip(1) {
        up.push_str("../");
        // At the root nothing is gained: the absolute path is shorter and clearer.
        if folder.parent().is_none() {
            break;
        }
        if let Ok(below) = path.strip_prefix(folder) {
            return format!("{up}{}", slashed(below));
        }
    }
    path.to_string_lossy().into_owned()
}
