//! What is shown beside and around the text: outline, folding, hints, highlighting.
use super::client::{Client, clean, covered, edited};
use serde_json::{Value, json};

fn ask(text: &str, method: &str, more: Value) -> Value {
    let mut client = Client::new(&[("a.cotter", text)]);
    client.open("a.cotter", text);
    let mut params = json!({ "textDocument": { "uri": client.uri("a.cotter") } });
    for (key, value) in more.as_object().unwrap() {
        params[key] = value.clone();
    }
    client.ask(method, params).unwrap()
}

#[test]
fn the_outline_has_blocks_sections_and_numbered_steps() {
    let text = clean();
    let found = ask(&text, "textDocument/documentSymbol", json!({}));
    let names: Vec<&str> = found.as_array().unwrap().iter().map(|it| it["name"].as_str().unwrap()).collect();
    assert_eq!(names, ["ED-1", "parts", "tools", "supplies", "Work"]);
    let steps: Vec<&str> =
        found[4]["children"].as_array().unwrap().iter().map(|it| it["name"].as_str().unwrap()).collect();
    assert_eq!(steps[0], "1  remove screws, cover, gasket; discard gasket");
    assert_eq!(steps[3], "4  tighten screws with wrench");
    assert_eq!(found[1]["children"][1]["detail"], "Bearing cover");
    check_ranges(&text, &found);
}

/// What names a row lies in the row, and the row in the one around it: the protocol wants it so.
fn check_ranges(text: &str, rows: &Value) {
    for row in rows.as_array().into_iter().flatten() {
        assert!(covered(text, &row["range"]).contains(&covered(text, &row["selectionRange"])));
        for child in row["children"].as_array().into_iter().flatten() {
            assert!(covered(text, &row["range"]).contains(&covered(text, &child["range"])));
        }
        check_ranges(text, &row["children"]);
    }
}

#[test]
fn statements_and_sections_fold() {
    let text = clean();
    let found = ask(&text, "textDocument/foldingRange", json!({}));
    let line = |needle: &str| text[..text.find(needle).unwrap()].matches('\n').count();
    let folds: Vec<(u64, u64)> = found
        .as_array()
        .unwrap()
        .iter()
        .map(|it| (it["startLine"].as_u64().unwrap(), it["endLine"].as_u64().unwrap()))
        .collect();
    let fold = |from: &str, to: &str| (line(from) as u64, line(to) as u64);
    assert_eq!(
        folds,
        [
            fold("procedure", "    afterwards"),
            fold("parts", "    gasket"),
            fold("tools", "    wrench"),
            fold("section", "tighten"),
            fold("inspect", "    if cracked"),
        ]
    );
}

#[test]
fn formatting_gives_the_layout_of_the_house_and_touches_no_other_line() {
    let options = json!({ "options": { "tabSize": 8, "insertSpaces": false } });
    let plain = ask(&clean(), "textDocument/formatting", options.clone());
    let house = edited(&clean(), &plain);
    let text = house
        .replace("install new gasket, cover", "install  new gasket ,cover")
        .replace("    gasket", "  gasket");
    assert_ne!(text, house);
    for text in [&text, &text.replace('\n', "\r\n"), &format!("{}\n\n", text.trim_end())] {
        let edits = ask(text, "textDocument/formatting", options.clone());
        assert_eq!(edited(text, &edits), house);
    }
    assert_eq!(ask(&house, "textDocument/formatting", options.clone()), json!([]));
    let edits = ask(&text, "textDocument/formatting", options);
    assert!(edits.as_array().unwrap().len() <= 2, "{edits}");
}

#[test]
fn hints_number_the_steps_and_tell_the_other_unit() {
    let text = clean();
    let all = json!({ "range": { "start": { "line": 0, "character": 0 }, "end": { "line": 999, "character": 0 } } });
    let found = ask(&text, "textDocument/inlayHint", all);
    let hints: Vec<(String, u64)> = found
        .as_array()
        .unwrap()
        .iter()
        .map(|it| (it["label"].as_str().unwrap().to_owned(), it["position"]["line"].as_u64().unwrap()))
        .collect();
    let line = |needle: &str| text[..text.find(needle).unwrap()].matches('\n').count() as u64;
    let hint = |text: &str, needle: &str| (text.to_owned(), line(needle));
    assert_eq!(
        hints,
        [
            hint("62–79 lbf·in", "    screws"),
            hint("18–106 lbf·in", "    wrench"),
            hint("1", "remove screws"),
            hint("2", "inspect"),
            hint("3", "install"),
            hint("4", "tighten"),
        ]
    );
    let one = json!({ "range": { "start": { "line": line("install"), "character": 0 }, "end": { "line": line("install"), "character": 5 } } });
    assert_eq!(ask(&text, "textDocument/inlayHint", one).as_array().unwrap().len(), 1);
}

/// Each highlighted word with its class, worked out from the client's side of the protocol.
fn words(text: &str) -> Vec<(String, String)> {
    let mut client = Client::new(&[("a.cotter", text)]);
    let legend = client.capabilities["semanticTokensProvider"]["legend"]["tokenTypes"].clone();
    client.open("a.cotter", text);
    let params = json!({ "textDocument": { "uri": client.uri("a.cotter") } });
    let data = client.ask("textDocument/semanticTokens/full", params).unwrap()["data"].take();
    let numbers: Vec<u64> = data.as_array().unwrap().iter().map(|it| it.as_u64().unwrap()).collect();
    let (mut line, mut start, mut last_end) = (0, 0, (0, 0));
    let mut found = Vec::new();
    for token in numbers.chunks(5) {
        line += token[0];
        start = if token[0] == 0 { start + token[1] } else { token[1] };
        assert!((line, start) >= last_end, "tokens overlap at line {line}");
        last_end = (line, start + token[2]);
        let range = json!({
            "start": { "line": line, "character": start },
            "end": { "line": line, "character": start + token[2] },
        });
        let class = legend[token[3] as usize].as_str().unwrap().to_owned();
        found.push((covered(text, &range), class));
    }
    found
}

#[test]
fn words_are_highlighted_by_what_they_are() {
    let text = clean().replace("\"cracks, see [gasket]\"", "\"𝄞 cracks, see [gasket]\"");
    let found = words(&text);
    let has = |word: &str, class: &str| {
        assert!(found.contains(&(word.to_owned(), class.to_owned())), "{word} {class}: {found:?}");
    };
    has("procedure", "keyword");
    has("ED-1", "namespace");
    has("revision", "property");
    has("cover", "variable");
    has("wrench", "class");
    has("torque", "property");
    has("7", "number");
    has("N.m", "type");
    has("crosswise", "keyword");
    has("tighten", "function");
    has("with", "keyword");
    has("new", "keyword");
    has("look", "enumMember");
    has("\"𝄞 cracks, see [", "string");
    has("gasket", "variable");
    has("]\"", "string");
}

#[test]
fn every_procedure_of_the_demo_shop_is_highlighted_without_overlaps() {
    let mut files: Vec<_> =
        ignore::Walk::new("procedures").flatten().map(ignore::DirEntry::into_path).collect();
    files.retain(|path| path.extension().is_some_and(|it| it == "cotter"));
    assert!(files.len() > 10);
    for path in files {
        let text = std::fs::read_to_string(&path).unwrap();
        assert!(words(&text).len() > 10, "{}", path.display());
    }
}
