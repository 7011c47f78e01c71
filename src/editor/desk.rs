//! All that is open, the workspaces around it, and what has to be looked at again. Knows nothing of messages.
use super::positions::{Encoding, Lines};
use super::shop::{Page, Shop};
use super::texts::{Change, OpenText};
use super::uri;
use crate::source::FileId;
use crate::workspace::settings::FILE_NAME;
use crate::workspace::trouble::Trouble;
use crate::workspace::{self, OpenTexts, Reach};
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use std::rc::Rc;

/// What an editor has on its desk.
#[derive(Default)]
pub struct Desk {
    pub encoding: Encoding,
    /// Folders that the client works in.
    pub folders: Vec<PathBuf>,
    open: BTreeMap<PathBuf, OpenText>,
    /// How the client spells the address of a file.
    addresses: BTreeMap<PathBuf, String>,
    /// Of each open file the folder of its workspace.
    roots: BTreeMap<PathBuf, PathBuf>,
    shops: BTreeMap<PathBuf, Shop>,
    /// Open files whose findings are out of date.
    changed: BTreeSet<PathBuf>,
    /// Files that changed since what they share was read.
    touched: BTreeSet<PathBuf>,
    /// Of those, files that share something else now than was read: looked at by themselves, they would seem wrong.
    torn: BTreeSet<PathBuf>,
    /// Workspaces whose files share something that changed.
    behind: BTreeSet<PathBuf>,
    /// Files that have findings in the client's list.
    told: BTreeSet<PathBuf>,
}

/// What is to be said of a file now.
pub struct Report {
    pub path: PathBuf,
    /// Of the text, where it is open.
    pub version: Option<i32>,
    pub found: Found,
}

pub enum Found {
    Page(Rc<Page>),
    /// Nothing here can be looked at.
    Trouble(Trouble),
    /// Nothing is known of it any more.
    Gone,
}

impl Desk {
    pub fn new(encoding: Encoding, folders: Vec<PathBuf>) -> Desk {
        Desk { encoding, folders, ..Desk::default() }
    }

    pub fn open(&mut self, address: &str, text: &str, version: i32) {
        let path = &uri::to_path(address);
        self.addresses.insert(path.to_path_buf(), address.to_owned());
        let root = self.root_around(path);
        self.open.insert(path.to_path_buf(), OpenText::new(text, version, self.encoding));
        self.roots.insert(path.to_path_buf(), root.clone());
        let known = |shop: &Shop| shop.trouble().is_some() || shop.id(path).is_some();
        if !self.shops.get(&root).is_some_and(known) {
            self.read(&root);
        }
        self.note(path);
    }

    /// Changes of a file that is not open are for nobody.
    pub fn change(&mut self, path: &Path, version: i32, changes: &[Change]) {
        if let Some(open) = self.open.get_mut(path) {
            open.change(version, changes, self.encoding);
            self.note(path);
        }
    }

    /// From here on the disk counts.
    pub fn close(&mut self, path: &Path) {
        if self.open.remove(path).is_some() {
            self.changed.remove(path);
            self.touched.insert(path.to_path_buf());
            self.behind.extend(self.roots.remove(path));
        }
    }

    /// Something on the disk is another now.
    pub fn disk_changed(&mut self, path: &Path) {
        if path.ends_with(FILE_NAME) {
            self.behind.extend(self.roots.values().cloned());
            let around = |path: &PathBuf| (path.clone(), self.root_around(path));
            self.roots = self.open.keys().map(around).collect();
            self.behind.extend(self.roots.values().cloned());
        }
        self.behind.extend(self.shops.keys().filter(|root| path.starts_with(root)).cloned());
        self.touched.insert(path.to_path_buf());
    }

    /// Whether something is left that is only worked out once the author pauses.
    pub fn is_behind(&self) -> bool {
        !self.behind.is_empty()
    }

    /// The workspace around an open file.
    pub fn shop(&self, path: &Path) -> Option<&Shop> {
        self.shops.get(self.roots.get(path)?)
    }

    /// The workspace around any file.
    pub fn shop_of(&self, path: &Path) -> Option<&Shop> {
        self.shop(path).or_else(|| self.shops.values().find(|shop| shop.id(path).is_some()))
    }

    /// The address of a file as the client knows it.
    pub fn address(&self, path: &Path) -> String {
        self.addresses.get(path).cloned().unwrap_or_else(|| uri::of_path(path))
    }

    /// An open file, with the workspace around it.
    pub fn page(&self, path: &Path) -> Option<(&Shop, Rc<Page>)> {
        let shop = self.shop(path)?;
        self.open.get(path)?;
        Some((shop, shop.page(shop.id(path)?)?))
    }

    /// Where the lines of a file start.
    pub fn lines(&self, path: &Path, text: &str) -> Lines {
        match self.open.get(path) {
            Some(open) if *open.text == *text => open.lines.clone(),
            _ => Lines::of(text, self.encoding),
        }
    }

    /// Looks at the open files that changed, each by itself.
    pub fn look(&mut self) -> Vec<Report> {
        let changed = std::mem::take(&mut self.changed);
        let reports = changed.into_iter().filter(|path| !self.waits(path)).filter_map(|path| {
            let shop = self.shop(&path)?;
            let found = match (shop.trouble(), shop.id(&path).and_then(|id| shop.page(id))) {
                (Some(trouble), _) => Found::Trouble(trouble.clone()),
                (None, page) => Found::Page(page?),
            };
            Some(self.report(path, found))
        });
        let reports: Vec<Report> = reports.collect();
        reports.into_iter().map(|report| self.remembered(report)).collect()
    }

    /// Whether looking at the file by itself would find what is no fault: it, or another that it may hang on, shares
    /// something else now than was read.
    fn waits(&self, path: &Path) -> bool {
        let Some(root) = self.roots.get(path) else { return true };
        let other = |it: &PathBuf| it != path && it.starts_with(root);
        self.torn.contains(path) || self.behind.contains(root) && self.touched.iter().any(other)
    }

    /// Reads again what files share, where that changed, and looks at all that hangs on it.
    pub fn settle(&mut self) -> Vec<Report> {
        let behind = std::mem::take(&mut self.behind);
        let touched = std::mem::take(&mut self.touched);
        self.torn.clear();
        let mut reports = Vec::new();
        for root in behind {
            let before = self.hanging(&root, &touched);
            if self.roots.values().any(|other| *other == root) {
                self.read(&root);
            } else {
                self.shops.remove(&root);
            }
            let mut wanted = self.hanging(&root, &touched);
            wanted.extend(before);
            let here = |path: &&PathBuf| path.starts_with(&root);
            wanted.extend(self.open.keys().filter(here).cloned());
            wanted.extend(self.told.iter().filter(here).cloned());
            wanted.extend(touched.iter().filter(here).cloned());
            for path in wanted {
                reports.extend(self.settled(&root, path));
            }
        }
        reports.into_iter().map(|report| self.remembered(report)).collect()
    }

    fn settled(&self, root: &Path, path: PathBuf) -> Option<Report> {
        // It is another workspace's now.
        let own = self.roots.get(&path).map_or(root, PathBuf::as_path);
        let elsewhere = |(other, shop): (&PathBuf, &Shop)| other != root && shop.id(&path).is_some();
        if own != root || !self.shops.contains_key(root) && self.shops.iter().any(elsewhere) {
            return None;
        }
        let found = match self.shops.get(root) {
            Some(shop) => match (shop.trouble(), shop.id(&path).and_then(|id| shop.page(id))) {
                (Some(trouble), _) if self.open.contains_key(&path) => Found::Trouble(trouble.clone()),
                (None, Some(page)) => Found::Page(page),
                _ => Found::Gone,
            },
            None => Found::Gone,
        };
        let clean = match &found {
            Found::Page(page) => page.findings.is_empty(),
            Found::Gone => true,
            Found::Trouble(_) => false,
        };
        let known = self.told.contains(&path) || self.open.contains_key(&path);
        (known || !clean).then(|| self.report(path, found))
    }

    fn report(&self, path: PathBuf, found: Found) -> Report {
        Report { version: self.open.get(&path).map(|open| open.version), path, found }
    }

    fn remembered(&mut self, report: Report) -> Report {
        match &report.found {
            Found::Gone => self.told.remove(&report.path),
            Found::Page(page) if page.findings.is_empty() => self.told.remove(&report.path),
            Found::Page(_) | Found::Trouble(_) => self.told.insert(report.path.clone()),
        };
        report
    }

    /// Files of the workspace that hang on these.
    fn hanging(&self, root: &Path, on: &BTreeSet<PathBuf>) -> BTreeSet<PathBuf> {
        let Some(shop) = self.shops.get(root) else { return BTreeSet::new() };
        let ids: BTreeSet<FileId> = on.iter().filter_map(|path| shop.id(path)).collect();
        shop.hanging_on(&ids).into_iter().filter_map(|id| shop.path(id)).collect()
    }

    /// A text changed: the file is to be looked at, and all that hangs on it once the author pauses.
    fn note(&mut self, path: &Path) {
        let Some(text) = self.open.get(path).map(|open| open.text.clone()) else { return };
        let Some(root) = self.roots.get(path) else { return };
        self.changed.insert(path.to_path_buf());
        let Some(shop) = self.shops.get_mut(root) else { return };
        let alone = shop.replace(path, &text);
        if !alone {
            self.torn.insert(path.to_path_buf());
        }
        if !alone || shop.id(path).is_some_and(|id| shop.is_shared(id)) {
            self.touched.insert(path.to_path_buf());
            self.behind.insert(root.clone());
        }
    }

    fn read(&mut self, root: &Path) {
        let here = |path: &PathBuf| self.roots.get(path).is_some_and(|own| own == root);
        let open = self.open.iter().filter(|(path, _)| here(path));
        let open: OpenTexts = open.map(|(path, it)| (path.clone(), it.text.clone())).collect();
        self.shops.insert(root.to_path_buf(), Shop::open(root, self.reach(root), open));
    }

    fn reach(&self, root: &Path) -> Reach {
        let said = workspace::is_marked(root) || self.folders.iter().any(|folder| folder == root);
        if said { Reach::All } else { Reach::Folder }
    }

    /// The folder with `cotter.toml`; without one the client's folder that holds the file, or the file's own.
    fn root_around(&self, path: &Path) -> PathBuf {
        let folder = path.parent().unwrap_or(path);
        let around = self.folders.iter().filter(|it| path.starts_with(it));
        let here = around.max_by_key(|it| it.as_os_str().len());
        workspace::root_of(here.map_or(folder, PathBuf::as_path), path)
    }
}
