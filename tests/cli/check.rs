//! `cotter check`.
use super::{clean, faulty};
use crate::support::workspace::Workspace;

#[test]
fn a_clean_file_exits_with_0() {
    let run = Workspace::new().file("a.cotter", clean("FW-TST-001")).run(&["check"]);
    assert_eq!((run.code, run.stdout.as_str(), run.stderr.as_str()), (0, "1 file: nothing to mend\n", ""));
}

#[test]
fn a_finding_is_one_plain_line_with_its_source_and_exits_with_1() {
    let run = Workspace::new().file("shop/a.cotter", faulty("FW-TST-001")).run(&["check", "shop"]);
    assert_eq!(run.code, 1);
    assert!(run.stdout.contains("shop/a.cotter:19:13: error[undeclared-name]: "), "{}", run.stdout);
    assert!(run.stdout.contains("  19 | install new gaskett"), "{}", run.stdout);
    assert!(run.stdout.contains("     |             ^^^^^^^\n"), "{}", run.stdout);
    assert!(run.stdout.ends_with("1 file: 1 error\n"), "{}", run.stdout);
}

#[test]
fn places_are_shown_from_the_current_folder() {
    let workspace = Workspace::new().file("cotter.toml", "").file("shop/a.cotter", faulty("FW-TST-001"));
    let workspace = workspace.file("other/b.cotter", clean("FW-TST-002"));
    let run = workspace.run_in("other", &["check", "../shop"]);
    assert!(run.stdout.starts_with("../shop/a.cotter:19:13:"), "{}", run.stdout);
    let all = workspace.run_in("other", &["check"]);
    assert!(all.stdout.ends_with("2 files: 1 error\n"), "the whole workspace is meant: {}", all.stdout);
}

#[test]
fn deny_makes_lighter_findings_count() {
    let text = clean("FW-TST-001");
    let settings = "[rules]\nmissing-header-field = \"warning\"\n";
    let text = text.replace("    time:       30 min\n", "");
    let workspace = Workspace::new().file("a.cotter", text).file("cotter.toml", settings);
    assert_eq!(workspace.run(&["check"]).code, 0);
    assert_eq!(workspace.run(&["check", "--deny", "warning"]).code, 1);
    assert_eq!(workspace.run(&["check", "--deny", "advice"]).code, 1);
}

#[test]
fn files_that_cannot_be_had_are_told_and_the_others_checked() {
    let workspace = Workspace::new()
        .file("good.cotter", clean("FW-TST-001"))
        .file("latin.cotter", b"ok\n\nab\xe9c")
        .file("wide.cotter", b"\xff\xfep\0r\0")
        .file("notes.txt", "x")
        .file("empty/readme.md", "x");
    let run = workspace.run(&["check", ".", "gone.cotter", "notes.txt", "empty"]);
    assert_eq!(run.code, 2);
    assert_eq!(run.stdout, "1 file: nothing to mend\n");
    for told in [
        "latin.cotter:3:3: is not UTF-8 text",
        "wide.cotter:1:1: is UTF-16, not UTF-8",
        "gone.cotter: there is no such file",
        "notes.txt: is no `.cotter` file",
        "empty: holds no `.cotter` files",
    ] {
        assert!(run.stderr.contains(told), "{told}: {}", run.stderr);
    }
    assert_eq!(run.stderr.matches("  help: ").count(), 5, "each says what to do: {}", run.stderr);
}

#[test]
fn an_empty_file_is_a_finding() {
    for text in ["", "\n\n", "# only a comment\n", "\u{feff}"] {
        let run = Workspace::new().file("a.cotter", text).run(&["check"]);
        assert_eq!(run.code, 1, "{text:?}: {}", run.stdout);
        assert!(run.stdout.starts_with("a.cotter:"), "{}", run.stdout);
        assert_eq!(run.stdout.contains("The file is empty"), !text.contains('#'), "{}", run.stdout);
    }
}

#[test]
fn help_says_how_a_line_is_meant() {
    let body = "supplies none\nparts none\ntools none\n";
    let cases = [
        ("hold: instructor \"all is well\"\n", "help: Leave the colon out: `hold`"),
        ("if below: stop \"Stop.\"\n", "help: `if below:` belongs to the line above it"),
        ("turn \"the shaft\" 10x\n", "how often is `10 times`"),
        ("turn x10\n", "help: How often is written `10 times`"),
        ("part\n    cover \"Cover\"\n", "help: Did you mean `parts`?"),
        ("note \"a\"\n    wear: googles\n", "`goggles`"),
    ];
    for (line, help) in cases {
        let procedure = clean("FW-TST-001");
        let head = procedure.split("\n\n").next().unwrap_or_default();
        let run = Workspace::new().file("a.cotter", format!("{head}\n\n{body}\n{line}")).run(&["check"]);
        assert!(run.stdout.contains(help), "{line}: {}", run.stdout);
    }
}

#[test]
fn a_file_that_is_too_large_is_refused_before_it_is_parsed() {
    let run = Workspace::new().file("a.cotter", vec![b'#'; 16 * 1024 * 1024 + 1]).run(&["check"]);
    assert_eq!(run.code, 2);
    assert!(run.stderr.contains("a.cotter: is larger than 16 MiB"), "{}", run.stderr);
}

#[cfg(unix)]
#[test]
fn devices_and_pipes_are_not_waited_for() {
    let workspace = Workspace::new();
    std::os::unix::fs::symlink("/dev/zero", workspace.path("zero.cotter")).unwrap();
    let run = workspace.run(&["check", "zero.cotter"]);
    assert_eq!(run.code, 2);
    assert!(run.stderr.contains("is not an ordinary file"), "{}", run.stderr);
}

#[test]
fn settings_are_refused_with_their_place() {
    let workspace = Workspace::new().file("a.cotter", clean("FW-TST-001"));
    for (settings, told) in [
        (
            "house = \"x\"\nhosue = \"y\"\n",
            "cotter.toml:2:1: there is no setting `hosue` here; one of these can stand: `edition`",
        ),
        (
            "[verbs]\nnip-up = \"tigten\"\n",
            "cotter.toml:2:1: `nip-up` is to mean `tigten`, and there is no such verb",
        ),
        ("benches = \"two\"\n", "cotter.toml:1:11: a whole number belongs here, not \"two\""),
        ("house = \n", "cotter.toml:1:9: "),
        ("[rules]\nundeclared-nam = \"off\"\n", "cotter.toml:2:1: there is no rule `undeclared-nam`"),
        ("[rules]\nundeclared-name = \"loud\"\n", "cotter.toml:2:19: there is no word `loud`"),
        ("signal-words = \"iso\"\n", "cotter.toml:1:16: there is no word `iso`"),
        // What a newer edition brings along is no slip of the pen.
        (
            "house = \"x\"\nedition = 2\nnovelty = true\n",
            "cotter.toml:2:11: the files are written in edition 2 of the language, and this program, 0.1.0, reads up to \
             edition 1",
        ),
        (
            "edition = 340282366920938463463374607431768211456\n",
            "cotter.toml:1:11: the files are written in edition 340282366920938463463374607431768211456",
        ),
        ("edition = 0\n", "cotter.toml:1:11: there is no edition 0 of the language: editions count from 1"),
        ("edition = -2\n", "cotter.toml:1:11: there is no edition -2 of the language"),
        ("edition = \"one\"\n", "cotter.toml:1:11: a whole number belongs here, not \"one\""),
        ("edition = 1.5\n", "cotter.toml:1:11: a whole number belongs here, not `1.5`"),
    ] {
        workspace.write("cotter.toml", settings);
        let run = workspace.run(&["check"]);
        assert_eq!((run.code, run.stdout.as_str()), (2, ""), "{settings}");
        assert!(run.stderr.contains(told), "{settings}: {}", run.stderr);
    }
    for settings in ["", "edition = 1\n", "edition = 0x1\n"] {
        workspace.write("cotter.toml", settings);
        assert_eq!(workspace.run(&["check"]).code, 0, "{settings}");
    }
}

#[test]
fn ignored_files_and_inner_workspaces_are_left_out() {
    let workspace = Workspace::new()
        .file(".gitignore", "/drafts\n")
        .file("a.cotter", clean("FW-TST-001"))
        .file("drafts/b.cotter", faulty("FW-TST-002"))
        .file("inner/cotter.toml", "")
        .file("inner/c.cotter", faulty("FW-TST-003"));
    assert_eq!(workspace.run(&["check"]).stdout, "1 file: nothing to mend\n");
    assert_eq!(workspace.run(&["check", "inner"]).code, 1, "asked for by name it is looked at");
    let both = workspace.run(&["check", ".", "inner"]);
    assert!(both.stdout.ends_with("2 files: 1 error\n"), "{}", both.stdout);
}

/// A shop's sheets may be many times as many as its sources. A folder that only bears the same name is one of sources.
#[test]
fn the_folder_of_the_sheets_is_left_out_once_sheets_are_in_it() {
    let workspace =
        Workspace::new().file("a.cotter", clean("FW-TST-001")).file("out/b.cotter", faulty("FW-TST-002"));
    assert!(workspace.run(&["check"]).stdout.ends_with("2 files: 1 error\n"));
    workspace.run(&["build", "a.cotter"]);
    assert_eq!(workspace.run(&["check"]).stdout, "1 file: nothing to mend\n");
    for asked in ["out", "out/b.cotter"] {
        assert_eq!(workspace.run(&["check", asked]).code, 1, "asked for by name it is looked at");
    }
}

#[test]
fn the_register_covers_the_workspace_whatever_is_asked_for() {
    let workspace = Workspace::new()
        .file("cotter.toml", "")
        .file(
            "a/a.cotter",
            clean("FW-TST-001").replace("requires:   none", "requires:   FW-TST-002 \"pump clean\""),
        )
        .file("b/b.cotter", clean("FW-TST-002"));
    let run = workspace.run(&["check", "a/a.cotter"]);
    assert_eq!(run.stdout, "1 file: nothing to mend\n");
}

#[test]
fn json_is_one_object_with_places() {
    let workspace = Workspace::new().file("a.cotter", faulty("FW-TST-001"));
    let run = workspace.run(&["check", "--format", "json", "a.cotter", "gone.cotter"]);
    let answer: serde_json::Value = serde_json::from_str(&run.stdout).unwrap();
    let finding = &answer["findings"][0];
    assert_eq!(finding["rule"], "undeclared-name");
    assert_eq!(finding["severity"], "error");
    assert_eq!(finding["file"], "a.cotter");
    let place = ["line", "column", "end_line", "end_column"].map(|key| finding[key].as_u64().unwrap());
    assert_eq!(place, [19, 13, 19, 20]);
    assert!(finding["labels"].is_array());
    assert_eq!(answer["troubles"][0]["file"], "gone.cotter");
    assert_eq!(answer["summary"]["errors"], 1);
    assert_eq!(run.code, 2);
}

#[test]
fn output_is_the_same_whatever_the_number_of_threads() {
    let mut workspace = Workspace::new();
    for number in 0..40 {
        workspace = workspace.file(&format!("p{number}.cotter"), faulty(&format!("FW-TST-{number:03}")));
    }
    let one = workspace.run(&["check", "--jobs", "1"]).stdout;
    assert_eq!(one.matches("error[").count(), 40);
    for _ in 0..3 {
        assert_eq!(workspace.run(&["check", "--jobs", "4"]).stdout, one);
    }
}

#[test]
fn colour_is_for_those_who_want_it() {
    let workspace = Workspace::new().file("a.cotter", faulty("FW-TST-001"));
    assert!(!workspace.run(&["check"]).stdout.contains('\x1b'), "piped output is plain");
    assert!(workspace.run(&["check", "--color", "always"]).stdout.contains('\x1b'));
    let forced = [("CLICOLOR_FORCE", "1")];
    assert!(workspace.run_with(".", &["check"], &forced).stdout.contains('\x1b'));
    let refused = [("CLICOLOR_FORCE", "1"), ("NO_COLOR", "1")];
    assert!(!workspace.run_with(".", &["check"], &refused).stdout.contains('\x1b'), "NO_COLOR wins");
}

#[test]
fn what_an_author_wrote_cannot_steer_the_terminal() {
    let workspace = Workspace::new().file("a.cotter", "procedure \x1b[2J \u{202e} \"\n");
    let run = workspace.run(&["check"]);
    assert_eq!(run.code, 1);
    assert!(!run.stdout.contains(['\x1b', '\u{202e}']), "{:?}", run.stdout);
}

#[test]
fn a_finding_far_along_a_line_is_shown_around_its_place() {
    let line = format!("remove cover {}((\n", "\"x\" ".repeat(20_000));
    let run = Workspace::new().file("a.cotter", line).run(&["check"]);
    assert_eq!(run.code, 1);
    assert!(run.stdout.lines().all(|line| line.len() < 400), "{}", run.stdout);
}

#[test]
fn catalogues_are_read_once_and_their_loops_told() {
    let procedure = clean("FW-TST-001").replacen("\n\n", "\n\nuse \"one.cotter\"\n\n", 1);
    let workspace = Workspace::new()
        .file("a.cotter", procedure)
        .file("one.cotter", "catalogue \"One\"\nuse \"two.cotter\"\n")
        .file("two.cotter", "catalogue \"Two\"\nuse \"one.cotter\"\n");
    let run = workspace.run(&["check"]);
    assert_eq!(run.code, 1);
    assert!(run.stdout.contains("one.cotter → two.cotter → one.cotter"), "{}", run.stdout);
}

#[test]
fn a_catalogue_outside_the_workspace_is_refused() {
    let outside = Workspace::new().file("common.cotter", "catalogue \"Common\"\n");
    let outside = outside.file("shop/cotter.toml", "");
    for written in ["../common.cotter", "../../etc/passwd", "/etc/passwd", "gone.cotter"] {
        let procedure = clean("FW-TST-001").replacen("\n\n", &format!("\n\nuse \"{written}\"\n\n"), 1);
        outside.write("shop/a.cotter", procedure);
        let run = outside.run_in("shop", &["check"]);
        assert_eq!(run.code, 1, "{written}");
        assert!(run.stdout.contains("error[unusable-catalogue]"), "{written}: {}", run.stdout);
    }
}

#[test]
fn cautions_of_the_house_that_cannot_be_used_are_told_with_their_place() {
    let procedure = clean("FW-TST-001");
    let cases: [(&str, &[u8], &str); 5] = [
        ("shop/gone.cotter", b"", "there is no such file"),
        ("a.cotter", b"", "it is a procedure, not a catalogue"),
        ("../other.cotter", b"", "the path leads out of the workspace"),
        ("/etc/shop.cotter", b"", "a path must be relative"),
        ("shop/latin.cotter", b"catalogue \"\xe9\"\n", "is not UTF-8"),
    ];
    for (path, text, why) in cases {
        let workspace = Workspace::new()
            .file("a.cotter", &procedure)
            .file("cotter.toml", format!("house = \"Fenmoor\"\ncautions = \"{path}\"\n"));
        if !text.is_empty() {
            workspace.write(path, text);
        }
        for command in ["check", "build"] {
            let run = workspace.run(&[command]);
            assert_eq!(run.code, 2, "{path}: {}", run.stdout);
            assert!(
                run.stderr.contains("cotter.toml:2:12: the house's `cautions`"),
                "{path}: {}",
                run.stderr
            );
            assert!(run.stderr.contains(why) && run.stderr.contains("take the line out"), "{}", run.stderr);
        }
        assert!(!workspace.path("out").exists(), "no sheet is made without the cautions of the house");
    }
}

/// Were the catalogue not found, an unknown name would pass for one of its own.
#[test]
fn cautions_of_the_house_may_be_written_with_a_dot() {
    let workspace = Workspace::new()
        .file("a.cotter", faulty("FW-TST-001"))
        .file("shop/cautions.cotter", "catalogue \"Cautions\"\n")
        .file("cotter.toml", "cautions = \"./shop/cautions.cotter\"\n");
    let run = workspace.run(&["check"]);
    assert!(run.stdout.contains("[undeclared-name]"), "{}{}", run.stdout, run.stderr);
}

/// A catalogue that is the house's own and is named with `use` as well says each of its messages once.
#[test]
fn a_standing_message_is_offered_once() {
    let fixture = |name: &str| {
        let path = crate::support::shop::package(&format!("tests/checks/missing-caution/{name}"));
        std::fs::read_to_string(path).unwrap()
    };
    let workspace = Workspace::new()
        .file("a.cotter", fixture("a-standing-one-to-call.cotter"))
        .file("_standing.cotter", fixture("_standing.cotter"))
        .file("cotter.toml", "cautions = \"_standing.cotter\"\n");
    let run = workspace.run(&["check", "a.cotter"]);
    for words in [
        "help: Call the standing message `warning ring-spring` before the step",
        "call the standing message that fits: `caution hot-cover`, `caution hot-oil` (",
    ] {
        assert!(run.stdout.contains(words), "{words}: {}", run.stdout);
    }
}
