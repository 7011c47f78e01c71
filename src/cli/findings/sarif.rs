//! SARIF 2.1.0 (OASIS standard): rules with their help, findings with places, fingerprints and safe mends.
use super::told::Place;
use super::{Answer, Told};
use crate::checks::{RULES, Rule};
use crate::report::Severity;
use crate::workspace::trouble::Trouble;
use serde::Serialize;

const SCHEMA: &str =
    "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json";

/// Under which name a finding's fingerprint stands; the number goes up with the way it is made.
const FINGERPRINT: &str = "cotterFinding/v1";

#[derive(Serialize)]
struct Log<'a> {
    #[serde(rename = "$schema")]
    schema: &'static str,
    version: &'static str,
    runs: [Run<'a>; 1],
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Run<'a> {
    tool: Tool,
    /// Columns count characters.
    column_kind: &'static str,
    invocations: [Invocation<'a>; 1],
    results: Vec<Outcome<'a>>,
}

#[derive(Serialize)]
struct Tool {
    driver: Driver,
}

#[derive(Serialize)]
struct Driver {
    name: &'static str,
    version: &'static str,
    rules: Vec<Described>,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Described {
    id: &'static str,
    short_description: Words<'static>,
    help: Words<'static>,
    default_configuration: Configuration,
}

#[derive(Serialize)]
struct Configuration {
    level: &'static str,
}

#[derive(Serialize)]
struct Words<'a> {
    text: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    markdown: Option<&'a str>,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Invocation<'a> {
    execution_successful: bool,
    tool_execution_notifications: Vec<Notification<'a>>,
}

#[derive(Serialize)]
struct Notification<'a> {
    level: &'static str,
    message: Words<'a>,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Outcome<'a> {
    rule_id: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    rule_index: Option<usize>,
    level: &'static str,
    message: Words<'a>,
    locations: [Location<'a>; 1],
    #[serde(skip_serializing_if = "Vec::is_empty")]
    related_locations: Vec<Location<'a>>,
    partial_fingerprints: Fingerprints<'a>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    fixes: Vec<Fix<'a>>,
}

#[derive(Serialize)]
struct Fingerprints<'a> {
    #[serde(rename = "cotterFinding/v1")]
    own: &'a str,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Location<'a> {
    physical_location: Physical,
    #[serde(skip_serializing_if = "Option::is_none")]
    message: Option<Words<'a>>,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Physical {
    artifact_location: Artifact,
    region: Region,
}

#[derive(Serialize)]
struct Artifact {
    uri: String,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Region {
    start_line: usize,
    start_column: usize,
    end_line: usize,
    end_column: usize,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Fix<'a> {
    description: Words<'a>,
    artifact_changes: Vec<ArtifactChange<'a>>,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct ArtifactChange<'a> {
    artifact_location: Artifact,
    replacements: Vec<Replacement<'a>>,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Replacement<'a> {
    deleted_region: Region,
    inserted_content: Inserted<'a>,
}

#[derive(Serialize)]
struct Inserted<'a> {
    text: &'a str,
}

/// The whole log.
pub fn answer(answer: &Answer<'_>) -> String {
    debug_assert_eq!(FINGERPRINT, "cotterFinding/v1");
    let driver = Driver {
        name: "cotter",
        version: env!("CARGO_PKG_VERSION"),
        rules: RULES.iter().map(|rule| described(rule)).collect(),
    };
    let invocation = Invocation {
        execution_successful: answer.troubles.is_empty(),
        tool_execution_notifications: answer.troubles.iter().map(notification).collect(),
    };
    let run = Run {
        tool: Tool { driver },
        column_kind: "unicodeCodePoints",
        invocations: [invocation],
        results: answer.findings.iter().map(outcome).collect(),
    };
    let log = Log { schema: SCHEMA, version: "2.1.0", runs: [run] };
    serde_json::to_string_pretty(&log).unwrap_or_default() + "\n"
}

fn words(text: impl Into<String>) -> Words<'static> {
    Words { text: text.into(), markdown: None }
}

fn described(rule: &'static Rule) -> Described {
    Described {
        id: rule.id,
        short_description: words(rule.summary),
        help: Words { text: rule.explain.trim().to_owned(), markdown: Some(rule.explain.trim()) },
        default_configuration: Configuration { level: level(rule.severity) },
    }
}

fn level(severity: Severity) -> &'static str {
    match severity {
        Severity::Error => "error",
        Severity::Warning => "warning",
        Severity::Advice => "note",
    }
}

fn notification(trouble: &Trouble) -> Notification<'static> {
    Notification { level: "error", message: words(trouble.to_string()) }
}

fn outcome(told: &Told) -> Outcome<'_> {
    let help = told.help.as_ref().map(|help| format!("\n{help}")).unwrap_or_default();
    let labels = told.labels.iter();
    Outcome {
        rule_id: told.rule,
        rule_index: RULES.iter().position(|rule| rule.id == told.rule),
        level: level(told.severity),
        message: words(format!("{}{help}", told.message)),
        locations: [location(&told.place, None)],
        related_locations: labels.map(|label| location(&label.place, Some(&label.message))).collect(),
        partial_fingerprints: Fingerprints { own: &told.fingerprint },
        fixes: fix(told).into_iter().collect(),
    }
}

fn location(place: &Place, message: Option<&str>) -> Location<'static> {
    let physical_location = Physical { artifact_location: artifact(&place.file), region: region(place) };
    Location { physical_location, message: message.map(words) }
}

fn region(place: &Place) -> Region {
    Region {
        start_line: place.line,
        start_column: place.column,
        end_line: place.end_line,
        end_column: place.end_column,
    }
}

/// The mend, file by file.
fn fix(told: &Told) -> Option<Fix<'_>> {
    let mut changes: Vec<(&str, Vec<Replacement<'_>>)> = Vec::new();
    for (place, text) in &told.edits {
        let replacement = Replacement { deleted_region: region(place), inserted_content: Inserted { text } };
        match changes.iter_mut().find(|(file, _)| *file == place.file) {
            Some((_, replacements)) => replacements.push(replacement),
            None => changes.push((&place.file, vec![replacement])),
        }
    }
    let change = |(file, replacements)| ArtifactChange { artifact_location: artifact(file), replacements };
    (!changes.is_empty()).then(|| Fix {
        description: words(told.help.clone().unwrap_or_else(|| told.message.clone())),
        artifact_changes: changes.into_iter().map(change).collect(),
    })
}

/// A relative address: every byte that cannot stand in one is written as its number (RFC 3986).
fn artifact(file: &str) -> Artifact {
    let plain = |byte: u8| byte.is_ascii_alphanumeric() || b"-._~/".contains(&byte);
    let mut uri = String::with_capacity(file.len());
    for byte in file.bytes() {
        if plain(byte) { uri.push(char::from(byte)) } else { uri.push_str(&format!("%{byte:02X}")) }
    }
    Artifact { uri }
}
