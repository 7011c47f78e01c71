//! Whatever is typed, the server's text stays the client's, its findings are those of a check of that text, and it
//! never falls over.
use super::client::{Client, clean};
use cotter::model::catalogues::Catalogues;
use cotter::model::{Register, Settings};
use cotter::source::{FileId, SourceFile};
use cotter::{Surroundings, compile};
use proptest::prelude::*;
use serde_json::json;

/// Typed, as a share of the text's length: from, to, and what.
type Typed = (f64, f64, String);

fn typed() -> impl Strategy<Value = Typed> {
    let words = prop_oneof![
        Just(String::new()),
        Just("\n".to_owned()),
        Just("\r\n".to_owned()),
        Just("😀".to_owned()),
        Just("e\u{301}\"".to_owned()),
        Just("\n    if cracked: renew cover\n".to_owned()),
        Just("remove cover, ".to_owned()),
        Just(" [look] 8 to 10 N.m ".to_owned()),
        "[ -~]{0,12}",
    ];
    (0.0..1.0_f64, 0.0..0.05_f64, words).prop_map(|(from, length, text)| (from, from + length, text))
}

/// The place of a byte in units of UTF-16, and that byte, moved down to where a character starts and no line end is
/// cut.
fn place(text: &str, share: f64) -> (usize, serde_json::Value) {
    let mut at = ((text.len() as f64) * share.min(1.0)) as usize;
    while !text.is_char_boundary(at) || text[..at].ends_with('\r') {
        at -= 1;
    }
    let line = text[..at].matches('\n').count() + lone(&text[..at], &text[at..]);
    let start = text[..at].rfind(['\n', '\r']).map_or(0, |end| end + 1);
    (at, json!({ "line": line, "character": text[start..at].encode_utf16().count() }))
}

/// Carriage returns that end a line by themselves.
fn lone(before: &str, after: &str) -> usize {
    let whole = format!("{before}{}", if after.starts_with('\n') { "\n" } else { "" });
    whole.bytes().zip(whole.bytes().skip(1).chain([0])).filter(|(a, b)| *a == b'\r' && *b != b'\n').count()
}

/// The rules of a check of the text alone.
fn checked(text: &str) -> Vec<String> {
    let source = SourceFile::new(FileId(0), "a.cotter", text);
    let settings = Settings::default();
    let register = Register::default();
    let catalogues = Catalogues::default();
    let around = Surroundings { settings: &settings, register: &register, catalogues: &catalogues };
    compile(&source, &around).findings.iter().map(|it| it.rule.to_owned()).collect()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 16, ..ProptestConfig::default() })]
    #[test]
    fn random_edits_keep_the_text_in_step(edits in prop::collection::vec(typed(), 1..24)) {
        let mut client = Client::new(&[]);
        let mut text = clean();
        client.open("a.cotter", &text);
        for (from, to, new) in edits {
            let ((start, from), (end, to)) = (place(&text, from), place(&text, to));
            client.change("a.cotter", json!([{ "range": { "start": from, "end": to }, "text": new }]));
            text.replace_range(start..end, &new);
            for method in ["textDocument/hover", "textDocument/completion", "textDocument/definition"] {
                let params = json!({ "textDocument": { "uri": client.uri("a.cotter") }, "position": to });
                client.post(method, params);
            }
        }
        for method in ["semanticTokens/full", "documentSymbol", "foldingRange"] {
            let params = json!({ "textDocument": { "uri": client.uri("a.cotter") } });
            let answer = client.ask(&format!("textDocument/{method}"), params);
            prop_assert!(answer.is_ok());
        }
        // The whole file in one stroke: were the texts not the same, something would be left over.
        let (_, end) = place(&text, 1.0);
        let found: Vec<String> = super::client::rules(&client.findings("a.cotter")).iter().map(|it| (*it).to_owned()).collect();
        prop_assert_eq!(found, checked(&text));
        let nothing = json!([{ "range": { "start": { "line": 0, "character": 0 }, "end": end }, "text": "" }]);
        client.change("a.cotter", nothing);
        client.change("a.cotter", json!([{ "range": { "start": { "line": 0, "character": 0 }, "end": { "line": 0, "character": 0 } }, "text": clean() }]));
        prop_assert!(client.findings("a.cotter").is_empty());
    }
}
