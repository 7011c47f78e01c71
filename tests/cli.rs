//! The real program, run in small workspaces.
use crate::support::workspace::Workspace;
use cotter::checks;

mod build;
mod check;
mod compare;
mod explain;
mod export;
mod follow;
mod formats;
mod mend;
mod new;
mod pages;
#[cfg(feature = "editor")]
mod preview;
mod record;
mod torque;
mod trace;
mod version;

/// A procedure without findings, with this number.
fn clean(number: &str) -> String {
    let rule = checks::find("undeclared-name").unwrap();
    checks::example(rule.good).replace("EX-001", number)
}

/// The same with one error.
fn faulty(number: &str) -> String {
    let rule = checks::find("undeclared-name").unwrap();
    checks::example(rule.bad).replace("EX-001", number)
}

#[test]
fn a_wrong_call_says_how_and_exits_with_2() {
    let run = Workspace::new().run(&["chekc"]);
    assert_eq!(run.code, 2);
    assert!(run.stderr.contains("'check'"), "{}", run.stderr);
    assert_eq!(Workspace::new().run(&[]).code, 2);
}
