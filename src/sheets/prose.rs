//! Prose to HTML: CommonMark with raw HTML shown as text, few link schemes, no headings, no images, and
//! `[name]` turned into what it names.
use super::{Sheet, html, sentences, wording};
use crate::model::Prose;
use pulldown_cmark::{BrokenLink, CowStr, Event, LinkType, Options, Parser, Tag, TagEnd};

/// Marks the address of a `[name]`; an author's own link with it is refused like any unknown scheme.
const REFERENCE: &str = "cotter-reference:";

/// Paragraphs, lists and quotes.
pub fn block(out: &mut String, prose: &Prose, sheet: &Sheet<'_>) {
    let Some(language) = sheet.context.own() else { return render(out, prose, sheet, false) };
    let mut text = String::new();
    render(&mut text, prose, sheet, false);
    // No text of the author's can hold a tag.
    let marked = |tag: &str| format!("{} lang=\"{language}\">", tag.trim_end_matches('>'));
    out.push_str(&["<p>", "<li>"].into_iter().fold(text, |text, tag| text.replace(tag, &marked(tag))));
}

/// Without paragraph tags, to stand in a line of ours.
pub fn inline(out: &mut String, prose: &Prose, sheet: &Sheet<'_>) {
    let Some(language) = sheet.context.own() else { return render(out, prose, sheet, true) };
    html::open_in(out, "span", language);
    render(out, prose, sheet, true);
    html::close(out, "span");
}

fn render(out: &mut String, prose: &Prose, sheet: &Sheet<'_>, inline: bool) {
    let found = found(&prose.source);
    if is_plain(&prose.source, found) {
        return plain(out, prose.source.trim(), found, inline);
    }
    let mut find = |link: BrokenLink<'_>| {
        prose
            .target(&link.reference)
            .map(|_| (CowStr::from(format!("{REFERENCE}{}", link.reference)), CowStr::Borrowed("")))
    };
    let parser = Parser::new_with_broken_link_callback(&prose.source, Options::empty(), Some(&mut find));
    let filter =
        Filter { events: parser, prose, sheet, before: String::new(), inline, open_links: Vec::new() };
    pulldown_cmark::html::push_html(out, filter);
}

/// Whether nothing in it can be CommonMark, so that the parser need not be asked.
fn is_plain(source: &str, found: u8) -> bool {
    let lines = || !source.contains("  \n") && source.lines().all(plain_line);
    found & MARK == 0 && if found & LINE == 0 { plain_line(source) } else { lines() }
}

/// Can be CommonMark wherever it stands.
const MARK: u8 = 1;
/// Ends a line.
const LINE: u8 = 2;
/// Is written otherwise in HTML.
const QUOTE: u8 = 4;

/// What the text holds of the three. Looks at every byte once and without stopping: most prose holds none.
fn found(source: &str) -> u8 {
    source.bytes().fold(0, |found, byte| found | KINDS.get(usize::from(byte)).copied().unwrap_or(0))
}

/// What each byte is, as a table.
#[expect(
    clippy::indexing_slicing,
    reason = "in a constant the compiler itself refuses a place that is not there"
)]
const KINDS: [u8; 256] = {
    let mut table = [0; 256];
    let mut byte = 0;
    while byte < 256 {
        table[byte] = kind(byte as u8);
        byte += 1;
    }
    table
};

const fn kind(byte: u8) -> u8 {
    match byte {
        b'*' | b'_' | b'`' | b'[' | b']' | b'<' | b'&' | b'\\' | b'#' | b'>' | b'~' => MARK,
        b'\n' => LINE,
        b'"' | b'\'' => QUOTE,
        _ => 0,
    }
}

fn plain_line(line: &str) -> bool {
    let first = line.trim_start().bytes().next();
    first.is_some_and(|first| !matches!(first, b'-' | b'+' | b'=' | b'0'..=b'9'))
}

fn plain(out: &mut String, text: &str, found: u8, inline: bool) {
    out.push_str(if inline { "" } else { "<p>" });
    if found & QUOTE == 0 {
        out.push_str(text);
    } else {
        html::escape(out, text);
    }
    out.push_str(if inline { "" } else { "</p>" });
}

struct Filter<'a, I> {
    events: I,
    prose: &'a Prose,
    sheet: &'a Sheet<'a>,
    /// The text just before, so that a name fits after it.
    before: String,
    inline: bool,
    /// For each open link, whether its start was let through: its end goes the same way.
    open_links: Vec<bool>,
}

impl<'a, I: Iterator<Item = Event<'a>>> Iterator for Filter<'a, I> {
    type Item = Event<'a>;

    fn next(&mut self) -> Option<Event<'a>> {
        loop {
            let event = self.events.next()?;
            if let Some(event) = self.filter(event) {
                return Some(event);
            }
        }
    }
}

impl<'a, I: Iterator<Item = Event<'a>>> Filter<'a, I> {
    fn filter(&mut self, event: Event<'a>) -> Option<Event<'a>> {
        match event {
            Event::Html(text) | Event::InlineHtml(text) => Some(Event::Text(text)),
            Event::Start(Tag::HtmlBlock) => self.paragraph(true),
            Event::End(TagEnd::HtmlBlock) => self.paragraph(false),
            Event::Start(Tag::Heading { .. }) => {
                Some(raw(if self.inline { "<strong>" } else { "<p><strong>" }))
            }
            Event::End(TagEnd::Heading(_)) => {
                Some(raw(if self.inline { "</strong> " } else { "</strong></p>\n" }))
            }
            Event::Start(Tag::Paragraph) => self.paragraph(true),
            Event::End(TagEnd::Paragraph) => self.paragraph(false),
            Event::Start(Tag::Image { .. }) => Some(Event::Start(Tag::Emphasis)),
            Event::End(TagEnd::Image) => Some(Event::End(TagEnd::Emphasis)),
            Event::Start(Tag::Link { link_type, dest_url, title, id }) => {
                if let Some(name) = dest_url.strip_prefix(REFERENCE)
                    && is_unknown(link_type)
                {
                    return self.reference(name);
                }
                let allowed = is_allowed(&dest_url);
                self.open_links.push(allowed);
                allowed.then_some(Event::Start(Tag::Link { link_type, dest_url, title, id }))
            }
            Event::End(TagEnd::Link) => {
                self.open_links.pop().unwrap_or(false).then_some(Event::End(TagEnd::Link))
            }
            other => {
                self.before.clear();
                if let Event::Text(text) = &other {
                    self.before.push_str(text);
                }
                Some(other)
            }
        }
    }

    fn paragraph(&self, start: bool) -> Option<Event<'a>> {
        match (self.inline, start) {
            (true, true) => None,
            (true, false) => Some(Event::SoftBreak),
            (false, true) => Some(Event::Start(Tag::Paragraph)),
            (false, false) => Some(Event::End(TagEnd::Paragraph)),
        }
    }

    /// Writes what the name stands for and drops the name itself.
    fn reference(&mut self, name: &str) -> Option<Event<'a>> {
        for event in self.events.by_ref() {
            if event == Event::End(TagEnd::Link) {
                break;
            }
        }
        let mut text = String::new();
        match self.prose.target(name) {
            Some(target) => {
                let words = wording::reference(&self.before, name, target, &self.sheet.words);
                sentences::runs(&mut text, &words);
            }
            None => html::escape(&mut text, name),
        }
        Some(Event::InlineHtml(CowStr::from(text)))
    }
}

fn is_unknown(link: LinkType) -> bool {
    matches!(link, LinkType::ReferenceUnknown | LinkType::CollapsedUnknown | LinkType::ShortcutUnknown)
}

/// Relative addresses and three schemes; all else (`javascript:`, `data:`, `file:`) is dropped.
fn is_allowed(address: &str) -> bool {
    match address.split_once(':') {
        Some((scheme, _)) if !scheme.contains(['/', '?', '#']) => {
            ["http", "https", "mailto"].iter().any(|s| scheme.eq_ignore_ascii_case(s))
        }
        _ => !address.trim_start().starts_with("//"),
    }
}

fn raw<'a>(markup: &'static str) -> Event<'a> {
    Event::InlineHtml(CowStr::Borrowed(markup))
}
