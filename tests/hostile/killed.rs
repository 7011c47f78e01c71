//! The program is stopped in the middle, where it can do nothing about it.
use super::{clean, files, is_unfinished};
use crate::support::workspace::Workspace;
use std::process::Stdio;
use std::time::{Duration, Instant};

const KILLS: u32 = 40;
const PROCEDURES: usize = 8;

fn write(workspace: &Workspace, text: impl Fn(&str) -> String) {
    for at in 0..PROCEDURES {
        workspace.write(&format!("{at}.cotter"), text(&format!("FW-TST-00{at}")));
    }
}

#[test]
fn every_sheet_is_the_old_or_the_new_one_and_the_next_build_leaves_nothing_else() {
    let workspace = Workspace::new();
    let texts: [&dyn Fn(&str) -> String; 2] =
        [&|number| clean(number), &|number| clean(number).replace("Renew", "Change")];
    let mut whole = Vec::new();
    let mut long = Duration::ZERO;
    for (at, text) in texts.iter().enumerate() {
        write(&workspace, text);
        let started = Instant::now();
        assert_eq!(workspace.run(&["build", "--output", &format!("whole-{at}")]).code, 0);
        long = started.elapsed();
        whole.push(files(&workspace, &format!("whole-{at}")));
    }
    assert_eq!(workspace.run(&["build"]).code, 0);
    let mut stopped = 0;
    for kill in 0..KILLS {
        write(&workspace, texts[kill as usize % 2]);
        let mut command = workspace.command(".", &["build"]);
        let mut build = command.stdout(Stdio::null()).stderr(Stdio::null()).spawn().unwrap();
        std::thread::sleep(long * (kill % 20) / 20);
        stopped += usize::from(build.try_wait().unwrap().is_none());
        build.kill().unwrap();
        build.wait().unwrap();
        for (name, bytes) in files(&workspace, "out").iter().filter(|(name, _)| !is_unfinished(name)) {
            assert!(whole.iter().any(|made| made.get(name) == Some(bytes)), "{name} is neither old nor new");
        }
    }
    assert!(stopped > KILLS as usize / 4, "only {stopped} builds were stopped in the middle");
    assert_eq!(workspace.run(&["build"]).code, 0);
    assert_eq!(files(&workspace, "out"), whole[(KILLS as usize - 1) % 2]);
}

#[test]
fn only_what_a_stopped_build_left_is_taken_away() {
    let stray = "out/FW-TST-001/.cotter-Ab12cD";
    let kept = [
        "out/.cotter-notes",
        "out/.cotter-1234567",
        "out/mine/.cotter-Ab12cD",
        "out/FW-TST-001/.cotter-Ab 2cD",
        "out/FW-TST-001/.cotter-Ab12cE/x",
    ];
    let mut workspace = Workspace::new().file("a.cotter", clean("FW-TST-001"));
    for name in kept.into_iter().chain([stray, "out/.cotter-zzzzzz", "out/FW-TST-001/.cotter-locked"]) {
        workspace = workspace.file(name, "<!doctype");
    }
    // As a build that goes on has it.
    let locked = std::fs::File::open(workspace.path("out/FW-TST-001/.cotter-locked")).unwrap();
    locked.lock().unwrap();
    assert_eq!(workspace.run(&["build"]).code, 0);
    let left = files(&workspace, "out");
    assert!(
        kept.iter().all(|name| left.contains_key(name.strip_prefix("out/").unwrap())),
        "{:?}",
        left.keys()
    );
    assert!(left.contains_key("FW-TST-001/.cotter-locked"));
    assert!(!workspace.path(stray).exists() && !workspace.path("out/.cotter-zzzzzz").exists());
    drop(locked);
    assert_eq!(workspace.run(&["build"]).code, 0);
    assert!(!workspace.path("out/FW-TST-001/.cotter-locked").exists());
}
