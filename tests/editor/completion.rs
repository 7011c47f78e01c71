//! What is offered at the cursor.
use super::client::{Client, HEAD, clean, edited};
use cotter::model::hazard::Hazard;
use cotter::model::verb::Verb;
use serde_json::{Value, json};

struct Offered {
    labels: Vec<String>,
    items: Vec<Value>,
}

impl Offered {
    fn has(&self, label: &str) -> bool {
        self.labels.iter().any(|it| it == label)
    }
    fn first(&self) -> &str {
        self.labels.first().map_or("", String::as_str)
    }
    fn item(&self, label: &str) -> &Value {
        let place = self
            .labels
            .iter()
            .position(|it| it == label)
            .unwrap_or_else(|| panic!("no {label}: {:?}", self.labels));
        &self.items[place]
    }
}

/// What is offered at the end of `written`, which stands for the last line of a procedure; sorted as a client does.
fn offered(client: &mut Client, written: &str) -> (Offered, String) {
    let text = format!("{}{written}\n", base());
    client.replace("a.cotter", &text);
    let cursor = format!("{}¦", written.rsplit('\n').next().unwrap());
    let line = text.matches('\n').count() - 1;
    let character = cursor.trim_end_matches('¦').encode_utf16().count();
    let params = json!({
        "textDocument": { "uri": client.uri("a.cotter") },
        "position": { "line": line, "character": character },
    });
    let found = client.ask("textDocument/completion", params).unwrap();
    let mut items = found.as_array().unwrap().clone();
    items.sort_by_key(|item| item["sortText"].as_str().unwrap().to_owned());
    let labels = items.iter().map(|item| item["label"].as_str().unwrap().to_owned()).collect();
    (Offered { labels, items }, text)
}

fn base() -> String {
    clean().replace(
        "supplies none\n",
        "supplies\n    oil \"Machine oil\"  lubricant\n\nfigures\n    fig-1 \"Drive end\"\n",
    )
}

fn client() -> Client {
    let other = clean().replace("ED-1", "ED-2").replace("Renew the gasket", "Drain the pump");
    let shop = "catalogue \"Shop\"\n    revision: A, 2026-11-02\n\ntools\n    puller \"Two-leg puller\"\n\nwarning ejection as ring-spring\n    hazard: It jumps.\n    harm:   Eye injury.\n    avoid:  Hold a hand over it.\n    wear:   eye protection\n";
    let mut client =
        Client::new(&[("a.cotter", &base()), ("b.cotter", &other), ("shop/common.cotter", shop)]);
    std::fs::write(client.path("cotter.toml"), "cautions = \"shop/common.cotter\"\n").unwrap();
    client.open("a.cotter", &base());
    client
}

#[test]
fn verbs_at_the_start_of_a_step_and_behind_a_semicolon() {
    let mut client = client();
    for written in ["", "remo", "remove cover; ", "remove cover; lev"] {
        let (found, _) = offered(&mut client, written);
        for verb in Verb::all() {
            assert!(found.has(&verb.name), "{written:?}: {}", verb.name);
        }
        assert!(found.has("hold") && found.has("follow"));
        assert_eq!(found.has("parts"), !written.contains(';'), "{written:?}");
    }
    let (found, text) = offered(&mut client, "back o");
    let item = found.item("back off");
    assert!(item["documentation"]["value"].as_str().unwrap().contains("```cotter"));
    let done = edited(&text, &json!([item["textEdit"]]));
    assert!(done.ends_with("\nback off\n"), "{done}");
}

#[test]
fn every_example_of_a_verb_can_be_read() {
    let mut client = client();
    let (found, _) = offered(&mut client, "");
    let mut seen = 0;
    for item in &found.items {
        let about = item["documentation"]["value"].as_str().unwrap_or("");
        if let Some(example) = about.split("```cotter\n").nth(1).and_then(|it| it.split("\n```").next()) {
            let source =
                cotter::source::SourceFile::new(cotter::source::FileId(0), "", format!("{example}\n"));
            let read = cotter::syntax::parse(&source);
            assert!(read.findings.is_empty(), "{example}: {:?}", read.findings);
            seen += 1;
        }
    }
    assert!(seen > 100);
}

#[test]
fn declared_names_by_their_role() {
    let mut client = client();
    let (found, text) = offered(&mut client, "remove screws, co");
    assert_eq!(found.first(), "cover");
    assert!(edited(&text, &json!([found.item("cover")["textEdit"]])).ends_with("\nremove screws, cover\n"));
    let (found, _) = offered(&mut client, "tighten screws with ");
    assert!(["puller", "wrench"].contains(&found.first()), "{:?}", found.labels);
    assert!(found.has("puller"), "tools of the catalogue too");
    let (found, _) = offered(&mut client, "lubricate cover using ");
    assert_eq!(found.first(), "oil");
    let (found, _) = offered(&mut client, "repeat from ");
    assert_eq!(found.first(), "look");
    let (found, _) = offered(&mut client, "hold instructor \"seen\"\nhold ins");
    assert_eq!(found.first(), "instructor");
    let (found, _) = offered(&mut client, "skip to lo");
    assert_eq!(found.first(), "look");
    let (found, _) = offered(&mut client, "inspect cover \"see [");
    assert!(found.has("gasket") && found.has("look"));
    let (found, _) = offered(&mut client, "remove cover\n    See [ga");
    assert!(found.has("gasket"));
    let (found, _) = offered(&mut client, "remove cover \"some te");
    assert!(found.labels.is_empty());
}

#[test]
fn hazards_and_standing_messages_behind_a_signal_word() {
    let mut client = client();
    for signal in ["danger ", "warning ", "caution ", "notice "] {
        let (found, _) = offered(&mut client, signal);
        assert_eq!(found.first(), "ring-spring");
        assert!(Hazard::all().iter().all(|hazard| found.has(&hazard.name)));
    }
    let (found, _) = offered(&mut client, "warning ring-spring until ");
    assert_eq!(found.first(), "look");
    let (found, _) = offered(&mut client, "warning ring-spring for ");
    assert!(found.has("section"));
}

#[test]
fn units_behind_a_number_the_likely_ones_first() {
    let mut client = client();
    let (found, text) = offered(&mut client, "tighten screws 8 to 10 N");
    assert_eq!(found.item("N.m")["sortText"].as_str().unwrap().chars().next(), Some('0'));
    assert!(edited(&text, &json!([found.item("N.m")["textEdit"]])).ends_with("8 to 10 N.m\n"));
    let (found, _) = offered(&mut client, "wait 10 ");
    assert!(found.has("min") && found.has("s"));
    let (found, _) = offered(&mut client, "tighten screws with wrench-2");
    assert!(!found.has("N.m"), "a figure in a name asks for no unit");
}

#[test]
fn attributes_and_their_values_in_declarations() {
    let mut client = client();
    let (found, _) = offered(&mut client, "parts\n    ring \"Ring\"  ");
    for word in ["single-use", "holds", "torque", "thread"] {
        assert!(found.has(word), "{word}");
    }
    assert!(!found.has("range"), "that is a tool's");
    let (found, _) = offered(&mut client, "parts\n    ring \"Ring\"  single-use, ho");
    assert!(found.item("holds")["documentation"]["value"].as_str().unwrap().contains("cannot come off"));
    let (found, _) = offered(&mut client, "parts\n    ring \"Ring\"  holds ");
    assert!(found.has("cover") && !found.has("wrench"));
    let (found, _) = offered(&mut client, "parts\n    ring \"Ring\"  models ");
    assert_eq!(found.first(), "F40");
    let (found, _) = offered(&mut client, "parts\n    ring \"Ring\"  callout 8 on ");
    assert_eq!(found.first(), "fig-1");
    let (found, _) = offered(&mut client, "supplies\n    glue \"Glue\"  hazards H2");
    assert!(found.has("H225"));
    let (found, _) = offered(&mut client, "tools\n    key \"Key\"  ");
    assert!(found.has("range") && !found.has("single-use"));
    let (found, _) = offered(&mut client, "parts\n    ri");
    assert!(found.labels.is_empty(), "the name is the author's");
}

#[test]
fn details_by_what_they_stand_under_and_their_values() {
    let mut client = client();
    let (found, _) = offered(&mut client, "remove cover\n    be");
    assert!(found.has("because:") && found.has("only:") && !found.has("avoid:") && !found.has("revision:"));
    let (found, _) = offered(&mut client, "warning ejection\n    ");
    assert!(found.has("avoid:") && found.has("wear:") && !found.has("because:"));
    let (found, text) = offered(&mut client, "warning ejection\n    wear:   gloves, eye pro");
    assert!(
        edited(&text, &json!([found.item("eye protection")["textEdit"]]))
            .ends_with("gloves, eye protection\n")
    );
    let (found, _) = offered(&mut client, "remove cover\n    only: ");
    assert!(found.has("F40") && found.has("look"));
    let (found, _) = offered(&mut client, "inspect cover \"cracks\" as crack-look\n    if cracked: ren");
    assert!(found.has("renew"));
    let (found, _) = offered(&mut client, "inspect cover \"cracks\" as crack-look\n    if cracked: renew co");
    assert_eq!(found.first(), "cover");
    let (found, _) = offered(&mut client, "remove cover\n    waive: missing-c");
    assert!(found.has("missing-caution") && !found.has("undeclared-name"));
    let (found, _) = offered(&mut client, "remove cover\n    figure: ");
    assert_eq!(found.first(), "fig-1");
}

#[test]
fn procedures_by_number_with_their_titles_and_catalogues_by_path() {
    let mut client = client();
    let (found, _) = offered(&mut client, "follow ");
    assert_eq!(found.first(), "ED-2");
    assert_eq!(found.item("ED-2")["detail"], "Drain the pump");
    let text = HEAD.replace("requires:   none", "requires:   ");
    client.replace("a.cotter", &text);
    let found = client.at("textDocument/completion", "a.cotter", &text, "requires:   ¦", json!({})).unwrap();
    assert!(found.as_array().unwrap().iter().any(|item| item["label"] == "ED-2"));
    let text = format!("{HEAD}use \"sh\n");
    client.replace("a.cotter", &text);
    let found = client.at("textDocument/completion", "a.cotter", &text, "use \"sh¦", json!({})).unwrap();
    assert_eq!(found[0]["label"], "shop/common.cotter");
}
