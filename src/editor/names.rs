//! Where a name is given, where it is used, and giving it another.
use super::marks::{self, Kind, Mark, Sort, Use};
use super::shop::{Page, Shop};
use crate::model::catalogues::join;
use crate::model::hazard::Hazard;
use crate::report::Edit;
use crate::source::{FileId, SourceFile, Span};
use crate::syntax::{self, ast::Head};

/// What stands at a place and leads somewhere.
#[derive(Debug, Clone, PartialEq, Eq)]
enum Lead {
    /// A name, and where it is declared.
    Name(Span),
    /// A procedure's number.
    Number,
    /// A file of the workspace.
    File(String),
}

/// Where the name, number or path at `offset` leads.
pub fn definition(shop: &Shop, page: &Page, offset: usize) -> Vec<Span> {
    let Some(mark) = named(shop, page, offset) else { return Vec::new() };
    match lead(shop, page, mark) {
        Some(Lead::Name(span)) => vec![span],
        Some(Lead::Number) => procedures(shop, page.source.slice(mark.span)),
        Some(Lead::File(name)) => {
            let id = shop.workspace().and_then(|workspace| workspace.id(&name));
            id.map(|id| Span::new(id, 0, 0)).into_iter().collect()
        }
        None => Vec::new(),
    }
}

/// Every place that names the same thing, by file and place; the one that declares it only if asked for.
pub fn references(shop: &Shop, page: &Page, offset: usize, with_declaration: bool) -> Vec<Span> {
    let Some(mark) = named(shop, page, offset) else { return Vec::new() };
    let Some(wanted) = lead(shop, page, mark) else { return Vec::new() };
    let word = page.source.slice(mark.span).to_owned();
    let mut found = Vec::new();
    for id in places_of(shop, page, &wanted) {
        let sought = match &wanted {
            Lead::File(name) => name.rsplit('/').next().unwrap_or(name),
            _ => &word,
        };
        // Most files need not be read as more than text.
        let holds = |source: SourceFile| source.text.contains(sought);
        if !shop.source(id).is_some_and(holds) {
            continue;
        }
        let Some(other) = shop.page(id) else { continue };
        let same = |it: &&Mark| {
            let declares = matches!(it.kind, Kind::Name(Use::Declared(_)) | Kind::Number(Use::Declared(_)));
            (with_declaration || !declares)
                && (matches!(wanted, Lead::File(_)) || other.source.slice(it.span) == word)
                && lead(shop, &other, it).as_ref() == Some(&wanted)
        };
        found.extend(shop.marks(&other).iter().filter(same).map(|it| it.span));
    }
    found.sort_unstable();
    found.dedup();
    found
}

/// Files that may name it: all where it comes from a catalogue, its own where it does not.
fn places_of(shop: &Shop, page: &Page, wanted: &Lead) -> Vec<FileId> {
    let local = match wanted {
        Lead::Name(span) if span.file == page.source.id => page.document.procedure().is_some(),
        _ => false,
    };
    if local { vec![page.source.id] } else { shop.ids().collect() }
}

/// What can be renamed at `offset`, with the place of the word.
///
/// # Errors
/// Why it cannot, as a sentence for the author.
pub fn renameable(shop: &Shop, page: &Page, offset: usize) -> Result<Span, String> {
    let mark = named(shop, page, offset).ok_or("No name stands here that could be changed")?;
    match (&mark.kind, lead(shop, page, mark)) {
        (Kind::Name(_), Some(Lead::Name(_))) => Ok(mark.span),
        (Kind::Name(_), _) => {
            Err(format!("`{}` is declared nowhere: declare it first", page.source.slice(mark.span)))
        }
        (Kind::Number(_), _) => {
            Err("A procedure's number is not changed by a rename: records and printed sheets \
                                     bear it"
                .to_owned())
        }
        _ => Err("Only names of things, labels and standing messages can be changed".to_owned()),
    }
}

/// The edits that give the thing at `offset` another name, in every file that names it.
///
/// # Errors
/// Why not, as a sentence for the author: the name cannot be one, or is taken.
pub fn rename(shop: &Shop, page: &Page, offset: usize, new: &str) -> Result<Vec<Edit>, String> {
    let span = renameable(shop, page, offset)?;
    if page.source.slice(span) == new {
        return Ok(Vec::new());
    }
    usable(new)?;
    let places = references(shop, page, offset, true);
    let mut files: Vec<FileId> = places.iter().map(|place| place.file).collect();
    files.dedup();
    for id in files {
        let Some(other) = shop.page(id) else { continue };
        if let Some(taken) = declaration(shop, &other, new) {
            let line = shop.source(taken.file).map(|source| source.line_column(taken.start).0);
            let file = shop.source(taken.file).map(|source| source.name.to_string());
            let at = format!("{}, line {}", file.unwrap_or_default(), line.unwrap_or_default());
            return Err(format!("`{new}` is taken already: it is declared in {at}"));
        }
    }
    let declares = |place: &&Span| Some(**place) == declaration(shop, page, page.source.slice(span));
    if !places.iter().any(|place| declares(&place)) {
        return Err("It is declared in a file that is not among the workspace's sources".to_owned());
    }
    let is_message = places.iter().any(|place| {
        let declares = |it: &&Mark| it.span == *place && it.kind == Kind::Name(Use::Declared(Sort::Message));
        shop.page(place.file).is_some_and(|other| shop.marks(&other).iter().any(|it| declares(&it)))
    });
    if is_message && Hazard::find(new).is_some() {
        return Err(format!("`{new}` is a class of hazard, and a message of that name could not be called"));
    }
    Ok(places.into_iter().map(|span| Edit { span, text: new.to_owned() }).collect())
}

/// Whether a word can be a name; the grammar says so.
fn usable(word: &str) -> Result<(), String> {
    let letters = |byte: u8| byte.is_ascii_lowercase() || byte.is_ascii_digit() || byte == b'-';
    if !word.starts_with(|first: char| first.is_ascii_lowercase()) || !word.bytes().all(letters) {
        return Err(format!("`{word}` cannot be a name: small letters, figures and hyphens, a letter first"));
    }
    let line = SourceFile::new(FileId::default(), "", format!("parts\n    {word} \"x\"\n"));
    let read = syntax::parse(&line);
    let declared = read.tree.statements.iter().find_map(|statement| match &statement.head {
        Head::Block { declarations, .. } => declarations.first(),
        _ => None,
    });
    match declared.filter(|it| it.name.as_str() == word && read.findings.is_empty()) {
        Some(_) => Ok(()),
        None => Err(format!("`{word}` cannot be a name: it has a meaning of its own in a line")),
    }
}

/// Where a word is declared, for this page: in its own file, else in a catalogue it draws on.
pub fn declaration(shop: &Shop, page: &Page, word: &str) -> Option<Span> {
    own_declaration(shop, page, word).or_else(|| shop.lent(page, word).map(|(_, _, span)| span))
}

fn own_declaration(shop: &Shop, page: &Page, word: &str) -> Option<Span> {
    let declares = |it: &&Mark| matches!(it.kind, Kind::Name(Use::Declared(_)));
    let mut own = shop.marks(page).iter().filter(declares);
    own.find(|it| page.source.slice(it.span) == word).map(|it| it.span)
}

/// Every file that has the number.
fn procedures(shop: &Shop, number: &str) -> Vec<Span> {
    let Some(workspace) = shop.workspace() else { return Vec::new() };
    let entries = workspace.register.find(number).iter();
    let files = entries.filter_map(|entry| shop.page(workspace.id(&entry.file)?));
    files.filter_map(|page| Some(page.document.procedure()?.number.span)).collect()
}

fn named<'p>(shop: &Shop, page: &'p Page, offset: usize) -> Option<&'p Mark> {
    marks::at(shop.marks(page), offset, |kind| matches!(kind, Kind::Name(_) | Kind::Number(_) | Kind::Path))
}

fn lead(shop: &Shop, page: &Page, mark: &Mark) -> Option<Lead> {
    let word = page.source.slice(mark.span);
    match mark.kind {
        Kind::Name(Use::Declared(_)) => Some(Lead::Name(mark.span)),
        Kind::Name(Use::Used) => declaration(shop, page, word).map(Lead::Name),
        Kind::Number(_) => Some(Lead::Number),
        Kind::Path => join(&page.source.name, word.trim_matches(['"', '“', '”'])).ok().map(Lead::File),
        _ => None,
    }
}
