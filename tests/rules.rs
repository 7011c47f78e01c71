//! The whole list of rules: files, names and entries agree, examples hold, and messages keep one tone.
use cotter::checks::{self, RULES, Rule};
use cotter::model::hazard::{Hazard, Wear};
use cotter::model::levels::Level;
use cotter::model::{Settings, Surroundings};
use cotter::report::{Finding, Severity};
use cotter::source::{FileId, SourceFile};
use std::collections::BTreeSet;

#[test]
fn every_rule_file_is_in_the_list_and_named_as_its_rule() {
    let mut files = BTreeSet::new();
    for entry in std::fs::read_dir(concat!(env!("CARGO_MANIFEST_DIR"), "/src/checks")).unwrap() {
        let path = entry.unwrap().path();
        if std::fs::read_to_string(&path).unwrap().contains("pub static RULE: Rule") {
            files.insert(path.file_stem().unwrap().to_str().unwrap().replace('_', "-"));
        }
    }
    let listed: Vec<&str> = RULES.iter().map(|rule| rule.id).collect();
    assert_eq!(listed, files.iter().map(String::as_str).collect::<Vec<_>>());
}

#[test]
fn every_rule_has_fixtures() {
    for rule in RULES {
        let folder = format!("{}/tests/checks/{}", env!("CARGO_MANIFEST_DIR"), rule.id);
        let files = std::fs::read_dir(&folder).unwrap_or_else(|_| panic!("{folder} is missing"));
        let texts: Vec<String> = files
            .map(|entry| entry.unwrap().path())
            .filter(|path| !path.file_name().unwrap().to_str().unwrap().starts_with('_'))
            .filter(|path| path.extension().is_some_and(|extension| extension == "cotter"))
            .map(|path| std::fs::read_to_string(path).unwrap())
            .collect();
        let annotation = format!(" {}: ", rule.id);
        let finding = |text: &&String| text.lines().any(|l| l.contains("#~") && l.contains(&annotation));
        let found = texts.iter().filter(finding).count();
        assert!(found > 0, "no fixture of {} shows a finding", rule.id);
        assert!(found < texts.len(), "no fixture of {} is a near miss without a finding", rule.id);
    }
}

#[test]
fn every_bad_example_gives_one_finding_of_its_rule() {
    let wrong: Vec<String> = RULES
        .iter()
        .map(|rule| (rule, findings(rule.bad)))
        .filter(|(rule, found)| found.iter().map(|f| f.rule).ne([rule.id]))
        .map(|(rule, found)| format!("{}: {}", rule.id, told(&found)))
        .collect();
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn no_good_example_gives_a_finding() {
    let wrong: Vec<String> = RULES
        .iter()
        .map(|rule| (rule, findings(rule.good)))
        .filter(|(_, found)| !found.is_empty())
        .map(|(rule, found)| format!("{}: {}", rule.id, told(&found)))
        .collect();
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn summaries_and_explanations_are_there() {
    for rule in RULES {
        assert!(sentence(rule.summary), "{}: {}", rule.id, rule.summary);
        assert!(rule.summary.chars().count() <= 90, "{}: the summary is no single line", rule.id);
        assert!(
            rule.explain.trim().split("\n\n").count() >= 2,
            "{}: say what it costs and how to mend it",
            rule.id
        );
        assert!(rule.explain.trim().ends_with(['.', ':']), "{}: the explanation breaks off", rule.id);
    }
}

/// What, and what to do: start like a sentence or with the thing in backticks, have no full stop. Why: hangs on its
/// place, so it starts small.
#[test]
fn messages_keep_one_tone() {
    for rule in RULES {
        for finding in findings(rule.bad) {
            assert!(sentence(&finding.message), "{}: {}", rule.id, finding.message);
            let help = finding.help.as_deref().unwrap_or_else(|| panic!("{} says not what to do", rule.id));
            assert!(sentence(help.trim_end_matches('?')), "{}: {help}", rule.id);
            for label in &finding.labels {
                assert!(fragment(&label.text), "{}: {}", rule.id, label.text);
            }
            for told in [&*finding.message, help] {
                let lower = told.to_lowercase();
                for blame in ["invalid", "illegal", "error", "you must", "please", "oops"] {
                    assert!(!lower.contains(blame), "{} says {blame:?}: {told}", rule.id);
                }
                assert!(!told.contains('\n'), "{}: one sentence, one line: {told}", rule.id);
            }
        }
    }
}

#[test]
fn edits_of_examples_mend_them() {
    for rule in RULES {
        let text = checks::example(rule.bad);
        for finding in findings(rule.bad).iter().filter(|finding| !finding.edits.is_empty()) {
            let mended = edited(&text, finding);
            let left = findings(&mended);
            assert!(left.iter().all(|f| f.rule != rule.id), "{}: {}\n{mended}", rule.id, told(&left));
        }
    }
}

#[test]
fn a_note_under_its_step_is_moved_before_it() {
    for (under, before) in [
        ("    note \"The glass is thin.\"\n", "note \"The glass is thin.\"\n"),
        ("    note: The glass\n        is thin.\n", "note \"The glass is thin.\"\n"),
        ("    note\n        The glass is thin.\n", "note\n    The glass is thin.\n"),
        ("    Wipe it.\n    note: The glass is thin.\n", "note \"The glass is thin.\"\n"),
    ] {
        let parts = "parts\n    lamp \"Lamp\"\n\n";
        let example = format!("{parts}clean lamp\n{under}");
        let found = findings(&example);
        assert_eq!(found.iter().map(|f| f.rule).collect::<Vec<_>>(), ["caution-after-step"], "{under}");
        let mended = edited(&checks::example(&example), &found[0]);
        assert!(mended.contains(&format!("\n{before}clean lamp\n")), "{mended}");
        assert!(findings(&mended).is_empty(), "{mended}");
    }
}

#[test]
fn explanations_list_the_whole_tables() {
    let hazards = checks::find("unknown-hazard").unwrap().explain.replace('\n', " ");
    for hazard in Hazard::all() {
        assert!(hazards.contains(&hazard.name), "unknown-hazard does not tell of {}", hazard.name);
    }
    let wear = checks::find("unknown-wear").unwrap().explain.replace('\n', " ");
    for piece in Wear::all() {
        assert!(wear.contains(&piece.name), "unknown-wear does not tell of {}", piece.name);
    }
}

#[test]
fn a_house_may_turn_down_a_matter_of_craft_but_no_hole() {
    let craft = checks::find("vague-word").unwrap();
    let hole = checks::find("undeclared-name").unwrap();
    let house = |rule: &Rule, level| {
        let mut settings = Settings::default();
        settings.rules.set(rule.id, level);
        (rule.level(&settings), checks::misconfigured(&settings).is_some())
    };
    assert_eq!(house(craft, Level::Off), (None, false));
    assert_eq!(house(craft, Level::Error), (Some(Severity::Error), false));
    assert_eq!(house(hole, Level::Off), (Some(Severity::Error), true));
    assert_eq!(house(hole, Level::Warning), (Some(Severity::Error), true));
    assert_eq!(house(hole, Level::Error), (Some(Severity::Error), false));
}

#[test]
fn an_unknown_rule_in_the_settings_is_told_with_the_nearest_name() {
    let mut settings = Settings::default();
    settings.rules.set("vague-words", Level::Off);
    let (rule, message, help) = checks::misconfigured(&settings).unwrap();
    assert_eq!((rule, message.as_str()), ("vague-words", "there is no rule `vague-words`"));
    assert_eq!(help, "did you mean `vague-word`?");
}

fn findings(text: &str) -> Vec<Finding> {
    let source = SourceFile::new(FileId(0), "example.cotter", checks::example(text));
    let (settings, register, catalogues) =
        (Settings::default(), checks::example_register(), checks::example_catalogues());
    let around = Surroundings { settings: &settings, register: &register, catalogues: &catalogues };
    cotter::compile(&source, &around).findings
}

fn told(findings: &[Finding]) -> String {
    if findings.is_empty() {
        return "no finding".to_owned();
    }
    findings.iter().map(|f| format!("{} ({})", f.rule, f.message)).collect::<Vec<_>>().join("; ")
}

fn sentence(text: &str) -> bool {
    let starts =
        text.starts_with(|first: char| first == '`' || first.is_uppercase() || first.is_ascii_digit());
    starts && !text.ends_with(['.', ' '])
}

fn fragment(text: &str) -> bool {
    !text.starts_with(char::is_uppercase) && !text.is_empty() && !text.ends_with(['.', ' '])
}

fn edited(text: &str, finding: &Finding) -> String {
    let mut edits = finding.edits.clone();
    edits.sort_by_key(|edit| std::cmp::Reverse(edit.span.start));
    let mut text = text.to_owned();
    for edit in edits {
        text.replace_range(edit.span.range(), &edit.text);
    }
    text
}

/// The quick look that spares most text the cutting into words lets each of the table's words through, wherever it
/// stands.
#[test]
fn every_vague_word_is_seen_wherever_it_stands() {
    let table =
        std::fs::read_to_string(concat!(env!("CARGO_MANIFEST_DIR"), "/src/checks/vague_word.rs")).unwrap();
    let rows = table.lines().filter_map(|line| line.trim().strip_prefix("(\"")?.split_once("\", Wanted"));
    let words: Vec<&str> = rows.map(|(word, _)| word).collect();
    assert!(words.len() > 20, "{words:?}");
    let (settings, register, catalogues) = Default::default();
    let around = Surroundings { settings: &settings, register: &register, catalogues: &catalogues };
    let is_seen = |prose: &str| {
        let text = format!("procedure A-1 \"A\"\n\nclean cover\n    {prose}\n");
        let source = SourceFile::new(FileId(0), "a-1.cotter", text.as_str());
        cotter::compile(&source, &around).findings.iter().any(|finding| finding.rule == "vague-word")
    };
    for word in words.into_iter().chain(["as required", "if necessary", "where needed", "as appropriate"]) {
        for shift in 0..8 {
            let prose = format!("S{} {word} it.", "o".repeat(shift));
            assert!(is_seen(&prose), "{word} is not seen in {prose}");
        }
        let (first, rest) = word.split_at(1);
        for cased in [first.to_uppercase() + rest, word.to_uppercase()] {
            assert!(is_seen(&format!("{cased} so.")), "{cased} is not seen");
        }
    }
}
