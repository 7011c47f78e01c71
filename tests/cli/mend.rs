//! `cotter check --fix` and `--diff`.
use super::clean;
use crate::support::workspace::Workspace;

/// A single-use part that goes back in, under a comment and with its own spacing.
fn reused() -> String {
    format!(
        "{}\n# The old one leaks.\nremove gasket from \"the housing\"; discard gasket\ninstall   gasket  on \"the housing\"  # here\n",
        clean("FW-TST-001")
    )
}

#[test]
fn the_safe_mend_is_applied_and_said() {
    let workspace = Workspace::new().file("a.cotter", reused());
    let run = workspace.run(&["check", "--fix"]);
    assert!(run.stdout.contains("mended[reused-single-use]: Fit a new one: `new gasket`"), "{}", run.stdout);
    assert!(run.stdout.ends_with("1 file: nothing to mend\n"), "{}", run.stdout);
    let text = workspace.read("a.cotter");
    assert_eq!(text, reused().replace("install   gasket", "install   new gasket"), "all else stays");
    let again = workspace.run(&["check", "--fix"]);
    assert_eq!((again.code, again.stdout.as_str()), (0, "1 file: nothing to mend\n"));
    assert_eq!(workspace.read("a.cotter"), text);
}

#[test]
fn diff_shows_it_and_changes_nothing() {
    let workspace = Workspace::new().file("a.cotter", reused());
    let run = workspace.run(&["check", "--diff"]);
    assert_eq!(run.code, 1, "the findings are still there");
    assert!(run.stdout.contains("-install   gasket  on"), "{}", run.stdout);
    assert!(run.stdout.contains("+install   new gasket  on"), "{}", run.stdout);
    assert_eq!(workspace.read("a.cotter"), reused());
}

#[test]
fn a_guess_is_left_to_the_author() {
    let rule = cotter::checks::find("misspelt-outcome").expect("the rule is there");
    let text = cotter::checks::example(rule.bad);
    let workspace = Workspace::new().file("a.cotter", &text);
    let run = workspace.run(&["check", "--fix"]);
    assert!(run.stdout.contains("misspelt-outcome"), "{}", run.stdout);
    assert_eq!(workspace.read("a.cotter"), text);
}

#[cfg(unix)]
#[test]
fn the_file_keeps_its_rights() {
    use std::os::unix::fs::PermissionsExt;
    let workspace = Workspace::new().file("a.cotter", reused());
    let path = workspace.path("a.cotter");
    std::fs::set_permissions(&path, std::fs::Permissions::from_mode(0o640)).expect("rights can be set");
    workspace.run(&["check", "--fix"]);
    let mode = std::fs::metadata(&path).expect("the file is there").permissions().mode();
    assert_eq!(mode & 0o777, 0o640);
}

#[test]
fn a_side_that_is_missing_gets_its_place_and_is_refused_until_it_is_filled_in() {
    let rule = cotter::checks::find("side-not-stated").expect("the rule is there");
    let text = cotter::checks::example(rule.bad).replace("in \"the hub\"\n", "in \"the hub\" \"Fit it.\"\n");
    let workspace = Workspace::new().file("a.cotter", &text);
    let run = workspace.run(&["check", "--fix"]);
    assert_eq!(run.code, 1, "{}", run.stdout);
    assert!(run.stdout.contains("mended[side-not-stated]"), "{}", run.stdout);
    assert!(run.stdout.contains("error[placeholder-left]"), "{}", run.stdout);
    let mended = workspace.read("a.cotter");
    assert_eq!(mended, text.replace("in \"the hub\" \"Fit", "in \"the hub\" facing \"…\" \"Fit"));
    let again = workspace.run(&["check", "--fix"]);
    assert_eq!(again.code, 1, "dots are no side");
    assert_eq!(workspace.read("a.cotter"), mended, "and nothing is put in their place");
    workspace.write("a.cotter", mended.replace('…', "the lip inward"));
    assert_eq!(workspace.run(&["check"]).code, 0);
}

#[test]
fn the_standing_message_of_the_class_is_called_where_there_is_one() {
    let standing = "catalogue \"Standing\"\n\nwarning ejection as ring-spring\n    hazard: A spring is let go.\n    \
                    harm:   Eye injury.\n    avoid:  Hold a hand over it.\n    wear:   eye protection\n";
    let rule = cotter::checks::find("missing-caution").expect("the rule is there");
    let text = cotter::checks::example(rule.bad).replace("\nparts\n", "\nuse \"standing.cotter\"\n\nparts\n");
    let workspace = Workspace::new().file("standing.cotter", standing).file("a.cotter", &text);
    workspace.run(&["check", "--fix"]);
    let wanted = text.replace("\nremove ring", "\nwarning ring-spring\nremove ring");
    assert_eq!(workspace.read("a.cotter"), wanted);
    assert_eq!(workspace.run(&["check"]).code, 0);
}

#[test]
fn a_message_behind_its_step_is_told_of_once_and_moved_to_before_it() {
    let rule = cotter::checks::find("missing-caution").expect("the rule is there");
    let good = cotter::checks::example(rule.good);
    let step = "remove ring from \"the shaft\"\n";
    let (start, end) =
        (good.find("warning ejection").expect("its message"), good.find(step).expect("its step"));
    let message = good.get(start..end).expect("the message stands before the step");
    let behind = format!("{}{step}{message}", good.replace(message, "").replace(step, ""));
    let workspace = Workspace::new().file("a.cotter", &behind);
    let found = workspace.run(&["check", "--format", "lines"]);
    assert_eq!(found.stdout.lines().count(), 1, "{}", found.stdout);
    assert!(found.stdout.contains("missing-caution"), "{}", found.stdout);
    workspace.run(&["check", "--fix"]);
    assert_eq!(workspace.read("a.cotter"), good);
    assert_eq!(workspace.run(&["check"]).code, 0);
}

#[test]
fn a_message_behind_its_step_that_the_next_needs_too_is_made_to_reach_it() {
    let rule = cotter::checks::find("missing-caution").expect("the rule is there");
    let good = cotter::checks::example(rule.good);
    let (first, second) = ("remove ring from \"the shaft\"\n", "remove clip from \"the shaft\"\n");
    let declared = good.replace("stays off\n", "stays off\n    clip \"Clip\" spring-loaded, stays off\n");
    let start = declared.find("warning ejection").expect("its message");
    let message = declared.get(start..).and_then(|it| it.strip_suffix(first)).expect("then its step");
    let head = declared.get(..start).expect("what stands before it");
    let workspace = Workspace::new().file("a.cotter", format!("{head}{first}{message}{second}"));
    workspace.run(&["check", "--fix"]);
    let wide = message.replace("warning ejection", "warning ejection for next 2 steps");
    assert_eq!(workspace.read("a.cotter"), format!("{head}{wide}{first}{second}"));
    assert_eq!(workspace.run(&["check"]).code, 0);
}
