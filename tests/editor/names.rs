//! Definitions, references and renaming, in a file and across files.
use super::client::{Client, HEAD, clean, covered, edited};
use serde_json::{Value, json};

const CATALOGUE: &str = "catalogue \"Shop\"
    revision: A, 2026-11-02

tools
    wrench \"Torque wrench S\"  range 2 to 12 N.m

warning ejection as ring-spring
    hazard: The ring jumps.
    harm:   Eye injury.
    avoid:  Hold a hand over it, not the [wrench].
    wear:   eye protection
";

fn user(number: &str) -> String {
    let text = clean().replace("tools\n    wrench \"Torque wrench S\"  range 2 to 12 N.m\n", "");
    let text = text.replace("parts\n", "use \"shop/common.cotter\"\n\nparts\n").replace("ED-1", number);
    text.replace("    gasket \"", "    ring \"Ring\"  spring-loaded, stays off\n    gasket \"")
        + "warning ring-spring\nremove ring\nhold foreman \"see [wrench] and [look]\"\n"
}

fn workspace() -> Client {
    let mut client = Client::new(&[
        ("shop/common.cotter", CATALOGUE),
        ("a.cotter", &user("ED-1")),
        ("b.cotter", &user("ED-2").replace("requires:   none", "requires:   ED-1 \"clean\"")),
        ("c.cotter", &clean().replace("ED-1", "ED-3")),
    ]);
    client.open("a.cotter", &user("ED-1"));
    client.wait_for("a.cotter", &[]);
    client
}

/// Where a request leads: file and covered text.
fn leads(client: &Client, found: &Value) -> Vec<(String, String)> {
    let one = |location: &Value| {
        let path = location["uri"].as_str().unwrap().strip_prefix("file://").unwrap().to_owned();
        let text = std::fs::read_to_string(&path).unwrap();
        let folder = client.folder.path().to_str().unwrap();
        let name = path.strip_prefix(folder).unwrap().trim_start_matches('/').to_owned();
        (name, covered(&text, &location["range"]))
    };
    found.as_array().unwrap().iter().map(one).collect()
}

fn pairs(list: &[(&str, &str)]) -> Vec<(String, String)> {
    list.iter().map(|(a, b)| ((*a).to_owned(), (*b).to_owned())).collect()
}

#[test]
fn definitions_of_names_labels_pieces_messages_paths_and_numbers() {
    let mut client = workspace();
    let text = user("ED-1");
    let mut define = |name: &str, text: &str, needle: &str| {
        let found = client.at("textDocument/definition", name, text, needle, json!({})).unwrap();
        (found[0]["range"]["start"]["line"].as_u64(), leads(&client, &found))
    };
    let line =
        |text: &str, needle: &str| Some(text[..text.find(needle).unwrap()].matches('\n').count() as u64);
    assert_eq!(define("a.cotter", &text, "cover, gasket; d").1, pairs(&[("a.cotter", "cover")]));
    assert_eq!(define("a.cotter", &text, "cover, gasket; d").0, line(&text, "cover  \"B"));
    // In free words, and at the end of a word.
    assert_eq!(define("a.cotter", &text, "see [gas¦ket]").0, line(&text, "gasket \"C"));
    assert_eq!(define("a.cotter", &text, "screws, cover¦, gasket;").0, line(&text, "cover  \"B"));
    assert_eq!(define("a.cotter", &text, "[look]").1, Vec::new());
    assert_eq!(define("a.cotter", &text, "[¦look]").1, pairs(&[("a.cotter", "look")]));
    assert_eq!(define("a.cotter", &text, "with wre¦nch").1, pairs(&[("shop/common.cotter", "wrench")]));
    assert_eq!(
        define("a.cotter", &text, "warning ring-s¦pring").1,
        pairs(&[("shop/common.cotter", "ring-spring")])
    );
    assert_eq!(define("a.cotter", &text, "use \"shop¦").1, pairs(&[("shop/common.cotter", "")]));
    let text = user("ED-2").replace("requires:   none", "requires:   ED-1 \"clean\"");
    client.open("b.cotter", &text);
    let found =
        client.at("textDocument/definition", "b.cotter", &text, "requires:   E¦D-1", json!({})).unwrap();
    assert_eq!(leads(&client, &found), pairs(&[("a.cotter", "ED-1")]));
    let found = client.at("textDocument/definition", "b.cotter", &text, "people:     ¦1", json!({})).unwrap();
    assert_eq!(found, json!([]));
}

#[test]
fn references_of_a_local_name_stay_in_its_file() {
    let mut client = workspace();
    let text = user("ED-1");
    let all = json!({ "context": { "includeDeclaration": true } });
    let found = client.at("textDocument/references", "a.cotter", &text, "cover  \"B", all).unwrap();
    // The declaration, `holds cover`, and four steps.
    assert_eq!(leads(&client, &found), pairs(&[("a.cotter", "cover"); 6]));
    let uses = json!({ "context": { "includeDeclaration": false } });
    let found = client.at("textDocument/references", "a.cotter", &text, "as ¦look", uses).unwrap();
    assert_eq!(leads(&client, &found), pairs(&[("a.cotter", "look")]));
}

#[test]
fn references_of_a_shared_name_are_found_in_every_file_that_means_it() {
    let mut client = workspace();
    let text = user("ED-1");
    let all = json!({ "context": { "includeDeclaration": true } });
    let found = client.at("textDocument/references", "a.cotter", &text, "with ¦wrench", all.clone()).unwrap();
    let mut found = leads(&client, &found);
    found.sort();
    // c.cotter has a wrench of its own.
    let a = [("a.cotter", "wrench"); 2];
    let b = [("b.cotter", "wrench"); 2];
    let shop = [("shop/common.cotter", "wrench"); 2];
    assert_eq!(found, pairs(&[a, b, shop].concat()));
    let found = client.at("textDocument/references", "a.cotter", &text, "procedure ¦ED-1", all).unwrap();
    assert_eq!(leads(&client, &found), pairs(&[("a.cotter", "ED-1"), ("b.cotter", "ED-1")]));
}

fn rename(client: &mut Client, text: &str, needle: &str, new: &str) -> Result<Value, String> {
    let done = client.at("textDocument/rename", "a.cotter", text, needle, json!({ "newName": new }));
    done.map_err(|(_, why)| why)
}

#[test]
fn renaming_changes_every_file_and_free_words_and_leaves_nothing_to_mend() {
    let mut client = workspace();
    let text = user("ED-1");
    let done = rename(&mut client, &text, "with ¦wrench", "wrench-s").unwrap();
    let changes = done["changes"].as_object().unwrap();
    assert_eq!(changes.len(), 3);
    for name in ["shop/common.cotter", "a.cotter", "b.cotter"] {
        let before = std::fs::read_to_string(client.path(name)).unwrap();
        let after = edited(&before, &changes[&client.uri(name)]);
        assert!(!after.contains("wrench]") && !after.contains("with wrench\n"), "{after}");
        std::fs::write(client.path(name), &after).unwrap();
        client.say(
            "workspace/didChangeWatchedFiles",
            json!({ "changes": [{ "uri": client.uri(name), "type": 2 }] }),
        );
        if name == "a.cotter" {
            client.replace(name, &after);
        }
    }
    client.wait_for("a.cotter", &[]);
    let renamed = std::fs::read_to_string(client.path("a.cotter")).unwrap();
    let done = rename(&mut client, &renamed, "as ¦look", "cover-look").unwrap();
    assert_eq!(done["changes"][client.uri("a.cotter")].as_array().unwrap().len(), 2);
}

#[test]
fn names_that_cannot_be_or_are_taken_are_refused_with_the_reason() {
    let mut client = workspace();
    let text = user("ED-1");
    let mut refused = |needle: &str, new: &str| rename(&mut client, &text, needle, new).unwrap_err();
    assert!(refused("with ¦wrench", "Wrench").contains("small letters"));
    assert!(refused("with ¦wrench", "two words").contains("small letters"));
    assert!(refused("with ¦wrench", "9-mm").contains("a letter first"));
    assert!(refused("with ¦wrench", "with").contains("meaning of its own"));
    assert!(refused("with ¦wrench", "").contains("small letters"));
    assert!(refused("with ¦wrench", "gasket").contains("a.cotter, line"));
    assert!(refused("cover  \"B", "wrench").contains("shop/common.cotter, line 5"));
    assert!(refused("cover  \"B", "look").contains("is taken already"));
    assert!(refused("warning ¦ring-spring", "ejection").contains("class of hazard"));
    assert!(refused("procedure E¦D-1", "ED-9").contains("number"));
    assert!(refused("re¦move screws", "take").contains("No name stands here"));
    let prepared =
        client.at("textDocument/prepareRename", "a.cotter", &text, "with wre¦nch", json!({})).unwrap();
    assert_eq!(covered(&text, &prepared), "wrench");
    assert!(client.at("textDocument/prepareRename", "a.cotter", &text, "re¦move", json!({})).is_err());
}

#[test]
fn a_name_that_nothing_declares_leads_nowhere() {
    let text = format!("{HEAD}remove nothing-known\n");
    let mut client = Client::new(&[("a.cotter", &text)]);
    client.open("a.cotter", &text);
    assert_eq!(
        client.at("textDocument/definition", "a.cotter", &text, "nothing-known", json!({})),
        Ok(json!([]))
    );
    let refused =
        client.at("textDocument/rename", "a.cotter", &text, "nothing-known", json!({ "newName": "x" }));
    assert!(refused.unwrap_err().1.contains("declared nowhere"));
}

/// The demo shop in a folder of its own, and the text of one of its files.
fn demo(name: &str) -> (Client, String) {
    let mut client = Client::new(&[]);
    for entry in ignore::Walk::new("procedures").flatten().filter(|it| it.path().is_file()) {
        let to = client.path(entry.path().to_str().unwrap());
        std::fs::create_dir_all(to.parent().unwrap()).unwrap();
        std::fs::copy(entry.path(), to).unwrap();
    }
    std::fs::copy("cotter.toml", client.path("cotter.toml")).unwrap();
    let text = std::fs::read_to_string(client.path(name)).unwrap();
    client.open(name, &text);
    client.wait_for(name, &[]);
    (client, text)
}

/// Where names are declared: line and character, and the name.
fn declared(client: &mut Client, name: &str, text: &str) -> Vec<(Value, String)> {
    let params = json!({ "textDocument": { "uri": client.uri(name) } });
    let data = client.ask("textDocument/semanticTokens/full", params).unwrap()["data"].take();
    let numbers: Vec<u64> = data.as_array().unwrap().iter().map(|it| it.as_u64().unwrap()).collect();
    let (mut line, mut start) = (0, 0);
    let mut found = Vec::new();
    for token in numbers.chunks(5) {
        line += token[0];
        start = if token[0] == 0 { start + token[1] } else { token[1] };
        let place = json!({ "line": line, "character": start });
        let end = json!({ "line": line, "character": start + token[2] });
        if token[4] == 1 {
            found.push((place.clone(), covered(text, &json!({ "start": place, "end": end }))));
        }
    }
    found
}

/// Gives the name at a place another, and the client's files the new texts.
fn renamed(client: &mut Client, file: &str, place: &Value, new: &str) -> usize {
    let params = json!({ "textDocument": { "uri": client.uri(file) }, "position": place, "newName": new });
    let done = client.ask("textDocument/rename", params).unwrap();
    let changes = done["changes"].as_object().unwrap().clone();
    for (uri, edits) in &changes {
        let path = std::path::PathBuf::from(uri.strip_prefix("file://").unwrap());
        let text = edited(&std::fs::read_to_string(&path).unwrap(), edits);
        std::fs::write(&path, &text).unwrap();
        let name = path.strip_prefix(client.folder.path()).unwrap().to_str().unwrap().to_owned();
        if name == file {
            client.replace(&name, &text);
        } else {
            client.say("workspace/didChangeWatchedFiles", json!({ "changes": [{ "uri": uri, "type": 2 }] }));
        }
    }
    changes.len()
}

#[test]
fn every_name_of_a_procedure_can_be_renamed_and_nothing_is_left_over() {
    let name = "procedures/pump-f40/fw-pmp-014.cotter";
    let (mut client, text) = demo(name);
    let names: Vec<String> = declared(&mut client, name, &text).into_iter().map(|(_, word)| word).collect();
    assert!(names.len() > 20, "{names:?}");
    for word in names.iter().filter(|word| !word.starts_with("FW-")) {
        // Names before it on its line have grown.
        let text = std::fs::read_to_string(client.path(name)).unwrap();
        let found = declared(&mut client, name, &text);
        let (place, _) = found.iter().find(|(_, own)| own == word).unwrap();
        assert_eq!(renamed(&mut client, name, place, &format!("{word}-q")), 1, "{word}");
    }
    assert_eq!(super::client::rules(&client.findings(name)), [""; 0]);
    client.wait_for(name, &[]);
    let text = std::fs::read_to_string(client.path(name)).unwrap();
    let left: Vec<&String> = names
        .iter()
        .filter(|word| text.contains(&format!("[{word}]")) || text.contains(&format!(" {word};")))
        .collect();
    assert!(left.is_empty(), "{left:?}");
}

#[test]
fn names_of_the_shop_are_renamed_in_every_procedure() {
    let name = "procedures/shop/common.cotter";
    let (mut client, text) = demo(name);
    let names = declared(&mut client, name, &text);
    for (_, word) in names.iter().step_by(9).take(4) {
        let text = std::fs::read_to_string(client.path(name)).unwrap();
        let found = declared(&mut client, name, &text);
        let (place, _) = found.iter().find(|(_, own)| own == word).unwrap();
        renamed(&mut client, name, place, &format!("{word}-q"));
    }
    client.wait_for(name, &[]);
    // Each procedure, as it is on the disk now.
    for entry in ignore::Walk::new(client.path("procedures")).flatten() {
        if entry.path().extension().is_some_and(|it| it == "cotter") {
            let name = entry.path().strip_prefix(client.folder.path()).unwrap().to_str().unwrap().to_owned();
            let text = std::fs::read_to_string(entry.path()).unwrap();
            if name != "procedures/shop/common.cotter" {
                client.open(&name, &text);
                client.wait_for(&name, &[]);
            }
        }
    }
}
