//! Which sheets of an earlier build still stand: made from the same sources in the same way, and not touched since.
use super::linked::owners;
use super::publish::{INDEX, Output, Written, folder_name};
use super::workspace::Survey;
use super::workspace::store::{Digest, Kept, Seen};
use crate::sheets::{Linked, index};
use crate::source::FileId;
use rayon::prelude::*;
use serde::{Deserialize, Serialize};
use std::collections::{BTreeMap, HashMap};
use std::path::Path;
use std::sync::{Mutex, PoisonError};
use std::time::SystemTime;

/// What one output folder holds, by the names of the source files.
#[derive(Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Sheets {
    procedures: BTreeMap<String, Made>,
    list: Option<List>,
}

/// The sheets of one procedure.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Made {
    /// Of all that the findings hang on; a sheet with findings is made anew each time.
    key: Digest,
    /// How it was asked for.
    manner: Digest,
    /// Whether the procedures that it calls had pages to link to.
    links: Vec<(String, bool)>,
    pub entry: index::Entry,
    files: Vec<(String, Seen)>,
}

/// The list of all procedures: what it was made from, and what it was.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
struct List {
    from: Digest,
    seen: Seen,
}

/// What is known of an output folder, and what later builds will know.
pub struct KnownSheets {
    kept: Kept<Sheets>,
    manner: Digest,
    /// Before any sheet was looked at.
    started: SystemTime,
}

impl KnownSheets {
    /// `manner`: how sheets are asked for, in any words that differ where they do.
    pub fn open(folder: &Path, output: &Output, manner: &str) -> KnownSheets {
        let started = SystemTime::now();
        let kept = Kept::open(folder, &output.folder, "sheets");
        KnownSheets { kept, manner: Digest::of(manner.as_bytes()), started }
    }

    /// The procedures whose sheets need not be made, with what was made of them. No other file claims their folders.
    pub fn standing(&self, survey: &Survey, output: &Output) -> HashMap<FileId, Made> {
        let owners = owners(survey.workspace());
        let stands = |&id: &FileId| {
            let name = survey.workspace().name(id);
            let made = self.kept.value.procedures.get(name)?;
            let same = survey.known().is_clean(id)
                && owners.get(&made.entry.number.to_ascii_lowercase()).is_some_and(|owner| owner == name)
                && survey.known().key(id) == Some(made.key)
                && made.manner == self.manner
                && output.has_folder(&made.entry.number)
                && made.links.iter().all(|(number, had)| *had && output.has(number));
            let (folder, mut made) = (output.folder.join(&made.entry.number), made.clone());
            for (name, seen) in made.files.iter_mut().filter(|_| same) {
                *seen = seen.again(&folder.join(name))?;
            }
            (same && folder_name(&made.entry.number).is_ok()).then_some((id, made))
        };
        survey.files().par_iter().filter_map(stands).collect()
    }

    /// The line of a procedure whose file is as it was when its sheets were made, and was without findings then.
    pub fn entry(&self, survey: &Survey, id: FileId) -> Option<&index::Entry> {
        let made = self.kept.value.procedures.get(survey.workspace().name(id))?;
        let known = survey.known();
        (known.is_clean(id) && known.key(id) == Some(made.key)).then_some(&made.entry)
    }

    /// Whether the list need not be made.
    pub fn list_stands(&self, from: Digest, output: &Output) -> bool {
        let list = self.kept.value.list.filter(|list| list.from == from);
        list.is_some_and(|list| list.seen.again(&output.folder.join(INDEX)).is_some())
    }

    /// Keeps what now stands for later builds; what is known of other files stays where only some were asked for.
    pub fn save(mut self, made: BTreeMap<String, Made>, list: Option<(Digest, Seen)>, is_whole: bool) {
        let now = self.started;
        let settled = |mut made: Made| {
            made.files.iter_mut().for_each(|(_, seen)| *seen = seen.settled(now));
            made
        };
        let Sheets { procedures, list: listed } = &mut self.kept.value;
        let known_before = procedures.len();
        if is_whole {
            procedures.retain(|name, _| made.contains_key(name));
        }
        let mut is_new = procedures.len() != known_before;
        for (name, made) in made {
            let made = settled(made);
            if procedures.get(&name) != Some(&made) {
                procedures.insert(name, made);
                is_new = true;
            }
        }
        let list = list.map(|(from, seen)| List { from, seen }).or(*listed);
        let list = list.map(|list| List { seen: list.seen.settled(now), ..list });
        if is_new || list != *listed {
            *listed = list;
            self.kept.save();
        }
    }

    /// What was just made of a procedure without findings.
    pub fn made(
        &self,
        key: Digest,
        links: &Asking<'_>,
        entry: index::Entry,
        files: Vec<(String, Seen)>,
    ) -> Made {
        Made { key, manner: self.manner, links: links.asked(), entry, files }
    }
}

impl Made {
    /// The names of its files.
    pub fn names(&self) -> Vec<&str> {
        self.files.iter().map(|(name, _)| name.as_str()).collect()
    }
}

/// What was written, as later builds will see it. What is new has no stamp: somebody may have come in between.
pub fn seen(written: Written, bytes: &[u8]) -> Seen {
    let stamp = match written {
        Written::Changed => None,
        Written::Same(stamp) => stamp,
    };
    Seen::new(stamp, bytes)
}

/// Takes note of the links that the sheets of one procedure ask for.
pub struct Asking<'a> {
    pages: &'a dyn Linked,
    asked: Mutex<BTreeMap<String, bool>>,
}

impl<'a> Asking<'a> {
    pub fn new(pages: &'a dyn Linked) -> Asking<'a> {
        Asking { pages, asked: Mutex::default() }
    }

    fn asked(&self) -> Vec<(String, bool)> {
        let asked = self.asked.lock().unwrap_or_else(PoisonError::into_inner);
        asked.iter().map(|(number, has)| (number.clone(), *has)).collect()
    }
}

impl Linked for Asking<'_> {
    fn has_page(&self, number: &str) -> bool {
        let has = self.pages.has_page(number);
        self.asked.lock().unwrap_or_else(PoisonError::into_inner).insert(number.to_owned(), has);
        has
    }
}
