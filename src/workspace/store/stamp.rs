//! What the file system says of a file without opening it.
use serde::{Deserialize, Serialize};
use std::fs::Metadata;
use std::path::Path;
use std::time::{Duration, SystemTime, UNIX_EPOCH};

/// Changes with every write, whatever the writer sets the time of the change to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Stamp {
    size: u64,
    /// Seconds and nanoseconds of the last change of the content.
    modified: (i64, i64),
    /// The same of the entry itself, which only the system sets.
    changed: (i64, i64),
    inode: u64,
    device: u64,
}

/// Coarse file systems and clocks that go apart: younger stamps are not trusted.
const SETTLES: Duration = Duration::from_secs(2);

impl Stamp {
    /// Of the file behind the path; `None` where there is none, or the system has no such times.
    pub fn of(path: &Path) -> Option<Stamp> {
        Stamp::read(&std::fs::metadata(path).ok()?)
    }

    #[cfg(unix)]
    #[allow(clippy::unnecessary_wraps)]
    fn read(meta: &Metadata) -> Option<Stamp> {
        use std::os::unix::fs::MetadataExt;
        Some(Stamp {
            size: meta.size(),
            modified: (meta.mtime(), meta.mtime_nsec()),
            changed: (meta.ctime(), meta.ctime_nsec()),
            inode: meta.ino(),
            device: meta.dev(),
        })
    }

    #[cfg(not(unix))]
    fn read(_: &Metadata) -> Option<Stamp> {
        None
    }

    /// Whether a change from now on would surely bear another time.
    pub fn is_settled(&self, now: SystemTime) -> bool {
        let limit = now.checked_sub(SETTLES).and_then(|it| it.duration_since(UNIX_EPOCH).ok());
        let seconds = |it: Duration| i64::try_from(it.as_secs()).ok();
        let limit = limit.and_then(|it| Some((seconds(it)?, i64::from(it.subsec_nanos()))));
        limit.is_some_and(|limit| self.changed < limit)
    }
}
