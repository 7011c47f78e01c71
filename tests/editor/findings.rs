//! Findings while somebody types.
use super::client::{Client, HEAD, clean, covered, rules};

#[test]
fn a_clean_file_has_none_and_a_fault_shows_with_its_place_and_its_reason() {
    let text = clean();
    let mut client = Client::new(&[("a.cotter", &text)]);
    client.open("a.cotter", &text);
    assert_eq!(rules(&client.findings("a.cotter")), [""; 0]);
    let broken = text.replace("new gasket", "gasket");
    client.replace("a.cotter", &broken);
    let findings = client.findings("a.cotter");
    assert_eq!(rules(&findings), ["reused-single-use"]);
    let finding = &findings[0];
    assert_eq!(covered(&broken, &finding["range"]), "gasket");
    assert_eq!(finding["severity"], 1);
    assert_eq!(finding["source"], "cotter");
    assert!(finding["message"].as_str().unwrap().contains("Fit a new one"), "{finding}");
    let related = &finding["relatedInformation"][0];
    assert_eq!(related["location"]["uri"], client.uri("a.cotter"));
    assert_eq!(covered(&broken, &related["location"]["range"]), "single-use");
}

#[test]
fn an_open_file_wins_over_the_disk_and_closing_gives_the_disk_back() {
    let text = clean();
    let user = text.replace("ED-1", "ED-2").replace("requires:   none", "requires:   ED-1 \"clean\"");
    let mut client = Client::new(&[("a.cotter", &text), ("b.cotter", &user)]);
    client.open("b.cotter", &user);
    client.wait_for("b.cotter", &[]);
    client.open("a.cotter", &text.replace("ED-1", "ED-9"));
    client.wait_for("b.cotter", &["unknown-procedure"]);
    let uri = client.uri("a.cotter");
    client.say("textDocument/didClose", serde_json::json!({ "textDocument": { "uri": uri } }));
    client.wait_for("b.cotter", &[]);
}

#[test]
fn what_hangs_on_a_catalogue_is_looked_at_too() {
    let catalogue = "catalogue \"Shop\"\n    revision: A, 2026-11-02\n\ntools\n    wrench \"Torque wrench S\"  range 2 to 12 N.m\n";
    let text = clean().replace("tools\n    wrench \"Torque wrench S\"  range 2 to 12 N.m\n", "");
    let text = text.replace("parts\n", "use \"shop.cotter\"\n\nparts\n");
    let mut client = Client::new(&[("shop.cotter", catalogue), ("a.cotter", &text)]);
    client.open("a.cotter", &text);
    client.wait_for("a.cotter", &[]);
    client.open("shop.cotter", catalogue);
    client.replace("shop.cotter", &catalogue.replace("2 to 12", "2 to 5"));
    client.wait_for("a.cotter", &["wrench-out-of-range"]);
    client.replace("shop.cotter", &catalogue.replace("wrench \"T", "key \"T"));
    client.wait_for("a.cotter", &["undeclared-name"]);
    client.replace("shop.cotter", catalogue);
    client.wait_for("a.cotter", &[]);
}

#[test]
fn a_file_that_is_not_open_is_told_of_when_a_change_breaks_it() {
    let text = clean();
    let user = text.replace("ED-1", "ED-2").replace("requires:   none", "requires:   ED-1 \"clean\"");
    let mut client = Client::new(&[("a.cotter", &text), ("b.cotter", &user)]);
    client.open("a.cotter", &text);
    client.replace("a.cotter", &text.replace("ED-1", "ED-7"));
    client.wait_for("b.cotter", &["unknown-procedure"]);
    client.replace("a.cotter", &text);
    client.wait_for("b.cotter", &[]);
}

#[test]
fn settings_that_cannot_be_read_are_told_of_in_the_open_file() {
    let text = clean();
    let mut client = Client::new(&[("a.cotter", &text)]);
    std::fs::write(client.path("cotter.toml"), "hous = 1\n").unwrap();
    client.open("a.cotter", &text);
    let findings = client.findings("a.cotter");
    assert!(findings[0]["message"].as_str().unwrap().contains("hous"), "{findings:?}");
    std::fs::write(client.path("cotter.toml"), "house = \"Shop\"\n").unwrap();
    let uri = client.uri("cotter.toml");
    client.say(
        "workspace/didChangeWatchedFiles",
        serde_json::json!({ "changes": [{ "uri": uri, "type": 2 }] }),
    );
    client.wait_for("a.cotter", &[]);
}

#[test]
fn a_folder_that_becomes_a_workspace_has_its_own_settings() {
    let text = clean().replace("new gasket", "gasket");
    let mut client = Client::new(&[("sub/a.cotter", &text)]);
    client.open("sub/a.cotter", &text);
    client.wait_for("sub/a.cotter", &["reused-single-use"]);
    let told = |client: &Client, kind: u32| {
        let uri = client.uri("sub/cotter.toml");
        client.say(
            "workspace/didChangeWatchedFiles",
            serde_json::json!({ "changes": [{ "uri": uri, "type": kind }] }),
        );
    };
    std::fs::write(client.path("sub/cotter.toml"), "[rules]\nreused-single-use = \"off\"\n").unwrap();
    told(&client, 1);
    client.wait_for("sub/a.cotter", &[]);
    std::fs::remove_file(client.path("sub/cotter.toml")).unwrap();
    told(&client, 3);
    client.wait_for("sub/a.cotter", &["reused-single-use"]);
}

#[test]
fn an_open_file_of_a_workspace_within_is_no_file_of_the_one_around() {
    let text = clean();
    let mut client = Client::new(&[("a.cotter", &text), ("sub/a.cotter", &text), ("sub/cotter.toml", "")]);
    client.open("sub/a.cotter", &text);
    client.open("a.cotter", &text);
    client.replace("a.cotter", &format!("{text}\n"));
    // The number is given twice, but not in one workspace.
    assert_eq!(rules(&client.findings("a.cotter")), [""; 0]);
    assert_eq!(rules(&client.findings("sub/a.cotter")), [""; 0]);
}

#[test]
fn a_page_that_was_never_saved_and_one_outside_every_workspace_are_looked_at() {
    let mut client = Client::new(&[]);
    client.open_as("untitled:Untitled-1", &clean());
    assert_eq!(rules(&client.findings_of("untitled:Untitled-1")), [""; 0]);
    let lone = tempfile::tempdir().unwrap();
    let uri = super::client::uri(&lone.path().join("lone page é.cotter"));
    client.open_as(&uri, &format!("{HEAD}remove cover\n"));
    assert_eq!(rules(&client.findings_of(&uri)), ["undeclared-name"]);
}

#[test]
fn a_rule_that_the_house_turned_off_is_silent() {
    let text = clean().replace("new gasket", "gasket");
    let mut client = Client::new(&[("a.cotter", &text)]);
    std::fs::write(client.path("cotter.toml"), "[rules]\nreused-single-use = \"advice\"\n").unwrap();
    client.open("a.cotter", &text);
    let findings = client.findings("a.cotter");
    assert_eq!(findings[0]["severity"], 3);
}
