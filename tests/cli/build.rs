//! `cotter build`.
use super::{clean, faulty};
use crate::support::workspace::Workspace;

#[test]
fn every_procedure_gets_both_sheets_and_a_place_in_the_list() {
    let workspace = Workspace::new()
        .file("a.cotter", clean("FW-TST-001"))
        .file("b.cotter", clean("FW-TST-002"))
        .file("common.cotter", "catalogue \"Common\"\n");
    let run = workspace.run(&["build"]);
    assert_eq!(run.code, 0, "{}{}", run.stdout, run.stderr);
    assert!(run.stdout.contains("sheets of 2 procedures in out, 11 pages changed"), "{}", run.stdout);
    let names: Vec<String> = workspace.files("out").into_iter().map(|(name, _)| name).collect();
    let expected = [
        "FW-TST-001/assessment.html",
        "FW-TST-001/bench.html",
        "FW-TST-001/checklist.html",
        "FW-TST-001/instructor.html",
        "FW-TST-001/kit.html",
        "FW-TST-001/procedure.json",
        "FW-TST-002/assessment.html",
        "FW-TST-002/bench.html",
        "FW-TST-002/checklist.html",
        "FW-TST-002/instructor.html",
        "FW-TST-002/kit.html",
        "FW-TST-002/procedure.json",
        "index.html",
    ];
    assert_eq!(names, expected);
    let list = workspace.read("out/index.html");
    assert!(list.contains("FW-TST-001/bench.html") && list.contains("FW-TST-002/checklist.html"), "{list}");
}

#[test]
fn two_builds_give_the_same_bytes_and_the_second_writes_nothing() {
    let workspace = Workspace::new().file("a.cotter", clean("FW-TST-001"));
    workspace.run(&["build"]);
    let (first, times) = (workspace.files("out"), modified(&workspace));
    let again = workspace.run(&["build"]);
    assert!(again.stdout.contains("0 pages changed"), "{}", again.stdout);
    assert_eq!((workspace.files("out"), modified(&workspace)), (first.clone(), times));
    workspace.run(&["build", "-o", "elsewhere/new", "--jobs", "1"]);
    assert_eq!(workspace.files("elsewhere/new"), first);
}

#[test]
fn a_file_with_an_error_keeps_its_last_good_sheets_and_others_are_made() {
    let workspace =
        Workspace::new().file("a.cotter", clean("FW-TST-001")).file("b.cotter", faulty("FW-TST-002"));
    let run = workspace.run(&["build"]);
    assert_eq!(run.code, 1);
    assert!(run.stdout.contains("held back: FW-TST-002 (b.cotter)\n"), "{}", run.stdout);
    assert!(workspace.path("out/FW-TST-001/bench.html").is_file());
    assert!(!workspace.path("out/FW-TST-002").exists());

    let good = workspace.read("out/FW-TST-001/bench.html");
    workspace.write("a.cotter", faulty("FW-TST-001"));
    let run = workspace.run(&["build"]);
    assert!(
        run.stdout.contains("held back: FW-TST-001 (a.cotter); its last good sheets stay"),
        "{}",
        run.stdout
    );
    assert_eq!(workspace.read("out/FW-TST-001/bench.html"), good);
    assert!(workspace.read("out/index.html").contains("last good sheet"));
}

#[test]
fn deny_holds_back_what_has_warnings() {
    let text = clean("FW-TST-001").replace("    time:       30 min\n", "");
    let settings = "[rules]\nmissing-header-field = \"warning\"\n";
    let workspace = Workspace::new().file("a.cotter", text).file("cotter.toml", settings);
    assert_eq!(workspace.run(&["build", "--deny", "warning"]).code, 1);
    assert!(!workspace.path("out/FW-TST-001").exists());
    assert_eq!(workspace.run(&["build"]).code, 0);
    assert!(workspace.path("out/FW-TST-001/bench.html").is_file());
}

#[test]
fn building_one_file_keeps_the_others_in_the_list() {
    let workspace =
        Workspace::new().file("a.cotter", clean("FW-TST-001")).file("b.cotter", clean("FW-TST-002"));
    workspace.run(&["build"]);
    let list = workspace.read("out/index.html");
    workspace.run(&["build", "a.cotter"]);
    assert_eq!(workspace.read("out/index.html"), list);
}

#[test]
fn numbers_that_cannot_name_a_folder_are_refused() {
    for number in ["../x", "..", "a/b", "CON", "x.", ".hidden", "index.html"] {
        let workspace = Workspace::new().file("shop/a.cotter", clean(number));
        let run = workspace.run(&["build", "-o", "shop/out"]);
        assert_ne!(run.code, 0, "{number}: {}", run.stdout);
        assert_eq!(workspace.files("shop/out"), [], "{number}");
        assert_eq!(workspace.files(".").len(), 1, "{number}: nothing is written anywhere");
    }
}

#[test]
fn numbers_that_differ_in_case_alone_do_not_overwrite_each_other() {
    let workspace =
        Workspace::new().file("a.cotter", clean("FW-TST-001")).file("b.cotter", clean("fw-tst-001"));
    let run = workspace.run(&["build"]);
    assert_eq!(run.code, 2, "{}", run.stdout);
    assert!(
        run.stderr.contains("b.cotter:1:11: `fw-tst-001` is also the number of a.cotter"),
        "{}",
        run.stderr
    );
    assert!(workspace.path("out/FW-TST-001/bench.html").is_file());
}

#[test]
fn sheets_of_vanished_procedures_are_told_of_and_left() {
    let workspace = Workspace::new()
        .file("a.cotter", clean("FW-TST-001"))
        .file("out/FW-OLD-009/bench.html", "old")
        .file("out/mine/notes.txt", "mine");
    let run = workspace.run(&["build"]);
    assert_eq!(run.code, 0);
    assert!(run.stdout.contains("note: out/FW-OLD-009 belongs to no procedure here"), "{}", run.stdout);
    assert!(!run.stdout.contains("mine"), "{}", run.stdout);
    assert_eq!(workspace.read("out/FW-OLD-009/bench.html"), "old");
    assert_eq!(workspace.read("out/mine/notes.txt"), "mine");
}

#[test]
fn an_output_folder_that_is_a_file_is_told_of() {
    let workspace = Workspace::new().file("a.cotter", clean("FW-TST-001")).file("out", "a file");
    let run = workspace.run(&["build"]);
    assert_eq!(run.code, 2);
    assert!(run.stderr.contains("out/FW-TST-001/bench.html: cannot be written"), "{}", run.stderr);
    assert_eq!(workspace.read("out"), "a file");
}

#[cfg(unix)]
#[test]
fn nothing_is_written_through_a_link_out_of_the_folder() {
    let elsewhere = Workspace::new();
    let workspace = Workspace::new().file("a.cotter", clean("FW-TST-001")).file("out/keep", "");
    std::os::unix::fs::symlink(elsewhere.path("."), workspace.path("out/FW-TST-001")).unwrap();
    let run = workspace.run(&["build"]);
    assert_eq!(run.code, 2);
    assert_eq!(elsewhere.files("."), []);
}

#[cfg(unix)]
#[test]
fn pages_can_be_read_by_others() {
    use std::os::unix::fs::PermissionsExt;
    let workspace = Workspace::new().file("a.cotter", clean("FW-TST-001")).file("plain", "");
    workspace.run(&["build"]);
    let mode = |name: &str| std::fs::metadata(workspace.path(name)).unwrap().permissions().mode() & 0o777;
    assert_eq!(mode("out/FW-TST-001/bench.html"), mode("plain"), "as a plain new file");
}

#[test]
fn one_output_folder_does_not_take_two_workspaces() {
    let workspace = Workspace::new()
        .file("one/cotter.toml", "")
        .file("one/a.cotter", clean("FW-TST-001"))
        .file("two/cotter.toml", "")
        .file("two/b.cotter", clean("FW-TST-001"));
    assert_eq!(workspace.run(&["build", "one", "two", "-o", "out"]).code, 2);
    assert!(!workspace.path("out").exists());
    assert_eq!(workspace.run(&["build", "one", "two"]).code, 0);
    assert!(workspace.path("two/out/FW-TST-001/bench.html").is_file());
}

fn modified(workspace: &Workspace) -> Vec<std::time::SystemTime> {
    let names = workspace.files("out").into_iter().map(|(name, _)| name);
    names
        .map(|name| std::fs::metadata(workspace.path("out").join(name)).unwrap().modified().unwrap())
        .collect()
}

/// Calls of `b`'s procedure by `a`: without a dead link, whether `b` is held back, left out, or made.
#[test]
fn a_call_is_a_link_only_where_it_leads_somewhere() {
    let calls = |number: &str| {
        clean("FW-TST-001").replace("requires:   none", &format!("requires: {number} \"ready\""))
    };
    let link = "<a href=\"../FW-TST-002/bench.html\">";
    let workspace =
        Workspace::new().file("a.cotter", calls("FW-TST-002")).file("b.cotter", faulty("FW-TST-002"));
    let run = workspace.run(&["build"]);
    assert!(
        run.stdout.contains(
            "held back: FW-TST-002 (b.cotter); it has no sheet yet, and is called without a link\n"
        ),
        "{}",
        run.stdout
    );
    let page = |workspace: &Workspace| workspace.read("out/FW-TST-001/bench.html");
    assert!(page(&workspace).contains("FW-TST-002") && !page(&workspace).contains(link));
    assert!(workspace.run(&["build"]).stdout.contains("0 pages changed"));

    workspace.write("b.cotter", clean("FW-TST-002"));
    let one = workspace.run(&["build", "a.cotter"]);
    assert!(one.stdout.contains("note: FW-TST-002 has no sheet here"), "{}", one.stdout);
    assert!(!page(&workspace).contains(link));

    let all = workspace.run(&["build", "--jobs", "1"]);
    assert!(!all.stdout.contains("without a link"), "{}", all.stdout);
    assert!(page(&workspace).contains(link));

    // Its last good sheet is still there to be linked to.
    workspace.write("b.cotter", faulty("FW-TST-002"));
    assert!(!workspace.run(&["build"]).stdout.contains("without a link"));
    assert!(page(&workspace).contains(link));
}

#[test]
fn a_catalogue_with_an_error_holds_back_who_uses_it() {
    let procedure = clean("FW-TST-001").replacen("\n\n", "\n\nuse \"shop/tools.cotter\"\n\n", 1)
        + "\ntighten cover to 9 N.m with wrench\n";
    let workspace = Workspace::new().file("a.cotter", &procedure).file(
        "shop/tools.cotter",
        "catalogue \"Tools\"\n\ntools\n    wrench \"Torque wrench\"  range 2 to 12 N.q\n",
    );
    for asked in [&["build"][..], &["build", "a.cotter"]] {
        let run = workspace.run(asked);
        assert_eq!(run.code, 1);
        let expected = "held back: FW-TST-001 (a.cotter), because of an error in shop/tools.cotter\n";
        assert!(run.stdout.contains(expected), "{}", run.stdout);
        assert!(run.stdout.contains("shop/tools.cotter:4:"), "{}", run.stdout);
        assert!(!run.stdout.contains("tightened-without-wrench"), "{}", run.stdout);
        assert!(!workspace.path("out/FW-TST-001").exists());
    }
    let mended = workspace.read("shop/tools.cotter").replace("N.q", "N.m");
    workspace.write("shop/tools.cotter", mended);
    assert_eq!(workspace.run(&["build", "a.cotter"]).code, 0);
}

#[test]
fn handouts_are_made_where_they_are_asked_for_and_led_to_only_then() {
    let workspace = Workspace::new().file("a.cotter", clean("FW-TST-001"));
    let handouts = ["handout.html", "handout-checklist.html", "answers.html"];
    let run = workspace.run(&["build", "--withhold", "torque,limits"]);
    assert_eq!(run.code, 0, "{}{}", run.stdout, run.stderr);
    for name in handouts {
        assert!(workspace.path(&format!("out/FW-TST-001/{name}")).is_file(), "{name}");
        assert!(workspace.read("out/index.html").contains(name), "{name}");
    }
    let old = workspace.read("out/FW-TST-001/handout.html");
    workspace.run(&["build"]);
    assert_eq!(workspace.read("out/FW-TST-001/handout.html"), old, "nothing is removed");
    assert!(!workspace.read("out/index.html").contains("handout"), "it may be of an older issue");
    assert_eq!(workspace.run(&["build", "--withhold", "colour"]).code, 2);
}

#[test]
fn the_kit_is_for_as_many_benches_as_asked_for_or_set() {
    let workspace =
        Workspace::new().file("a.cotter", clean("FW-TST-001")).file("cotter.toml", "benches = 3\n");
    workspace.run(&["build"]);
    assert!(workspace.read("out/FW-TST-001/kit.html").contains("Kit for 3 benches"));
    workspace.run(&["build", "--benches", "12"]);
    assert!(workspace.read("out/FW-TST-001/kit.html").contains("Kit for 12 benches"));
    assert_eq!(workspace.run(&["build", "--benches", "0"]).code, 2);
}

#[test]
fn sheets_are_in_the_language_asked_for_or_set() {
    let settings = "language = \"fr\"\n";
    let workspace = Workspace::new().file("a.cotter", clean("FW-TST-001")).file("cotter.toml", settings);
    let result = workspace.run(&["build"]);
    assert!(result.stdout.contains("nothing to mend"), "the program itself goes on in English");
    let page = workspace.read("out/FW-TST-001/bench.html");
    assert!(page.contains("<html lang=\"fr\">") && page.contains("Avant de commencer"));
    assert!(page.contains("<h1 lang=\"en\">"), "the author's words are in the default language");
    assert!(workspace.read("out/index.html").contains("<html lang=\"fr\">"));
    workspace.run(&["build", "--language", "de", "--output", "de"]);
    assert!(workspace.read("de/FW-TST-001/checklist.html").contains("<html lang=\"de\">"));
    assert_eq!(workspace.run(&["build", "--language", "xx"]).code, 2);
    let settings = "language = \"de\"\nwritten-in = \"de\"\n";
    let workspace = Workspace::new().file("a.cotter", clean("FW-TST-001")).file("cotter.toml", settings);
    workspace.run(&["build"]);
    assert_eq!(workspace.read("out/FW-TST-001/bench.html").matches(" lang=").count(), 1);
    assert_eq!(Workspace::new().file("cotter.toml", "language = \"xx\"\n").run(&["build"]).code, 2);
}
