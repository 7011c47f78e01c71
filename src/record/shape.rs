//! The record as it is written and read: JSON, its schema in `grammar/record.schema.json`.
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// What `format` says.
pub const FORMAT: &str = "cotter-record";
/// The version that is written, and the only one so far.
pub const VERSION: u32 = 1;

/// A job worked by a procedure, as a bench page wrote it down.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(title = "Cotter record, version 1")]
pub struct Record {
    /// Always `cotter-record`.
    #[schemars(regex(pattern = r"^cotter-record$"))]
    pub format: String,
    /// Of this shape; 1.
    #[schemars(range(min = 1, max = 1))]
    pub version: u32,
    pub procedure: Made,
    pub job: Job,
    /// When the first entry was made.
    #[schemars(regex(pattern = r"^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\dZ$"))]
    pub started: String,
    /// When this file was made.
    #[schemars(regex(pattern = r"^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\dZ$"))]
    pub saved: String,
    /// In the order of the work; steps that nobody touched are left out.
    pub steps: Vec<StepRecord>,
    /// `sha256:` and the SHA-256 of all the rest in the canonical form of RFC 8785, in lower-case hexadecimal. It shows
    /// slips and careless edits; it is no signature.
    #[schemars(regex(pattern = r"^sha256:[0-9a-f]{64}$"))]
    pub seal: String,
}

/// The procedure that the page was made of.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Made {
    pub number: String,
    pub title: String,
    /// Empty where the procedure has none.
    pub revision: String,
    /// SHA-256 of the source text and of the catalogues in use, in lower-case hexadecimal.
    #[schemars(regex(pattern = r"^[0-9a-f]{64}$"))]
    pub source: String,
}

/// Which machine, whose work.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Job {
    pub number: String,
    pub serial: String,
    pub technician: String,
    /// One of the procedure's models; empty where it names none.
    pub model: String,
}

/// One step, or one round of a step that is repeated for several places.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct StepRecord {
    #[schemars(range(min = 1))]
    pub step: u32,
    /// The place that the step is repeated for; empty on the first way through.
    pub round: String,
    pub state: State,
    /// When the state was set; empty while it is open.
    #[schemars(regex(pattern = r"^(\d{4}-\d\d-\d\dT\d\d:\d\d:\d\dZ)?$"))]
    pub at: String,
    /// How often it was done: once, and again each time an outcome of it or of a later step sent the work back.
    #[schemars(range(min = 1))]
    pub attempts: u32,
    pub values: Vec<Value>,
    pub outcomes: Vec<Outcome>,
    pub holds: Vec<Signed>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum State {
    Open,
    Done,
    /// The step's condition did not come true on this machine.
    NotApplicable,
}

/// What was measured, tightened to, or written down.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Value {
    /// Which field of the step, from `1`.
    pub field: String,
    /// From 1; a step that is done again after an outcome counts on.
    #[schemars(range(min = 1))]
    pub attempt: u32,
    pub label: String,
    /// As typed, with a decimal point or comma.
    pub typed: String,
    /// What it was typed in; empty for words.
    pub unit: String,
    /// Limits in `limits_in`, as decimal numbers or fractions; empty where there is none.
    pub low: String,
    pub high: String,
    pub limits_in: String,
    #[schemars(regex(pattern = r"^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\dZ$"))]
    pub at: String,
}

/// A branch of the step that was taken.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Outcome {
    /// Which branch of the step, from 1.
    #[schemars(range(min = 1))]
    pub branch: u32,
    #[schemars(range(min = 1))]
    pub attempt: u32,
    /// Its condition: `below`, `cracked`, the name of an option.
    pub when: String,
    #[schemars(regex(pattern = r"^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\dZ$"))]
    pub at: String,
}

/// A signature by name.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Signed {
    /// Which hold of the step, from 1.
    #[schemars(range(min = 1))]
    pub hold: u32,
    pub role: String,
    pub name: String,
    #[schemars(regex(pattern = r"^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\dZ$"))]
    pub at: String,
}

impl Record {
    /// The JSON Schema of a record, as it is published.
    pub fn schema() -> String {
        let schema = schemars::schema_for!(Record);
        serde_json::to_string_pretty(&schema).unwrap_or_default() + "\n"
    }
}
