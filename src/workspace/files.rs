//! Reads source files: bounded, and every way it can go wrong has its own sentence.
use super::trouble::Trouble;
use std::fs::File;
use std::io::{self, Read, Write};
use std::path::Path;

/// No procedure is larger; a file that is was not written by hand.
pub const LARGEST: u64 = 16 * 1024 * 1024;

/// The text of a source file. `shown` names it in the trouble.
pub fn read(path: &Path, shown: &str) -> Result<String, Trouble> {
    let bytes = read_bytes(path, shown, LARGEST, "split it: one procedure is one file")?;
    String::from_utf8(bytes).map_err(|error| not_utf8(shown, &error))
}

/// The bytes of a file of at most `largest` bytes; `mend` helps where it has more.
pub fn read_bytes(path: &Path, shown: &str, largest: u64, mend: &str) -> Result<Vec<u8>, Trouble> {
    let failed = |error: io::Error| unreadable(shown, &error);
    let meta = std::fs::metadata(path).map_err(failed)?;
    if meta.is_dir() {
        return Err(Trouble::new(shown, "is a folder, not a file"));
    }
    if !meta.is_file() {
        return Err(Trouble::new(shown, "is not an ordinary file").help("name a file that holds text"));
    }
    let file = File::open(path).map_err(failed)?;
    let mut bytes = Vec::with_capacity(usize::try_from(meta.len().min(largest)).unwrap_or(0));
    file.take(largest + 1).read_to_end(&mut bytes).map_err(failed)?;
    if bytes.len() as u64 > largest {
        return Err(too_large(shown, largest).help(mend));
    }
    Ok(bytes)
}

/// Writes a source file anew, whole or not at all, with the rights it had.
///
/// # Errors
/// Where somebody has changed it meanwhile, or it cannot be written.
pub fn save(path: &Path, before: &str, after: &str) -> io::Result<()> {
    // Behind a link the file itself is written.
    let path = &std::fs::canonicalize(path)?;
    if std::fs::read_to_string(path)? != before {
        return Err(io::Error::other("it was changed while it was checked"));
    }
    let folder = path.parent().unwrap_or(Path::new("."));
    let mut file = tempfile::NamedTempFile::new_in(folder)?;
    file.write_all(after.as_bytes())?;
    file.as_file().set_permissions(std::fs::metadata(path)?.permissions())?;
    file.persist(path).map_err(|error| error.error)?;
    Ok(())
}

/// Writes a new file, whole or not at all, and never over one that is there. `shown` names it in the trouble.
///
/// # Errors
/// Where there is a file already, or it cannot be written.
pub fn create(path: &Path, shown: &str, text: &str) -> Result<(), Trouble> {
    let failed = |error: io::Error| match error.kind() {
        io::ErrorKind::AlreadyExists => {
            Trouble::new(shown, "is there already").help("name a file that is not there yet")
        }
        _ => Trouble::new(shown, format!("cannot be written: {error}")),
    };
    let file = filled(path, text.as_bytes()).map_err(failed)?;
    file.persist_noclobber(path).map(|_| ()).map_err(|error| failed(error.error))
}

/// Writes a file that the program makes, whole or not at all, with the rights of any new file; one that is there is
/// replaced.
///
/// # Errors
/// Where it cannot be written.
pub fn write(path: &Path, bytes: &[u8]) -> io::Result<()> {
    filled(path, bytes)?.persist(path).map_err(|error| error.error)?;
    Ok(())
}

/// A file without its name yet, beside where it is to stand.
fn filled(path: &Path, bytes: &[u8]) -> io::Result<tempfile::NamedTempFile> {
    let folder = path.parent().filter(|it| !it.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let mut builder = tempfile::Builder::new();
    builder.prefix(".cotter-");
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt;
        // What a plain new file would get: the process's mask still takes away from it.
        builder.permissions(std::fs::Permissions::from_mode(0o666));
    }
    let mut file = builder.tempfile_in(folder)?;
    file.write_all(bytes)?;
    Ok(file)
}

/// What is handed in on standard input.
pub fn read_standard_input() -> Result<String, Trouble> {
    const SHOWN: &str = "standard input";
    let mut bytes = Vec::new();
    io::stdin().take(LARGEST + 1).read_to_end(&mut bytes).map_err(|error| unreadable(SHOWN, &error))?;
    if bytes.len() as u64 > LARGEST {
        return Err(too_large(SHOWN, LARGEST));
    }
    String::from_utf8(bytes).map_err(|error| not_utf8(SHOWN, &error))
}

fn too_large(shown: &str, largest: u64) -> Trouble {
    Trouble::new(shown, format!("is larger than {} MiB", largest / (1024 * 1024)))
}

/// A trouble for what the operating system said.
pub fn unreadable(shown: &str, error: &io::Error) -> Trouble {
    match error.kind() {
        io::ErrorKind::NotFound => {
            Trouble::new(shown, "there is no such file or folder").help("look for a slip in the path")
        }
        io::ErrorKind::PermissionDenied => {
            Trouble::new(shown, "may not be read").help("give yourself the right to read it")
        }
        _ => Trouble::new(shown, format!("cannot be read: {error}")),
    }
}

fn not_utf8(shown: &str, error: &std::string::FromUtf8Error) -> Trouble {
    let bytes = error.as_bytes();
    let valid = bytes.get(..error.utf8_error().valid_up_to()).unwrap_or_default();
    let text = String::from_utf8_lossy(valid);
    let line = text.matches('\n').count() + 1;
    let column = text.rsplit('\n').next().unwrap_or("").chars().count() + 1;
    let utf16 = bytes.starts_with(&[0xFF, 0xFE]) || bytes.starts_with(&[0xFE, 0xFF]);
    let message = if utf16 { "is UTF-16, not UTF-8" } else { "is not UTF-8 text" };
    Trouble::new(shown, message).at((line, column)).help("save it as UTF-8 in your editor")
}
