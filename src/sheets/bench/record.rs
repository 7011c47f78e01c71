//! The bench page filled in: a script that stands in the page, and a block of data for it to go by.
//!
//! Without the script the page reads as it does on paper. The page's policy lets this one script run, by its hash.
use crate::model::Document;
use crate::record::Plan;
use crate::sheets::Sheet;
use crate::sheets::language::{PerLanguage, Words};
use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use sha2::{Digest, Sha256};
use std::collections::BTreeMap;
use std::sync::LazyLock;

/// One script: the parts share the data, and nothing of them is seen from outside.
static SCRIPT: LazyLock<String> = LazyLock::new(|| {
    let parts = [
        include_str!("record/exact.js"),
        include_str!("record/seal.js"),
        include_str!("record/state.js"),
        include_str!("record/file.js"),
        include_str!("record/page.js"),
    ];
    format!("(() => {{\n'use strict';\n{}{}}})();\n", include_str!("record/data.js"), parts.concat())
});

static ELEMENT: LazyLock<String> = LazyLock::new(|| format!("<script>{}</script>\n", SCRIPT.as_str()));

/// What the script says, as JSON; `{name}` stands where something is put in.
static WORDS: PerLanguage<String> = PerLanguage::new();

static SOURCE: LazyLock<String> =
    LazyLock::new(|| format!("script-src 'sha256-{}'; ", STANDARD.encode(Sha256::digest(SCRIPT.as_bytes()))));

/// What the page's policy says of the script.
pub fn source() -> &'static str {
    &SOURCE
}

/// The script, for the end of the page.
pub fn script() -> &'static str {
    &ELEMENT
}

/// The data that stands before the script; empty where nothing is asked for.
pub fn markup(document: &Document, sheet: &Sheet<'_>) -> String {
    let Some(plan) = Plan::shown_by(document, &sheet.settings().units, &|it| sheet.quantity(it))
        .filter(|plan| !plan.steps.is_empty())
    else {
        return String::new();
    };
    let words = sheet.context.words;
    let said =
        WORDS.get(words.language(), || as_data(serde_json::to_string(&said(words)).unwrap_or_default()));
    let plan = as_data(serde_json::to_string(&plan).unwrap_or_default());
    // The words are one more field of the plan: they are the same for every document.
    let fields = plan.strip_suffix('}').unwrap_or(&plan);
    ["<script type=\"application/json\" id=\"record-data\">", fields, ",\"words\":", said, "}</script>\n"]
        .concat()
}

/// No text of an author can end the block: JSON may write the sign another way.
fn as_data(json: String) -> String {
    match memchr::memchr(b'<', json.as_bytes()) {
        Some(_) => json.replace('<', "\\u003c"),
        None => json,
    }
}

fn said(words: &Words) -> BTreeMap<&'static str, String> {
    let labels = [
        ("job-record", words.label("job-record")),
        ("job-record-says", words.label("job-record-says")),
        ("job-number", words.label("job-number")),
        ("serial-number", words.label("serial-number")),
        ("technician", words.label("technician")),
        ("machine-model", words.label("machine-model")),
        ("choose-model", words.label("choose-model")),
        ("kept-here", words.label("kept-here")),
        ("not-kept", words.label("not-kept")),
        ("save-record", words.label("save-record")),
        ("print-page", words.label("print-page")),
        ("start-afresh", words.label("start-afresh")),
        ("really-afresh", words.label("really-afresh")),
        ("not-for-this", words.label("not-for-this")),
        ("fill-job-first", words.label("fill-job-first")),
        ("no-figure", words.label("no-figure")),
        ("within-limits", words.label("within-limits")),
        ("out-of-limits", words.label("out-of-limits")),
        ("set-again", words.label("set-again")),
        ("outcome-so", words.label("outcome-so")),
        ("method-used", words.label("method-used")),
        ("choose-one", words.label("choose-one")),
        ("do-again", words.label("do-again")),
        ("again-first", words.label("again-first")),
        ("no-more", words.label("no-more")),
        ("sign", words.label("sign")),
        ("take-back", words.label("take-back")),
        ("not-own-work", words.label("not-own-work")),
        ("reading", words.label("reading")),
        ("set-to", words.label("set-to")),
    ];
    let step = [("step", "{step}".into())];
    let what = [("what", "{what}".into())];
    let limits = [("limits", "{limits}".into())];
    let role = [("role", "{role}".into())];
    let phrases = [
        ("done-of", words.say("done-of", &[("done", "{done}".into()), ("all", "{all}".into())])),
        ("step-done-in", words.say("step-done-in", &step)),
        ("locked-by", words.say("locked-by", &step)),
        ("signed-after", words.say("signed-after", &step)),
        ("stopped-at", words.say("stopped-at", &step)),
        ("skipped-at", words.say("skipped-at", &step)),
        ("came-out-otherwise", words.say("came-out-otherwise", &step)),
        ("earlier-first", words.say("earlier-first", &step)),
        ("step-number", words.say("step-number", &[("number", "{number}".into())])),
        ("not-for-model", words.say("not-for-model", &[("model", "{model}".into())])),
        ("fill-in-first", words.say("fill-in-first", &what)),
        ("unit-of", words.say("unit-of", &what)),
        ("below-limits", words.say("below-limits", &limits)),
        ("above-limits", words.say("above-limits", &limits)),
        ("read-before", words.say("read-before", &[("values", "{values}".into())])),
        ("signature-of", words.say("signature-of", &role)),
        ("sign-first", words.say("sign-first", &role)),
        ("signed-by", words.say("signed-by", &[("name", "{name}".into()), ("time", "{time}".into())])),
    ];
    labels.into_iter().map(|(key, text)| (key, text.to_owned())).chain(phrases).collect()
}
