//! Free text: its `[name]` references, and markup that is not allowed.
use super::Resolver;
use crate::model::declarations::Name;
use crate::model::prose::{Prose, Target};
use crate::model::slip::Slip;
use crate::source::{FreeText, Span, Spanned, Text};
use crate::syntax::ast::{self, PhraseKind};
use pulldown_cmark::{BrokenLink, CowStr, Event, Options, Parser, Tag};
use std::collections::HashSet;
use std::ops::Range;

const SCHEMES: [&str; 3] = ["http", "https", "mailto"];

impl Resolver<'_> {
    pub(super) fn prose(&mut self, written: ast::Prose) -> Prose {
        let mut prose = Prose { text: written, references: Box::default() };
        self.resolve_prose(&mut prose);
        prose
    }

    /// Quoted text that readers see as prose.
    pub(super) fn prose_of_text(&mut self, text: &Text) -> Prose {
        let start = u32::try_from(self.start_of(text)).unwrap_or(u32::MAX);
        let source = text.value.to_string().into();
        let text = FreeText { source, lines: [(0, start)].into(), span: text.span };
        let mut prose = Prose { text, references: Box::default() };
        self.resolve_prose(&mut prose);
        prose
    }

    /// Most prose has neither bracket nor angle and needs no reading.
    fn resolve_prose(&mut self, prose: &mut Prose) {
        if self.bare || memchr::memchr2(b'[', b'<', prose.source.as_bytes()).is_none() {
            return;
        }
        let (names, refused) = markup(&prose.source);
        let mut seen = HashSet::new();
        let mut references = Vec::new();
        for (name, range) in names {
            let span = prose.span_of(range.start, range.end);
            let word = Text::new(name, span);
            if let Some(target) = self.target(&word)
                && seen.insert(word.value.clone())
            {
                references.push((word.value.into(), Spanned::new(target, span)));
            }
        }
        prose.references = references.into();
        for (range, why) in refused {
            self.slip(Slip::RefusedMarkup { span: prose.span_of(range.start, range.end), why });
        }
    }

    /// Looks up the `[names]` in such texts. They are no CommonMark otherwise.
    pub(super) fn check_texts(&mut self, with_brackets: &[Text]) {
        for text in with_brackets {
            let start = self.start_of(text);
            for (name, range) in markup(text.as_str()).0 {
                let span = Span::new(text.span.file, start + range.start, start + range.end);
                self.target(&Text::new(name, span));
            }
        }
    }

    /// The quoted texts of an action that may speak of `[names]`.
    pub(super) fn with_brackets(&self, action: &ast::Action) -> Vec<Text> {
        if self.bare { Vec::new() } else { with_brackets(action) }
    }

    /// Counts the declared names among words without quotes after `while` and `until`: "turning hub".
    pub(super) fn use_plain_words(&mut self, words: &Text) {
        if self.start_of(words) != words.span.start as usize {
            return;
        }
        for word in words.as_str().split(' ') {
            if let Some(name) = self.declarations.find(word) {
                self.touch(name);
            }
        }
    }

    /// Where the words of a quoted text start, behind a quotation mark that its span may hold.
    fn start_of(&self, text: &Text) -> usize {
        let written = self.source.slice(text.span);
        let mark = written.chars().next().filter(|c| matches!(c, '"' | '“')).map_or(0, char::len_utf8);
        text.span.start as usize + mark
    }

    fn target(&mut self, word: &Text) -> Option<Target> {
        if let Some(step) = self.labels.step(word.as_str()) {
            return Some(Target::Step(step));
        }
        match self.find(word.as_str()) {
            Some(Name::Message(_)) | None => {
                self.dangling(word, "a declared thing or a labelled step");
                None
            }
            Some(name) => {
                self.touch(name);
                Some(Target::Thing(name))
            }
        }
    }
}

fn with_brackets(action: &ast::Action) -> Vec<Text> {
    fn text(phrase: &PhraseKind) -> Option<&Text> {
        match phrase {
            PhraseKind::Text(text)
            | PhraseKind::Facing(text)
            | PhraseKind::Until(text)
            | PhraseKind::While(text) => Some(text),
            PhraseKind::Place(place) => match &place.what {
                ast::Target::Text(text) => Some(text),
                _ => None,
            },
            _ => None,
        }
    }
    let texts = action.phrases.iter().filter_map(|phrase| text(&phrase.kind));
    texts.filter(|text| text.as_str().contains('[')).cloned().collect()
}

/// The `[name]`s of a text in order, and what of its markup is refused.
type Markup = (Vec<(String, Range<usize>)>, Vec<(Range<usize>, &'static str)>);

fn markup(source: &str) -> Markup {
    let mut names = Vec::new();
    let mut refused = Vec::new();
    let mut callback = |link: BrokenLink<'_>| {
        if is_name(&link.reference) {
            names.push((link.reference.to_string(), link.span));
        }
        None::<(CowStr<'_>, CowStr<'_>)>
    };
    let parser = Parser::new_with_broken_link_callback(source, Options::empty(), Some(&mut callback));
    for (event, range) in parser.into_offset_iter() {
        match event {
            // A closing tag is the same slip as its opening one.
            Event::Html(text) | Event::InlineHtml(text) if text.starts_with("</") => {}
            Event::Html(_) | Event::InlineHtml(_) => refused.push((range, "raw HTML")),
            Event::Start(Tag::Link { dest_url, .. } | Tag::Image { dest_url, .. }) if !allowed(&dest_url) => {
                refused.push((range, "a link that is not http, https, mailto or relative"));
            }
            _ => {}
        }
    }
    (names, refused)
}

/// `[5]` and `[see there]` are ordinary text.
fn is_name(text: &str) -> bool {
    text.starts_with(|c: char| c.is_ascii_alphabetic())
        && text.bytes().all(|b| b.is_ascii_alphanumeric() || matches!(b, b'-' | b'_'))
}

fn allowed(url: &str) -> bool {
    let end = url.find(['/', '?', '#']).unwrap_or(url.len());
    match url.get(..end).and_then(|head| head.split_once(':')) {
        Some((scheme, _)) => SCHEMES.iter().any(|known| scheme.eq_ignore_ascii_case(known)),
        None => !url.starts_with("//"),
    }
}
