//! Fixtures of the rules: `tests/checks/RULE-ID/NAME.cotter`, with each expected finding written under its line as
//! `#~ severity rule-id: words the message holds`.
//!
//! Missing and unexpected findings fail. `NAME.toml` beside a fixture is its house's settings; a file whose name
//! starts with `_` is a catalogue or procedure that its folder's fixtures use. `COTTER_BLESS=1` writes the findings
//! of a fixture into it; look at the difference before committing it.
use crate::support::shop::{Shop, name, package, sources};
use cotter::checks;
use cotter::report::Finding;
use cotter::source::{FileId, SourceFile};
use std::collections::BTreeSet;
use std::path::Path;

const MARK: &str = "#~";

#[test]
fn fixtures_give_what_is_written_in_them() {
    let bless = std::env::var_os("COTTER_BLESS").is_some();
    let failures: Vec<String> = fixtures().iter().filter_map(|path| run(path, bless).err()).collect();
    assert!(failures.is_empty(), "{} fixtures fail:\n\n{}", failures.len(), failures.join("\n"));
}

#[test]
fn every_fixture_belongs_to_a_rule() {
    let root = package("tests/checks");
    let orphans: Vec<String> = fixtures()
        .iter()
        .map(|path| name(&root, path))
        .filter(|name| name.split_once('/').is_none_or(|(rule, _)| checks::find(rule).is_none()))
        .collect();
    assert!(orphans.is_empty(), "no rule has the name of their folder: {orphans:?}");
}

#[test]
fn every_settings_file_belongs_to_a_fixture() {
    let orphans: Vec<_> = folders()
        .iter()
        .flat_map(|folder| std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()))
        .filter(|path| path.extension().is_some_and(|e| e != "cotter"))
        .filter(|path| !path.with_extension("cotter").is_file() || path.extension().unwrap() != "toml")
        .collect();
    assert!(orphans.is_empty(), "no fixture stands beside: {orphans:?}");
}

#[test]
fn every_rule_with_fixtures_has_a_finding_and_a_silent_one() {
    for folder in folders() {
        let rule = folder.file_name().unwrap().to_str().unwrap().to_owned();
        let speaks = |path: &Path| {
            let text = std::fs::read_to_string(path).unwrap();
            expected(&text).iter().any(|e| e.rule == rule)
        };
        let (loud, silent): (Vec<_>, Vec<_>) = fixtures()
            .into_iter()
            .filter(|path| path.parent() == Some(&folder))
            .partition(|path| speaks(path));
        assert!(!loud.is_empty(), "{rule}: no fixture has its finding");
        assert!(!silent.is_empty(), "{rule}: no fixture shows where it is silent");
    }
}

#[test]
fn the_runner_reads_marks_and_sees_what_is_missing_and_what_is_new() {
    let text = "one\n#~ error a-rule: some words\n    #~ warning b-rule: others\ntwo\n";
    let marks = expected(text);
    let read: Vec<_> = marks.iter().map(|e| (e.line, e.severity.as_str(), e.rule.as_str())).collect();
    assert_eq!(read, [(1, "error", "a-rule"), (1, "warning", "b-rule")]);
    let seen = |rule: &str, message: &str| Seen {
        line: 1,
        severity: "error".to_owned(),
        rule: rule.to_owned(),
        message: message.to_owned(),
    };
    assert!(differences(&marks[..1], &[seen("a-rule", "has some words in it")]).is_empty());
    assert_eq!(differences(&marks[..1], &[seen("a-rule", "has others")]).len(), 2);
    assert_eq!(differences(&marks[..1], &[]).len(), 1);
    assert_eq!(differences(&[], &[seen("c-rule", "new")]).len(), 1);
    let twice = [seen("a-rule", "some words"), seen("a-rule", "some words")];
    assert_eq!(differences(&marks[..1], &twice).len(), 1, "each mark stands for one finding");
}

/// A finding, as written under a line or as seen.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
struct Seen {
    line: usize,
    severity: String,
    rule: String,
    message: String,
}

fn folders() -> Vec<std::path::PathBuf> {
    let entries = std::fs::read_dir(package("tests/checks")).into_iter().flatten();
    let mut folders: Vec<_> = entries.map(|e| e.unwrap().path()).filter(|p| p.is_dir()).collect();
    folders.sort();
    folders
}

fn fixtures() -> Vec<std::path::PathBuf> {
    let helper = |path: &Path| path.file_name().unwrap().to_str().unwrap().starts_with('_');
    sources(&package("tests/checks")).into_iter().filter(|path| !helper(path)).collect()
}

fn run(path: &Path, bless: bool) -> Result<(), String> {
    let text = std::fs::read_to_string(path).unwrap();
    let source = SourceFile::new(FileId(0), path.file_name().unwrap().to_str().unwrap(), text.as_str());
    let seen = seen(&source, &shop(path).compile(&source).findings);
    let differences = differences(&expected(&text), &seen);
    if differences.is_empty() {
        return Ok(());
    }
    if bless {
        std::fs::write(path, blessed(&text, &seen)).unwrap();
        return Ok(());
    }
    let shown = name(&package(""), path);
    Err(format!("{shown}\n{}\n", differences.join("\n")))
}

/// What the fixture lives in: the helpers of its folder, itself, and its settings.
fn shop(path: &Path) -> Shop {
    let folder = path.parent().unwrap();
    let fixtures: BTreeSet<_> = fixtures().into_iter().collect();
    let mut files: Vec<_> = sources(folder).into_iter().filter(|file| !fixtures.contains(file)).collect();
    files.push(path.to_path_buf());
    let settings = std::fs::read_to_string(path.with_extension("toml"));
    let settings = settings.map_or_else(|_| Default::default(), |text| toml::from_str(&text).unwrap());
    Shop::with(folder, &files, settings)
}

fn expected(text: &str) -> Vec<Seen> {
    let mut line = 0;
    let mut found = Vec::new();
    for (index, written) in text.lines().enumerate() {
        let Some(mark) = written.trim_start().strip_prefix(MARK) else {
            line = index + 1;
            continue;
        };
        let (head, message) = mark.trim().split_once(':').unwrap_or((mark.trim(), ""));
        let (severity, rule) = head.split_once(' ').unwrap_or((head, ""));
        let (severity, rule) = (severity.to_owned(), rule.trim().to_owned());
        found.push(Seen { line, severity, rule, message: message.trim().to_owned() });
    }
    found
}

fn seen(source: &SourceFile, findings: &[Finding]) -> Vec<Seen> {
    let see = |finding: &Finding| Seen {
        line: source.line_column(finding.span.start).0,
        severity: finding.severity.name().to_owned(),
        rule: finding.rule.to_owned(),
        message: finding.message.to_string(),
    };
    findings.iter().map(see).collect()
}

fn differences(expected: &[Seen], seen: &[Seen]) -> Vec<String> {
    let mut left: Vec<&Seen> = seen.iter().collect();
    let mut found = Vec::new();
    for mark in expected {
        let fits = |seen: &&Seen| {
            (seen.line, &seen.severity, &seen.rule) == (mark.line, &mark.severity, &mark.rule)
                && seen.message.contains(&mark.message)
        };
        match left.iter().position(fits) {
            Some(place) => drop(left.remove(place)),
            None => found.push(format!("  missing    {}", shown(mark))),
        }
    }
    found.extend(left.into_iter().map(|seen| format!("  unexpected {}", shown(seen))));
    found
}

fn shown(seen: &Seen) -> String {
    format!("line {}: {} {}: {}", seen.line, seen.severity, seen.rule, seen.message)
}

fn blessed(text: &str, seen: &[Seen]) -> String {
    let mut blessed = String::new();
    for (index, line) in text.lines().enumerate() {
        if line.trim_start().starts_with(MARK) {
            continue;
        }
        blessed.push_str(&format!("{line}\n"));
        let indent: String = line.chars().take_while(|c| c.is_whitespace()).collect();
        for finding in seen.iter().filter(|finding| finding.line == index + 1) {
            let Seen { severity, rule, message, .. } = finding;
            blessed.push_str(&format!("{indent}{MARK} {severity} {rule}: {message}\n"));
        }
    }
    blessed
}
