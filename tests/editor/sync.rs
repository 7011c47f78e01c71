//! Places and changes: UTF-16 and UTF-8, astral and combining characters, line ends, places that are not there.
use super::client::{Client, HEAD, clean, place, rules};
use serde_json::{Value, json};

fn edit(from: (usize, usize), to: (usize, usize), text: &str) -> Value {
    json!({
        "range": {
            "start": { "line": from.0, "character": from.1 },
            "end": { "line": to.0, "character": to.1 },
        },
        "text": text,
    })
}

/// A text whose last line has characters of one to four bytes before a fault.
fn accented() -> String {
    format!(
        "{HEAD}parts\n    cover \"Bearing cover\"\n\ninspect cover \"e\u{301} 𝄞 ü 😀\" with nothing-known as look\n"
    )
}

#[test]
fn places_are_counted_in_utf_16_unless_the_client_knows_utf_8() {
    let text = accented();
    let mut client = Client::new(&[("a.cotter", &text)]);
    assert_eq!(client.capabilities["positionEncoding"], "utf-16");
    client.open("a.cotter", &text);
    let findings = client.findings("a.cotter");
    let finding = findings.iter().find(|it| it["code"] == "undeclared-name").unwrap();
    let (line, character) = place(&text, "nothing-known");
    assert_eq!(finding["range"]["start"], json!({ "line": line, "character": character }));
    let mut client = Client::with(
        &[("a.cotter", &text)],
        json!({ "general": { "positionEncodings": ["utf-8", "utf-16"] } }),
    );
    assert_eq!(client.capabilities["positionEncoding"], "utf-8");
    client.open("a.cotter", &text);
    let findings = client.findings("a.cotter");
    let finding = findings.iter().find(|it| it["code"] == "undeclared-name").unwrap();
    let bytes = text.lines().nth(line).unwrap().find("nothing-known").unwrap();
    assert_eq!(finding["range"]["start"], json!({ "line": line, "character": bytes }));
}

#[test]
fn a_change_behind_astral_characters_lands_where_it_was_meant() {
    let text = accented();
    let mut client = Client::new(&[("a.cotter", &text)]);
    client.open("a.cotter", &text);
    let from = place(&text, "with nothing-known ");
    let to = place(&text, "as look");
    client.change("a.cotter", json!([edit(from, to, "")]));
    let findings = client.findings("a.cotter");
    assert!(!rules(&findings).contains(&"undeclared-name"), "{findings:?}");
}

#[test]
fn several_changes_of_one_message_follow_each_other() {
    let mut client = Client::new(&[]);
    client.open("a.cotter", "x");
    let text = clean();
    let changes = json!([
        edit((0, 0), (0, 1), "😀"),
        edit((0, 2), (0, 2), "\n!"),
        edit((0, 0), (1, 1), ""),
        edit((0, 0), (0, 0), &text),
    ]);
    client.change("a.cotter", changes);
    assert_eq!(rules(&client.findings("a.cotter")), [""; 0]);
}

#[test]
fn lines_end_as_the_protocol_says() {
    for end in ["\r\n", "\n"] {
        let text = clean().replace('\n', end);
        let mut client = Client::new(&[]);
        client.open("a.cotter", &text);
        assert_eq!(rules(&client.findings("a.cotter")), [""; 0], "{end:?}");
        let (line, character) = place(&clean(), "new gasket");
        client.change("a.cotter", json!([edit((line, character), (line, character + 4), "")]));
        let findings = client.findings("a.cotter");
        assert_eq!(rules(&findings), ["reused-single-use"]);
        assert_eq!(findings[0]["range"]["start"], json!({ "line": line, "character": character }));
    }
    // A lone carriage return ends a line for the protocol, and is a blank for the language.
    let mut client = Client::new(&[]);
    client.open("a.cotter", "# one\rtwo\n");
    client.change("a.cotter", json!([edit((0, 0), (2, 0), &clean())]));
    assert_eq!(rules(&client.findings("a.cotter")), [""; 0]);
}

#[test]
fn places_out_of_range_are_the_nearest_that_there_are() {
    let mut client = Client::new(&[]);
    client.open("a.cotter", "");
    let far = 4_000_000_000;
    client.change("a.cotter", json!([edit((far, far), (far, far), &clean())]));
    assert_eq!(rules(&client.findings("a.cotter")), [""; 0]);
    // The wrong way round.
    client.change("a.cotter", json!([edit((far, 0), (0, 0), "remove cover")]));
    assert!(!client.findings("a.cotter").is_empty());
    for method in ["textDocument/hover", "textDocument/completion", "textDocument/definition"] {
        let uri = client.uri("a.cotter");
        let position = json!({ "line": far, "character": far });
        assert!(client.ask(method, json!({ "textDocument": { "uri": uri }, "position": position })).is_ok());
    }
}
