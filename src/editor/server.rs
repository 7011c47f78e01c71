//! The loop: messages in, answers and findings out.
use super::desk::{Desk, Report};
use super::protocol::{
    self, Client, Connection, DidChangeTextDocumentParams, DidChangeWatchedFilesParams,
    DidChangeWorkspaceFoldersParams, DidCloseTextDocumentParams, DidOpenTextDocumentParams,
    DidSaveTextDocumentParams, ErrorCode, Message, Notification, Request, RequestId, Response,
};
use super::uri;
use crate::workspace::collect::is_source;
use serde::de::DeserializeOwned;
use std::collections::{HashSet, VecDeque};
use std::path::{Path, PathBuf};
use std::time::Duration;

/// How long an author must pause before what hangs on the file is looked at too.
const PAUSE: Duration = Duration::from_millis(120);

/// Questions whose answers lead into other files.
const ACROSS_FILES: [&str; 4] = [
    "textDocument/definition",
    "textDocument/references",
    "textDocument/prepareRename",
    "textDocument/rename",
];

/// How it ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum End {
    /// As the protocol says: `shutdown`, then `exit`.
    Asked,
    /// `exit` without `shutdown`, or the client is gone.
    Lost,
}

/// Talks with one client until it leaves.
pub fn serve(connection: &Connection) -> End {
    let Ok((id, params)) = connection.initialize_start() else { return End::Lost };
    let client = Client::of(&params);
    let mine = protocol::capabilities(client.encoding);
    if connection.initialize_finish(id, mine).is_err() {
        return End::Lost;
    }
    let mut server = Server { connection, desk: Desk::new(client.encoding, client.folders), closing: false };
    if client.watches {
        let id = RequestId::from("watch".to_owned());
        let ask = Request::new(id, "client/registerCapability".to_owned(), protocol::watchers());
        server.send(Message::Request(ask));
    }
    server.run()
}

struct Server<'c> {
    connection: &'c Connection,
    desk: Desk,
    /// `shutdown` was asked for.
    closing: bool,
}

impl Server<'_> {
    fn run(&mut self) -> End {
        loop {
            let mut batch = match self.next() {
                Ok(Some(message)) => VecDeque::from([message]),
                Ok(None) => {
                    let reports = self.desk.settle();
                    self.tell(&reports);
                    continue;
                }
                Err(Gone) => return End::Lost,
            };
            // Whoever types fast has sent more: all of it first, then the findings once.
            batch.extend(self.connection.receiver.try_iter());
            let cancelled = cancelled(&batch);
            while let Some(message) = batch.pop_front() {
                if let Some(end) = self.take(message, &cancelled) {
                    return end;
                }
            }
            let reports = self.desk.look();
            self.tell(&reports);
        }
    }

    /// The next message; none where the author pauses and something is left to do.
    fn next(&self) -> Result<Option<Message>, Gone> {
        if !self.desk.is_behind() {
            return self.connection.receiver.recv().map(Some).map_err(|_| Gone);
        }
        match self.connection.receiver.recv_timeout(PAUSE) {
            Ok(message) => Ok(Some(message)),
            Err(error) if error.is_timeout() => Ok(None),
            Err(_) => Err(Gone),
        }
    }

    fn take(&mut self, message: Message, cancelled: &HashSet<RequestId>) -> Option<End> {
        match message {
            Message::Request(request) => {
                let response = self.respond(request, cancelled);
                self.send(Message::Response(response));
                None
            }
            Message::Notification(notification) if notification.method == "exit" => {
                Some(if self.closing { End::Asked } else { End::Lost })
            }
            Message::Notification(notification) => {
                self.note(notification);
                None
            }
            Message::Response(_) => None,
        }
    }

    fn respond(&mut self, request: Request, cancelled: &HashSet<RequestId>) -> Response {
        let refused =
            |code: ErrorCode, why: &str| Response::new_err(request.id.clone(), code as i32, why.to_owned());
        if self.closing {
            return refused(ErrorCode::InvalidRequest, "the server is shutting down");
        }
        if cancelled.contains(&request.id) {
            return refused(ErrorCode::RequestCanceled, "cancelled by the client");
        }
        if request.method == "shutdown" {
            self.closing = true;
            return Response::new_ok(request.id, ());
        }
        // Edits of other files must be of their texts as they are now.
        if self.desk.is_behind() && ACROSS_FILES.contains(&request.method.as_str()) {
            let reports = self.desk.settle();
            self.tell(&reports);
        }
        match protocol::answer(&self.desk, &request.method, request.params) {
            Ok(value) => Response::new_ok(request.id, value),
            Err((code, why)) => Response::new_err(request.id, code as i32, why),
        }
    }

    /// What cannot be read, or is not known, is passed over, as the protocol wants it.
    fn note(&mut self, notification: Notification) {
        let Notification { method, params } = notification;
        match method.as_str() {
            "textDocument/didOpen" => {
                // Some clients send their settings files too.
                let ours = |it: &DidOpenTextDocumentParams| {
                    let it = &it.text_document;
                    it.language_id.to_string() == "cotter" || is_source(&uri::to_path(&it.uri.0))
                };
                if let Some(DidOpenTextDocumentParams { text_document: it }) = read(params).filter(ours) {
                    self.desk.open(&it.uri.0, &it.text, it.version);
                }
            }
            "textDocument/didChange" => {
                if let Some(DidChangeTextDocumentParams { text_document, content_changes }) = read(params) {
                    let path = uri::to_path(&text_document.text_document_identifier.uri.0);
                    let changes = protocol::changes(content_changes);
                    self.desk.change(&path, text_document.version, &changes);
                }
            }
            "textDocument/didClose" => {
                if let Some(DidCloseTextDocumentParams { text_document }) = read(params) {
                    self.desk.close(&uri::to_path(&text_document.uri.0));
                }
            }
            "textDocument/didSave" => {
                if let Some(DidSaveTextDocumentParams { text_document, .. }) = read(params) {
                    self.desk.disk_changed(&uri::to_path(&text_document.uri.0));
                }
            }
            "workspace/didChangeWatchedFiles" => {
                if let Some(DidChangeWatchedFilesParams { changes }) = read(params) {
                    changes.iter().for_each(|it| self.desk.disk_changed(&uri::to_path(&it.uri.0)));
                }
            }
            "workspace/didChangeWorkspaceFolders" => {
                if let Some(DidChangeWorkspaceFoldersParams { event }) = read(params) {
                    let gone: Vec<PathBuf> = event.removed.iter().map(|it| uri::to_path(&it.uri.0)).collect();
                    self.desk.folders.retain(|folder| !gone.contains(folder));
                    self.desk.folders.extend(event.added.iter().map(|it| uri::to_path(&it.uri.0)));
                    self.desk.disk_changed(Path::new(crate::workspace::settings::FILE_NAME));
                }
            }
            _ => {}
        }
    }

    fn tell(&self, reports: &[Report]) {
        for report in reports {
            let params = protocol::findings(&self.desk, report);
            let method = "textDocument/publishDiagnostics".to_owned();
            self.send(Message::Notification(Notification::new(method, params)));
        }
    }

    /// A client that is gone is met when the next message is waited for.
    fn send(&self, message: Message) {
        let _ = self.connection.sender.send(message);
    }
}

/// The client left without a word.
struct Gone;

fn read<T: DeserializeOwned>(params: serde_json::Value) -> Option<T> {
    serde_json::from_value(params).ok()
}

/// The requests that somebody no longer waits for.
fn cancelled(batch: &VecDeque<Message>) -> HashSet<RequestId> {
    let ids = batch.iter().filter_map(|message| match message {
        Message::Notification(it) if it.method == "$/cancelRequest" => {
            serde_json::from_value(it.params.get("id")?.clone()).ok()
        }
        _ => None,
    });
    ids.collect()
}
