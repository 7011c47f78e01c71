//! What client and server tell each other when they meet.
use crate::editor::colours;
use crate::editor::positions::Encoding;
use crate::editor::uri;
use gen_lsp_types::{
    CodeActionKind, CodeActionOptions, CompletionOptions, Full, PositionEncodingKind, RenameOptions, Save,
    SaveOptions, SemanticTokensLegend, SemanticTokensOptions, ServerCapabilities, TextDocumentSyncKind,
    TextDocumentSyncOptions,
};
use serde_json::{Value, json};
use std::path::PathBuf;

/// What is known of the client.
#[derive(Debug, Default)]
pub struct Client {
    pub encoding: Encoding,
    pub folders: Vec<PathBuf>,
    /// It can be asked to tell of files that change on the disk.
    pub watches: bool,
}

impl Client {
    /// Of the parameters of `initialize`. Clients leave out much of what they should say, so nothing is relied on.
    pub fn of(params: &Value) -> Client {
        let list =
            |pointer: &str| params.pointer(pointer).and_then(Value::as_array).cloned().unwrap_or_default();
        let utf8 = list("/capabilities/general/positionEncodings").iter().any(|it| it == "utf-8");
        let folders = list("/workspaceFolders");
        let mut uris: Vec<&str> = folders.iter().filter_map(|folder| folder.get("uri")?.as_str()).collect();
        uris.extend(params.get("rootUri").and_then(Value::as_str));
        let watches = "/capabilities/workspace/didChangeWatchedFiles/dynamicRegistration";
        Client {
            encoding: if utf8 { Encoding::Utf8 } else { Encoding::Utf16 },
            folders: uris.into_iter().map(uri::to_path).collect(),
            watches: params.pointer(watches).and_then(Value::as_bool).unwrap_or(false),
        }
    }
}

/// The answer to `initialize`.
pub fn capabilities(encoding: Encoding) -> Value {
    let encoding = match encoding {
        Encoding::Utf8 => PositionEncodingKind::UTF8,
        Encoding::Utf16 => PositionEncodingKind::UTF16,
    };
    let sync = TextDocumentSyncOptions {
        open_close: Some(true),
        change: Some(TextDocumentSyncKind::Incremental),
        save: Some(Save::SaveOptions(SaveOptions { include_text: Some(false) })),
        ..TextDocumentSyncOptions::default()
    };
    let triggers = [" ", "[", "\"", ":", ","].map(str::to_owned).to_vec();
    let completion = CompletionOptions { trigger_characters: Some(triggers), ..CompletionOptions::default() };
    let fixes = CodeActionOptions {
        code_action_kinds: Some(vec![CodeActionKind::QuickFix]),
        ..CodeActionOptions::default()
    };
    let words = |words: &[&str]| words.iter().map(|&word| word.to_owned()).collect();
    let legend = SemanticTokensLegend {
        token_types: words(&colours::CLASSES),
        token_modifiers: words(&colours::MODIFIERS),
    };
    let colours =
        SemanticTokensOptions { legend, full: Some(Full::Bool(true)), ..SemanticTokensOptions::default() };
    let rename = RenameOptions { prepare_provider: Some(true), ..RenameOptions::default() };
    let capabilities = ServerCapabilities {
        position_encoding: Some(encoding),
        text_document_sync: Some(sync.into()),
        completion_provider: Some(completion),
        hover_provider: Some(true.into()),
        definition_provider: Some(true.into()),
        references_provider: Some(true.into()),
        document_symbol_provider: Some(true.into()),
        document_formatting_provider: Some(true.into()),
        code_action_provider: Some(fixes.into()),
        rename_provider: Some(rename.into()),
        folding_range_provider: Some(true.into()),
        inlay_hint_provider: Some(true.into()),
        semantic_tokens_provider: Some(colours.into()),
        ..ServerCapabilities::default()
    };
    json!({
        "capabilities": capabilities,
        "serverInfo": { "name": "cotter", "version": env!("CARGO_PKG_VERSION") },
    })
}

/// Asks the client to tell of sources and settings that change on the disk.
pub fn watchers() -> Value {
    let globs = ["**/*.cotter", "**/cotter.toml"].map(|glob| json!({ "globPattern": glob }));
    json!({ "registrations": [{
        "id": "files",
        "method": "workspace/didChangeWatchedFiles",
        "registerOptions": { "watchers": globs },
    }] })
}
