//! The machine form as it is written: JSON, its schema in `grammar/procedure.schema.json`.
//!
//! Names are the identifiers of the source. `…_html` is a fragment of HTML that holds no script and loads nothing.
use schemars::JsonSchema;
use serde::Serialize;

/// What `format` says.
pub const FORMAT: &str = "cotter-procedure";
/// The version that is written, and the only one so far.
pub const VERSION: u32 = 1;

/// A procedure with everything that its sheets are made from.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[schemars(title = "Cotter procedure, version 1")]
pub struct Machine {
    /// Always `cotter-procedure`.
    #[schemars(regex(pattern = r"^cotter-procedure$"))]
    pub format: &'static str,
    /// Of this shape; 1.
    #[schemars(range(min = 1, max = 1))]
    pub version: u32,
    /// SHA-256 of the source text and of the catalogues it draws on, in lower-case hexadecimal; what a record names.
    #[schemars(regex(pattern = r"^[0-9a-f]{64}$"))]
    pub source: String,
    /// BCP 47 tags: of the sentences, and of the author's own words.
    pub language: &'static str,
    pub written_in: &'static str,
    pub house: String,
    pub number: String,
    pub title: String,
    #[serde(flatten)]
    pub header: Header,
    /// What every sheet says of itself: what prevails over it.
    pub disclaimer: String,
    pub parts: Vec<Part>,
    pub tools: Vec<Tool>,
    pub supplies: Vec<Supply>,
    pub figures: Vec<Figure>,
    pub sections: Vec<Section>,
    pub dues: Vec<Due>,
}

/// Silence is a missing field or an empty list; `none` in the source is an empty list too.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Header {
    #[serde(skip_serializing_if = "Option::is_none")]
    pub revision: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub equipment: Option<String>,
    pub models: Vec<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub serials: Option<String>,
    pub sources: Vec<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub time: Option<Amount>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub people_html: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub outcome_html: Option<String>,
    pub requires: Vec<Call>,
    pub afterwards: Vec<Call>,
    pub leaves: Vec<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub approved: Option<String>,
}

/// Another procedure, or an outside document by its title alone.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Call {
    #[serde(skip_serializing_if = "Option::is_none")]
    pub number: Option<String>,
    /// The state it brings, or the outside document.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub text: Option<String>,
    /// The called procedure's title, where the workspace has it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub title: Option<String>,
}

/// A quantity: exact limits in the author's unit, and as it is printed.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Amount {
    /// As sheets print it, in both units where the house wants that: "8–10 N·m (71–88 lbf·in)".
    pub shown: String,
    /// `N·m`.
    pub unit: String,
    /// A decimal number, or a fraction such as `1/3`; missing where there is no limit on that side.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub low: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub high: Option<String>,
}

/// What all declared things share.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Thing {
    pub name: String,
    pub text: String,
    /// Part or stock number.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub number: Option<String>,
}

/// Which machines have it, or which a step is for; nothing: all.
#[derive(Debug, Clone, PartialEq, Default, Serialize, JsonSchema)]
pub struct Applies {
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub models: Vec<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub serials: Option<String>,
    #[serde(skip_serializing_if = "is_false")]
    pub if_fitted: bool,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Part {
    #[serde(flatten)]
    pub thing: Thing,
    pub count: u32,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub pieces: Vec<String>,
    #[serde(flatten)]
    pub applies: Applies,
    #[serde(skip_serializing_if = "is_false")]
    pub single_use: bool,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub reuse_if: Option<String>,
    #[serde(skip_serializing_if = "is_false")]
    pub sided: bool,
    #[serde(skip_serializing_if = "is_false")]
    pub starts_off: bool,
    #[serde(skip_serializing_if = "is_false")]
    pub stays_off: bool,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub made_from: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub in_place_of: Option<String>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub matched: Vec<String>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub set_with: Vec<String>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub looks_like: Vec<LooksLike>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub never: Vec<String>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub holds: Vec<String>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub locks: Vec<String>,
    /// `M10x1.25`, `3/8-16 UNC`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub thread: Option<String>,
    /// `class 10.9`, `grade 5`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub strength: Option<String>,
    /// `dry`, `oiled`, `plated`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub condition: Option<&'static str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub torque: Option<Torque>,
    #[serde(flatten)]
    pub facts: Facts,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub callouts: Vec<Callout>,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct LooksLike {
    pub other: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub by: Option<String>,
}

/// Physical facts from which hazards follow.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Facts {
    #[serde(skip_serializing_if = "is_false")]
    pub spring_loaded: bool,
    #[serde(skip_serializing_if = "is_false")]
    pub pressed: bool,
    #[serde(skip_serializing_if = "is_false")]
    pub sharp: bool,
    #[serde(skip_serializing_if = "is_false")]
    pub rotating: bool,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub pressurised: Option<Amount>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub hot: Option<Amount>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub live: Option<Amount>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub mass: Option<Amount>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub contains: Option<String>,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Callout {
    pub number: u32,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub figure: Option<String>,
}

/// What a fastener is tightened to.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Torque {
    #[serde(skip_serializing_if = "Option::is_none")]
    pub value: Option<Amount>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub new: Option<Amount>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub reused: Option<Amount>,
    /// In order.
    pub passes: Vec<Pass>,
    /// `crosswise`, `clockwise`, `from centre`, `from ends`, or an order such as `1 3 2 4`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub pattern: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub condition: Option<&'static str>,
    /// The locking nut's running torque is measured and added.
    #[serde(skip_serializing_if = "is_false")]
    pub plus_drag: bool,
    #[serde(skip_serializing_if = "is_false")]
    pub not_specified: bool,
    /// It must not turn below this; tightens nothing.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub check: Option<Amount>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub align: Option<Align>,
}

/// One go round the fasteners: exactly one of what it is tightened or loosened to.
#[derive(Debug, Clone, PartialEq, Default, Serialize, JsonSchema)]
pub struct Pass {
    #[serde(skip_serializing_if = "Option::is_none")]
    pub torque: Option<Amount>,
    /// Of the value, in hundredths.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub percent: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub angle: Option<Amount>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub stretch: Option<Amount>,
    /// `finger tight`, `hand tight`, `snug`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub feel: Option<&'static str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub loosen_to_feel: Option<&'static str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub loosen_to: Option<Amount>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub back_off: Option<Amount>,
    #[serde(rename = "while", skip_serializing_if = "Option::is_none")]
    pub during: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub pattern: Option<String>,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Align {
    pub feature: String,
    /// `tightening`, `loosening`, `either`, `never moved`, `unsaid`.
    pub way: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub not_above: Option<Amount>,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Tool {
    #[serde(flatten)]
    pub thing: Thing,
    pub count: u32,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub range: Option<Amount>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub length: Option<Amount>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub adapter: Option<Amount>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub capacity: Option<Amount>,
    #[serde(skip_serializing_if = "is_false")]
    pub temporary: bool,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Supply {
    #[serde(flatten)]
    pub thing: Thing,
    /// GHS codes.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub hazards: Vec<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub cure: Option<Amount>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub cure_at: Option<Amount>,
    #[serde(skip_serializing_if = "is_false")]
    pub thread_locker: bool,
    #[serde(skip_serializing_if = "is_false")]
    pub lubricant: bool,
    #[serde(skip_serializing_if = "is_false")]
    pub needs_clean: bool,
    #[serde(skip_serializing_if = "is_false")]
    pub needs_dry: bool,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Figure {
    #[serde(flatten)]
    pub thing: Thing,
    /// The picture's file, from the folder of the source.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub picture: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub alt: Option<String>,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Section {
    /// Missing for steps before the first `section`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub title: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub prose_html: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub time: Option<Amount>,
    pub steps: Vec<Step>,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Step {
    /// From 1 through the whole procedure; another revision may number otherwise.
    pub number: u32,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub labels: Vec<String>,
    #[serde(flatten)]
    pub applies: Applies,
    /// Done only where all of these earlier findings came out so.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub conditions: Vec<Condition>,
    /// Stand before the step, most severe first.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub messages: Vec<Message>,
    pub actions: Vec<Action>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub options: Vec<Branch>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub exceptions: Vec<Branch>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub outcomes: Vec<Branch>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub prose_html: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub people_html: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub role: Option<String>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub figures: Vec<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub because_html: Option<String>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub questions: Vec<Question>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub teach_html: Vec<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub record: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub from: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub time: Option<Amount>,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Condition {
    #[serde(skip_serializing_if = "Option::is_none")]
    pub step: Option<u32>,
    pub label: String,
    /// `failed`, `ok`, `below`, `above`, or an outcome's own words.
    pub state: String,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Question {
    pub ask_html: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub answer_html: Option<String>,
}

/// A safety message, or a note.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Message {
    /// `danger`, `warning`, `caution`, `notice`, `note`; as the source says it, whichever convention the house prints by.
    pub signal: &'static str,
    /// A class of `grammar/hazards.toml`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub hazard: Option<&'static str>,
    /// The last step it guards; it begins before the step it stands at.
    pub until_step: u32,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub hazard_html: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub harm_html: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub avoid_html: Option<String>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub wear: Vec<&'static str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub first_aid_html: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub text_html: Option<String>,
}

/// A method, what differs at a place, or an outcome.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Branch {
    /// The method's name, the places, or how it came out: `below`, `cracked`.
    pub when: Vec<String>,
    /// As sheets print it.
    pub sentence: String,
    pub actions: Vec<Action>,
}

/// One thing that is done. `kind` says which of the fields there are.
#[derive(Debug, Clone, PartialEq, Default, Serialize, JsonSchema)]
pub struct Action {
    /// `work`, `hold`, `wait`, `follow`, `repeat`, `choose`, `calculate`, `stop`, `skip`, `report`.
    pub kind: &'static str,
    /// As sheets print it, whole sentences.
    pub sentence: String,
    /// A verb of `grammar/verbs.toml`, synonyms folded.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub verb: Option<&'static str>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub objects: Vec<Object>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub places: Vec<Place>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub tools: Vec<Object>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub supplies: Vec<Object>,
    /// A limit where the verb measures, else an amount.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub quantity: Option<Amount>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub what: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub facing: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub until: Option<String>,
    #[serde(rename = "while", skip_serializing_if = "Option::is_none")]
    pub during: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub lasting: Option<Amount>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub by: Option<Amount>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub times: Option<u32>,
    #[serde(skip_serializing_if = "is_false")]
    pub at_most: bool,
    /// What this action tightens to.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub tightens: Vec<Tightens>,
    /// Who signs, or who is told.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub role: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub call: Option<Call>,
    /// Where it goes back or on to.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub from_step: Option<u32>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub to_step: Option<u32>,
    #[serde(rename = "for", skip_serializing_if = "Vec::is_empty")]
    pub for_each: Vec<String>,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Tightens {
    /// Missing where the fastener is not declared.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub part: Option<String>,
    pub torque: Torque,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Object {
    pub name: String,
    #[serde(skip_serializing_if = "is_false")]
    pub new: bool,
    #[serde(skip_serializing_if = "is_false")]
    pub each: bool,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub count: Option<u32>,
}

/// Exactly one of `objects`, `distance` and `text`.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Place {
    pub preposition: String,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub objects: Vec<Object>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub distance: Option<Amount>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub text: Option<String>,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Due {
    pub when: String,
    pub what: String,
}

#[expect(clippy::trivially_copy_pass_by_ref, reason = "serde hands it over so")]
fn is_false(flag: &bool) -> bool {
    !flag
}
