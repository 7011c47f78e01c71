//! Names of files and numbers of procedures that some computer stumbles over.
use super::{calm, clean, files};
use crate::support::workspace::Workspace;

const FILES: [&str; 9] = [
    "two words.cotter",
    "it's \"quoted\".cotter",
    "$(touch owned);&.cotter",
    "-rf.cotter",
    "CON.cotter",
    "aux.cotter",
    "dots...cotter",
    "ünï\u{301}\u{1f527}.cotter",
    "brackets[*]{a,b}.cotter",
];

#[test]
fn odd_names_of_files_are_names_as_any_other() {
    let mut workspace = Workspace::new();
    for (at, name) in FILES.iter().enumerate() {
        workspace = workspace.file(name, clean(&format!("FW-TST-00{at}")));
    }
    let run = workspace.run(&["build"]);
    calm(&run);
    assert_eq!(run.code, 0, "{}{}", run.stdout, run.stderr);
    assert_eq!(files(&workspace, "out").len(), FILES.len() * 6 + 1);
    for name in FILES {
        assert_eq!(workspace.run(&["check", "--", name]).code, 0, "{name}");
    }
}

/// A name may be anything but must not write into the terminal, nor end its own line.
#[cfg(unix)]
#[test]
fn names_that_steer_a_terminal_are_shown_without_that() {
    let names =
        ["a\u{1b}[2Jb.cotter", "a\u{202e}b.cotter", "a\rb.cotter", "a\nb.cotter", "a\u{7f}\u{9b}b.cotter"];
    let mut workspace = Workspace::new();
    for name in names {
        workspace = workspace.file(name, "procedure FW-TST-001 \"A\"\nremove cover\n");
    }
    for format in ["text", "lines", "github", "json", "sarif", "junit"] {
        let run = workspace.run(&["check", "--format", format]);
        calm(&run);
        assert_eq!(run.code, 1, "{format}");
        // What is data for other programs may hold letters that turn the line round.
        let printed = ["text", "lines", "github"].contains(&format);
        let steers = |c: char| c != '\n' && (c < ' ' || (printed && (c.is_control() || c == '\u{202e}')));
        assert!(!run.stdout.contains(steers), "{format}: {:?}", run.stdout);
        for line in run.stdout.lines() {
            assert!(!line.starts_with("b.cotter"), "{format}: a name ends its line: {line:?}");
        }
    }
}

#[cfg(unix)]
#[test]
fn a_name_that_is_no_text_is_told_of_and_the_others_are_built() {
    use std::ffi::OsStr;
    use std::os::unix::ffi::OsStrExt;
    let workspace = Workspace::new().file("a.cotter", clean("FW-TST-001"));
    for name in [&b"no-\xff-text.cotter"[..], b"no-\xfe-text.cotter"] {
        std::fs::write(workspace.path(".").join(OsStr::from_bytes(name)), clean("FW-TST-002")).unwrap();
    }
    let run = workspace.run(&["build"]);
    calm(&run);
    assert_eq!(run.code, 2);
    let told = "no-\u{fffd}-text.cotter: has a name that is not UTF-8 text\n  help: give it another name\n";
    assert_eq!(run.stderr.matches(told).count(), 2, "{}", run.stderr);
    assert!(workspace.path("out/FW-TST-001/bench.html").is_file());
    let mut asked = workspace.command(".", &["check"]);
    let output = asked.arg(OsStr::from_bytes(b"no-\xff-text.cotter")).output().unwrap();
    assert_eq!(output.status.code(), Some(2));
    assert!(String::from_utf8_lossy(&output.stderr).contains("has a name that is not UTF-8 text"));
}

#[test]
fn numbers_that_some_computer_cannot_name_a_folder_by_are_refused_everywhere() {
    let refused = [
        "CON",
        "con",
        "Prn",
        "AUX",
        "nul",
        "COM1",
        "lpt9",
        "aux.html",
        "NUL.x.y",
        "x.",
        "x..",
        "..",
        ".x",
        "-x",
        "a:b",
        "a\\b",
        "a/b",
        "a*b",
        "a?b",
        "a|b",
        "a<b",
        "INDEX.HTML",
        "Index.html",
    ];
    for number in refused {
        let workspace = Workspace::new().file("shop/a.cotter", clean(number));
        let run = workspace.run(&["build", "shop", "--output", "shop/out"]);
        calm(&run);
        assert_ne!(run.code, 0, "{number}");
        assert_eq!(workspace.files(".").len(), 1, "{number}: something was written");
    }
    for number in ["CONSOLE", "COM10", "COM0", "A.aux", "nul-1"] {
        let workspace = Workspace::new().file("a.cotter", clean(number));
        assert_eq!(workspace.run(&["build"]).code, 0, "{number} is a name as any other");
    }
}

/// On some computers two such folders are one.
#[test]
fn numbers_that_differ_in_case_alone_share_no_folder() {
    let numbers = ["FW-TST-001", "fw-tst-001", "Fw-Tst-001", "FW-TST-002"];
    let mut workspace = Workspace::new();
    for (at, number) in numbers.iter().enumerate() {
        workspace = workspace.file(&format!("{at}.cotter"), clean(number));
    }
    let run = workspace.run(&["build"]);
    calm(&run);
    assert_eq!(run.stderr.matches(" is also the number of 0.cotter").count(), 2, "{}", run.stderr);
    let mut folders: Vec<String> = files(&workspace, "out").into_keys().collect();
    folders.iter_mut().for_each(|name| *name = name.split('/').next().unwrap().to_lowercase());
    folders.dedup();
    assert_eq!(folders, ["fw-tst-001", "fw-tst-002", "index.html"]);
}
