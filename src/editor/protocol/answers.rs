//! Requests to answers.
use super::convert::{Places, diagnostic, place};
use crate::editor::completion::{self, Offer, OfferSort};
use crate::editor::desk::Desk;
use crate::editor::outline::{self, Row, RowSort};
use crate::editor::shop::{Page, Shop};
use crate::editor::{colours, folding, formatting, hints, hover, names, uri};
use crate::report::Edit;
use crate::source::Span;
use crate::workspace::fixes;
use gen_lsp_types::*;
use lsp_server::ErrorCode;
use serde_json::Value;
use std::collections::HashMap;
use std::rc::Rc;

/// The value, or why there is none.
pub type Answer = Result<Value, (ErrorCode, String)>;

type Refused = (ErrorCode, String);

/// The answer to a request of that name.
pub fn answer(desk: &Desk, method: &str, params: Value) -> Answer {
    let asked = Asked { desk, params };
    match method {
        "textDocument/completion" => asked.by::<CompletionRequest>(offers),
        "textDocument/hover" => asked.by::<HoverRequest>(told),
        "textDocument/definition" => asked.by::<DefinitionRequest>(definition),
        "textDocument/references" => asked.by::<ReferencesRequest>(references),
        "textDocument/prepareRename" => asked.by::<PrepareRenameRequest>(renameable),
        "textDocument/rename" => asked.by::<RenameRequest>(rename),
        "textDocument/documentSymbol" => asked.by::<DocumentSymbolRequest>(symbols),
        "textDocument/foldingRange" => asked.by::<FoldingRangeRequest>(folds),
        "textDocument/formatting" => asked.by::<DocumentFormattingRequest>(formatted),
        "textDocument/inlayHint" => asked.by::<InlayHintRequest>(inlays),
        "textDocument/semanticTokens/full" => asked.by::<SemanticTokensRequest>(tokens),
        "textDocument/codeAction" => asked.by::<CodeActionRequest>(actions),
        _ => Err((ErrorCode::MethodNotFound, format!("`{method}` is not answered here"))),
    }
}

struct Asked<'a> {
    desk: &'a Desk,
    params: Value,
}

impl Asked<'_> {
    fn by<R: Request>(self, work: fn(&Desk, R::Params) -> Result<R::Result, Refused>) -> Answer {
        let params = serde_json::from_value(self.params)
            .map_err(|error| (ErrorCode::InvalidParams, error.to_string()))?;
        let result = work(self.desk, params)?;
        serde_json::to_value(result).map_err(|error| (ErrorCode::InternalError, error.to_string()))
    }
}

/// An open page with what answers about it need.
struct Opened<'a> {
    shop: &'a Shop,
    page: Rc<Page>,
    places: Places<'a>,
}

fn opened<'a>(desk: &'a Desk, document: &TextDocumentIdentifier) -> Option<Opened<'a>> {
    let (shop, page) = desk.page(&uri::to_path(&document.uri.0))?;
    Some(Opened { shop, page, places: Places::new(desk, shop) })
}

impl Opened<'_> {
    fn offset(&mut self, position: Position) -> usize {
        self.places.offset(self.page.source.id, place(position))
    }

    /// An edit of the workspace, sorted by file.
    fn edit(&mut self, edits: Vec<Edit>) -> WorkspaceEdit {
        let mut changes: HashMap<Uri, Vec<TextEdit>> = HashMap::new();
        for edit in edits {
            if let Some(Location { uri, range }) = self.places.location(edit.span) {
                changes.entry(uri).or_default().push(TextEdit { range, new_text: edit.text });
            }
        }
        WorkspaceEdit { changes: Some(changes), ..WorkspaceEdit::default() }
    }
}

fn markdown(text: String) -> MarkupContent {
    MarkupContent { kind: MarkupKind::Markdown, value: text }
}

fn offers(desk: &Desk, params: CompletionParams) -> Result<Option<CompletionResponse>, Refused> {
    let TextDocumentPositionParams { text_document, position } = params.text_document_position_params;
    let Some(mut opened) = opened(desk, &text_document) else { return Ok(None) };
    let offset = opened.offset(position);
    let offers = completion::at(opened.shop, &opened.page, offset);
    let file = opened.page.source.id;
    let items = offers.into_iter().map(|offer| {
        let range = opened.places.range(Span::new(file, offer.start.min(offset), offset));
        item(offer, range)
    });
    Ok(Some(items.collect::<Vec<_>>().into()))
}

fn item(offer: Offer, range: Range) -> CompletionItem {
    let kind = match offer.sort {
        OfferSort::Keyword => CompletionItemKind::Keyword,
        OfferSort::Verb => CompletionItemKind::Function,
        OfferSort::Part => CompletionItemKind::Variable,
        OfferSort::Tool => CompletionItemKind::Class,
        OfferSort::Supply => CompletionItemKind::Struct,
        OfferSort::Name | OfferSort::Number => CompletionItemKind::Reference,
        OfferSort::Label => CompletionItemKind::EnumMember,
        OfferSort::Message => CompletionItemKind::Event,
        OfferSort::Hazard | OfferSort::Wear | OfferSort::Code => CompletionItemKind::Constant,
        OfferSort::Attribute | OfferSort::Detail => CompletionItemKind::Property,
        OfferSort::Unit => CompletionItemKind::Unit,
        OfferSort::File => CompletionItemKind::File,
        OfferSort::Rule => CompletionItemKind::Value,
    };
    let some = |text: String| (!text.is_empty()).then_some(text);
    CompletionItem {
        sort_text: Some(format!("{}{}", offer.rank, offer.label)),
        filter_text: Some(offer.label.clone()),
        text_edit: Some(TextEdit { range, new_text: offer.label.clone() }.into()),
        label: offer.label.trim_end().to_owned(),
        kind: Some(kind),
        detail: some(offer.detail),
        documentation: some(offer.about).map(|about| markdown(about).into()),
        ..CompletionItem::default()
    }
}

fn told(desk: &Desk, params: HoverParams) -> Result<Option<Hover>, Refused> {
    let TextDocumentPositionParams { text_document, position } = params.text_document_position_params;
    let Some(mut opened) = opened(desk, &text_document) else { return Ok(None) };
    let offset = opened.offset(position);
    let told = hover::at(opened.shop, &opened.page, offset);
    Ok(told.map(|told| Hover {
        range: Some(opened.places.range(told.span)),
        contents: markdown(told.text).into(),
    }))
}

fn definition(desk: &Desk, params: DefinitionParams) -> Result<Option<DefinitionResponse>, Refused> {
    let TextDocumentPositionParams { text_document, position } = params.text_document_position_params;
    let Some(mut opened) = opened(desk, &text_document) else { return Ok(None) };
    let offset = opened.offset(position);
    let found = names::definition(opened.shop, &opened.page, offset);
    let found: Vec<Location> = found.into_iter().filter_map(|span| opened.places.location(span)).collect();
    Ok(Some(Definition::LocationList(found).into()))
}

fn references(desk: &Desk, params: ReferenceParams) -> Result<Option<Vec<Location>>, Refused> {
    let TextDocumentPositionParams { text_document, position } = params.text_document_position_params;
    let Some(mut opened) = opened(desk, &text_document) else { return Ok(None) };
    let offset = opened.offset(position);
    let found = names::references(opened.shop, &opened.page, offset, params.context.include_declaration);
    Ok(Some(found.into_iter().filter_map(|span| opened.places.location(span)).collect()))
}

fn renameable(desk: &Desk, params: PrepareRenameParams) -> Result<Option<PrepareRenameResult>, Refused> {
    let TextDocumentPositionParams { text_document, position } = params.text_document_position_params;
    let Some(mut opened) = opened(desk, &text_document) else { return Ok(None) };
    let offset = opened.offset(position);
    let span = names::renameable(opened.shop, &opened.page, offset)
        .map_err(|why| (ErrorCode::RequestFailed, why))?;
    Ok(Some(opened.places.range(span).into()))
}

fn rename(desk: &Desk, params: RenameParams) -> Result<Option<WorkspaceEdit>, Refused> {
    let TextDocumentPositionParams { text_document, position } = params.text_document_position_params;
    let Some(mut opened) = opened(desk, &text_document) else { return Ok(None) };
    let offset = opened.offset(position);
    let edits = names::rename(opened.shop, &opened.page, offset, params.new_name.trim())
        .map_err(|why| (ErrorCode::RequestFailed, why))?;
    Ok(Some(opened.edit(edits)))
}

fn symbols(desk: &Desk, params: DocumentSymbolParams) -> Result<Option<DocumentSymbolResponse>, Refused> {
    let Some(mut opened) = opened(desk, &params.text_document) else { return Ok(None) };
    let rows = outline::of(&opened.page);
    let symbols: Vec<DocumentSymbol> = rows.into_iter().map(|row| symbol(row, &mut opened.places)).collect();
    Ok(Some(symbols.into()))
}

fn symbol(row: Row, places: &mut Places<'_>) -> DocumentSymbol {
    let kind = match row.sort {
        RowSort::Procedure | RowSort::Catalogue => SymbolKind::Module,
        RowSort::Block => SymbolKind::Package,
        RowSort::Thing => SymbolKind::Variable,
        RowSort::Section => SymbolKind::Namespace,
        RowSort::Message => SymbolKind::Event,
        RowSort::Step => SymbolKind::Function,
    };
    let children: Vec<DocumentSymbol> = row.rows.into_iter().map(|row| symbol(row, places)).collect();
    #[allow(deprecated)]
    DocumentSymbol {
        // Clients refuse an empty name.
        name: if row.name.is_empty() { "…".to_owned() } else { row.name },
        detail: (!row.detail.is_empty()).then_some(row.detail),
        kind,
        range: places.range(row.whole),
        selection_range: places.range(row.line),
        children: (!children.is_empty()).then_some(children),
        tags: None,
        deprecated: None,
    }
}

fn folds(desk: &Desk, params: FoldingRangeParams) -> Result<Option<Vec<FoldingRange>>, Refused> {
    let Some(mut opened) = opened(desk, &params.text_document) else { return Ok(None) };
    let spans = folding::of(&opened.page).into_iter();
    let ranges =
        spans.map(|span| opened.places.range(span)).filter(|range| range.start.line < range.end.line);
    let fold = |range: Range| FoldingRange {
        start_line: range.start.line,
        end_line: range.end.line,
        ..FoldingRange::default()
    };
    Ok(Some(ranges.map(fold).collect()))
}

/// How wide a client would indent is not asked: the house has one layout.
fn formatted(desk: &Desk, params: DocumentFormattingParams) -> Result<Option<Vec<TextEdit>>, Refused> {
    let Some(mut opened) = opened(desk, &params.text_document) else { return Ok(None) };
    let edits = formatting::of(&opened.page).into_iter();
    let edits = edits.map(|edit| TextEdit { range: opened.places.range(edit.span), new_text: edit.text });
    Ok(Some(edits.collect()))
}

fn inlays(desk: &Desk, params: InlayHintParams) -> Result<Option<Vec<InlayHint>>, Refused> {
    let Some(mut opened) = opened(desk, &params.text_document) else { return Ok(None) };
    let range = opened.offset(params.range.start)..opened.offset(params.range.end).saturating_add(1);
    let file = opened.page.source.id;
    let hints = hints::of(opened.shop, &opened.page, &range).into_iter().map(|hint| InlayHint {
        position: opened.places.range(Span::new(file, hint.at, hint.at)).start,
        label: hint.text.into(),
        kind: None,
        text_edits: None,
        tooltip: None,
        padding_left: Some(!hint.leads),
        padding_right: Some(hint.leads),
        data: None,
    });
    Ok(Some(hints.collect()))
}

fn tokens(desk: &Desk, params: SemanticTokensParams) -> Result<Option<SemanticTokens>, Refused> {
    let Some(mut opened) = opened(desk, &params.text_document) else { return Ok(None) };
    let (mut line, mut character) = (0, 0);
    let colours = colours::of(opened.shop, &opened.page).into_iter().map(|colour| {
        let Range { start, end } = opened.places.range(colour.span);
        let delta_line = start.line - line;
        let delta_start = if delta_line == 0 { start.character - character } else { start.character };
        (line, character) = (start.line, start.character);
        SemanticToken {
            delta_line,
            delta_start,
            length: end.character.saturating_sub(start.character),
            token_type: colour.class,
            token_modifiers_bitset: u32::from(colour.declares),
        }
    });
    Ok(Some(SemanticTokens { result_id: None, data: colours.collect() }))
}

fn actions(desk: &Desk, params: CodeActionParams) -> Result<Option<Vec<CodeActionResponse>>, Refused> {
    let wanted = params.context.only.unwrap_or_default();
    let quick = |kind: &CodeActionKind| matches!(kind, CodeActionKind::QuickFix | CodeActionKind::Empty);
    if !wanted.is_empty() && !wanted.iter().any(quick) {
        return Ok(Some(Vec::new()));
    }
    let Some(mut opened) = opened(desk, &params.text_document) else { return Ok(None) };
    let range = opened.offset(params.range.start)..opened.offset(params.range.end);
    let page = Rc::clone(&opened.page);
    let Some(workspace) = opened.shop.workspace() else { return Ok(Some(Vec::new())) };
    let looked = page.looked(&workspace.settings);
    let actions = fixes::at(&looked, &range).into_iter().map(|fix| {
        let edit = opened.edit(fix.edits);
        let action = CodeAction {
            title: fix.title,
            kind: Some(CodeActionKind::QuickFix),
            diagnostics: Some(vec![diagnostic(fix.finding, &mut opened.places)]),
            is_preferred: Some(fix.safe),
            edit: Some(edit),
            ..CodeAction::default()
        };
        CodeActionResponse::CodeAction(action)
    });
    Ok(Some(actions.collect()))
}
