//! `cotter compare`, and the marks of `cotter build --since`.
use crate::support::shop;
use crate::support::workspace::Workspace;

const OLD: &str = "procedure FW-TST-001 \"Renew the gasket\"
    revision:   A, 2026-11-02
    equipment:  F40 transfer pump
    models:     F40
    source:     manual \"F40 manual\"
    time:       30 min
    people:     1
    requires:   none
    afterwards: none

use \"common.cotter\"

parts
    screws \"Cover screw, M6 x 20\"  x4  thread M6, class 8.8, dry, torque 7 to 9 N.m crosswise, holds cover
    cover  \"Bearing cover\"
    gasket \"Cover gasket\"  single-use

remove screws, cover, gasket; discard gasket
warning fire
    hazard: Solvent vapour catches fire.
    harm:   Severe burns.
    avoid:  Keep flames 5 m away.
    wear:   gloves, eye protection
clean cover using solvent
install new gasket, cover, screws
tighten screws with wrench
";

const COMMON: &str = "catalogue \"Shop\"

tools
    wrench \"Torque wrench S\"  range 2 to 12 N.m

supplies
    solvent \"Degreasing solvent\"  hazards H225
";

fn new() -> String {
    let new = OLD.replace("revision:   A", "revision:   B").replace("torque 7 to 9", "torque 8 to 10");
    let new = new.replace("    wear:   gloves, eye protection\n", "    wear:   gloves\n");
    new.replace("install new gasket", "turn cover\ninstall new gasket")
}

/// The first revision committed, the second in the folder.
fn workspace() -> Workspace {
    let workspace =
        Workspace::new().file("cotter.toml", "").file("job/a.cotter", OLD).file("job/common.cotter", COMMON);
    workspace.commit("First");
    workspace.write("job/a.cotter", new());
    workspace
}

#[test]
fn changes_are_told_with_their_places_and_the_code_says_whether_the_meaning_differs() {
    let run = workspace().run(&["compare", "HEAD:job/a.cotter", "job/a.cotter"]);
    let expected = "\
job/a.cotter:14: to sign: torque changed: was 7–9 N·m, crosswise, now 8–10 N·m, crosswise
  part `screws`
job/a.cotter:19: to sign: safety message weakened, protective equipment: was eye protection, gloves, now gloves
  step 2: warning fire: Solvent vapour catches fire., before `clean cover using solvent`
job/a.cotter:25: changed: step added
  step 3: turn cover
job/a.cotter:1: words only: naming changed, revision: was A, 2026-11-02, now B, 2026-11-02
  header
words only: numbering changed: was steps 3 to 4, now steps 4 to 5
  2 steps
FW-TST-001, A, 2026-11-02 to B, 2026-11-02: 3 changes of meaning, 2 to sign; 2 in words only
";
    assert_eq!(run.stdout, expected, "{}", run.stderr);
    assert_eq!(run.code, 1);
}

#[test]
fn the_same_meaning_ends_with_0() {
    let workspace = workspace();
    workspace.write(
        "b.cotter",
        OLD.replace("Renew the gasket", "Put in another gasket").replace("common", "job/common"),
    );
    let run = workspace.run(&["compare", "job/a.cotter", "job/a.cotter"]);
    assert_eq!((run.code, run.stdout.as_str()), (0, "FW-TST-001: the same meaning\n"));
    let run = workspace.run(&["compare", "HEAD:job/a.cotter", "b.cotter"]);
    assert!(run.stdout.ends_with("FW-TST-001: the same meaning; 1 in words only\n"), "{}", run.stdout);
    assert_eq!(run.code, 0);
}

#[test]
fn an_old_revision_draws_on_its_own_catalogue() {
    let workspace = workspace();
    workspace.write("job/a.cotter", OLD);
    workspace.write("job/common.cotter", COMMON.replace("H225", "H225, H336"));
    // From a folder further down, named as it lies from there.
    let run = workspace.run_in("job", &["compare", "HEAD:a.cotter", "a.cotter"]);
    let expected = "common.cotter:7: changed: supply changed, hazards: was H225, now H225 H336\n  supply `solvent`\n\
                    note: both are revision A, 2026-11-02, and mean different things: give the new one a revision of its own\n\
                    FW-TST-001: 1 change of meaning\n";
    assert_eq!((run.code, run.stdout.as_str()), (1, expected), "{}", run.stderr);
}

/// What other words mean nobody here can weigh, and the reader is told so.
#[test]
fn words_alone_are_left_to_the_reader() {
    let workspace = workspace();
    workspace.write(
        "words.cotter",
        OLD.replace("\"Turn", "\"Now turn").replace("Solvent vapour", "The solvent vapour"),
    );
    workspace.write("old.cotter", OLD);
    let run = workspace.run(&["compare", "old.cotter", "words.cotter"]);
    let note =
        "note: words alone are not weighed: read whether what is marked words only still says the same\n";
    assert!(run.code == 0 && run.stdout.contains(note), "{}", run.stdout);
}

/// The folder that a revision is unpacked into may lie below anybody's settings.
#[test]
fn an_old_revision_takes_no_settings_from_outside_itself() {
    let workspace = workspace();
    workspace.write("for-a-while/cotter.toml", "house = 3");
    let folder = workspace.path("for-a-while").display().to_string();
    let arguments = ["compare", "HEAD:job/a.cotter", "job/a.cotter"];
    let variables = ["TMPDIR", "TMP", "TEMP"].map(|name| (name, folder.as_str()));
    let run = workspace.run_with(".", &arguments, &variables);
    assert_eq!((run.code, run.stdout), (1, workspace.run(&arguments).stdout), "{}", run.stderr);
}

#[test]
fn a_revision_with_a_file_that_is_not_there_is_not_compared_by_half() {
    let workspace = workspace();
    let name = workspace.git(&["rev-parse", "HEAD:job/common.cotter"]);
    let (folder, rest) = name.trim().split_at(2);
    std::fs::remove_file(workspace.path(&format!(".git/objects/{folder}/{rest}"))).unwrap();
    let run = workspace.run(&["compare", "HEAD:job/a.cotter", "job/a.cotter"]);
    assert_eq!((run.code, run.stdout.as_str()), (2, ""));
    assert!(run.stderr.contains("job/common.cotter: the repository lacks this file"), "{}", run.stderr);
}

#[test]
fn a_program_gets_every_change_with_both_places() {
    let run = workspace().run(&["compare", "HEAD:job/a.cotter", "job/a.cotter", "--format", "json"]);
    let answer: serde_json::Value = serde_json::from_str(&run.stdout).unwrap();
    let torque = &answer["changes"][1];
    assert_eq!(torque["kind"], "torque");
    assert_eq!(torque["sign_off"], true);
    assert_eq!(torque["old"], serde_json::json!({"file": "HEAD:job/a.cotter", "line": 14, "column": 5}));
    assert_eq!(torque["new"]["file"], "job/a.cotter");
    assert_eq!(answer["summary"], serde_json::json!({"meaning": 3, "sign_off": 2, "words": 2}));
    assert_eq!(answer["old"]["revision"], "A, 2026-11-02");
}

#[test]
fn the_page_escapes_what_authors_wrote_and_has_a_line_to_sign() {
    let workspace = workspace();
    workspace.write(
        "job/a.cotter",
        new().replace("8 to 10", "8 to 11").replace("Severe burns", "<script>\"& burns"),
    );
    let run = workspace.run(&["compare", "HEAD:job/a.cotter", "job/a.cotter", "--format", "html"]);
    assert_eq!(run.code, 1);
    let page = run.stdout;
    assert!(page.starts_with("<!DOCTYPE html>") && page.contains("default-src 'none'"));
    assert!(page.contains("&lt;script&gt;") && !page.contains("<script"), "{page}");
    assert_eq!(page.matches("Agreed: name and signature").count(), 2);
    assert!(page.contains("<del>7–9</del>") && page.contains("<ins>8–11</ins>"), "{page}");
    assert!(page.contains("does not replace training"));
}

#[test]
fn what_cannot_be_had_gets_a_plain_message() {
    let workspace = workspace();
    let cases = [
        (["compare", "HEAD:job/b.cotter", "job/a.cotter"], "the revision has no such file"),
        (["compare", "nowhere:job/a.cotter", "job/a.cotter"], "the repository has no such revision"),
        (["compare", "--help:job/a.cotter", "job/a.cotter"], "error: unexpected argument"),
        (["compare", "none.cotter", "job/a.cotter"], "there is no such file or folder"),
        (["compare", "job", "job/a.cotter"], "name one file, not a folder"),
    ];
    for (arguments, words) in cases {
        let run = workspace.run(&arguments);
        assert_eq!(run.code, 2, "{arguments:?}");
        assert!(run.stderr.contains(words), "{arguments:?}: {}", run.stderr);
    }
    let alone = Workspace::new().file("a.cotter", OLD);
    let run = alone.run(&["compare", "HEAD:a.cotter", "a.cotter"]);
    assert!(run.stderr.contains("lies in no git repository"), "{}", run.stderr);
    let run = workspace.run_with(".", &["compare", "HEAD:job/a.cotter", "job/a.cotter"], &[("PATH", "")]);
    assert!(run.stderr.contains("the git program is not here"), "{}", run.stderr);
    assert_eq!(run.code, 2);
}

#[test]
fn a_file_that_cannot_be_read_whole_is_compared_as_far_as_it_can_and_that_is_said() {
    let workspace = workspace();
    workspace.write("job/a.cotter", OLD.replace("clean cover", "claen cover"));
    let run = workspace.run(&["compare", "HEAD:job/a.cotter", "job/a.cotter"]);
    assert!(run.stdout.contains("note: job/a.cotter: some of it cannot be made sense of"), "{}", run.stdout);
}

#[test]
fn since_marks_what_changed_and_lists_what_went() {
    let workspace = workspace();
    workspace.write(
        "job/a.cotter",
        new()
            .replace("discard gasket", "discard gasket\nclean screws")
            .replacen("clean screws\n", "", 1)
            .replace(
                "remove screws, cover, gasket; discard gasket",
                "remove screws, cover; remove gasket; discard gasket",
            ),
    );
    let plain = workspace.run(&["build", "-o", "plain"]);
    let marked = workspace.run(&["build", "-o", "marked", "--since", "HEAD"]);
    assert_eq!((plain.code, marked.code), (0, 0), "{}{}{}", plain.stdout, marked.stdout, marked.stderr);
    for page in ["bench.html", "checklist.html"] {
        let text = workspace.read(&format!("marked/FW-TST-001/{page}"));
        let changed = text.matches("<p class=\"since\">Changed since revision A, 2026-11-02</p>").count();
        let new = text.matches("<p class=\"since\">New since revision A, 2026-11-02</p>").count();
        // The step of the first line, the message, and the step that tightens to another torque; one step is new.
        assert_eq!((changed, new), (3, 1), "{page}");
        assert!(
            text.contains("class=\"changed\" id=\"step-5\"")
                || text.contains("class=\"group changed\" id=\"step-5\"")
        );
        let without = workspace.read(&format!("plain/FW-TST-001/{page}"));
        assert!(!without.contains("since"), "{page}");
    }
    let assessment = workspace.read("marked/FW-TST-001/assessment.html");
    assert!(assessment.contains("<span class=\"tag plain\">Changed since revision A, 2026-11-02</span>"));
    assert!(!marked.stdout.contains("still revision"), "{}", marked.stdout);
    // The other way round, from a folder, a step went away.
    workspace.write("old/a.cotter", new());
    workspace.write("old/common.cotter", COMMON);
    workspace.write("old/cotter.toml", "");
    workspace.write("job/a.cotter", OLD);
    let run = workspace.run(&["build", "job", "-o", "back", "--since", "old", "--language", "de"]);
    assert_eq!(run.code, 0, "{}{}", run.stdout, run.stderr);
    let page = workspace.read("back/FW-TST-001/checklist.html");
    assert!(page.contains("Nicht mehr da seit Ausgabe B, 2026-11-02"), "{page}");
    assert!(page.contains("<li><span lang=\"en\">turn cover</span></li>"), "{page}");
    // What is printed as the same revision and is not would be taken for it.
    workspace.write("job/a.cotter", OLD.replace("A, 2026-11-02", "B, 2026-11-02"));
    let run = workspace.run(&["build", "job", "-o", "back", "--since", "old"]);
    let told =
        "note: FW-TST-001 means something else now and is still revision B, 2026-11-02: give it a new one";
    assert!(run.stdout.contains(told), "{}", run.stdout);
    // What keeps the old state from being read is said, and not that nothing is there.
    workspace.write("old/cotter.toml", "hosue = \"x\"\n");
    let run = workspace.run(&["build", "job", "-o", "back", "--since", "old"]);
    assert_eq!(run.code, 2);
    assert!(
        run.stderr.contains("old/cotter.toml:1:1: as of old: there is no setting `hosue`"),
        "{}",
        run.stderr
    );
    let run = workspace.run(&["build", "--since", "nowhere"]);
    assert_eq!(run.code, 2);
    assert!(!workspace.path("out").exists(), "nothing is written without what was asked for");
}

/// The demo shop against itself: no page has a mark, and none differs from one without the option in more than style.
#[test]
fn nothing_is_marked_where_nothing_changed() {
    let workspace =
        Workspace::new().file("cotter.toml", "").file("job/a.cotter", OLD).file("job/common.cotter", COMMON);
    workspace.commit("First");
    workspace.run(&["build", "-o", "plain"]);
    workspace.run(&["build", "-o", "marked", "--since", "HEAD"]);
    let style = std::fs::read_to_string(shop::package("src/sheets/since.css")).unwrap();
    for (name, bytes) in workspace.files("marked") {
        let text = String::from_utf8(bytes).unwrap().replace(&style, "");
        assert_eq!(text, workspace.read(&format!("plain/{name}")), "{name}");
    }
}
