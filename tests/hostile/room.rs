//! No room left on the disk.
use super::{calm, clean, files, is_unfinished};
use crate::support::workspace::{Run, Workspace};
use std::process::Command;

/// What a build with all the room it wants makes.
fn whole(numbers: &[&str]) -> (Workspace, super::BTreeMap<String, Vec<u8>>) {
    let mut workspace = Workspace::new();
    for number in numbers {
        workspace = workspace.file(&format!("{number}.cotter"), clean(number));
    }
    assert_eq!(workspace.run(&["build", "--output", "whole"]).code, 0);
    let made = files(&workspace, "whole");
    (workspace, made)
}

const NUMBERS: [&str; 3] = ["FW-TST-001", "FW-TST-002", "FW-TST-003"];

/// A small disk of its own, taken away with the value; none where the machine lets nobody mount one.
struct Disk<'w>(&'w Workspace);

impl Disk<'_> {
    fn of<'w>(workspace: &'w Workspace, size: &str) -> Option<Disk<'w>> {
        let place = workspace.path("small");
        std::fs::create_dir(&place).unwrap();
        let size = format!("size={size}");
        let mounted = Command::new("mount").args(["-t", "tmpfs", "-o", &size, "tmpfs"]).arg(place).output();
        mounted.is_ok_and(|it| it.status.success()).then_some(Disk(workspace))
    }
}

impl Drop for Disk<'_> {
    fn drop(&mut self) {
        let _ = Command::new("umount").arg(self.0.path("small")).status();
    }
}

#[test]
fn a_full_disk_holds_whole_sheets_only_and_is_told_of() {
    let (workspace, whole) = whole(&NUMBERS);
    let Some(_disk) = Disk::of(&workspace, "192k") else {
        println!("skipped: no disk can be mounted here");
        return;
    };
    let run = workspace.run(&["build", "--output", "small", "--jobs", "1"]);
    calm(&run);
    assert_eq!(run.code, 2);
    let told = ": cannot be written: there is no room left for it\n  help: make room and build again";
    assert!(run.stderr.contains(told), "{}", run.stderr);
    let made = files(&workspace, "small");
    assert!(!made.is_empty() && made.len() < whole.len(), "{:?}", made.keys());
    for (name, bytes) in &made {
        assert!(!is_unfinished(name), "{name}");
        // The list tells of those alone that were made.
        assert!(name == "index.html" || whole.get(name) == Some(bytes), "{name} is not whole");
    }
}

/// The same by a limit that needs no rights: no file may grow beyond some kilobytes.
#[test]
fn a_file_that_may_not_grow_is_no_sheet() {
    let (workspace, _) = whole(&NUMBERS);
    let mut command = Command::new("sh");
    let script = "trap '' XFSZ; ulimit -f 16; exec \"$0\" build --output small";
    command.current_dir(workspace.path(".")).args(["-c", script, env!("CARGO_BIN_EXE_cotter")]);
    let run = Run::of(command.output().unwrap());
    calm(&run);
    assert_eq!(run.code, 2);
    assert!(
        run.stderr.contains("bench.html: cannot be written: there is no room left for it"),
        "{}",
        run.stderr
    );
    let there = files(&workspace, "small");
    assert!(!there.keys().any(|name| name.ends_with("bench.html")), "{:?}", there.keys());
}

#[test]
fn a_source_is_not_cut_off_where_its_new_text_has_no_room() {
    let text = format!("procedure  FW-TST-001 \"A trial\"\n{}", "do  \"the same again\"\n".repeat(800));
    let workspace = Workspace::new().file("a.cotter", &text);
    let mut command = Command::new("sh");
    command.current_dir(workspace.path(".")).args([
        "-c",
        "trap '' XFSZ; ulimit -f 16; exec \"$0\" fmt",
        env!("CARGO_BIN_EXE_cotter"),
    ]);
    let run = Run::of(command.output().unwrap());
    calm(&run);
    assert_eq!(run.code, 2);
    assert!(workspace.read("a.cotter") == text && workspace.files(".").len() == 1);
}
