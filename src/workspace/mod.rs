//! A workspace: the folder with `cotter.toml`, its settings, what its files are called and what they share. The
//! command line and the editor both work in one; here the disk is read.
#![allow(clippy::disallowed_methods, clippy::disallowed_types)]
pub mod catalogues;
mod circles;
pub mod collect;
pub mod files;
pub mod fixes;
mod nets;
pub mod outline;
pub mod paths;
mod pictures;
pub mod settings;
pub mod store;
mod survey;
pub mod trouble;

use crate::model::register::Entry;
use crate::model::{Register, Settings, Surroundings};
use crate::source::{FileId, SourceFile};
use catalogues::Shelf;
use outline::Outline;
use rayon::prelude::*;
use std::collections::{BTreeSet, HashMap};
use std::io;
use std::path::{Path, PathBuf};
use std::sync::Arc;
pub use survey::{Known, Survey};
use trouble::Trouble;

/// Texts that are open in an editor and win over the disk, by their absolute and tidy paths.
pub type OpenTexts = HashMap<PathBuf, Arc<str>>;

/// Everything files of one run share.
pub struct Workspace {
    root: PathBuf,
    here: PathBuf,
    pub settings: Settings,
    pub register: Register,
    pub shelf: Shelf,
    /// Every source file, relative to the root with forward slashes, sorted; a file's id is its place here.
    names: Vec<String>,
    open: OpenTexts,
    /// Where stores are kept: what was seen at the start of the run.
    watch: Option<survey::Watch>,
}

/// A workspace with the files of it that were asked for.
pub struct Selection {
    pub workspace: Workspace,
    /// Sorted.
    pub files: Vec<FileId>,
}

/// What the user asked for that lies in one workspace: paths as given, made absolute.
#[derive(Debug, PartialEq, Eq)]
pub struct Asked {
    pub root: PathBuf,
    pub paths: Vec<PathBuf>,
}

/// Sorts the asked paths by workspace, in the order they were first named. None means the workspace around `here`.
pub fn group(here: &Path, asked: &[PathBuf]) -> Vec<Asked> {
    let mut groups: Vec<Asked> = Vec::new();
    if asked.is_empty() {
        let root = root_of(here, here);
        return vec![Asked { paths: vec![root.clone()], root }];
    }
    for path in asked {
        let path = paths::tidy(here, path);
        let root = root_of(here, &path);
        match groups.iter_mut().find(|group| group.root == root) {
            Some(group) => group.paths.push(path),
            None => groups.push(Asked { root, paths: vec![path] }),
        }
    }
    groups
}

/// The nearest folder upwards with `cotter.toml`; without one the current folder, or the path's own outside it.
pub fn root_of(here: &Path, path: &Path) -> PathBuf {
    let folder = if path.is_dir() { path } else { path.parent().unwrap_or(path) };
    let marked = folder.ancestors().find(|folder| is_marked(folder));
    let unmarked = if folder.starts_with(here) { here } else { folder };
    marked.unwrap_or(unmarked).to_path_buf()
}

/// Whether settings make the folder a workspace.
pub fn is_marked(folder: &Path) -> bool {
    folder.join(settings::FILE_NAME).is_file()
}

impl Selection {
    /// Reads what the files share. Files that cannot be had are among the troubles; the others are still selected.
    pub fn open(here: &Path, asked: &Asked) -> (Option<Selection>, Vec<Trouble>) {
        match load(here, asked, Reach::All, OpenTexts::new()) {
            Ok((selection, _, troubles)) => (Some(selection), troubles),
            Err(trouble) => (None, vec![*trouble]),
        }
    }
}

/// All that lies in the workspace at `root`, where `open` wins over the disk; with the outline of each file, in the
/// order of their ids.
///
/// # Errors
/// Where the settings or the house's own catalogue cannot be used.
pub fn around(root: &Path, reach: Reach, open: OpenTexts) -> Result<(Workspace, Vec<Outline>), Box<Trouble>> {
    let asked = Asked { root: root.to_path_buf(), paths: Vec::new() };
    load(root, &asked, reach, open).map(|(selection, outlines, _)| (selection.workspace, outlines))
}

/// How far down the files of a workspace lie.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Reach {
    /// In the folder itself: nobody said that it is a workspace, and it may be anybody's home.
    Folder,
    All,
}

type Loaded = (Selection, Vec<Outline>, Vec<Trouble>);

fn load(here: &Path, asked: &Asked, reach: Reach, open: OpenTexts) -> Result<Loaded, Box<Trouble>> {
    let Ground { mut workspace, files, troubles } = Ground::of(here, asked, reach, open)?;
    let outlines: Vec<Outline> = workspace.names.par_iter().map(|name| workspace.outline(name)).collect();
    workspace.enter(outlines.iter().map(Some));
    let all: Vec<_> = workspace.ids().zip(&outlines).collect();
    workspace.share(&all)?;
    Ok((Selection { workspace, files }, outlines, troubles))
}

/// A workspace of which nothing is known but what its files are called.
struct Ground {
    workspace: Workspace,
    /// Those asked for, sorted.
    files: Vec<FileId>,
    troubles: Vec<Trouble>,
}

impl Ground {
    fn of(here: &Path, asked: &Asked, reach: Reach, open: OpenTexts) -> Result<Ground, Box<Trouble>> {
        let shown = |path: &Path| paths::shown(here, path);
        let settings = settings::load(&asked.root, &shown(&asked.root.join(settings::FILE_NAME)))?;
        let (all, failed) = collect::below(&asked.root, &asked.root, reach, shown);
        // Most often all of it is asked for, and the folders are walked through once.
        let whole = reach == Reach::All && asked.paths == [asked.root.clone()] && !all.is_empty();
        let (wanted, troubles) = if whole { (Vec::new(), failed) } else { wanted(asked, shown) };
        let name = |path: &PathBuf| path.strip_prefix(&asked.root).map(paths::slashed).unwrap_or_default();
        let wanted: BTreeSet<String> = wanted.iter().map(name).collect();
        let unsaved = open.keys().filter(|path| path.starts_with(&asked.root));
        let mut names: Vec<String> =
            all.iter().chain(unsaved).map(name).chain(wanted.iter().cloned()).collect();
        names.sort_unstable();
        names.dedup();
        let workspace = Workspace {
            root: asked.root.clone(),
            here: here.to_path_buf(),
            settings,
            register: Register::default(),
            shelf: Shelf::default(),
            names,
            open,
            watch: None,
        };
        let files = workspace.ids().filter(|id| whole || wanted.contains(workspace.name(*id))).collect();
        Ok(Ground { workspace, files, troubles })
    }
}

/// What compiling a file of this workspace needs.
pub fn surroundings(workspace: &Workspace) -> Surroundings<'_> {
    Surroundings {
        settings: &workspace.settings,
        register: &workspace.register,
        catalogues: &workspace.shelf.catalogues,
    }
}

/// Reads one file of the workspace.
///
/// # Errors
/// Where it cannot be had.
pub fn source(workspace: &Workspace, id: FileId) -> Result<SourceFile, Trouble> {
    let name = workspace.name(id);
    let text = workspace.read(name, &workspace.shown(name))?;
    Ok(SourceFile::new(id, name, text))
}

impl Selection {
    /// Whether the file was asked for.
    pub fn holds(&self, id: FileId) -> bool {
        self.files.binary_search(&id).is_ok()
    }
}

impl Workspace {
    /// Every source file.
    pub fn ids(&self) -> impl Iterator<Item = FileId> + use<> {
        (0..u32::try_from(self.names.len()).unwrap_or(u32::MAX)).map(FileId)
    }

    /// The file's name relative to the root; empty for an id of another run.
    pub fn name(&self, id: FileId) -> &str {
        self.names.get(id.0 as usize).map_or("", String::as_str)
    }

    /// The file of that name.
    pub fn id(&self, name: &str) -> Option<FileId> {
        let place = self.names.binary_search_by(|known| known.as_str().cmp(name)).ok()?;
        u32::try_from(place).ok().map(FileId)
    }

    /// The file at an absolute and tidy path.
    pub fn id_of(&self, path: &Path) -> Option<FileId> {
        self.id(&paths::slashed(path.strip_prefix(&self.root).ok()?))
    }

    /// Gives an open file another text. What its files share stays as it was read.
    pub fn keep_open(&mut self, path: &Path, text: &Arc<str>) {
        self.open.insert(path.to_path_buf(), Arc::clone(text));
    }

    pub fn path(&self, name: &str) -> PathBuf {
        self.root.join(name)
    }

    /// A file of the workspace as the user in the current folder would write it, to be printed.
    pub fn shown(&self, name: &str) -> String {
        paths::printable(&self.written(name))
    }

    /// The same to the letter, for other programs.
    pub fn written(&self, name: &str) -> String {
        paths::shown(&self.here, &self.path(name))
    }

    /// The text of a file, as it is open or as it is on the disk. `shown` names it in the trouble.
    ///
    /// # Errors
    /// Where it cannot be had.
    pub fn read(&self, name: &str, shown: &str) -> Result<Arc<str>, Trouble> {
        let path = self.path(name);
        if let Some(text) = self.open.get(&path) {
            return Ok(Arc::clone(text));
        }
        let text = files::read_inside(&self.root, &path, shown);
        if let Some(watch) = &self.watch {
            watch.source(self.id(name), text.as_deref().ok());
        }
        Ok(Arc::from(text?))
    }

    /// Writes a file of the workspace anew, as [`files::save`] does.
    ///
    /// # Errors
    /// As there.
    pub fn save(&self, name: &str, before: &str, after: &str) -> io::Result<()> {
        files::save(&self.root, &self.path(name), before, after)
    }

    /// Fills the register from the outline of each file, in the order of their ids; none where one could not be read.
    fn enter<'o>(&mut self, outlines: impl Iterator<Item = Option<&'o Outline>>) {
        for (name, outline) in self.names.iter().zip(outlines) {
            if let Some(outline) = outline
                && let Some((number, title)) = &outline.procedure
            {
                let (leaves, afterwards) = (outline.leaves.clone(), outline.afterwards.clone());
                let entry = Entry { title: title.clone(), file: name.clone(), leaves, afterwards };
                self.register.add(number, entry);
            }
        }
    }

    /// Reads the catalogues and procedures that these files name.
    ///
    /// # Errors
    /// Where the house's own catalogue cannot be used.
    fn share(&mut self, outlines: &[(FileId, &Outline)]) -> Result<(), Box<Trouble>> {
        self.shelf = catalogues::load(self, outlines);
        nets::take_in(self, outlines);
        circles::take_in(self, outlines);
        let Some((written, why)) = self.unusable_cautions() else { return Ok(()) };
        let shown = self.shown(settings::FILE_NAME);
        Err(settings::unusable_cautions(&self.root, &shown, written, &why).into())
    }

    /// The house's own catalogue as written and why it cannot be used, where that is so.
    fn unusable_cautions(&self) -> Option<(&str, String)> {
        let written = self.settings.cautions.as_deref()?;
        let why = self.shelf.catalogues.of_house(written).err()?;
        Some((written, why))
    }

    /// Files that cannot be read have no outline; they are told of when their turn comes.
    fn outline(&self, name: &str) -> Outline {
        self.read(name, name).map(|text| outline::of(&text)).unwrap_or_default()
    }

    /// Every source file's name, sorted.
    pub fn names(&self) -> &[String] {
        &self.names
    }
}

/// The files that the asked paths stand for.
pub fn wanted(asked: &Asked, shown: impl Fn(&Path) -> String + Copy) -> (Vec<PathBuf>, Vec<Trouble>) {
    let mut found = Vec::new();
    let mut troubles = Vec::new();
    for path in &asked.paths {
        if path.is_dir() {
            let (below, failed) = collect::below(&asked.root, path, Reach::All, shown);
            if below.is_empty() && failed.is_empty() {
                troubles.push(empty_folder(&shown(path)));
            }
            found.extend(below);
            troubles.extend(failed);
        } else if let Some(trouble) = collect::unnameable(path, &shown) {
            troubles.push(trouble);
        } else if collect::is_source(path) || !path.exists() {
            found.push(path.clone());
        } else {
            troubles.push(other_kind(&shown(path)));
        }
    }
    (found, troubles)
}

fn empty_folder(shown: &str) -> Trouble {
    Trouble::new(shown, "holds no `.cotter` files").help("name a folder with procedures, or a file")
}

fn other_kind(shown: &str) -> Trouble {
    Trouble::new(shown, "is no `.cotter` file")
        .help("procedures and catalogues are files that end in `.cotter`")
}
