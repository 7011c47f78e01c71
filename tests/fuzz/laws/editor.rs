//! The language server: whatever is typed, its text stays the client's, and its findings are those of that text.
use super::shop::compiled_alone;
use cotter::editor::{Connection, Message, Notification, Request, RequestId, serve};
use serde_json::{Value, json};

/// Parts of an input: the text that is opened, then one edit each. An edit begins with two places of two bytes.
const BETWEEN: u8 = 0x1e;
/// In no folder that there is: the server looks at nothing on the disk.
const ADDRESS: &str = "file:///nowhere/at/all/a.cotter";

pub fn holds(bytes: &[u8]) {
    let mut parts = bytes.split(|byte| *byte == BETWEEN);
    let mut text = String::from_utf8_lossy(parts.next().unwrap_or_default()).into_owned();
    let mut client = Client::new();
    client.say(
        "textDocument/didOpen",
        json!({ "textDocument": { "uri": ADDRESS, "languageId": "cotter", "version": 0, "text": text } }),
    );
    let mut version = 0;
    for edit in parts.take(16) {
        let [a, b, c, d, new @ ..] = edit else { continue };
        version += 1;
        let new = String::from_utf8_lossy(new).into_owned();
        let at = |high: &u8, low: &u8| floor(&text, usize::from(u16::from_be_bytes([*high, *low])));
        let (start, end) = (at(a, b).min(at(c, d)), at(a, b).max(at(c, d)));
        let range = json!({ "start": place(&text, start), "end": place(&text, end) });
        text.replace_range(start..end, &new);
        let changes = json!([{ "range": range, "text": new }]);
        client.say(
            "textDocument/didChange",
            json!({ "textDocument": { "uri": ADDRESS, "version": version }, "contentChanges": changes }),
        );
        let here =
            json!({ "textDocument": { "uri": ADDRESS }, "position": place(&text, floor(&text, start)) });
        for method in ["hover", "completion", "definition", "references", "documentHighlight"] {
            client.ask(&format!("textDocument/{method}"), here.clone());
        }
    }
    let whole = json!({ "textDocument": { "uri": ADDRESS } });
    for method in ["semanticTokens/full", "documentSymbol", "foldingRange"] {
        client.ask(&format!("textDocument/{method}"), whole.clone());
    }
    assert_eq!(client.findings(version), rules(&text), "the server sees another text:\n{text}");
    client.ask("shutdown", Value::Null);
}

/// Moved down to where a character starts and no line end is cut.
fn floor(text: &str, at: usize) -> usize {
    let at = text.floor_char_boundary(at.min(text.len()));
    let cut = text[..at].ends_with('\r') && text[at..].starts_with('\n');
    if cut { at - 1 } else { at }
}

/// Line and column of a byte as the protocol counts: `\n`, `\r\n` and `\r` end lines, columns are units of UTF-16.
fn place(text: &str, at: usize) -> Value {
    let before = &text[..at];
    let line = before.replace("\r\n", "\n").matches(['\n', '\r']).count();
    let start = before.rfind(['\n', '\r']).map_or(0, |end| end + 1);
    json!({ "line": line, "character": before[start..].encode_utf16().count() })
}

/// The rules of the findings of a text by itself.
fn rules(text: &str) -> Vec<String> {
    compiled_alone(text).findings.iter().map(|it| it.rule.to_owned()).collect()
}

/// The other end of the wire.
struct Client {
    connection: Connection,
    server: Option<std::thread::JoinHandle<cotter::editor::End>>,
    asked: i32,
    /// What was last said, and of which version.
    told: (i64, Vec<String>),
}

impl Client {
    fn new() -> Client {
        let (server, connection) = Connection::memory();
        let server = Some(std::thread::spawn(move || serve(&server)));
        let mut client = Client { connection, server, asked: 0, told: (-1, Vec::new()) };
        client.ask("initialize", json!({ "processId": null, "rootUri": null, "capabilities": {} }));
        client.say("initialized", json!({}));
        client
    }

    fn say(&self, method: &str, params: Value) {
        let note = Notification::new(method.to_owned(), params);
        self.connection.sender.send(Message::Notification(note)).expect("the server listens");
    }

    /// Asks and waits for the answer, whatever it is.
    fn ask(&mut self, method: &str, params: Value) {
        self.asked += 1;
        let id = RequestId::from(self.asked);
        let request = Request::new(id.clone(), method.to_owned(), params);
        self.connection.sender.send(Message::Request(request)).expect("the server listens");
        while !matches!(self.receive(), Message::Response(answer) if answer.id == id) {}
    }

    fn receive(&mut self) -> Message {
        let message = self.connection.receiver.recv().expect("the server goes on");
        if let Message::Notification(note) = &message
            && note.method == "textDocument/publishDiagnostics"
        {
            let findings = note.params["diagnostics"].as_array().into_iter().flatten();
            let rules = findings.filter_map(|it| Some(it["code"].as_str()?.to_owned())).collect();
            self.told = (note.params["version"].as_i64().unwrap_or(-1), rules);
        }
        message
    }

    /// The rules of the findings of that version, waited for.
    fn findings(&mut self, version: i64) -> &[String] {
        while self.told.0 != version {
            self.receive();
        }
        &self.told.1
    }
}

impl Drop for Client {
    fn drop(&mut self) {
        let _ = self
            .connection
            .sender
            .send(Message::Notification(Notification::new("exit".to_owned(), Value::Null)));
        let end = self.server.take().map(std::thread::JoinHandle::join);
        assert!(std::thread::panicking() || end.is_some_and(|end| end.is_ok()), "the server fell over");
    }
}
