//! Somebody else writes while a build reads.
use super::{calm, clean, files};
use crate::support::workspace::Workspace;
use std::sync::atomic::{AtomicBool, Ordering};

/// Builds while a file is swapped.
const BUILDS: usize = 20;

#[test]
fn a_source_that_is_swapped_all_the_while_gives_one_of_its_sheets_or_none() {
    let one = clean("FW-TST-001");
    let other = one.replace("Renew", "Change");
    assert_ne!(one, other);
    let made = [&one, &other].map(|text| {
        let workspace = Workspace::new().file("a.cotter", text);
        assert_eq!(workspace.run(&["build"]).code, 0);
        files(&workspace, "out")
    });
    let workspace = Workspace::new().file("a.cotter", &one).file("b.cotter", "catalogue \"Quiet\"\n");
    let (path, done) = (workspace.path("a.cotter"), AtomicBool::new(false));
    std::thread::scope(|scope| {
        scope.spawn(|| {
            let mut turn = 0;
            while !done.load(Ordering::Relaxed) {
                turn += 1;
                // Written over, cut off, taken away, or not even a file.
                let swapped = match turn % 6 {
                    0 | 3 => std::fs::write(&path, &one),
                    1 | 4 => std::fs::write(&path, &other),
                    2 => std::fs::write(&path, &one[..one.len() / 3]),
                    _ => std::fs::remove_file(&path).and_then(|()| std::fs::create_dir(&path)),
                };
                swapped.unwrap();
                std::thread::yield_now();
                if path.is_dir() {
                    std::fs::remove_dir(&path).unwrap();
                }
            }
        });
        for _ in 0..BUILDS {
            let run = workspace.run(&["build"]);
            calm(&run);
            for (name, bytes) in files(&workspace, "out") {
                let known = made.iter().any(|made| made.get(&name) == Some(&bytes));
                // The list also tells of sheets that the build before made.
                let list = name == "index.html" && bytes.ends_with(b"</html>\n");
                assert!(known || list, "{name} is of neither text");
            }
        }
        done.store(true, Ordering::Relaxed);
    });
}

/// Two builds into one folder at once.
#[test]
fn builds_side_by_side_leave_each_other_alone() {
    let mut workspace = Workspace::new();
    for number in 1..=4 {
        workspace = workspace.file(&format!("{number}.cotter"), clean(&format!("FW-TST-00{number}")));
    }
    assert_eq!(workspace.run(&["build", "--output", "whole"]).code, 0);
    for round in 0..4 {
        let output = format!("out-{round}");
        std::thread::scope(|scope| {
            let builds = [0; 3].map(|_| scope.spawn(|| workspace.run(&["build", "--output", &output])));
            for build in builds {
                let run = build.join().unwrap();
                calm(&run);
                assert_eq!(run.code, 0, "{}", run.stderr);
            }
        });
        assert_eq!(workspace.files(&output), workspace.files("whole"));
    }
}
