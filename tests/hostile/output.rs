//! Odd output folders.
use super::{calm, clean, files};
use crate::support::workspace::Workspace;
use std::os::unix::fs::symlink;
use std::process::Command;

#[test]
fn an_output_folder_among_the_sources_leaves_them_alone() {
    let workspace =
        Workspace::new().file("shop/a.cotter", clean("FW-TST-001")).file("shop/FW-TST-001/notes.txt", "mine");
    let before = files(&workspace, "shop");
    for _ in 0..2 {
        let run = workspace.run(&["build", "shop", "--output", "shop"]);
        calm(&run);
        assert_eq!(run.code, 0, "{}", run.stderr);
    }
    let after = files(&workspace, "shop");
    assert_eq!(after.len(), before.len() + 7);
    assert!(before.iter().all(|(name, bytes)| after.get(name) == Some(bytes)));
}

#[test]
fn files_and_links_to_nothing_where_folders_should_be_are_told_of() {
    let workspace = Workspace::new()
        .file("a.cotter", clean("FW-TST-001"))
        .file("file", "a file")
        .file("in/FW-TST-001", "a file")
        .file("page/FW-TST-001/bench.html/kept", "a folder");
    symlink("nowhere", workspace.path("link")).unwrap();
    for (output, words) in [
        ("file", "stands where its folder should be"),
        ("file/below", "stands where its folder should be"),
        ("in", "stands where its folder should be"),
        ("link", "stands where its folder should be"),
        ("page", "a folder stands in its place"),
    ] {
        let run = workspace.run(&["build", "--output", output]);
        calm(&run);
        assert_eq!(run.code, 2, "{output}");
        assert!(run.stderr.contains(words) && run.stderr.contains("  help: "), "{output}: {}", run.stderr);
    }
    assert_eq!((workspace.read("file"), workspace.read("in/FW-TST-001")), ("a file".into(), "a file".into()));
    assert_eq!(workspace.read("page/FW-TST-001/bench.html/kept"), "a folder");
    assert!(!workspace.path("nowhere").exists());
}

/// Whoever names a link as the output folder means what it leads to.
#[test]
fn an_output_folder_that_is_a_link_is_followed_and_links_in_it_are_not() {
    let workspace = Workspace::new()
        .file("a.cotter", clean("FW-TST-001"))
        .file("site/FW-TST-001/keep", "")
        .file("precious.html", "mine");
    symlink("site", workspace.path("out")).unwrap();
    symlink(workspace.path("precious.html"), workspace.path("site/FW-TST-001/bench.html")).unwrap();
    symlink(workspace.path("precious.html"), workspace.path("site/index.html")).unwrap();
    let run = workspace.run(&["build"]);
    calm(&run);
    assert_eq!(run.code, 0, "{}", run.stderr);
    assert_eq!(workspace.read("precious.html"), "mine", "a sheet takes the place of a link");
    for sheet in ["site/FW-TST-001/bench.html", "site/index.html"] {
        assert!(
            !workspace.path(sheet).is_symlink() && workspace.read(sheet).ends_with("</html>\n"),
            "{sheet}"
        );
    }
}

/// What was there is read to see whether it changed; a pipe that nobody fills and a device that never ends are not.
#[test]
fn nothing_waits_for_a_pipe_in_a_sheets_place() {
    let workspace = Workspace::new().file("a.cotter", clean("FW-TST-001")).file("out/FW-TST-001/keep", "");
    let pipe = Command::new("mkfifo").arg(workspace.path("out/FW-TST-001/bench.html")).status().unwrap();
    assert!(pipe.success());
    symlink("/dev/zero", workspace.path("out/FW-TST-001/kit.html")).unwrap();
    let run = workspace.run(&["build"]);
    calm(&run);
    assert_eq!(run.code, 0, "{}", run.stderr);
    assert!(workspace.read("out/FW-TST-001/bench.html").contains("FW-TST-001"));
}

#[test]
fn a_pipe_among_the_sources_is_told_of() {
    let workspace = Workspace::new().file("a.cotter", clean("FW-TST-001"));
    assert!(Command::new("mkfifo").arg(workspace.path("pipe.cotter")).status().unwrap().success());
    let run = workspace.run(&["build"]);
    calm(&run);
    assert!(run.stderr.contains("pipe.cotter: is not an ordinary file"), "{}", run.stderr);
    assert!(workspace.path("out/FW-TST-001/bench.html").is_file());
}
