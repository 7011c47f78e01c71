//! The names a page knows: its own, those of its catalogues, its labels.
use super::{Offer, OfferSort};
use crate::editor::marks::{Kind, Sort, Use};
use crate::editor::shop::{Page, Shop};
use crate::model::declarations::Declarations;
use crate::model::{Document, Name};
use crate::source::Text;
use std::collections::BTreeMap;

/// One name that can be used.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Entry {
    pub sort: Sort,
    /// What readers see.
    pub text: String,
    /// The file it comes from, where that is another.
    pub from: Option<String>,
}

/// By name.
pub struct Known<'a> {
    pub entries: BTreeMap<String, Entry>,
    shop: &'a Shop,
}

impl<'a> Known<'a> {
    pub fn of(shop: &'a Shop, page: &'a Page) -> Known<'a> {
        let mut known = Known { entries: BTreeMap::new(), shop };
        known.take(&page.document, None);
        for document in shop.catalogues(page) {
            let from = shop.source(document.file).map(|source| source.name.to_string());
            known.take(document, from.as_deref());
        }
        for mark in shop.marks(page) {
            if mark.kind == Kind::Name(Use::Declared(Sort::Label)) {
                let name = page.source.slice(mark.span).to_owned();
                let step = page.document.procedure().and_then(|procedure| {
                    procedure.steps().find(|step| step.extent.range().contains(&(mark.span.start as usize)))
                });
                let text = step.map_or_else(String::new, |step| format!("step {}", step.number));
                known.entries.entry(name).or_insert(Entry { sort: Sort::Label, text, from: None });
            }
        }
        known
    }

    fn take(&mut self, document: &Document, from: Option<&str>) {
        let declarations = &document.declarations;
        for (word, name) in &declarations.names {
            let Some((sort, text)) = described(declarations, *name) else { continue };
            let entry = Entry { sort, text, from: from.map(str::to_owned) };
            self.entries.entry(word.to_string()).or_insert(entry);
        }
        for (word, part) in &declarations.pieces {
            let text =
                declarations.part(*part).map_or_else(String::new, |part| part.thing.text.value.to_string());
            let entry = Entry { sort: Sort::Piece, text, from: from.map(str::to_owned) };
            self.entries.entry(word.to_string()).or_insert(entry);
        }
    }

    /// The offers of the names that `rank` wants, with their ranks.
    pub fn offers(&self, start: usize, rank: impl Fn(Sort) -> Option<u8>) -> Vec<Offer> {
        let offer = |(name, entry): (&String, &Entry)| {
            let from = entry.from.as_ref().map_or_else(String::new, |from| format!("\n\nfrom `{from}`"));
            Some(Offer {
                label: name.clone(),
                sort: offer_sort(entry.sort),
                detail: entry.text.clone(),
                about: format!("{} “{}”{from}", said(entry.sort), entry.text),
                start,
                rank: rank(entry.sort)?,
            })
        };
        self.entries.iter().filter_map(offer).collect()
    }

    pub fn shop(&self) -> &'a Shop {
        self.shop
    }
}

fn described(declarations: &Declarations, name: Name) -> Option<(Sort, String)> {
    let sort = match name {
        Name::Part(_) => Sort::Part,
        Name::Tool(_) => Sort::Tool,
        Name::Supply(_) => Sort::Supply,
        Name::Torque(_) => Sort::Torque,
        Name::Figure(_) => Sort::Figure,
        Name::Message(id) => {
            let message = declarations.messages.get(id as usize)?;
            let class = message.hazard.map_or("note", |hazard| hazard.value.name.as_str());
            return Some((Sort::Message, format!("{} {class}", message.signal.value.word())));
        }
    };
    Some((sort, declarations.thing(name).map(|it| Text::as_str(&it.text).to_owned())?))
}

fn offer_sort(sort: Sort) -> OfferSort {
    match sort {
        Sort::Part | Sort::Piece => OfferSort::Part,
        Sort::Tool => OfferSort::Tool,
        Sort::Supply => OfferSort::Supply,
        Sort::Label => OfferSort::Label,
        Sort::Message => OfferSort::Message,
        Sort::Torque | Sort::Figure | Sort::Procedure => OfferSort::Name,
    }
}

fn said(sort: Sort) -> &'static str {
    match sort {
        Sort::Part => "part",
        Sort::Piece => "piece of a set",
        Sort::Tool => "tool",
        Sort::Supply => "supply",
        Sort::Torque => "tightening list",
        Sort::Figure => "figure",
        Sort::Message => "standing message",
        Sort::Label => "label",
        Sort::Procedure => "procedure",
    }
}

/// How the file `to` is written in the file `from`, both relative to the workspace.
pub fn path_from(from: &str, to: &str) -> String {
    let mut here: Vec<&str> = from.split('/').collect();
    here.pop();
    let there: Vec<&str> = to.split('/').collect();
    let shared = here.iter().zip(&there).take_while(|(a, b)| a == b).count();
    let up = std::iter::repeat_n("..", here.len() - shared);
    up.chain(there.into_iter().skip(shared)).collect::<Vec<_>>().join("/")
}
