//! A client in the same process: a folder, a server on a thread of its own, and what it says.
use cotter::editor::{Connection, End, Message, Notification, Request, RequestId, Response, serve};
use serde_json::{Value, json};
use std::collections::HashMap;
use std::path::{Path, PathBuf};
use std::thread::JoinHandle;
use std::time::Duration;
use tempfile::TempDir;

/// Far longer than anything takes: a server that says nothing fails the test instead of hanging it.
const LONG: Duration = Duration::from_secs(30);

pub struct Client {
    pub folder: TempDir,
    connection: Connection,
    server: Option<JoinHandle<End>>,
    next: i32,
    versions: HashMap<String, i32>,
    /// What was last said of each file: the version, and the findings.
    told: HashMap<String, (Option<i64>, Vec<Value>)>,
    pub capabilities: Value,
}

impl Client {
    /// A client at a folder with these files, as text by name.
    pub fn new(files: &[(&str, &str)]) -> Client {
        Client::with(files, json!({}))
    }

    pub fn with(files: &[(&str, &str)], capabilities: Value) -> Client {
        let folder = tempfile::tempdir().unwrap();
        std::fs::write(folder.path().join("cotter.toml"), "").unwrap();
        for (name, text) in files {
            let path = folder.path().join(name);
            std::fs::create_dir_all(path.parent().unwrap()).unwrap();
            std::fs::write(path, text).unwrap();
        }
        let (server, connection) = Connection::memory();
        let thread = std::thread::spawn(move || serve(&server));
        let mut client = Client {
            folder,
            connection,
            server: Some(thread),
            next: 0,
            versions: HashMap::new(),
            told: HashMap::new(),
            capabilities: Value::Null,
        };
        let root = client.uri("");
        let params = json!({ "processId": null, "rootUri": root, "capabilities": capabilities });
        client.capabilities = client.ask("initialize", params).unwrap()["capabilities"].take();
        client.say("initialized", json!({}));
        client
    }

    pub fn path(&self, name: &str) -> PathBuf {
        self.folder.path().join(name)
    }

    pub fn uri(&self, name: &str) -> String {
        uri(&self.path(name))
    }

    pub fn say(&self, method: &str, params: Value) {
        let _ =
            self.connection.sender.send(Message::Notification(Notification::new(method.to_owned(), params)));
    }

    /// Sends a request without waiting for what comes of it.
    pub fn post(&mut self, method: &str, params: Value) -> RequestId {
        self.next += 1;
        let id = RequestId::from(self.next);
        let request = Request::new(id.clone(), method.to_owned(), params);
        let _ = self.connection.sender.send(Message::Request(request));
        id
    }

    /// The answer, or code and message of the refusal.
    pub fn ask(&mut self, method: &str, params: Value) -> Result<Value, (i32, String)> {
        let id = self.post(method, params);
        self.answer(&id)
    }

    pub fn answer(&mut self, id: &RequestId) -> Result<Value, (i32, String)> {
        loop {
            match self.receive() {
                Message::Response(Response { id: of, response_result }) if of == *id => {
                    return response_result.map_err(|error| (error.code, error.message));
                }
                _ => {}
            }
        }
    }

    fn receive(&mut self) -> Message {
        let message = self.connection.receiver.recv_timeout(LONG).unwrap_or_else(|error| {
            let told = self.told.iter().filter(|(_, (_, findings))| !findings.is_empty());
            panic!("the server says nothing more: {error}; {:?}", told.collect::<Vec<_>>())
        });
        if let Message::Notification(it) = &message
            && it.method == "textDocument/publishDiagnostics"
        {
            let uri = it.params["uri"].as_str().unwrap().to_owned();
            let findings = it.params["diagnostics"].as_array().unwrap().clone();
            self.told.insert(uri, (it.params["version"].as_i64(), findings));
        }
        message
    }

    pub fn open(&mut self, name: &str, text: &str) {
        let uri = self.uri(name);
        self.open_as(&uri, text);
    }

    pub fn open_as(&mut self, uri: &str, text: &str) {
        self.versions.insert(uri.to_owned(), 1);
        let document = json!({ "uri": uri, "languageId": "cotter", "version": 1, "text": text });
        self.say("textDocument/didOpen", json!({ "textDocument": document }));
    }

    /// The whole text anew.
    pub fn replace(&mut self, name: &str, text: &str) {
        self.change(name, json!([{ "text": text }]));
    }

    pub fn change(&mut self, name: &str, changes: Value) {
        let uri = self.uri(name);
        let version = self.versions.get_mut(&uri).unwrap();
        *version += 1;
        let document = json!({ "uri": uri, "version": *version });
        self.say("textDocument/didChange", json!({ "textDocument": document, "contentChanges": changes }));
    }

    /// The findings of the file's last version, once they are said.
    pub fn findings(&mut self, name: &str) -> Vec<Value> {
        let uri = self.uri(name);
        self.findings_of(&uri)
    }

    pub fn findings_of(&mut self, uri: &str) -> Vec<Value> {
        let wanted = self.versions.get(uri).map(|version| i64::from(*version));
        loop {
            if let Some((version, findings)) = self.told.get(uri)
                && (wanted.is_none() || *version == wanted)
            {
                return findings.clone();
            }
            self.receive();
        }
    }

    /// The rules of a file's findings once `wanted` of them are said; waits for that.
    pub fn wait_for(&mut self, name: &str, wanted: &[&str]) {
        let uri = self.uri(name);
        loop {
            let told = self.told.get(&uri).map(|(_, findings)| rules(findings)).unwrap_or_default();
            if self.told.contains_key(&uri) && told == wanted {
                return;
            }
            self.receive();
        }
    }

    /// A request about the place of the first `needle` in a file's text; `¦` in the needle is the cursor, which
    /// else stands at its start.
    pub fn at(
        &mut self,
        method: &str,
        name: &str,
        text: &str,
        needle: &str,
        more: Value,
    ) -> Result<Value, (i32, String)> {
        let (line, character) = place(text, needle);
        let mut params = json!({
            "textDocument": { "uri": self.uri(name) },
            "position": { "line": line, "character": character },
        });
        for (key, value) in more.as_object().into_iter().flatten() {
            params[key] = value.clone();
        }
        self.ask(method, params)
    }

    /// How the server ended, once the client is gone.
    pub fn end(mut self) -> End {
        let server = self.server.take().unwrap();
        drop(self.connection);
        server.join().unwrap()
    }
}

pub fn uri(path: &Path) -> String {
    format!("file://{}", path.display())
}

/// Line and character, in units of UTF-16, of a needle; see [`Client::at`].
pub fn place(text: &str, needle: &str) -> (usize, usize) {
    let (before, after) = needle.split_once('¦').unwrap_or(("", needle));
    let at = text.find(&format!("{before}{after}")).unwrap_or_else(|| panic!("no {needle:?} in {text}"));
    let head = &text[..at + before.len()];
    let line = head.matches('\n').count();
    (line, head.rsplit('\n').next().unwrap().encode_utf16().count())
}

/// The rules of findings, in order.
pub fn rules(findings: &[Value]) -> Vec<&str> {
    findings.iter().map(|finding| finding["code"].as_str().unwrap_or("")).collect()
}

/// The text that a range of the protocol covers.
pub fn covered(text: &str, range: &Value) -> String {
    let (start, end) = (offset(text, &range["start"]), offset(text, &range["end"]));
    text[start..end].to_owned()
}

/// The byte of a position counted in UTF-16, worked out apart from the server.
pub fn offset(text: &str, position: &Value) -> usize {
    let (line, character) = (position["line"].as_u64().unwrap(), position["character"].as_u64().unwrap());
    let mut start = 0;
    for _ in 0..line {
        start += text[start..].find('\n').unwrap() + 1;
    }
    let mut units = 0;
    for (at, letter) in text[start..].char_indices() {
        if units >= character {
            return start + at;
        }
        units += letter.len_utf16() as u64;
    }
    text.len()
}

/// The text after edits of the protocol.
pub fn edited(text: &str, edits: &Value) -> String {
    let mut edits: Vec<(usize, usize, String)> = edits
        .as_array()
        .unwrap()
        .iter()
        .map(|edit| {
            let range = &edit["range"];
            let new = edit["newText"].as_str().unwrap().to_owned();
            (offset(text, &range["start"]), offset(text, &range["end"]), new)
        })
        .collect();
    edits.sort();
    let mut text = text.to_owned();
    for (start, end, new) in edits.into_iter().rev() {
        text.replace_range(start..end, &new);
    }
    text
}

/// A procedure's head, so that a test need only hold what it is about.
pub const HEAD: &str = "procedure ED-1 \"Renew the gasket\"
    revision:   A, 2026-11-02
    equipment:  F40 transfer pump
    models:     F40
    source:     manual \"F40 workshop manual, issue 7\"
    time:       30 min
    people:     1
    requires:   none
    afterwards: none

";

/// With [`HEAD`], nothing to mend.
pub const GASKET: &str = "parts
    screws \"Cover screw, M6 x 20\" x4  thread M6, class 8.8, dry, torque 7 to 9 N.m crosswise, holds cover
    cover  \"Bearing cover\"
    gasket \"Cover gasket\"  single-use

tools
    wrench \"Torque wrench S\"  range 2 to 12 N.m

supplies none

section \"Work\"

remove screws, cover, gasket; discard gasket
inspect cover \"cracks, see [gasket]\" as look
    if cracked: renew cover
install new gasket, cover, screws
tighten screws with wrench
";

/// Both together.
pub fn clean() -> String {
    format!("{HEAD}{GASKET}")
}
