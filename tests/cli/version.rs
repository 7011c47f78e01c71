//! `cotter --version` tells one program from another, and says nothing that would differ from build to build.
use crate::support::workspace::Workspace;

fn said(flag: &str) -> String {
    let run = Workspace::new().run(&[flag]);
    assert_eq!((run.code, run.stderr.as_str()), (0, ""));
    run.stdout
}

#[test]
fn the_short_one_is_the_number() {
    assert_eq!(said("-V"), format!("cotter {}\n", env!("CARGO_PKG_VERSION")));
}

#[test]
fn the_long_one_says_how_it_was_built() {
    let long = said("--version");
    let mut lines = long.lines();
    assert_eq!(lines.next(), Some(said("-V").trim_end()));
    let facts: Vec<(&str, &str)> = lines.map(|line| line.split_once(": ").unwrap()).collect();
    let fact = |name: &str| facts.iter().find(|(it, _)| *it == name).map(|(_, value)| *value);
    assert_eq!(fact("language edition"), Some("1"));
    assert_eq!(fact("target"), Some(env!("COTTER_TARGET")));
    let on = [("editor", cfg!(feature = "editor")), ("pdf", cfg!(feature = "pdf"))];
    let on: Vec<&str> = on.into_iter().filter(|(_, on)| *on).map(|(name, _)| name).collect();
    assert_eq!(fact("features").unwrap_or_default(), on.join(", "));
    assert!(fact("built by").unwrap().starts_with("rustc 1."), "{long}");
    // While one works there is none; a release has twelve figures, and says whether its files were changed.
    let commit = fact("commit").unwrap_or("0123456789ab, changed");
    let figures = commit.strip_suffix(", changed").unwrap_or(commit);
    assert!(figures.len() == 12 && figures.chars().all(|c| c.is_ascii_hexdigit()), "{long}");
    assert_eq!(facts.iter().filter(|(name, _)| ["time", "date", "built on"].contains(name)).count(), 0);
}

#[test]
fn a_manual_page_is_about_the_version_and_no_build_of_it() {
    let page = Workspace::new().run(&["man"]).stdout;
    assert!(page.contains(env!("CARGO_PKG_VERSION")) && !page.contains("built by"), "{page}");
}
