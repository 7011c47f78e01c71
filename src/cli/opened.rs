//! The files of one workspace that a command works on, and what earlier runs know of them.
use super::trouble::Trouble;
use super::workspace::store;
use super::workspace::{Asked, Known, Selection, Survey};
use crate::source::FileId;
use clap::Args;
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

// Whether earlier runs count.
#[derive(Debug, Args)]
pub struct CacheArguments {
    /// Look at every file anew, and keep nothing of it for later runs
    #[arg(long)]
    no_cache: bool,
}

impl CacheArguments {
    /// Where what earlier runs know is kept; none where it does not count.
    pub fn folder(&self) -> Option<PathBuf> {
        if self.no_cache { None } else { store::folder() }
    }
}

pub struct Opened {
    pub selection: Selection,
    /// None where earlier runs do not count.
    pub known: Option<Known>,
    pub troubles: Vec<Trouble>,
}

impl Opened {
    /// What is to be checked. A file that is known to be clean cannot be compiled any more.
    pub fn for_check(here: &Path, asked: &Asked, cache: Option<PathBuf>) -> Result<Opened, Box<Trouble>> {
        let Some(folder) = cache else { return Opened::anew(here, asked) };
        let survey = Survey::open(here, asked, &folder)?;
        let unsure = survey.files().iter().copied().filter(|id| !survey.known().is_clean(*id)).collect();
        Opened::read(survey, &unsure)
    }

    /// All of it, whatever earlier runs know.
    pub fn anew(here: &Path, asked: &Asked) -> Result<Opened, Box<Trouble>> {
        match Selection::open(here, asked) {
            (Some(selection), troubles) => Ok(Opened { selection, known: None, troubles }),
            (None, mut troubles) => Err(Box::new(troubles.remove(0))),
        }
    }

    /// As far as these files need it.
    pub fn read(survey: Survey, wanted: &BTreeSet<FileId>) -> Result<Opened, Box<Trouble>> {
        let (selection, known, troubles) = survey.read_for(wanted)?;
        Ok(Opened { selection, known: Some(known), troubles })
    }
}
