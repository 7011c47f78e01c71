//! The bench page filled in: a script that stands in the page, and a block of data for it to go by.
//!
//! Without the script the page reads as it does on paper. The page's policy lets this one script run, by its hash.
use crate::model::Document;
use crate::record::Plan;
use crate::sheets::Sheet;
use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use serde::Serialize;
use sha2::{Digest, Sha256};
use std::collections::BTreeMap;
use std::sync::LazyLock;

#[derive(Serialize)]
struct Data<'a> {
    #[serde(flatten)]
    plan: &'a Plan,
    /// What the script says; `{name}` stands where something is put in.
    words: BTreeMap<&'static str, String>,
}

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

static SOURCE: LazyLock<String> =
    LazyLock::new(|| format!("script-src 'sha256-{}'; ", STANDARD.encode(Sha256::digest(SCRIPT.as_bytes()))));

/// What the page's policy says of the script.
pub fn source() -> &'static str {
    &SOURCE
}

/// The data and the script, for the end of the page.
pub fn markup(document: &Document, sheet: &Sheet<'_>) -> String {
    let Some(plan) = Plan::shown_by(document, &sheet.settings().units, &|it| sheet.quantity(it))
        .filter(|plan| !plan.steps.is_empty())
    else {
        return String::new();
    };
    let data = Data { plan: &plan, words: words(sheet) };
    // No text of an author can end the block: JSON may write the sign another way.
    let json = serde_json::to_string(&data).unwrap_or_default().replace('<', "\\u003c");
    format!(
        "<script type=\"application/json\" id=\"record-data\">{json}</script>\n<script>{}</script>\n",
        SCRIPT.as_str()
    )
}

fn words(sheet: &Sheet<'_>) -> BTreeMap<&'static str, String> {
    let labels = [
        ("job-record", sheet.label("job-record")),
        ("job-record-says", sheet.label("job-record-says")),
        ("job-number", sheet.label("job-number")),
        ("serial-number", sheet.label("serial-number")),
        ("technician", sheet.label("technician")),
        ("machine-model", sheet.label("machine-model")),
        ("choose-model", sheet.label("choose-model")),
        ("kept-here", sheet.label("kept-here")),
        ("not-kept", sheet.label("not-kept")),
        ("save-record", sheet.label("save-record")),
        ("print-page", sheet.label("print-page")),
        ("start-afresh", sheet.label("start-afresh")),
        ("really-afresh", sheet.label("really-afresh")),
        ("not-for-this", sheet.label("not-for-this")),
        ("fill-job-first", sheet.label("fill-job-first")),
        ("no-figure", sheet.label("no-figure")),
        ("within-limits", sheet.label("within-limits")),
        ("out-of-limits", sheet.label("out-of-limits")),
        ("set-again", sheet.label("set-again")),
        ("outcome-so", sheet.label("outcome-so")),
        ("method-used", sheet.label("method-used")),
        ("choose-one", sheet.label("choose-one")),
        ("do-again", sheet.label("do-again")),
        ("again-first", sheet.label("again-first")),
        ("no-more", sheet.label("no-more")),
        ("sign", sheet.label("sign")),
        ("take-back", sheet.label("take-back")),
        ("not-own-work", sheet.label("not-own-work")),
        ("reading", sheet.label("reading")),
        ("set-to", sheet.label("set-to")),
    ];
    let step = [("step", "{step}".into())];
    let what = [("what", "{what}".into())];
    let limits = [("limits", "{limits}".into())];
    let role = [("role", "{role}".into())];
    let phrases = [
        ("done-of", sheet.say("done-of", &[("done", "{done}".into()), ("all", "{all}".into())])),
        ("step-done-in", sheet.say("step-done-in", &step)),
        ("locked-by", sheet.say("locked-by", &step)),
        ("signed-after", sheet.say("signed-after", &step)),
        ("stopped-at", sheet.say("stopped-at", &step)),
        ("skipped-at", sheet.say("skipped-at", &step)),
        ("came-out-otherwise", sheet.say("came-out-otherwise", &step)),
        ("earlier-first", sheet.say("earlier-first", &step)),
        ("step-number", sheet.say("step-number", &[("number", "{number}".into())])),
        ("not-for-model", sheet.say("not-for-model", &[("model", "{model}".into())])),
        ("fill-in-first", sheet.say("fill-in-first", &what)),
        ("unit-of", sheet.say("unit-of", &what)),
        ("below-limits", sheet.say("below-limits", &limits)),
        ("above-limits", sheet.say("above-limits", &limits)),
        ("read-before", sheet.say("read-before", &[("values", "{values}".into())])),
        ("signature-of", sheet.say("signature-of", &role)),
        ("sign-first", sheet.say("sign-first", &role)),
        ("signed-by", sheet.say("signed-by", &[("name", "{name}".into()), ("time", "{time}".into())])),
    ];
    labels.into_iter().map(|(key, text)| (key, text.to_owned())).chain(phrases).collect()
}
