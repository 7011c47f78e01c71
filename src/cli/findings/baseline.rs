//! Findings that are known and set aside, so that only new ones fail.
//!
//! A JSON file: `{"version": 1, "findings": [{"fingerprint", "rule", "file", "message"}]}`. Only the fingerprint is
//! looked at; the rest is for whoever reads it. It is written only where that is asked for.
use super::Told;
use crate::workspace::files;
use crate::workspace::trouble::Trouble;
use serde::{Deserialize, Serialize};
use std::collections::HashSet;
use std::path::Path;

#[derive(Debug, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Baseline {
    version: u32,
    findings: Vec<Known>,
}

#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Known {
    /// Relative to the workspace.
    file: String,
    rule: String,
    fingerprint: String,
    message: String,
}

/// How the run stands to what was known.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Standing {
    pub known: usize,
    pub new: usize,
    /// Known ones of files that were looked at, which are there no more.
    pub mended: usize,
}

impl Baseline {
    /// Reads the file; where it is to be written anew it may be missing.
    pub fn open(path: &Path, anew: bool) -> Result<Baseline, Trouble> {
        let shown = path.to_string_lossy();
        if anew && !path.exists() {
            return Ok(Baseline { version: 1, findings: Vec::new() });
        }
        let help = "`--update-baseline` writes it anew";
        let text = files::read(path, &shown).map_err(|trouble| trouble.help(help))?;
        let read: Baseline = serde_json::from_str(&text).map_err(|error| {
            let message = format!("is no list of known findings: {error}");
            Trouble::new(shown.clone(), message)
                .help("take it away, and let `--update-baseline` write it anew")
        })?;
        match read.version {
            1 => Ok(read),
            other => Err(Trouble::new(shown, format!("is of version {other}, and only 1 is known"))),
        }
    }

    /// Whether the finding is known.
    pub fn knows(&self) -> impl Fn(&Told) -> bool + use<> {
        let known: HashSet<String> = self.findings.iter().map(|it| it.fingerprint.clone()).collect();
        move |told| known.contains(&told.fingerprint)
    }

    /// `looked_at` are the files of the run, relative to the workspace.
    pub fn standing(&self, told: &[Told], looked_at: &HashSet<String>) -> Standing {
        let knows = self.knows();
        let found: HashSet<&str> = told.iter().map(|it| it.fingerprint.as_str()).collect();
        let known = told.iter().filter(|it| knows(it)).count();
        let gone = |it: &&Known| looked_at.contains(&it.file) && !found.contains(it.fingerprint.as_str());
        Standing { known, new: told.len() - known, mended: self.findings.iter().filter(gone).count() }
    }

    /// Takes in all findings of the files that were looked at, and lets go of theirs that are mended.
    pub fn update(&mut self, told: &[Told], looked_at: &HashSet<String>) {
        self.findings.retain(|it| !looked_at.contains(&it.file));
        self.findings.extend(told.iter().map(|told| Known {
            file: told.name.clone(),
            rule: told.rule.to_owned(),
            fingerprint: told.fingerprint.clone(),
            message: super::one_line(&told.message),
        }));
        self.findings.sort();
    }

    /// Whole or not at all.
    pub fn write(&self, path: &Path) -> Result<(), Trouble> {
        let shown = path.to_string_lossy();
        let failed =
            |error: std::io::Error| Trouble::new(shown.clone(), format!("cannot be written: {error}"));
        let text = serde_json::to_string_pretty(self).unwrap_or_default() + "\n";
        files::write(path, text.as_bytes()).map_err(failed)
    }
}
