//! What a server must bear: cancelled, unknown and late messages, and clients that leave.
use super::client::{Client, clean};
use cotter::editor::End;
use serde_json::json;

#[test]
fn it_leaves_as_the_protocol_says() {
    let mut client = Client::new(&[]);
    assert_eq!(client.ask("shutdown", json!(null)), Ok(json!(null)));
    let (code, _) = client.ask("textDocument/hover", json!({})).unwrap_err();
    assert_eq!(code, -32600);
    client.say("exit", json!(null));
    assert_eq!(client.end(), End::Asked);
}

#[test]
fn exit_alone_and_a_client_that_dies_are_no_orderly_end() {
    let client = Client::new(&[]);
    client.say("exit", json!(null));
    assert_eq!(client.end(), End::Lost);
    let mut client = Client::new(&[("a.cotter", &clean())]);
    client.open("a.cotter", &clean());
    assert_eq!(client.end(), End::Lost);
}

#[test]
fn unknown_and_misshapen_messages_are_refused_or_passed_over() {
    let mut client = Client::new(&[]);
    assert_eq!(client.ask("workspace/nonsense", json!({})).unwrap_err().0, -32601);
    assert_eq!(client.ask("textDocument/hover", json!({ "position": 7 })).unwrap_err().0, -32602);
    client.say("$/nonsense", json!({ "a": 1 }));
    client.say("textDocument/didChange", json!({ "textDocument": 3 }));
    client.say("textDocument/didOpen", json!([]));
    let uri = client.uri("never-opened.cotter");
    let place = json!({ "textDocument": { "uri": uri }, "position": { "line": 0, "character": 0 } });
    assert_eq!(client.ask("textDocument/hover", place), Ok(json!(null)));
}

#[test]
fn a_cancelled_request_is_told_so() {
    let mut client = Client::new(&[("a.cotter", &clean())]);
    client.open("a.cotter", &clean());
    let document = json!({ "textDocument": { "uri": client.uri("a.cotter") } });
    // Behind a long queue, so that the word reaches the server before the request's turn.
    for _ in 0..400 {
        client.replace("a.cotter", &clean());
    }
    let id = client.post("textDocument/documentSymbol", document);
    client.say("$/cancelRequest", json!({ "id": 2 }));
    match client.answer(&id) {
        Err((code, _)) => assert_eq!(code, -32800),
        // It may have been answered before the word came.
        Ok(symbols) => assert!(symbols.is_array()),
    }
}

#[test]
fn changes_of_files_that_are_not_open_and_old_versions_do_no_harm() {
    let mut client = Client::new(&[("a.cotter", &clean())]);
    let uri = client.uri("a.cotter");
    let change = |version: i32, text: &str| json!({ "textDocument": { "uri": uri, "version": version }, "contentChanges": [{ "text": text }] });
    client.say("textDocument/didChange", change(9, "remove"));
    client.say("textDocument/didClose", json!({ "textDocument": { "uri": uri } }));
    client.open("a.cotter", &clean());
    client.say("textDocument/didChange", change(-4, "remove"));
    client.replace("a.cotter", &clean());
    client.wait_for("a.cotter", &[]);
}
