//! Earlier revisions, read through the git program; nothing of the repository is changed.
use super::trouble::Trouble;
use crate::workspace::collect::is_source;
use crate::workspace::settings::FILE_NAME;
use std::fs::File;
use std::io::{ErrorKind, Write};
use std::path::{Component, Path, PathBuf};
use std::process::{Command, Output, Stdio};

/// Files with these endings may be pictures of figures.
const PICTURES: [&str; 4] = ["svg", "png", "jpg", "jpeg"];

/// A repository.
pub struct Git {
    /// Its outermost folder.
    pub top: PathBuf,
}

/// Sources, settings and pictures of one revision, in a folder that goes away with the value.
pub struct Unpacked {
    folder: tempfile::TempDir,
}

impl Unpacked {
    /// Stands for the outermost folder of the repository.
    pub fn top(&self) -> &Path {
        self.folder.path()
    }
}

impl Git {
    /// The repository that holds `folder`.
    pub fn around(folder: &Path) -> Result<Git, Trouble> {
        let output = run(folder, &["rev-parse", "--show-toplevel"], Stdio::null())?;
        let top = String::from_utf8_lossy(&output.stdout).trim_end_matches(['\n', '\r']).to_owned();
        if !output.status.success() || top.is_empty() {
            let trouble = Trouble::new(folder.to_string_lossy(), "lies in no git repository");
            return Err(trouble.help("name two files, or work in the repository that holds the procedures"));
        }
        let top = PathBuf::from(top);
        Ok(Git { top: top.canonicalize().unwrap_or(top) })
    }

    /// The commit that `revision` stands for.
    pub fn commit(&self, revision: &str) -> Result<String, Trouble> {
        let asked = format!("{revision}^{{commit}}");
        let unknown = || {
            Trouble::new(revision, "the repository has no such revision")
                .help("`git log --oneline` lists revisions; in a build server's copy some may be missing")
        };
        // What begins with a dash would be taken for an option.
        if revision.starts_with('-') || revision.is_empty() {
            return Err(unknown());
        }
        let output = run(&self.top, &["rev-parse", "--verify", "--quiet", &asked], Stdio::null())?;
        let name = String::from_utf8_lossy(&output.stdout).trim().to_owned();
        if output.status.success() && !name.is_empty() { Ok(name) } else { Err(unknown()) }
    }

    /// Takes out what procedures are made of.
    pub fn unpack(&self, commit: &str) -> Result<Unpacked, Trouble> {
        let failed = |error: std::io::Error| Trouble::new("git", format!("cannot be read from: {error}"));
        let listed = self.said(&["ls-tree", "-r", "-z", "--full-tree", commit])?;
        let wanted: Vec<(String, PathBuf)> = listed.split(|byte| *byte == 0).filter_map(entry).collect();
        let folder = tempfile::tempdir().map_err(failed)?;
        let mut asked = tempfile::tempfile().map_err(failed)?;
        for (id, _) in &wanted {
            writeln!(asked, "{id}").map_err(failed)?;
        }
        let asked = rewound(asked).map_err(failed)?;
        let output = run(&self.top, &["cat-file", "--batch"], Stdio::from(asked))?;
        let mut rest = output.stdout.as_slice();
        for (_, name) in &wanted {
            // A copy that leaves old files out cannot fetch them without a network.
            let missing =
                || Trouble::new(name.to_string_lossy(), "the repository lacks this file of the revision");
            let (blob, after) = blob(rest).ok_or_else(missing)?;
            let path = folder.path().join(name);
            if let Some(parent) = path.parent() {
                std::fs::create_dir_all(parent).map_err(failed)?;
            }
            std::fs::write(path, blob).map_err(failed)?;
            rest = after;
        }
        // Without settings of its own it would take those of whoever left some above the folder for such things.
        let settings = folder.path().join(FILE_NAME);
        if !settings.exists() {
            std::fs::write(settings, "").map_err(failed)?;
        }
        Ok(Unpacked { folder })
    }

    /// Files that differ from `commit`, and those that git does not know yet; absolute.
    pub fn changed(&self, commit: &str) -> Result<Vec<PathBuf>, Trouble> {
        let mut names = self.said(&["diff", "--name-only", "-z", "--no-renames", commit, "--"])?;
        names.extend(self.said(&["ls-files", "--others", "--exclude-standard", "-z", "--full-name"])?);
        let names = names.split(|byte| *byte == 0).filter(|name| !name.is_empty());
        Ok(names.map(|name| self.top.join(&*String::from_utf8_lossy(name))).collect())
    }

    /// What git answers; its own words where it refuses.
    fn said(&self, arguments: &[&str]) -> Result<Vec<u8>, Trouble> {
        let output = run(&self.top, arguments, Stdio::null())?;
        if output.status.success() {
            return Ok(output.stdout);
        }
        let words = String::from_utf8_lossy(&output.stderr).trim().replace('\n', ", ");
        Err(Trouble::new("git", words))
    }
}

fn run(folder: &Path, arguments: &[&str], input: Stdio) -> Result<Output, Trouble> {
    let mut command = Command::new("git");
    command.arg("-C").arg(folder).args(["-c", "core.quotepath=off"]).args(arguments);
    command.env("GIT_OPTIONAL_LOCKS", "0").env("LC_ALL", "C").stdin(input);
    command.output().map_err(|error| match error.kind() {
        ErrorKind::NotFound => {
            Trouble::new("git", "the git program is not here, and revisions are read through it")
                .help("install git, or name two files")
        }
        _ => Trouble::new("git", format!("cannot be run: {error}")),
    })
}

/// `100644 blob ID\tNAME` of a file that is wanted; links and other repositories are not.
fn entry(line: &[u8]) -> Option<(String, PathBuf)> {
    let line = std::str::from_utf8(line).ok()?;
    let (facts, name) = line.split_once('\t')?;
    let mut facts = facts.split(' ');
    let plain = facts.next()?.starts_with("100") && facts.next()? == "blob";
    let path = PathBuf::from(name);
    let ending = path.extension().and_then(|it| it.to_str()).unwrap_or("").to_ascii_lowercase();
    let wanted = is_source(&path) || path.file_name()? == FILE_NAME || PICTURES.contains(&ending.as_str());
    let inside = path.components().all(|part| matches!(part, Component::Normal(_)));
    (plain && wanted && inside).then(|| Some((facts.next()?.to_owned(), path)))?
}

/// The first file of git's answer, `ID blob SIZE\nBYTES\n`, and what follows.
fn blob(answer: &[u8]) -> Option<(&[u8], &[u8])> {
    let end = answer.iter().position(|byte| *byte == b'\n')?;
    let head = std::str::from_utf8(answer.get(..end)?).ok()?;
    let size: usize = head.rsplit(' ').next()?.parse().ok()?;
    let from = end + 1;
    Some((answer.get(from..from + size)?, answer.get(from + size + 1..)?))
}

fn rewound(mut file: File) -> std::io::Result<File> {
    use std::io::Seek;
    file.rewind()?;
    Ok(file)
}
