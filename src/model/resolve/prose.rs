//! Free text: its `[name]` references, and markup that is not allowed.
use super::Resolver;
use crate::model::declarations::Name;
use crate::model::prose::{Prose, Target};
use crate::model::slip::Slip;
use crate::source::{Spanned, Text};
use crate::syntax::ast;
use pulldown_cmark::{BrokenLink, CowStr, Event, Options, Parser, Tag};
use std::ops::Range;

const SCHEMES: [&str; 3] = ["http", "https", "mailto"];

impl Resolver<'_> {
    pub(super) fn prose(&mut self, written: &ast::Prose) -> Prose {
        let mut prose = Prose {
            source: written.source.clone(),
            lines: written.lines.clone(),
            span: written.span,
            references: Vec::new(),
        };
        self.resolve_prose(&mut prose);
        prose
    }

    /// Quoted text that readers see as prose.
    pub(super) fn prose_of_text(&mut self, text: &Text) -> Prose {
        // The quotation mark is part of the span where the parser kept it there.
        let quote = self.source.slice(text.span).starts_with(['"', '“']);
        let mark = self.source.slice(text.span).chars().next().map_or(0, char::len_utf8);
        let start = text.span.start.saturating_add(if quote { u32::try_from(mark).unwrap_or(0) } else { 0 });
        let mut prose = Prose {
            source: text.value.clone(),
            lines: vec![(0, start)],
            span: text.span,
            references: Vec::new(),
        };
        self.resolve_prose(&mut prose);
        prose
    }

    /// Most prose has neither bracket nor angle and needs no reading.
    fn resolve_prose(&mut self, prose: &mut Prose) {
        if !prose.source.contains(['[', '<']) {
            return;
        }
        let (names, refused) = markup(&prose.source);
        for (name, range) in names {
            let span = prose.span_of(range.start, range.end);
            let word = Text::new(name, span);
            if let Some(target) = self.target(&word)
                && prose.target(word.as_str()).is_none()
            {
                prose.references.push((word.value, Spanned::new(target, span)));
            }
        }
        for (range, why) in refused {
            self.slip(Slip::RefusedMarkup { span: prose.span_of(range.start, range.end), why });
        }
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
