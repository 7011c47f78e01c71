//! Reads the pictures that files name, each once: bounded, and nothing but ordinary files of the workspace.
use super::{Workspace, files};
use crate::model::Pictures;
use crate::model::catalogues::join;
use crate::model::picture::{Fault, Picture};
use std::fs::File;
use std::io::Read;

/// Sees to it that what `from` names is among the pictures. A path that cannot be joined is told of where it is written.
pub fn want(pictures: &mut Pictures, workspace: &Workspace, from: &str, written: &str) {
    let Ok(path) = join(from, written) else { return };
    if !pictures.contains(&path) {
        let bytes = read(workspace, &path);
        if let Some(watch) = &workspace.watch {
            watch.picture(&path, bytes.as_deref().ok());
        }
        let picture = bytes.and_then(|bytes| Picture::read(&bytes, largest(workspace)));
        pictures.add(path, picture);
    }
}

/// The bytes of a picture, relative to the workspace; none where a sheet could not show it.
pub fn bytes(workspace: &Workspace, path: &str) -> Option<Vec<u8>> {
    read(workspace, path).ok()
}

/// In bytes.
fn largest(workspace: &Workspace) -> u64 {
    u64::from(workspace.settings.pictures.each) * 1000
}

fn read(workspace: &Workspace, path: &str) -> Result<Vec<u8>, Fault> {
    let (root, path, largest) = (workspace.path(""), workspace.path(path), largest(workspace));
    let missing = |why: &str| Err(Fault::Missing(why.to_owned()));
    let failed = |error: std::io::Error| Fault::Missing(files::unreadable("", &error).message);
    let meta = std::fs::metadata(&path).map_err(failed)?;
    if meta.is_dir() {
        return missing("it is a folder");
    }
    if !meta.is_file() {
        return missing("it is not an ordinary file");
    }
    // A link may lead anywhere, and a sheet is given away.
    if files::leads_out(&root, &path) {
        return missing(&format!("it {}", files::LEADS_OUT));
    }
    if meta.len() > largest {
        return Err(Fault::TooLarge { bytes: meta.len() });
    }
    let mut bytes = Vec::with_capacity(usize::try_from(meta.len()).unwrap_or(0));
    File::open(path).and_then(|file| file.take(largest + 1).read_to_end(&mut bytes)).map_err(failed)?;
    Ok(bytes)
}
