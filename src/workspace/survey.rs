//! A workspace held against what earlier runs know of it: which files are surely as they were found, and without
//! findings. Only what the others draw on is then read.
use super::store::{Digest, Kept, Keys, Needs, Record, Records, Seen, Stamp, base, needs};
use super::trouble::Trouble;
use super::{Asked, Ground, OpenTexts, Reach, Selection, Workspace, files, outline, pictures};
use crate::source::FileId;
use rayon::prelude::*;
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::SystemTime;

/// A workspace whose files are known by their outlines; nothing that they share has been read.
pub struct Survey {
    ground: Ground,
    known: Known,
    needs: Vec<Needs>,
}

/// What is known of the files of one run, for this run and for later ones.
pub struct Known {
    kept: Kept<Records>,
    /// By the files' ids; none for what could not be read.
    records: Vec<Option<Box<Record>>>,
    pictures: BTreeMap<String, Option<Seen>>,
    keys: Vec<Option<Digest>>,
    /// Whether later runs would know more than is kept.
    is_new: bool,
    /// Before anything was looked at.
    started: SystemTime,
}

/// The digests of what was seen at the start of a run: whatever is read again must be the same.
#[derive(Debug, Default)]
pub struct Watch {
    sources: Vec<Option<Digest>>,
    pictures: BTreeMap<String, Option<Digest>>,
    torn: AtomicBool,
}

impl Watch {
    /// Holds what was read of a source, none where it could not be, against what was seen of it. Nothing is kept of what
    /// draws on a file without an id.
    pub fn source(&self, id: Option<FileId>, text: Option<&str>) {
        if let Some(seen) = id.and_then(|id| self.sources.get(id.0 as usize)) {
            self.hold(*seen, text.map(str::as_bytes));
        }
    }

    /// The same for a picture, relative to the workspace.
    pub fn picture(&self, path: &str, bytes: Option<&[u8]>) {
        if let Some(seen) = self.pictures.get(path) {
            self.hold(*seen, bytes);
        }
    }

    fn hold(&self, seen: Option<Digest>, bytes: Option<&[u8]>) {
        if seen != bytes.map(Digest::of) {
            self.torn.store(true, Ordering::Relaxed);
        }
    }

    /// Whether something changed while the run went on: what it found belongs to no one state of the files.
    fn is_torn(&self) -> bool {
        self.torn.load(Ordering::Relaxed)
    }
}

impl Survey {
    /// Looks the files up that were asked for; `folder` is where stores are kept.
    ///
    /// # Errors
    /// Where the settings cannot be used.
    pub fn open(here: &Path, asked: &Asked, folder: &Path) -> Result<Survey, Box<Trouble>> {
        let mut ground = Ground::of(here, asked, Reach::All, OpenTexts::new())?;
        let kept: Kept<Records> = Kept::open(folder, &asked.root, "sources");
        let workspace = &mut ground.workspace;
        let mut known = Known::of(workspace, kept);
        let outlines = known.records.iter().map(|record| record.as_ref().map(|it| &it.outline));
        workspace.enter(outlines);
        let none = outline::Outline::default();
        let needs: Vec<Needs> = workspace
            .ids()
            .zip(&known.records)
            .map(|(id, record)| needs(workspace, id, record.as_ref().map_or(&none, |it| &it.outline)))
            .collect();
        known.look_at_pictures(workspace, &needs);
        known.find_keys(workspace, &needs);
        workspace.watch = Some(known.watch());
        Ok(Survey { ground, known, needs })
    }

    pub fn workspace(&self) -> &Workspace {
        &self.ground.workspace
    }

    /// Those asked for, sorted.
    pub fn files(&self) -> &[FileId] {
        &self.ground.files
    }

    pub fn known(&self) -> &Known {
        &self.known
    }

    /// Whether every source of the workspace was asked for.
    pub fn is_whole(&self) -> bool {
        self.ground.files.len() == self.ground.workspace.names.len()
    }

    /// Reads what these files draw on. No other file can be compiled then.
    ///
    /// # Errors
    /// Where the house's own catalogue cannot be used.
    pub fn read_for(
        self,
        wanted: &BTreeSet<FileId>,
    ) -> Result<(Selection, Known, Vec<Trouble>), Box<Trouble>> {
        let mut all = wanted.clone();
        let mut open: Vec<FileId> = wanted.iter().copied().collect();
        while let Some(id) = open.pop() {
            let sources = self.needs.get(id.0 as usize).map(|needs| &needs.sources);
            open.extend(sources.into_iter().flatten().filter(|id| all.insert(**id)));
        }
        let record = |id: &FileId| self.known.records.get(id.0 as usize)?.as_deref();
        let outlines: Vec<_> = all.iter().filter_map(|id| Some((*id, &record(id)?.outline))).collect();
        let Ground { mut workspace, files, troubles } = self.ground;
        workspace.share(&outlines)?;
        Ok((Selection { workspace, files }, self.known, troubles))
    }
}

impl Known {
    fn of(workspace: &Workspace, mut kept: Kept<Records>) -> Known {
        let started = SystemTime::now();
        let outside = Outside::of(workspace);
        let old = std::mem::take(&mut kept.value.sources);
        let known_before = old.len();
        // Both are sorted.
        let mut old = old.into_iter().peekable();
        let mut before = |name: &String| {
            while old.next_if(|(earlier, _)| earlier < name).is_some() {}
            let record = old.next_if(|(same, _)| same == name).map(|(_, record)| record);
            record.filter(|_| !outside.holds(name))
        };
        let names: Vec<_> = workspace.names.iter().map(|name| (name, before(name))).collect();
        let looked_up: Vec<_> =
            names.into_par_iter().map(|(name, before)| record(workspace, name, before)).collect();
        let is_new =
            looked_up.iter().any(|it| it.as_ref().is_none_or(|it| it.1)) || known_before != looked_up.len();
        let records = looked_up.into_iter().map(|it| Some(it?.0)).collect();
        Known { kept, records, pictures: BTreeMap::new(), keys: Vec::new(), is_new, started }
    }

    fn look_at_pictures(&mut self, workspace: &Workspace, needs: &[Needs]) {
        let wanted: BTreeSet<&String> = needs.iter().flat_map(|it| &it.pictures).collect();
        let old = &self.kept.value.pictures;
        let seen = |name: &&String| {
            let path = workspace.path(name);
            let (stamp, before) = (Stamp::of(&path), old.get(*name));
            let is_inside = !files::leads_out(&workspace.root, &path);
            match before.filter(|before| is_inside && before.is_stamped(stamp)) {
                Some(before) => Some(*before),
                None => pictures::bytes(workspace, name).map(|bytes| Seen::new(stamp, &bytes)),
            }
        };
        let seen: Vec<_> = wanted.par_iter().map(|name| ((*name).clone(), seen(name))).collect();
        let differs = |(name, now): &(String, Option<Seen>)| now.as_ref() != old.get(name);
        self.is_new |= seen.len() != old.len() || seen.iter().any(differs);
        self.pictures = seen.into_iter().collect();
    }

    fn find_keys(&mut self, workspace: &Workspace, needs: &[Needs]) {
        let Watch { sources, pictures, .. } = self.watch();
        let base = base(workspace);
        let keys = Keys { workspace, needs, digests: &sources, pictures: &pictures, base };
        let ids: Vec<FileId> = workspace.ids().collect();
        self.keys = ids.par_iter().map(|&id| keys.of(id)).collect();
    }

    fn watch(&self) -> Watch {
        let sources = self.records.iter().map(|it| it.as_ref().map(|it| it.seen.digest())).collect();
        let pictures = self.pictures.iter().map(|(name, it)| (name.clone(), it.map(|it| it.digest())));
        Watch { sources, pictures: pictures.collect(), torn: AtomicBool::new(false) }
    }

    /// The digest of all that the file's findings hang on; none where nothing may be kept of it.
    pub fn key(&self, id: FileId) -> Option<Digest> {
        self.keys.get(id.0 as usize).copied().flatten()
    }

    /// Whether the file is surely without findings.
    pub fn is_clean(&self, id: FileId) -> bool {
        let record = self.records.get(id.0 as usize).and_then(Option::as_ref);
        self.key(id).is_some() && record.is_some_and(|record| record.clean == self.key(id))
    }

    /// Whether it is surely a catalogue without findings, of which no sheet is made.
    pub fn is_clean_catalogue(&self, id: FileId) -> bool {
        let record = self.records.get(id.0 as usize).and_then(Option::as_ref);
        self.is_clean(id) && record.is_some_and(|record| record.outline.procedure.is_none())
    }

    /// Takes note of a file without findings.
    fn note_clean(&mut self, id: FileId) {
        let key = self.key(id);
        if let Some(Some(record)) = self.records.get_mut(id.0 as usize)
            && record.clean != key
        {
            record.clean = key;
            self.is_new = true;
        }
    }

    /// Keeps for later runs which files were found clean. Whether what the run found may be kept: not where a file
    /// changed while it went on.
    pub fn save(mut self, workspace: &Workspace, clean: impl IntoIterator<Item = FileId>) -> bool {
        if workspace.watch.as_ref().is_none_or(Watch::is_torn) {
            return false;
        }
        clean.into_iter().for_each(|id| self.note_clean(id));
        if !self.is_new {
            return true;
        }
        let now = self.started;
        let sources = workspace.names.iter().zip(self.records).filter_map(|(name, record)| {
            let mut record = record?;
            record.seen = record.seen.settled(now);
            Some((name.clone(), record))
        });
        let pictures = self.pictures.into_iter().filter_map(|(name, seen)| Some((name, seen?.settled(now))));
        self.kept.value = Records { sources: sources.collect(), pictures: pictures.collect() };
        self.kept.save();
        true
    }
}

/// Folders of the workspace that are links out of it: what lies there keeps its stamps, and must not be shown.
struct Outside(BTreeSet<PathBuf>);

impl Outside {
    fn of(workspace: &Workspace) -> Outside {
        let folders: BTreeSet<&Path> =
            workspace.names.iter().filter_map(|name| Path::new(name).parent()).collect();
        let leads_out = |folder: &&Path| files::leads_out(&workspace.root, &workspace.root.join(folder));
        Outside(folders.into_iter().filter(leads_out).map(Path::to_path_buf).collect())
    }

    fn holds(&self, name: &str) -> bool {
        !self.0.is_empty() && Path::new(name).parent().is_some_and(|folder| self.0.contains(folder))
    }
}

/// What is known of a source now, and whether that is new.
fn record(workspace: &Workspace, name: &str, before: Option<Box<Record>>) -> Option<(Box<Record>, bool)> {
    let path = workspace.path(name);
    let stamp = Stamp::of(&path);
    let before = match before {
        Some(before) if before.seen.is_stamped(stamp) => return Some((before, false)),
        before => before,
    };
    let text = files::read_inside(&workspace.root, &path, name).ok()?;
    let seen = Seen::new(stamp, text.as_bytes());
    let record = match before.filter(|before| before.seen.digest() == seen.digest()) {
        Some(mut before) => {
            before.seen = seen;
            before
        }
        None => Box::new(Record { seen, outline: outline::of(&text), clean: None }),
    };
    Some((record, true))
}
