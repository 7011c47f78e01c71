//! The files that a store is kept in: whole and of this very program, or not there.
use super::Digest;
use crate::workspace::files;
use etcetera::BaseStrategy;
use serde::{Serialize, de::DeserializeOwned};
use std::path::{Path, PathBuf};
use std::time::Duration;

/// Where stores are kept: as the user says, else with what the system keeps of other programs. Empty: nowhere.
pub fn folder() -> Option<PathBuf> {
    match std::env::var_os(VARIABLE) {
        Some(said) => Some(PathBuf::from(said)).filter(|said| !said.as_os_str().is_empty()),
        None => Some(etcetera::choose_base_strategy().ok()?.cache_dir().join("cotter")),
    }
}

const VARIABLE: &str = "COTTER_CACHE";

/// A workspace is known by its place. Another at the same place is no harm: only contents are believed.
pub fn path(folder: &Path, root: &Path, name: &str) -> PathBuf {
    let place = Digest::of(root.as_os_str().as_encoded_bytes());
    let place: String = place.bytes().iter().take(8).map(|byte| format!("{byte:02x}")).collect();
    folder.join(format!("{place}-{name}"))
}

/// What the file holds.
pub fn read<T: DeserializeOwned>(path: &Path) -> Option<T> {
    let bytes = files::read_bytes(path, "", LARGEST, "").ok()?;
    let (digest, rest) = bytes.split_at_checked(Digest::default().bytes().len())?;
    if Digest::of(rest).bytes() != digest {
        return None;
    }
    // Another program may have written other shapes.
    let (program, rest) = postcard::take_from_bytes::<&str>(rest).ok()?;
    if program == PROGRAM { postcard::from_bytes(rest).ok() } else { None }
}

/// What writes and reads: another program may find other things.
pub const PROGRAM: &str = env!("COTTER_PROGRAM");
/// More is no store that a shop fills.
const LARGEST: u64 = 1 << 30;

/// Where it cannot be written, the next run looks again.
pub fn write<T: Serialize>(path: &Path, value: &T) {
    // A store of a large shop is large: its digest is put into the same bytes.
    let Ok(mut bytes) = postcard::to_stdvec(&(Digest::default(), PROGRAM, value)) else { return };
    let Some((digest, rest)) = bytes.split_at_mut_checked(Digest::default().bytes().len()) else { return };
    digest.copy_from_slice(Digest::of(rest).bytes());
    let written = path.parent().map_or(Ok(()), std::fs::create_dir_all);
    // Nothing is lost with it but time.
    let _ = written.and_then(|()| files::write(path, &bytes));
    let Some(folder) = path.parent() else { return };
    files::clear_unfinished(folder);
    drop_forgotten(folder);
}

/// What nobody wrote for so long is of a workspace that is gone; if it is not, its next run looks at all of it once.
const FORGOTTEN: Duration = Duration::from_hours(180 * 24);

fn drop_forgotten(folder: &Path) {
    let entries = std::fs::read_dir(folder).into_iter().flatten().flatten();
    for entry in entries.filter(|entry| entry.file_name().to_str().is_some_and(is_store)) {
        let written = entry.metadata().and_then(|it| it.modified()).ok();
        let age = written.and_then(|it| it.elapsed().ok());
        if age.is_some_and(|age| age > FORGOTTEN) {
            let _ = std::fs::remove_file(entry.path());
        }
    }
}

/// Whether [`path`] gives such names; whatever else lies in the folder is somebody else's.
fn is_store(name: &str) -> bool {
    let is_place = |place: &str| place.len() == 16 && place.bytes().all(|byte| byte.is_ascii_hexdigit());
    name.split_once('-').is_some_and(|(place, kind)| is_place(place) && matches!(kind, "sources" | "sheets"))
}
