//! What a server must bear: cancelled, unknown and late messages, and clients that leave.
use super::client::{Client, clean};
use cotter::editor::End;
use serde_json::json;
use std::io::Write;
use std::process::{Command, Stdio};

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
fn files_of_other_languages_are_left_alone() {
    let mut client = Client::new(&[]);
    let uri = client.uri("cotter.toml");
    let document = json!({ "uri": uri, "languageId": "toml", "version": 1, "text": "house = \"Shop\"\n" });
    client.say("textDocument/didOpen", json!({ "textDocument": document }));
    let place = json!({ "textDocument": { "uri": uri } });
    assert_eq!(client.ask("textDocument/documentSymbol", place), Ok(json!(null)));
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

/// The real program's exit code and standard error after these bytes, and then the end of its input.
fn program(input: &[u8]) -> (Option<i32>, String) {
    let mut server = Command::new(env!("CARGO_BIN_EXE_cotter"))
        .args(["language-server", "--stdio"])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    // It may be gone before it has read all.
    let _ = server.stdin.take().unwrap().write_all(input);
    let output = server.wait_with_output().unwrap();
    (output.status.code(), String::from_utf8(output.stderr).unwrap())
}

fn framed(messages: &[serde_json::Value]) -> Vec<u8> {
    let frame = |message: &serde_json::Value| {
        let text = message.to_string();
        format!("Content-Length: {}\r\n\r\n{text}", text.len())
    };
    messages.iter().map(frame).collect::<String>().into_bytes()
}

#[test]
fn the_program_ends_with_0_only_where_the_client_took_its_leave() {
    let start =
        json!({ "jsonrpc": "2.0", "id": 1, "method": "initialize", "params": { "capabilities": {} } });
    let started = json!({ "jsonrpc": "2.0", "method": "initialized", "params": {} });
    let shutdown = json!({ "jsonrpc": "2.0", "id": 2, "method": "shutdown" });
    let exit = json!({ "jsonrpc": "2.0", "method": "exit" });
    let silent = String::new();
    let whole = framed(&[start.clone(), started.clone(), shutdown, exit.clone()]);
    assert_eq!(program(&whole), (Some(0), silent.clone()));
    assert_eq!(program(&framed(&[start.clone(), started.clone(), exit])), (Some(1), silent.clone()));
    assert_eq!(program(&framed(&[start, started])), (Some(1), silent.clone()));
    assert_eq!(program(b""), (Some(1), silent.clone()));
    assert_eq!(program(b"Content-Length: 7\r\n\r\nnothing"), (Some(1), silent.clone()));
    assert_eq!(program(&[0xff; 64]), (Some(1), silent));
}
