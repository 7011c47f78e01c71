//! `cotter new`: by flags, and with questions on a terminal.
use crate::support::workspace::{Run, Workspace};

const FLAGS: [(&str, &str); 9] = [
    ("--number", "EX-7"),
    ("--title", "Renew the \"outer\" gasket"),
    ("--equipment", "F40 transfer pump"),
    ("--models", "F40, F40S"),
    ("--time", "90 min"),
    ("--people", "1"),
    ("--requires", "none"),
    ("--afterwards", "none"),
    ("--dangers", "nothing"),
];

/// All flags, these with other values, and what else is called.
fn flags(others: &[(&'static str, &'static str)], more: &[&'static str]) -> Vec<&'static str> {
    let value =
        |flag: &str, usual| others.iter().find(|(it, _)| *it == flag).map_or(usual, |(_, value)| *value);
    let flags = FLAGS.iter().flat_map(|(flag, usual)| [*flag, value(flag, *usual)]);
    ["new"].into_iter().chain(flags).chain(more.iter().copied()).collect()
}

fn start(workspace: &Workspace, folder: &str, others: &[(&'static str, &'static str)]) -> Run {
    let run = workspace.run_in(folder, &flags(others, &[]));
    assert_eq!(run.code, 0, "{others:?}: {}", run.stderr);
    assert!(!run.stdout.contains("to mend"), "{others:?}: {}", run.stdout);
    run
}

/// Nothing to mend, nothing to format, and sheets of it all.
fn holds(workspace: &Workspace) {
    for call in [&["check", "--deny", "warning"][..], &["fmt", "--check"], &["build", "--deny", "warning"]] {
        let run = workspace.run(call);
        assert_eq!(run.code, 0, "{call:?}: {}{}", run.stdout, run.stderr);
    }
}

/// Whoever starts a workspace says which edition it is of; nothing is decided for one that is there.
#[test]
fn the_first_file_brings_the_settings_along() {
    let workspace = Workspace::new();
    let run = start(&workspace, ".", &[]);
    assert!(run.stdout.contains("cotter.toml: written, the house settings\n"), "{}", run.stdout);
    let settings = workspace.read("cotter.toml");
    assert!(settings.ends_with("\nedition = 1\n"), "{settings}");
    workspace.write("cotter.toml", "house = \"x\"\n");
    start(&workspace, ".", &[("--number", "EX-8")]);
    assert_eq!(workspace.read("cotter.toml"), "house = \"x\"\n");
    let settled = Workspace::new()
        .file("shop.cotter", "catalogue \"Shop\"\n    revision: A, 2026-11-02\n\ntools none\n");
    start(&settled, ".", &[]);
    assert!(!settled.path("cotter.toml").exists());
}

const DANGERS: [(&str, &str); 7] = [
    ("D-1", "nothing"),
    ("D-2", "live"),
    ("D-3", "pressurised"),
    ("D-4", "hot"),
    ("D-5", "raised"),
    ("D-6", "raised, hot, pressurised, live"),
    ("D-7", "hot and live"),
];

#[test]
fn in_an_empty_folder() {
    let workspace = Workspace::new();
    let run = start(&workspace, ".", &[]);
    assert!(run.stdout.starts_with("ex-7.cotter: written"), "{}", run.stdout);
    for (number, dangers) in DANGERS {
        for people in ["1", "3"] {
            let number: &'static str = format!("{number}-{people}").leak();
            start(&workspace, ".", &[("--number", number), ("--dangers", dangers), ("--people", people)]);
        }
    }
    holds(&workspace);
    let text = workspace.read("ex-7.cotter");
    // Neither a quotation mark nor a number sign ends what was said.
    start(
        &workspace,
        ".",
        &[("--number", "EX-6"), ("--equipment", "F40 # 2"), ("--title", "Use #10-24 & <b>")],
    );
    for part in ["F40 # 2", "Use #10-24 &amp; &lt;b&gt;"] {
        let build = workspace.run(&["build"]);
        assert_eq!(build.code, 0, "{}", build.stderr);
        assert!(workspace.read("out/EX-6/bench.html").contains(part), "{part}");
    }
    for line in ["procedure EX-7 \"Renew the \\\"outer\\\" gasket\"", "    models:     F40, F40S\n"] {
        assert!(text.contains(line), "{text}");
    }
    for sheet in ["bench.html", "checklist.html"] {
        let page = workspace.read(&format!("out/EX-7/{sheet}"));
        assert!(page.contains("This is an example, not yet a procedure"), "{sheet} hides what it is");
    }
}

const CATALOGUE: &str = r#"catalogue "Tools"
    revision: A, 2026-10-30

tools
    hex-keys "Hexagon key set"
    click-a  "Torque wrench A"  range 4 to 20 N.m
    click-b  "Torque wrench B"  range 40 to 200 N.m
"#;

const CAUTIONS: &str = r#"catalogue "Standing messages"
    revision: A, 2026-10-30

caution cutting as sharp-rims
    hazard: Rims are sharp.
    harm:   Cut fingers.
    avoid:  Hold the part by its flat faces.
    wear:   cut gloves

danger falling-load as on-jack
    hazard: A jack can sink.
    harm:   Death by crushing.
    avoid:  Keep out from under the load.
    wear:   head protection
"#;

#[test]
fn with_the_catalogues_of_the_workspace() {
    let workspace = Workspace::new()
        .file("cotter.toml", "cautions = \"shop/cautions.cotter\"\n")
        .file("shop/cautions.cotter", CAUTIONS)
        .file("shop/tools.cotter", CATALOGUE)
        .file("shop/broken.cotter", "catalogue \"Broken\"\n\ntools\n    hoist \"Hoist\" capacity heavy\n")
        .file("pumps/f40/.gitkeep", "");
    start(&workspace, "pumps/f40", &[]);
    let text = workspace.read("pumps/f40/ex-7.cotter");
    assert!(text.contains("use \"../../shop/tools.cotter\"\n"), "{text}");
    assert!(!text.contains("broken.cotter") && !text.contains("use \"../../shop/cautions"), "{text}");
    // Its own declaration would hide the shop's.
    assert!(!text.contains("hex-keys \"") && text.contains("with hex-keys\n"), "{text}");
    assert!(text.contains("tighten screws with click-a\n"), "{text}");
    assert!(text.contains("caution sharp-rims until cover-on\nloosen"), "{text}");
    // The standing message lacks the footwear that raising takes: no message is called then.
    start(&workspace, "pumps/f40", &[("--number", "EX-8"), ("--dangers", "raised")]);
    let text = workspace.read("pumps/f40/ex-8.cotter");
    assert!(text.contains("danger falling-load until"), "{text}");
    std::fs::remove_file(workspace.path("shop/broken.cotter")).unwrap();
    holds(&workspace);
}

#[test]
fn fits_the_settings_of_the_house() {
    let settings = "required-header = [\"revision\", \"approved\", \"serials\", \"outcome\", \"leaves\"]\n";
    let workspace = Workspace::new().file("cotter.toml", settings);
    start(&workspace, ".", &[]);
    assert!(workspace.read("ex-7.cotter").contains("    approved:   none\n"));
    holds(&workspace);
}

#[test]
fn what_comes_before_need_not_be_done_again() {
    let workspace = Workspace::new();
    start(&workspace, ".", &[("--number", "FIRST")]);
    let first = workspace.read("first.cotter");
    workspace.write("first.cotter", first.replace("leaves:     none", "leaves:     \"machine locked out\""));
    let dangers = ("--dangers", "live, hot");
    start(&workspace, ".", &[("--requires", "FIRST"), ("--afterwards", "none"), dangers]);
    let text = workspace.read("ex-7.cotter");
    assert!(text.contains("requires:   FIRST \"machine locked out\"\n"), "{text}");
    assert!(text.contains("leaves:     \"machine locked out\"\n"), "{text}");
    assert!(!text.contains("lock out main-switch") && text.contains("as cool-enough"), "{text}");
    start(&workspace, ".", &[("--number", "LAST"), ("--requires", "FIRST, EX-7"), dangers]);
    holds(&workspace);
}

#[test]
fn a_missing_flag_is_named_where_nobody_can_be_asked() {
    let workspace = Workspace::new();
    let run = workspace.run_on("", &["new", "--number", "EX-7", "--title", "Renew", "--models", "none"]);
    assert_eq!(run.code, 2);
    let wanted =
        "not given: `--equipment`, `--time`, `--people`, `--requires`, `--afterwards`, `--dangers`\n";
    assert!(run.stderr.contains(wanted), "{}", run.stderr);
    assert!(workspace.files(".").is_empty());
}

#[test]
fn a_wrong_answer_says_why_and_writes_nothing() {
    let workspace = Workspace::new().file("old.cotter", super::clean("EX-1"));
    let wrong = [
        ("--number", "ex/7", "cannot name a folder"),
        ("--number", "CON", "device"),
        ("--number", "ex-1", "`EX-1` is the number of `old.cotter`"),
        ("--number", "OLD", "`old.cotter` is there already"),
        ("--title", "", "Something has to stand here"),
        ("--time", "soon", "`soon` is no time"),
        ("--time", "3 mm", "`3 mm` is no time"),
        ("--models", "F40,, F40S", "no list of models"),
        ("--requires", "a \"b", "cannot be read"),
        ("--people", "two", "no whole number"),
        ("--people", "0", "no whole number"),
        ("--requires", "EX-2", "EX-2"),
        ("--afterwards", "EX-7", "EX-7"),
        ("--dangers", "wet", "`wet` is none of `live`"),
        ("--models", "F40\n    time: 1 h", "One line"),
    ];
    for (flag, value, why) in wrong {
        let run = workspace.run(&flags(&[(flag, value)], &[]));
        assert_eq!(run.code, 2, "{flag} {value}");
        assert!(run.stderr.starts_with(&format!("cotter: {flag}: ")), "{flag} {value}: {}", run.stderr);
        assert!(run.stderr.contains(why), "{flag} {value}: {}", run.stderr);
        assert_eq!(workspace.files(".").len(), 1, "{flag} {value}");
    }
}

#[test]
fn the_file_is_never_written_over() {
    let workspace = Workspace::new().file("there.cotter", "mine");
    for (file, why) in [
        ("there.cotter", "is there already"),
        ("list.txt", "does not end in `.cotter`"),
        ("no/such.cotter", "its folder is not there"),
    ] {
        let run = workspace.run(&flags(&[], &[file]));
        assert_eq!(run.code, 2, "{file}");
        assert!(run.stderr.contains(why), "{file}: {}", run.stderr);
    }
    assert_eq!(workspace.read("there.cotter"), "mine");
    assert_eq!(workspace.run(&flags(&[], &["own.cotter"])).code, 0);
    assert!(workspace.read("own.cotter").contains("procedure EX-7 "));
}

#[cfg(unix)]
mod on_a_terminal {
    use super::*;
    use rustix::pty::{OpenptFlags, grantpt, openpt, ptsname, unlockpt};
    use std::fs::{File, OpenOptions};
    use std::io::Write;
    use std::process::Stdio;

    /// Runs with these keys typed on a terminal.
    fn typed(workspace: &Workspace, keys: &str, arguments: &[&str]) -> Run {
        let held = openpt(OpenptFlags::RDWR | OpenptFlags::NOCTTY).unwrap();
        grantpt(&held).unwrap();
        unlockpt(&held).unwrap();
        let name = ptsname(&held, Vec::new()).unwrap().into_string().unwrap();
        let terminal = OpenOptions::new().read(true).write(true).open(name).unwrap();
        let mut held = File::from(held);
        held.write_all(keys.as_bytes()).unwrap();
        workspace.run_from(Stdio::from(terminal), arguments)
    }

    #[test]
    fn what_is_not_given_is_asked_and_a_wrong_answer_asked_again() {
        let workspace = Workspace::new();
        let keys = "a/b\nEX-7\nRenew the gasket\nF40 transfer pump\n\nsoon\n2 h\nEX-9\n\n\n\nlive\n";
        let run = typed(&workspace, keys, &["new", "--people", "2"]);
        assert_eq!(run.code, 0, "{}", run.stderr);
        let told = [
            "Number, by which",
            "  `a/b` cannot name a folder",
            "Number, by which",
            "Title",
            "Machine",
            "with commas [none]: ",
            "How long",
            "soon",
            "How long",
            "done first [none]: ",
            "`EX-9`",
            "done first [none]: ",
            "dangerous",
            "Something has to stand here",
            "dangerous",
        ];
        let mut rest = run.stderr.as_str();
        for part in told {
            let at = rest
                .find(part)
                .unwrap_or_else(|| panic!("{part} is missing or too early in\n{}", run.stderr));
            rest = &rest[at + part.len()..];
        }
        assert!(!run.stderr.contains("How many"), "{}", run.stderr);
        let text = workspace.read("ex-7.cotter");
        for line in ["time:       2 h\n", "people:     2\n", "models:     none\n", "requires:   none\n"] {
            assert!(text.contains(line), "{line} is missing in\n{text}");
        }
        holds(&workspace);
    }

    #[test]
    fn who_leaves_in_the_middle_leaves_nothing() {
        let workspace = Workspace::new();
        let run = typed(&workspace, "EX-7\nRenew the gasket\n\u{4}", &["new"]);
        assert_eq!(run.code, 2, "{}", run.stderr);
        assert!(run.stderr.contains("nothing was written"), "{}", run.stderr);
        assert!(workspace.files(".").is_empty());
    }
}
