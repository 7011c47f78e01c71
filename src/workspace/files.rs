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

/// What is said of a file that [`leads_out`].
pub const LEADS_OUT: &str = "is a link that leads out of the workspace";

/// Whether the file lies outside the workspace at `root`, behind a link. Such a link may lead anywhere, and what it leads
/// to would be quoted, printed or written anew on behalf of whoever made the link. Where nothing is there nothing is said.
pub fn leads_out(root: &Path, path: &Path) -> bool {
    let real = |path: &Path| std::fs::canonicalize(path).ok();
    real(path).zip(real(root)).is_some_and(|(file, root)| !file.starts_with(root))
}

/// The text of a source file of the workspace at `root`.
///
/// # Errors
/// As [`read`], and where it [`leads_out`].
pub fn read_inside(root: &Path, path: &Path, shown: &str) -> Result<String, Trouble> {
    // What is no file at all is told of as that.
    if path.is_file() && leads_out(root, path) {
        return Err(Trouble::new(shown, LEADS_OUT)
            .help("put the file itself here, or work in the folder where it lies"));
    }
    read(path, shown)
}

/// Writes a source file of the workspace at `root` anew, whole or not at all, with the rights it had.
///
/// # Errors
/// Where it leads out of the workspace, somebody has changed it meanwhile, or it cannot be written.
pub fn save(root: &Path, path: &Path, before: &str, after: &str) -> io::Result<()> {
    if leads_out(root, path) {
        return Err(io::Error::other(format!("it {LEADS_OUT}")));
    }
    // Behind a link the file itself is written.
    let path = &std::fs::canonicalize(path)?;
    if std::fs::read_to_string(path)? != before {
        return Err(io::Error::other("it was changed while it was checked"));
    }
    let file = filled(path, after.as_bytes())?;
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
    let whole = || filled(path, bytes)?.persist(path).map(|_| ()).map_err(|error| error.error);
    match whole() {
        // Another run took it away in the moment before it was locked.
        Err(error) if error.kind() == io::ErrorKind::NotFound => whole(),
        done => done,
    }
}

/// What names of files that are still written begin with; [`RANDOM`] letters and digits follow.
const UNFINISHED: &str = ".cotter-";
const RANDOM: usize = 6;

/// Takes away what a run that was stopped in the middle left behind in the folder. What another run still writes is locked,
/// and stays.
pub fn clear_unfinished(folder: &Path) {
    let is_unfinished = |name: &str| {
        let random = name.strip_prefix(UNFINISHED).unwrap_or_default();
        random.len() == RANDOM && random.bytes().all(|byte| byte.is_ascii_alphanumeric())
    };
    for entry in std::fs::read_dir(folder).into_iter().flatten().flatten() {
        let is_file = entry.file_type().is_ok_and(|kind| kind.is_file());
        if is_file && entry.file_name().to_str().is_some_and(is_unfinished) {
            let stray = File::open(entry.path()).ok().filter(|file| file.try_lock().is_ok());
            // One that cannot be taken away harms nobody.
            let _ = stray.map(|_| std::fs::remove_file(entry.path()));
        }
    }
}

/// A file without its name yet, beside where it is to stand.
fn filled(path: &Path, bytes: &[u8]) -> io::Result<tempfile::NamedTempFile> {
    let folder = path.parent().filter(|it| !it.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let mut builder = tempfile::Builder::new();
    builder.prefix(UNFINISHED).rand_bytes(RANDOM);
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt;
        // What a plain new file would get: the process's mask still takes away from it.
        builder.permissions(std::fs::Permissions::from_mode(0o666));
    }
    let mut file = builder.tempfile_in(folder)?;
    // Where files cannot be locked, nobody can take it for a stray either.
    let _ = file.as_file().try_lock();
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
