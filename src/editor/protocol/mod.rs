//! The Language Server Protocol 3.17: the only place that knows its types and those of the crate that carries them.
mod answers;
mod convert;
mod opening;

pub use answers::answer;
pub use convert::{changes, findings};
pub use gen_lsp_types::{
    DidChangeTextDocumentParams, DidChangeWatchedFilesParams, DidChangeWorkspaceFoldersParams,
    DidCloseTextDocumentParams, DidOpenTextDocumentParams, DidSaveTextDocumentParams,
};
pub use lsp_server::{Connection, ErrorCode, Message, Notification, Request, RequestId, Response};
pub use opening::{Client, capabilities, watchers};
