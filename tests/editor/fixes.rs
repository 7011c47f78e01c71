//! Mends offered at a finding.
use super::client::{Client, HEAD, clean, edited, place, rules};
use serde_json::{Value, json};

/// Titles and edited texts of the mends at a needle.
fn fixes(client: &mut Client, text: &str, needle: &str) -> Vec<(String, String, bool)> {
    let (line, character) = place(text, needle);
    let at = json!({ "line": line, "character": character });
    let params = json!({
        "textDocument": { "uri": client.uri("a.cotter") },
        "range": { "start": at, "end": at },
        "context": { "diagnostics": [] },
    });
    let found = client.ask("textDocument/codeAction", params).unwrap();
    let uri = client.uri("a.cotter");
    let one = |action: &Value| {
        assert_eq!(action["kind"], "quickfix");
        let text = edited(text, &action["edit"]["changes"][&uri]);
        (action["title"].as_str().unwrap().to_owned(), text, action["isPreferred"] == true)
    };
    found.as_array().unwrap().iter().map(one).collect()
}

fn opened(text: &str) -> Client {
    let mut client = Client::new(&[("a.cotter", text)]);
    client.open("a.cotter", text);
    client
}

#[test]
fn what_a_rule_offers_is_offered_and_mends_it() {
    let text = clean().replace("new gasket", "gasket");
    let mut client = opened(&text);
    let found = fixes(&mut client, &text, "install ¦gasket");
    let (title, mended, safe) = &found[0];
    assert_eq!(title, "Fit a new one: `new gasket`");
    assert!(safe);
    assert_eq!(*mended, clean());
}

#[test]
fn an_undeclared_name_can_be_declared_what_fits_the_place_first() {
    let text = clean().replace("section \"Work\"\n", "section \"Work\"\n\nwipe cover with lint-cloth\n");
    let mut client = opened(&text);
    assert_eq!(rules(&client.findings("a.cotter")), ["undeclared-name"]);
    let found = fixes(&mut client, &text, "lint-cloth");
    let titles: Vec<&str> = found.iter().map(|fix| fix.0.as_str()).collect();
    assert_eq!(
        titles,
        [
            "Declare `lint-cloth` as a tool",
            "Declare `lint-cloth` as a part",
            "Declare `lint-cloth` as a supply"
        ]
    );
    assert!(found[0].1.contains("range 2 to 12 N.m\n    lint-cloth \"Lint cloth\"\n\n"), "{}", found[0].1);
    assert!(found[1].1.contains("single-use\n    lint-cloth \"Lint cloth\"\n\ntools"), "{}", found[1].1);
    // `supplies none` gives way.
    assert!(found[2].1.contains("\nsupplies\n    lint-cloth \"Lint cloth\"\n\nsection"), "{}", found[2].1);
    for (_, mended, _) in &found {
        client.replace("a.cotter", mended);
        assert_eq!(rules(&client.findings("a.cotter")), [""; 0], "{mended}");
    }
    let bare = format!("{HEAD}remove cover\n");
    client.replace("a.cotter", &bare);
    let found = fixes(&mut client, &bare, "remove ¦cover");
    assert!(
        found[0].1.contains("afterwards: none\n\nparts\n    cover \"Cover\"\n\nremove cover"),
        "{}",
        found[0].1
    );
}

const RING: &str = "parts
    ring \"Retaining ring\"  spring-loaded, stays off

tools none

supplies none

remove ring from \"the shaft\"
";

#[test]
fn a_missing_caution_is_written_out_with_blanks_that_are_refused_until_filled_in() {
    let text = format!("{HEAD}{RING}");
    let mut client = opened(&text);
    assert_eq!(rules(&client.findings("a.cotter")), ["missing-caution"]);
    let found = fixes(&mut client, &text, "remove ¦ring");
    let blank = "warning ejection\n    hazard: \"…\"\n    harm:   \"…\"\n    avoid:  \"…\"\n    wear:   eye protection\nremove ring";
    assert!(found[0].1.contains(blank), "{}", found[0].1);
    client.replace("a.cotter", &found[0].1);
    let left = client.findings("a.cotter");
    assert!(!rules(&left).contains(&"missing-caution"), "{left:?}");
}

#[test]
fn a_missing_caution_calls_the_standing_message_of_the_shop() {
    let shop = "catalogue \"Shop\"\n    revision: A, 2026-11-02\n\nwarning ejection as ring-spring\n    hazard: It jumps.\n    harm:   Eye injury.\n    avoid:  Hold a hand over it.\n    wear:   eye protection\n";
    let text = format!("{HEAD}{RING}");
    let mut client = Client::new(&[("a.cotter", &text), ("shop.cotter", shop)]);
    std::fs::write(client.path("cotter.toml"), "cautions = \"shop.cotter\"\n").unwrap();
    client.open("a.cotter", &text);
    let found = fixes(&mut client, &text, "remove ¦ring");
    assert_eq!(found[0].0, "Call the standing message `warning ring-spring` before the step");
    assert!(found[0].1.contains("\nwarning ring-spring\nremove ring"), "{}", found[0].1);
    client.replace("a.cotter", &found[0].1);
    assert_eq!(rules(&client.findings("a.cotter")), [""; 0]);
}

#[test]
fn a_rule_that_may_be_can_be_waived_with_a_reason_to_be_written() {
    let text = format!("{HEAD}{RING}");
    let mut client = opened(&text);
    let found = fixes(&mut client, &text, "remove ¦ring");
    let (_, waived, safe) =
        found.iter().find(|fix| fix.0 == "Waive `missing-caution` here, with a reason").unwrap();
    assert!(!safe);
    assert!(waived.ends_with("from \"the shaft\"\n    waive: missing-caution \"…\"\n"), "{waived}");
    // One that would leave a hole in the sheet is never waived.
    let text = format!("{HEAD}remove cover\n");
    client.replace("a.cotter", &text);
    let found = fixes(&mut client, &text, "remove ¦cover");
    assert!(found.iter().all(|fix| !fix.0.contains("Waive `undeclared-name`")), "{found:?}");
}

#[test]
fn elsewhere_and_for_other_kinds_there_are_none() {
    let text = clean();
    let mut client = opened(&text);
    assert!(fixes(&mut client, &text, "remove screws").is_empty());
    let params = json!({
        "textDocument": { "uri": client.uri("a.cotter") },
        "range": { "start": { "line": 0, "character": 0 }, "end": { "line": 99, "character": 0 } },
        "context": { "diagnostics": [], "only": ["refactor"] },
    });
    assert_eq!(client.ask("textDocument/codeAction", params), Ok(json!([])));
}
