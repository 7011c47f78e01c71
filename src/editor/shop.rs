//! One workspace as an editor works in it: its files as they are on the disk or open, read anew when what they
//! share has changed, and what was made of each.
use super::marks::{self, Mark};
use crate::model::catalogues::join;
use crate::model::document::Body;
use crate::model::{Document, Name, Settings};
use crate::report::Finding;
use crate::source::{FileId, SourceFile, Span};
use crate::syntax::{self, ast::Tree};
use crate::workspace::fixes::Looked;
use crate::workspace::outline::{self, Outline};
use crate::workspace::trouble::Trouble;
use crate::workspace::{self, OpenTexts, Reach, Workspace};
use crate::{Compiled, compile};
use std::cell::{OnceCell, RefCell};
use std::collections::{BTreeSet, HashMap};
use std::path::{Path, PathBuf};
use std::rc::Rc;
use std::sync::Arc;

/// A folder with `cotter.toml`, or one without.
pub struct Shop {
    /// What keeps every file here from being looked at, where something does.
    workspace: Result<Workspace, Box<Trouble>>,
    /// By the files' ids.
    outlines: Vec<Outline>,
    read: RefCell<HashMap<FileId, Rc<Page>>>,
}

/// One file and all that was made of it.
pub struct Page {
    pub source: SourceFile,
    pub document: Document,
    pub findings: Vec<Finding>,
    tree: OnceCell<Tree>,
    marks: OnceCell<Vec<Mark>>,
}

impl Page {
    /// The whole tree, read when it is first asked for.
    pub fn tree(&self) -> &Tree {
        self.tree.get_or_init(|| syntax::parse(&self.source).tree)
    }

    pub fn text(&self) -> &str {
        &self.source.text
    }

    /// For the mends of its findings.
    pub fn looked<'p>(&'p self, settings: &'p Settings) -> Looked<'p> {
        let Page { source, document, findings, .. } = self;
        Looked { settings, source, document, findings, tree: self.tree() }
    }
}

impl Shop {
    /// Reads what the files below `root` share.
    pub fn open(root: &Path, reach: Reach, open: OpenTexts) -> Shop {
        let (workspace, outlines) = match workspace::around(root, reach, open) {
            Ok((workspace, outlines)) => (Ok(workspace), outlines),
            Err(trouble) => (Err(trouble), Vec::new()),
        };
        Shop { workspace, outlines, read: RefCell::default() }
    }

    /// What keeps every file from being looked at.
    pub fn trouble(&self) -> Option<&Trouble> {
        self.workspace.as_ref().err().map(|trouble| &**trouble)
    }

    pub fn workspace(&self) -> Option<&Workspace> {
        self.workspace.as_ref().ok()
    }

    /// Notes a new text of a file. Whether nothing that others share has changed with it, so that the file may be
    /// looked at by itself.
    pub fn replace(&mut self, path: &Path, text: &Arc<str>) -> bool {
        let Ok(workspace) = &mut self.workspace else { return false };
        workspace.keep_open(path, text);
        let Some(id) = workspace.id_of(path) else { return false };
        self.read.get_mut().remove(&id);
        self.outlines.get(id.0 as usize).is_some_and(|known| *known == outline::of(text))
    }

    pub fn id(&self, path: &Path) -> Option<FileId> {
        self.workspace()?.id_of(path)
    }

    /// The path of a file.
    pub fn path(&self, id: FileId) -> Option<PathBuf> {
        let workspace = self.workspace()?;
        let name = match workspace.name(id) {
            "" => &workspace.shelf.source(id)?.name,
            name => name,
        };
        Some(workspace.path(name))
    }

    /// The text of a file as it was last read.
    pub fn source(&self, id: FileId) -> Option<SourceFile> {
        if let Some(page) = self.read.borrow().get(&id) {
            return Some(page.source.clone());
        }
        let workspace = self.workspace()?;
        match workspace.name(id) {
            "" => workspace.shelf.source(id).cloned(),
            _ => workspace::source(workspace, id).ok(),
        }
    }

    /// What comes of a file; none where it cannot be had.
    pub fn page(&self, id: FileId) -> Option<Rc<Page>> {
        if let Some(page) = self.read.borrow().get(&id) {
            return Some(Rc::clone(page));
        }
        let workspace = self.workspace()?;
        let source = workspace::source(workspace, id).ok()?;
        let Compiled { document, findings } = compile(&source, &workspace::surroundings(workspace));
        let (tree, marks) = (OnceCell::new(), OnceCell::new());
        let page = Rc::new(Page { source, document, findings, tree, marks });
        self.read.borrow_mut().insert(id, Rc::clone(&page));
        Some(page)
    }

    pub fn ids(&self) -> impl Iterator<Item = FileId> + use<> {
        self.workspace().map(Workspace::ids).into_iter().flatten()
    }

    /// The files that are no procedures.
    pub fn catalogue_files(&self) -> impl Iterator<Item = &str> {
        let names = self.workspace().map(Workspace::names).unwrap_or_default();
        let files = names.iter().zip(&self.outlines).filter(|(_, outline)| outline.procedure.is_none());
        files.map(|(name, _)| name.as_str())
    }

    /// The catalogues that a file draws on, in the order they are searched.
    pub fn catalogues(&self, page: &Page) -> Vec<&Document> {
        let Some(workspace) = self.workspace() else { return Vec::new() };
        let uses = page.tree().statements.iter().filter_map(|statement| match &statement.head {
            syntax::ast::Head::Use { path } => Some(path.as_str()),
            _ => None,
        });
        let shelf = &workspace.shelf.catalogues;
        let named = uses.filter_map(|path| shelf.find(&join(&page.source.name, path).ok()?).ok());
        let in_procedure = !matches!(page.document.body, Body::Catalogue { .. });
        let house = workspace.settings.cautions.as_deref().filter(|_| in_procedure);
        named.chain(house.and_then(|path| shelf.of_house(path).ok())).map(|it| &**it).collect()
    }

    /// Where a catalogue of the page declares a name, with the catalogue and what it is there.
    pub fn lent(&self, page: &Page, word: &str) -> Option<(&Document, Name, Span)> {
        let found = |document| Some((document, declared(document, word)?));
        let found = self.catalogues(page).into_iter().find_map(found);
        found.map(|(document, (name, span))| (document, name, span))
    }

    /// What stands where in a page.
    pub fn marks<'p>(&self, page: &'p Page) -> &'p [Mark] {
        page.marks.get_or_init(|| {
            let Some(workspace) = self.workspace() else { return Vec::new() };
            let catalogues = self.catalogues(page);
            let knows = |word: &str| {
                let lent = || catalogues.iter().any(|it| it.declarations.find(word).is_some());
                page.document.declarations.find(word).is_some() || lent()
            };
            marks::of(page.tree(), &page.source, &workspace.settings, &knows)
        })
    }

    /// The files that hang on one of these: they use its catalogue, or follow or require it.
    pub fn hanging_on(&self, ids: &BTreeSet<FileId>) -> BTreeSet<FileId> {
        let Some(workspace) = self.workspace() else { return BTreeSet::new() };
        let mut found = BTreeSet::new();
        let mut waiting: Vec<FileId> = ids.iter().copied().collect();
        while let Some(on) = waiting.pop() {
            for id in workspace.ids() {
                if !found.contains(&id) && self.hangs(workspace, id, on) {
                    found.insert(id);
                    waiting.push(id);
                }
            }
        }
        found
    }

    /// Whether any file hangs on it.
    pub fn is_shared(&self, id: FileId) -> bool {
        self.workspace()
            .is_some_and(|workspace| workspace.ids().any(|other| self.hangs(workspace, other, id)))
    }

    fn hangs(&self, workspace: &Workspace, id: FileId, on: FileId) -> bool {
        let outline = |id: FileId| self.outlines.get(id.0 as usize);
        let (Some(mine), Some(theirs)) = (outline(id), outline(on)) else { return false };
        let (name, wanted) = (workspace.name(id), workspace.name(on));
        let leads = |from: &str, written: &str| join(from, written).is_ok_and(|path| path == wanted);
        let house = || workspace.settings.cautions.as_deref().is_some_and(|path| leads("", path));
        let calls = |number: &String| mine.follows.contains(number) || mine.around.contains(number);
        match &theirs.procedure {
            Some((number, _)) => calls(number),
            None => mine.uses.iter().any(|path| leads(name, path)) || mine.procedure.is_some() && house(),
        }
    }
}

/// What a word is in a document, and where it was declared.
pub fn declared(document: &Document, word: &str) -> Option<(Name, Span)> {
    let declarations = &document.declarations;
    let name = declarations.find(word)?;
    let piece = match name {
        Name::Part(id) => declarations.part(id)?.pieces.iter().find(|piece| piece.value == word),
        _ => None,
    };
    let written = match name {
        Name::Message(id) => declarations.messages.get(id as usize)?.name.as_ref()?,
        _ => &declarations.thing(name)?.name,
    };
    Some((name, piece.unwrap_or(written).span))
}
