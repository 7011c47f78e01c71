//! What earlier runs saw and found, so that what has not changed is not looked at again.
//!
//! Nothing here is believed but by content: a file without findings is known by a digest of the program, the settings,
//! its own bytes and those of every file it draws on. The store may be deleted, damaged or shared at any time; what
//! cannot be read is not there, and what is found under a digest is true wherever it was found.
mod digest;
mod file;
mod keys;
mod stamp;

pub use digest::Digest;
pub use file::folder;
pub use stamp::Stamp;

use super::outline::Outline;
use digest::Hasher;
use serde::{Deserialize, Serialize, de::DeserializeOwned};
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::time::SystemTime;

pub(super) use keys::{Keys, base};
pub use keys::{Needs, needs};

/// A file as it was when it was last read.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Seen {
    /// None where the file was so new that a later change might bear the same times.
    stamp: Option<Stamp>,
    digest: Digest,
}

impl Seen {
    /// The file of `stamp` with these bytes, which were read after the stamp was taken.
    pub fn new(stamp: Option<Stamp>, bytes: &[u8]) -> Seen {
        Seen { stamp, digest: Digest::of(bytes) }
    }

    /// The same as it is seen now; none where the file at the path is another.
    pub fn again(self, path: &Path) -> Option<Seen> {
        // Whatever else stands there may be endless, or a link to anywhere.
        std::fs::symlink_metadata(path).ok().filter(std::fs::Metadata::is_file)?;
        let stamp = Stamp::of(path);
        if self.is_stamped(stamp) {
            return Some(self);
        }
        let now = Seen::new(stamp, &std::fs::read(path).ok()?);
        (now.digest == self.digest).then_some(now)
    }

    pub fn digest(&self) -> Digest {
        self.digest
    }

    /// Whether the stamp alone tells that it is the same.
    pub(super) fn is_stamped(&self, now: Option<Stamp>) -> bool {
        self.stamp.is_some() && self.stamp == now
    }

    /// For later runs: without a stamp that a change may yet bear too.
    pub fn settled(self, now: SystemTime) -> Seen {
        Seen { stamp: self.stamp.filter(|stamp| stamp.is_settled(now)), ..self }
    }
}

/// A source file as it was last read.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct Record {
    pub seen: Seen,
    pub outline: Outline,
    /// Under what it was without findings.
    pub clean: Option<Digest>,
}

/// What runs of `check` and `build` know of the sources of one workspace.
#[derive(Debug, Default, Serialize, Deserialize)]
pub struct Records {
    /// By their names, which are sorted. Boxed: they are handed on several times a run, and large.
    pub(super) sources: Vec<(String, Box<Record>)>,
    pub(super) pictures: BTreeMap<String, Seen>,
}

/// Something that is kept for one workspace between runs.
pub struct Kept<T> {
    path: PathBuf,
    pub value: T,
}

impl<T: Serialize + DeserializeOwned + Default> Kept<T> {
    /// What is kept under `name` of the workspace at `root`; what is not there or cannot be read is empty.
    pub fn open(folder: &Path, root: &Path, name: &str) -> Kept<T> {
        let path = file::path(folder, root, name);
        let value = file::read(&path).unwrap_or_default();
        Kept { path, value }
    }

    /// Keeps it for later runs, as far as that can be done: no run fails for it.
    pub fn save(&self) {
        file::write(&self.path, &self.value);
    }
}
