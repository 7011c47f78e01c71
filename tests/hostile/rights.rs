//! Files and folders that may not be read or written. No right binds the superuser, so what root runs is run as nobody.
use super::{calm, clean, files};
use crate::support::workspace::{Run, Workspace};
use std::fs::Permissions;
use std::os::unix::fs::{MetadataExt, PermissionsExt};
use std::os::unix::process::CommandExt;
use std::process::Command;

const NOBODY: u32 = 65_534;

fn set(workspace: &Workspace, name: &str, mode: u32) {
    std::fs::set_permissions(workspace.path(name), Permissions::from_mode(mode)).unwrap();
}

/// Runs the program in the workspace as somebody whom rights bind.
fn run(workspace: &Workspace, arguments: &[&str]) -> Run {
    if std::fs::metadata(workspace.path(".")).unwrap().uid() != 0 {
        return workspace.run(arguments);
    }
    // Nobody need not have a way into the folder that the program was built in.
    let beside = Workspace::new();
    set(&beside, ".", 0o755);
    std::fs::copy(env!("CARGO_BIN_EXE_cotter"), beside.path("cotter")).unwrap();
    let given = Command::new("chown").args(["-R", "65534:65534"]).arg(workspace.path(".")).status().unwrap();
    assert!(given.success());
    let mut command = Command::new(beside.path("cotter"));
    let run = Run::of(
        command.current_dir(workspace.path(".")).args(arguments).uid(NOBODY).gid(NOBODY).output().unwrap(),
    );
    assert!(Command::new("chown").arg("0:0").arg(workspace.path(".")).status().unwrap().success());
    run
}

#[test]
fn what_may_not_be_read_is_told_of_and_the_others_are_built() {
    let workspace = Workspace::new()
        .file("a.cotter", clean("FW-TST-001"))
        .file("locked.cotter", clean("FW-TST-002"))
        .file("shut/b.cotter", clean("FW-TST-003"));
    set(&workspace, "locked.cotter", 0o000);
    set(&workspace, "shut", 0o000);
    let run = run(&workspace, &["build"]);
    set(&workspace, "shut", 0o755);
    calm(&run);
    assert_eq!(run.code, 2);
    for name in ["locked.cotter", "shut"] {
        let told = format!("{name}: may not be read\n  help: give yourself the right to read it\n");
        assert!(run.stderr.contains(&told), "{}", run.stderr);
    }
    assert_eq!(files(&workspace, "out").len(), 7);
}

#[test]
fn settings_that_may_not_be_read_stop_everything() {
    let workspace =
        Workspace::new().file("a.cotter", clean("FW-TST-001")).file("cotter.toml", "benches = 3\n");
    set(&workspace, "cotter.toml", 0o000);
    let run = run(&workspace, &["build"]);
    calm(&run);
    assert!(run.stderr.contains("cotter.toml: may not be read"), "{}", run.stderr);
    assert!(!workspace.path("out").exists(), "under other settings other sheets would come out");
}

#[test]
fn a_folder_that_may_not_be_written_keeps_what_it_has() {
    let workspace = Workspace::new().file("a.cotter", clean("FW-TST-001"));
    assert_eq!(run(&workspace, &["build"]).code, 0);
    let before = files(&workspace, "out");
    for (folder, shut, word) in
        [("out/FW-TST-001", "out/FW-TST-001/", "Change"), ("out", "out/index.html", "Fit")]
    {
        workspace.write("a.cotter", clean("FW-TST-001").replace("Renew", word));
        set(&workspace, folder, 0o555);
        let run = run(&workspace, &["build"]);
        set(&workspace, folder, 0o755);
        calm(&run);
        assert_eq!(run.code, 2);
        assert!(
            run.stderr.contains(shut) && run.stderr.contains(": may not be written\n  help: "),
            "{}",
            run.stderr
        );
        if folder != "out" {
            let after = files(&workspace, folder);
            assert!(
                after.iter().all(|(name, bytes)| before.get(&format!("FW-TST-001/{name}")) == Some(bytes))
            );
        }
    }
    assert!(files(&workspace, "out").keys().all(|name| !super::is_unfinished(name)));
}

#[test]
fn a_source_that_may_not_be_written_stays_as_it_is() {
    let text = "procedure  FW-TST-001 \"A trial\"\n";
    let workspace = Workspace::new().file("shut/a.cotter", text);
    set(&workspace, "shut", 0o555);
    let run = run(&workspace, &["fmt"]);
    set(&workspace, "shut", 0o755);
    calm(&run);
    assert!(run.stderr.contains("shut/a.cotter: cannot be formatted: "), "{}", run.stderr);
    assert_eq!((workspace.read("shut/a.cotter"), workspace.files("shut").len()), (text.to_owned(), 1));
}
