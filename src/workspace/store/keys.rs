//! What a file's findings hang on, as one digest: the program, the settings, and the bytes of the file and of all that
//! it draws on, over however many others.
use super::{Digest, Hasher, file};
use crate::model::catalogues::join;
use crate::model::register::Register;
use crate::source::FileId;
use crate::workspace::Workspace;
use crate::workspace::outline::Outline;
use std::collections::{BTreeMap, BTreeSet};

/// What one file needs to be looked at.
#[derive(Debug, Default)]
pub struct Needs {
    /// Other sources of the workspace.
    pub sources: BTreeSet<FileId>,
    /// Relative to the workspace.
    pub pictures: BTreeSet<String>,
    /// Catalogues that are no sources of the workspace, of which nothing is kept.
    pub strange: BTreeSet<String>,
}

impl Needs {
    /// All of them by their names, relative to the workspace.
    pub fn names<'n>(&'n self, workspace: &'n Workspace) -> impl Iterator<Item = &'n str> {
        let sources = self.sources.iter().map(|id| workspace.name(*id));
        sources.chain(self.pictures.iter().chain(&self.strange).map(String::as_str))
    }
}

/// What the file names itself: catalogues, pictures, and every file that claims a number it calls, or its own.
pub fn needs(workspace: &Workspace, id: FileId, outline: &Outline) -> Needs {
    let name = workspace.name(id);
    let join = |from: &str, written: &String| join(from, written).ok();
    let uses = outline.uses.iter().filter_map(|written| join(name, written));
    let cautions = workspace.settings.cautions.iter().filter_map(|written| join("", written));
    let numbers = outline.follows.iter().chain(&outline.around);
    let own = outline.procedure.iter().map(|(number, _)| number);
    let claims = numbers.chain(own).flat_map(|number| Register::find(&workspace.register, number));
    let mut needs = Needs::default();
    let mut draw = |other: &str| {
        // Nearly all have only themselves, which need not be looked up.
        match if other == name { Some(id) } else { workspace.id(other) } {
            Some(id) => needs.sources.insert(id),
            None => needs.strange.insert(other.to_owned()),
        };
    };
    uses.chain(cautions).for_each(|other| draw(&other));
    claims.for_each(|claim| draw(&claim.file));
    needs.pictures = outline.pictures.iter().filter_map(|written| join(name, written)).collect();
    needs
}

/// All that keys are made of.
pub struct Keys<'a> {
    pub workspace: &'a Workspace,
    /// What each source names, by its id.
    pub needs: &'a [Needs],
    /// Of each source, by its id; none where it could not be read.
    pub digests: &'a [Option<Digest>],
    /// Of each picture; none where it could not be read.
    pub pictures: &'a BTreeMap<String, Option<Digest>>,
    /// What holds for every file.
    pub base: Digest,
}

/// A file that draws on more than this is looked at each time: to go through all of them for each would take longer.
const MOST: usize = 256;

impl Keys<'_> {
    /// None where nothing may be kept of the file.
    pub fn of(&self, id: FileId) -> Option<Digest> {
        let reached = self.reached(id)?;
        let mut hasher = Hasher::default().digest(Some(self.base)).text(self.workspace.name(id));
        let mut pictures = BTreeSet::new();
        for &id in &reached {
            let digest = (*self.digests.get(id.0 as usize)?)?;
            hasher = hasher.text(self.workspace.name(id)).digest(Some(digest));
            pictures.extend(&self.needs.get(id.0 as usize)?.pictures);
        }
        for picture in pictures {
            hasher = hasher.text(picture).digest(self.pictures.get(picture).copied().flatten());
        }
        Some(hasher.finish())
    }

    /// The file and all that it draws on.
    fn reached(&self, id: FileId) -> Option<BTreeSet<FileId>> {
        let (mut reached, mut open) = (BTreeSet::from([id]), vec![id]);
        while let Some(id) = open.pop() {
            let needs = self.needs.get(id.0 as usize).filter(|needs| needs.strange.is_empty())?;
            open.extend(needs.sources.iter().filter(|id| reached.insert(**id)));
            if reached.len() > MOST {
                return None;
            }
        }
        Some(reached)
    }
}

/// What holds for every file of a workspace.
pub fn base(workspace: &Workspace) -> Digest {
    // What is read for settings is not all written again, so they are taken as they are.
    Hasher::default().text(file::PROGRAM).text(&format!("{:?}", workspace.settings)).finish()
}
