//! What the documents say is so: examples compile, commands exist, generated pages are current.
mod blocks;
mod examples;
mod readme;

use std::path::{Path, PathBuf};

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).to_owned()
}

fn read(name: &str) -> String {
    std::fs::read_to_string(root().join(name)).unwrap_or_else(|error| panic!("{name}: {error}"))
}

/// `COTTER_BLESS=1` writes what is generated.
pub(crate) fn is_current(name: &str, generated: &str) {
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
fn the_grammar_for_editors_is_current() {
    let grammar = cotter::handbook::highlighting();
    let read: serde_json::Value = serde_json::from_str(&grammar).unwrap();
    assert_eq!(read["scopeName"], "source.cotter");
    assert!(!grammar.contains("{{"), "a list of words is missing");
    is_current("grammar/editors/cotter.tmLanguage.json", &grammar);
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

#[test]
fn relative_links_lead_somewhere() {
    for name in [
        "README.md",
        "DEVELOPERS.md",
        "grammar/language.md",
        "grammar/rules.md",
        "grammar/changes.md",
        "grammar/changelog.md",
    ] {
        let text = read(name);
        let folder = root().join(name).parent().unwrap().to_owned();
        for (link, line) in blocks::links(&text) {
            let (path, anchor) = link.split_once('#').unwrap_or((&link, ""));
            let target = if path.is_empty() { root().join(name) } else { folder.join(path) };
            assert!(target.exists(), "{name}:{line}: nothing at {link}");
            if !anchor.is_empty() {
                let page = std::fs::read_to_string(&target).unwrap();
                assert!(
                    blocks::anchors(&page).any(|known| known == anchor),
                    "{name}:{line}: no heading {link}"
                );
            }
        }
    }
}

/// A new version is told of before it is one.
#[test]
fn the_change_log_begins_with_this_version_and_edition() {
    let log = read("grammar/changelog.md");
    let heading = log.lines().find_map(|line| line.strip_prefix("## ")).unwrap();
    let edition = cotter::model::settings::NEWEST_EDITION;
    assert_eq!(heading, format!("{}, edition {edition} of the language", env!("CARGO_PKG_VERSION")));
    assert!(read("README.md").contains("](grammar/changelog.md)"), "the README leads to it");
}

#[test]
fn the_map_names_every_folder_and_nothing_else() {
    let map = read("DEVELOPERS.md");
    let mut folders =
        vec!["src", "tests", "grammar", "procedures", "out"].into_iter().map(str::to_owned).collect();
    let layers = subfolders(&root().join("src"));
    let all: &mut Vec<String> = &mut folders;
    all.extend(layers.into_iter().map(|layer| format!("src/{layer}")));
    for folder in all.iter() {
        assert!(map.contains(&format!("`{folder}/`")), "DEVELOPERS.md does not name {folder}/");
    }
    for (path, line) in blocks::quoted_paths(&map) {
        let placeholder = path == "src/checks/rule_name.rs";
        assert!(placeholder || root().join(&path).exists(), "DEVELOPERS.md:{line}: there is no {path}");
    }
}

fn subfolders(path: &Path) -> Vec<String> {
    let entries = std::fs::read_dir(path).unwrap().map(|entry| entry.unwrap());
    let mut names: Vec<String> = entries
        .filter(|entry| entry.path().is_dir())
        .map(|entry| entry.file_name().into_string().unwrap())
        .collect();
    names.sort();
    names
}
