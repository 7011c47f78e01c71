//! What can stand at the cursor, each with a word on what it is.
mod behind;
mod known;
mod spot;

use super::hover;
use super::shop::{Page, Shop};
use crate::model::verb::Verb;
use crate::syntax::words::{self, OPENERS, Place};
use known::Known;
use spot::{On, Spot};

/// One thing to choose. It takes the place of `start..` up to the cursor.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Offer {
    pub label: String,
    pub sort: OfferSort,
    /// What it is, in a few words.
    pub detail: String,
    /// Markdown.
    pub about: String,
    /// The byte from which on what is written is replaced.
    pub start: usize,
    /// The lower, the further up.
    pub rank: u8,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum OfferSort {
    Keyword,
    Verb,
    Part,
    Tool,
    Supply,
    Name,
    Label,
    Message,
    Hazard,
    Wear,
    Attribute,
    Detail,
    Unit,
    Code,
    Number,
    File,
    Rule,
}

/// Gathers offers.
struct Offers<'a> {
    shop: &'a Shop,
    page: &'a Page,
    known: Known<'a>,
    spot: Spot<'a>,
    found: Vec<Offer>,
}

/// What can stand at `offset`, the likeliest first.
pub fn at(shop: &Shop, page: &Page, offset: usize) -> Vec<Offer> {
    let spot = spot::of(page.text(), offset);
    let mut offers = Offers { shop, page, known: Known::of(shop, page), spot, found: Vec::new() };
    offers.gather();
    let mut found = offers.found;
    found.sort_by(|a, b| (a.rank, &a.label).cmp(&(b.rank, &b.label)));
    found.dedup_by(|a, b| a.label == b.label);
    found
}

impl Offers<'_> {
    fn gather(&mut self) {
        match self.spot.on {
            On::Margin => self.action(),
            On::Message => self.message(),
            On::Opener(word) => self.behind_opener(word),
            On::Declaration(block) => self.declaration(block),
            On::Under(opener) => self.details(opener),
            On::Detail(key) => self.value(key),
            On::Bracket => self.names(self.spot.start, 0),
            On::Path(word) => self.paths(word),
            On::Nowhere => {}
        }
    }

    /// The place where the word under the cursor starts.
    fn word_start(&self) -> usize {
        let word = |letter: char| letter.is_alphanumeric() || matches!(letter, '-' | '_');
        let stays = self.spot.before.trim_end_matches(word).len();
        self.spot.start + stays
    }

    fn offer(&mut self, start: usize, rank: u8, sort: OfferSort, label: &str, detail: &str, about: String) {
        let (label, detail) = (label.to_owned(), detail.to_owned());
        self.found.push(Offer { label, sort, detail, about, start, rank });
    }

    fn keywords(&mut self, rank: u8, words: &[&str]) {
        let start = self.word_start();
        words.iter().for_each(|word| self.offer(start, rank, OfferSort::Keyword, word, "", String::new()));
    }

    /// The first word of a statement or an action.
    fn first_word(&mut self) {
        let start = self.spot.start;
        for verb in Verb::all() {
            for (place, word) in std::iter::once(&verb.name).chain(&verb.synonyms).enumerate() {
                let rank = if place == 0 { 1 } else { 2 };
                self.offer(start, rank, OfferSort::Verb, word, &verb.about, hover::verb(verb));
            }
        }
        for (word, about, example) in hover::STEERING {
            let told = format!("{about}\n\n```cotter\n{example}\n```");
            self.offer(start, 1, OfferSort::Verb, word, about, told);
        }
        let house: Vec<String> =
            self.shop.workspace().map(|it| it.settings.verbs.keys().cloned().collect()).unwrap_or_default();
        house.iter().for_each(|word| {
            self.offer(start, 2, OfferSort::Verb, word, "a word of the house", String::new())
        });
        let line_start = self.page.text().get(..start).is_some_and(|it| it.is_empty() || it.ends_with('\n'));
        if line_start {
            for word in OPENERS {
                let about =
                    if spot::is_message(word) { hover::signal(word).to_owned() } else { String::new() };
                self.offer(start, 0, OfferSort::Keyword, word, "", about);
            }
        }
    }

    /// The key of a detail, by what it would stand under.
    fn details(&mut self, opener: &str) {
        let place = match opener {
            "procedure" | "catalogue" => Place::Header,
            "section" => Place::Section,
            word if spot::is_message(word) => Place::Message,
            word if spot::is_step(word) => Place::Step,
            _ => return,
        };
        let start = self.spot.start;
        // Behind a blank it is prose.
        if self.spot.before.contains(' ') {
            return;
        }
        let mut keys: Vec<_> = words::details().filter(|key| key.on.contains(&place)).collect();
        keys.sort_by_key(|key| &key.key);
        for key in keys {
            let arguments = matches!(key.key.as_str(), "if" | "option" | "except");
            let label = if arguments { format!("{} ", key.key) } else { format!("{}: ", key.key) };
            self.offer(start, 0, OfferSort::Detail, &label, &key.about, hover::detail(key));
        }
    }

    fn behind_opener(&mut self, word: &str) {
        if matches!(word, "parts" | "tools" | "supplies" | "torques" | "figures") {
            self.keywords(0, &["none"]);
        }
    }

    /// Files that a `use` could name, as they are written from here.
    fn paths(&mut self, word: &str) {
        if word != "use" {
            return;
        }
        let start = self.spot.start;
        for name in self.shop.catalogue_files() {
            if *name != *self.page.source.name {
                let path = known::path_from(&self.page.source.name, name);
                self.offer(start, 0, OfferSort::File, &path, name, String::new());
            }
        }
    }
}
