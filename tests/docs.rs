//! What the documents say is so: examples compile, commands exist, generated pages are current.
mod blocks;
mod examples;

use std::path::{Path, PathBuf};

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).to_owned()
}

fn read(name: &str) -> String {
    std::fs::read_to_string(root().join(name)).unwrap_or_else(|error| panic!("{name}: {error}"))
}

/// `COTTER_BLESS=1` writes what is generated.
fn is_current(name: &str, generated: &str) {
    if std::env::var_os("COTTER_BLESS").is_some() {
        std::fs::write(root().join(name), generated).unwrap();
    }
    let stale = read(name).lines().zip(generated.lines()).position(|(old, new)| old != new);
    let same = read(name) == generated;
    assert!(same, "{name} is stale from line {:?} on: bless it", stale.map(|line| line + 1));
}

#[test]
fn the_language_reference_is_current() {
    is_current("grammar/language.md", &cotter::handbook::language());
}

#[test]
fn the_rule_handbook_is_current() {
    is_current("grammar/rules.md", &cotter::handbook::rules());
}

#[test]
fn every_table_of_a_chapter_exists() {
    let page = cotter::handbook::language();
    assert!(!page.contains("{{"), "a chapter asks for a table that the handbook does not make");
}

#[test]
fn every_rule_is_in_the_handbook_once_with_what_it_says() {
    let page = cotter::handbook::rules();
    for rule in cotter::checks::RULES {
        let heading = format!("\n### {}\n", rule.id);
        assert_eq!(page.matches(&heading).count(), 1, "{}", rule.id);
        let entry = page.split(&heading).nth(1).and_then(|rest| rest.split("\n### ").next()).unwrap();
        assert!(entry.contains("\n> "), "{} says nothing to its bad example", rule.id);
    }
}

#[test]
fn every_key_of_the_tables_is_in_the_reference() {
    let page = cotter::handbook::language();
    let attributes = cotter::syntax::words::attributes().map(|row| &row.key);
    let details = cotter::syntax::words::details().map(|row| &row.key);
    let missing: Vec<&String> =
        attributes.chain(details).filter(|key| !page.contains(&format!("| `{key}` |"))).collect();
    assert!(missing.is_empty(), "{missing:?}");
}
