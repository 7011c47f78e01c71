//! A small workspace in a temporary folder, and the real program run in it.
use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};

/// Files in a temporary folder that goes away with the value.
pub struct Workspace {
    folder: tempfile::TempDir,
    /// Where its runs keep what they know: nothing of one test reaches another.
    store: tempfile::TempDir,
}

/// What one run of the program gave.
pub struct Run {
    pub code: i32,
    pub stdout: String,
    pub stderr: String,
}

impl Run {
    pub fn of(output: Output) -> Run {
        Run {
            code: output.status.code().expect("the program ends by itself"),
            stdout: String::from_utf8(output.stdout).unwrap(),
            stderr: String::from_utf8(output.stderr).unwrap(),
        }
    }
}

impl Workspace {
    pub fn new() -> Workspace {
        Workspace { folder: tempfile::tempdir().unwrap(), store: tempfile::tempdir().unwrap() }
    }

    pub fn path(&self, name: &str) -> PathBuf {
        self.folder.path().join(name)
    }

    /// Writes a file, with the folders it needs.
    pub fn file(self, name: &str, text: impl AsRef<[u8]>) -> Workspace {
        self.write(name, text);
        self
    }

    pub fn write(&self, name: &str, text: impl AsRef<[u8]>) {
        let path = self.path(name);
        std::fs::create_dir_all(path.parent().unwrap()).unwrap();
        std::fs::write(path, text).unwrap();
    }

    pub fn read(&self, name: &str) -> String {
        std::fs::read_to_string(self.path(name)).unwrap()
    }

    /// Runs the program in the workspace's folder, colours and widths left to their defaults.
    pub fn run(&self, arguments: &[&str]) -> Run {
        self.run_in(".", arguments)
    }

    pub fn run_in(&self, folder: &str, arguments: &[&str]) -> Run {
        self.run_with(folder, arguments, &[])
    }

    pub fn run_with(&self, folder: &str, arguments: &[&str], variables: &[(&str, &str)]) -> Run {
        let mut command = self.command(folder, arguments);
        Run::of(command.envs(variables.iter().copied()).output().unwrap())
    }

    /// Runs the program with `input` on its standard input.
    pub fn run_on(&self, input: impl AsRef<[u8]>, arguments: &[&str]) -> Run {
        let mut command = self.command(".", arguments);
        command.stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped());
        let mut child = command.spawn().unwrap();
        // One that ends without reading leaves nobody to write to.
        let _ = child.stdin.take().unwrap().write_all(input.as_ref());
        Run::of(child.wait_with_output().unwrap())
    }

    /// Runs the program with its standard input from there, as from a terminal.
    pub fn run_from(&self, input: Stdio, arguments: &[&str]) -> Run {
        Run::of(self.command(".", arguments).stdin(input).output().unwrap())
    }

    pub fn command(&self, folder: &str, arguments: &[&str]) -> Command {
        let mut command = Command::new(env!("CARGO_BIN_EXE_cotter"));
        command.current_dir(self.path(folder)).args(arguments);
        for name in ["NO_COLOR", "CLICOLOR", "CLICOLOR_FORCE", "COLUMNS"] {
            command.env_remove(name);
        }
        command.env("COTTER_CACHE", self.store.path());
        command
    }

    /// What git says here; as nobody in particular, whatever the machine is set to.
    pub fn git(&self, arguments: &[&str]) -> String {
        let mut command = Command::new("git");
        command.current_dir(self.path(".")).args([
            "-c",
            "user.name=Nobody",
            "-c",
            "user.email=nobody@fenmoor.example",
        ]);
        command.args(["-c", "commit.gpgsign=false", "-c", "init.defaultBranch=main"]).args(arguments);
        let output = command.output().unwrap();
        assert!(output.status.success(), "{arguments:?}: {}", String::from_utf8_lossy(&output.stderr));
        String::from_utf8(output.stdout).unwrap()
    }

    /// Everything in the folder as one commit.
    pub fn commit(&self, message: &str) {
        self.git(&["init", "-q"]);
        self.git(&["add", "-A"]);
        self.git(&["commit", "-q", "-m", message]);
    }

    /// Every file below `folder` with its bytes, by name.
    pub fn files(&self, folder: &str) -> Vec<(String, Vec<u8>)> {
        let mut found = Vec::new();
        collect(&self.path(folder), &mut found);
        let root = self.path(folder);
        let mut named: Vec<(String, Vec<u8>)> = found
            .into_iter()
            .map(|p| {
                (p.strip_prefix(&root).unwrap().to_str().unwrap().to_owned(), std::fs::read(&p).unwrap())
            })
            .collect();
        named.sort();
        named
    }
}

fn collect(folder: &Path, found: &mut Vec<PathBuf>) {
    for entry in std::fs::read_dir(folder).into_iter().flatten() {
        let path = entry.unwrap().path();
        if path.is_dir() { collect(&path, found) } else { found.push(path) }
    }
}
