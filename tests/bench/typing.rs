//! What one keystroke in 5,000 lines costs: from the change to the findings, through the server's own messages,
//! beside a plain check of the same text in the same run.
//!
//! `cargo bench --bench typing` prints the times, and the ratio with its limit; over the limit it fails.
#![allow(
    clippy::print_stdout,
    clippy::disallowed_methods,
    clippy::disallowed_types,
    clippy::indexing_slicing,
    clippy::expect_used,
    dead_code
)]
mod corpus;

use cotter::editor::{Connection, Message, Notification, Request, RequestId, serve};
use cotter::model::catalogues::Catalogues;
use cotter::model::{Register, Settings};
use cotter::source::{FileId, SourceFile};
use cotter::{Surroundings, compile};
use serde_json::{Value, json};
use std::process::ExitCode;
use std::time::Instant;

/// How many times a change may cost what a check does.
const LIMIT: f64 = 2.0;
/// What nobody notices while typing (common practice, no source).
const WANTED_MS: f64 = 20.0;
const RUNS: usize = 60;

fn main() -> ExitCode {
    let text = corpus::rounds(1, 200);
    let checked = least(|| {
        std::hint::black_box(check(&text));
    });
    let folder = tempfile::tempdir().expect("a folder to work in");
    std::fs::write(folder.path().join("cotter.toml"), "").expect("the folder can be written");
    let client = Client::new(&format!("file://{}", folder.path().join("a.cotter").display()), &text);
    // A letter into a text in quotes near the end, and out again.
    let line = text.lines().count() - 10;
    let mut version = 1;
    let changed = least(|| {
        version += 1;
        client.change(version, line, version % 2 == 0);
    });
    let ratio = changed / checked;
    let ms = |seconds: f64| seconds * 1000.0;
    println!("{} lines, {} bytes", text.lines().count(), text.len());
    println!("{:<58}{:>8.2} ms", "a check", ms(checked));
    println!("{:<58}{:>8.2} ms  (wanted: {WANTED_MS} ms)", "a change, up to its findings", ms(changed));
    let over = if ratio > LIMIT { "  over" } else { "" };
    println!("{:<58}{ratio:>8.2}{:>8}{over}", "a change / a check", format!("≤ {LIMIT}"));
    if ratio > LIMIT { ExitCode::FAILURE } else { ExitCode::SUCCESS }
}

fn check(text: &str) -> usize {
    let source = SourceFile::new(FileId(0), "a.cotter", text);
    let settings = Settings::default();
    let (register, catalogues) = (Register::default(), Catalogues::default());
    let around = Surroundings { settings: &settings, register: &register, catalogues: &catalogues };
    compile(&source, &around).findings.len()
}

/// The least time of several runs, in seconds.
fn least(mut work: impl FnMut()) -> f64 {
    let once = |_| {
        let start = Instant::now();
        work();
        start.elapsed().as_secs_f64()
    };
    (0..RUNS).map(once).fold(f64::MAX, f64::min)
}

struct Client {
    connection: Connection,
    uri: String,
}

impl Client {
    fn new(uri: &str, text: &str) -> Client {
        let (server, connection) = Connection::memory();
        std::thread::spawn(move || serve(&server));
        let client = Client { connection, uri: uri.to_owned() };
        let initialize =
            Request::new(RequestId::from(1), "initialize".to_owned(), json!({ "capabilities": {} }));
        client.send(Message::Request(initialize));
        client.say("initialized", json!({}));
        let document = json!({ "uri": uri, "languageId": "cotter", "version": 1, "text": text });
        client.say("textDocument/didOpen", json!({ "textDocument": document }));
        client.wait(1);
        client
    }

    fn change(&self, version: i32, line: usize, put: bool) {
        let place = |character: usize| json!({ "line": line, "character": character });
        let (end, text) = if put { (4, "x") } else { (5, "") };
        let range = json!({ "start": place(4), "end": place(end) });
        let document = json!({ "uri": self.uri, "version": version });
        let changes = json!([{ "range": range, "text": text }]);
        self.say("textDocument/didChange", json!({ "textDocument": document, "contentChanges": changes }));
        self.wait(i64::from(version));
    }

    /// Until the findings of that version are there.
    fn wait(&self, version: i64) {
        loop {
            match self.connection.receiver.recv().expect("the server is there") {
                Message::Notification(it) if it.params["version"] == version => return,
                _ => {}
            }
        }
    }

    fn say(&self, method: &str, params: Value) {
        self.send(Message::Notification(Notification::new(method.to_owned(), params)));
    }

    fn send(&self, message: Message) {
        self.connection.sender.send(message).expect("the server is there");
    }
}
