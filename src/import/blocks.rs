//! The list as blocks: headings, items with their own lists, paragraphs. CommonMark decides what is which.
use super::messages;
use crate::model::quantity::Unit;
use pulldown_cmark::{CodeBlockKind, Event, Options, Parser, Tag, TagEnd};
use std::borrow::Cow;

/// One piece of the list, in order. Texts are on one line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Block {
    Heading(String),
    /// An item of an outermost list, its further paragraphs and the items below it.
    Item {
        text: String,
        more: Vec<String>,
    },
    Paragraph(String),
}

/// Reads the blocks.
pub fn read(text: &str) -> Vec<Block> {
    let mut reader = Reader::default();
    let mut numbering = Numbering::default();
    let text: String = text.split_inclusive('\n').map(|line| numbering.line(line)).collect();
    let parser = Parser::new_ext(&text, Options::empty());
    // The addresses of links by name stand in no text.
    let mut named: Vec<(usize, String)> = parser
        .reference_definitions()
        .iter()
        .map(|(name, it)| {
            let words = format!("{name}: {}", named(&it.dest, it.title.as_deref().unwrap_or_default()));
            (it.span.start, words)
        })
        .collect();
    named.sort_unstable();
    parser.for_each(|event| reader.take(event));
    reader.end();
    reader.blocks.extend(named.into_iter().map(|(_, words)| Block::Paragraph(words)));
    reader.blocks
}

/// Lines numbered in ways that CommonMark does not know, as items that it does: `2.1 Open the plug`, `3a) Fit the ring`,
/// `a) Look round`. Each must go on from the line numbered before it, or the figure is one of the words.
#[derive(Default)]
struct Numbering {
    /// Of the last item.
    item: u32,
    letter: char,
}

impl Numbering {
    fn line<'t>(&mut self, line: &'t str) -> Cow<'t, str> {
        let rest = line.trim_start();
        let Some((marker, words)) = rest.split_once(' ') else { return line.into() };
        if let Some(item) = marker.strip_suffix(['.', ')']).and_then(figures) {
            (self.item, self.letter) = (item, '\0');
            return line.into();
        }
        let words = words.trim_start();
        // A figure with its unit numbers no line.
        let begins = words.starts_with(|c: char| c.is_uppercase()) && Unit::starting(words).is_none();
        if !begins || !self.goes_on(marker) {
            return line.into();
        }
        // Only the first number may begin a list below a line of words; behind an item any will do.
        let lead = line.get(..line.len() - rest.len()).unwrap_or("");
        format!("{lead}1. {words}").into()
    }

    fn goes_on(&mut self, marker: &str) -> bool {
        let bare = marker.trim_end_matches(['.', ')']);
        let split = bare.find(|c: char| !c.is_ascii_digit()).unwrap_or(bare.len());
        let (number, below) = bare.split_at(split);
        let item = figures(number).unwrap_or(self.item);
        let follows = self.item > 0 && (item == self.item || item == self.item + 1);
        let mut letters = below.chars();
        let is_numbered = match (letters.next(), letters.as_str()) {
            (Some('.'), rest) => !number.is_empty() && rest.split('.').all(|part| figures(part).is_some()),
            (Some(letter @ 'a'..='z'), "") if marker.ends_with(')') => {
                let begins = letter == 'a' || (item == self.item && letter as u32 == self.letter as u32 + 1);
                self.letter = if begins { letter } else { self.letter };
                begins
            }
            _ => false,
        };
        if follows && is_numbered {
            self.item = item;
        }
        follows && is_numbered
    }
}

/// A number as lines have it, above zero.
fn figures(text: &str) -> Option<u32> {
    let is_short = (1..=3).contains(&text.len()) && text.bytes().all(|byte| byte.is_ascii_digit());
    text.parse().ok().filter(|number| is_short && *number > 0)
}

/// The address of a link, and what the link is called.
fn named(address: &str, title: &str) -> String {
    if title.is_empty() { address.to_owned() } else { format!("{address}, {title}") }
}

#[derive(Default)]
struct Reader {
    blocks: Vec<Block>,
    words: String,
    /// How many lists are open.
    depth: usize,
    heading: bool,
    /// Addresses of open links, with their titles.
    links: Vec<String>,
    /// A line of the paragraph has just ended.
    broke: bool,
}

impl Reader {
    fn take(&mut self, event: Event<'_>) {
        // A line that warns is a paragraph of its own, though no blank line stands before it.
        if let Event::Text(text) = &event
            && self.broke
            && !self.heading
            && self.links.is_empty()
            && messages::read(text).is_some()
        {
            self.end();
        }
        self.broke = matches!(event, Event::SoftBreak | Event::HardBreak);
        match event {
            Event::Text(text) | Event::Code(text) | Event::Html(text) | Event::InlineHtml(text) => {
                self.words.push_str(&text);
            }
            Event::SoftBreak | Event::HardBreak | Event::Rule => self.words.push(' '),
            Event::Start(tag) => self.start(tag),
            Event::End(tag) => self.stop(tag),
            _ => {}
        }
    }

    fn start(&mut self, tag: Tag<'_>) {
        match tag {
            Tag::Heading { .. } => {
                self.end();
                self.heading = true;
            }
            Tag::List(_) => {
                self.end();
                self.depth += 1;
            }
            Tag::Item => {
                self.end();
                if self.depth == 1 {
                    self.blocks.push(Block::Item { text: String::new(), more: Vec::new() });
                }
            }
            Tag::CodeBlock(CodeBlockKind::Fenced(words)) => {
                self.end();
                self.words.push_str(&words);
                self.words.push(' ');
            }
            Tag::Paragraph | Tag::CodeBlock(_) | Tag::HtmlBlock | Tag::BlockQuote(_) => self.end(),
            Tag::Link { dest_url, title, .. } | Tag::Image { dest_url, title, .. } => {
                self.links.push(named(&dest_url, &title));
            }
            _ => {}
        }
    }

    fn stop(&mut self, tag: TagEnd) {
        match tag {
            TagEnd::List(_) => {
                self.end();
                self.depth = self.depth.saturating_sub(1);
            }
            TagEnd::Link | TagEnd::Image => {
                let address = self.links.pop().unwrap_or_default();
                if !self.words.ends_with(&address) {
                    self.words.push_str(&format!(" ({address})"));
                }
            }
            TagEnd::Heading(_)
            | TagEnd::Item
            | TagEnd::Paragraph
            | TagEnd::CodeBlock
            | TagEnd::HtmlBlock
            | TagEnd::BlockQuote(_) => self.end(),
            _ => {}
        }
    }

    /// Puts what was read where it belongs.
    fn end(&mut self) {
        let words = self.words.split_whitespace().collect::<Vec<_>>().join(" ");
        self.words.clear();
        let heading = std::mem::take(&mut self.heading);
        if words.is_empty() {
            return;
        }
        match self.blocks.last_mut() {
            Some(Block::Item { text, more }) if self.depth > 0 && !heading => {
                if text.is_empty() {
                    *text = words
                } else {
                    more.push(words)
                }
            }
            _ if heading => self.blocks.push(Block::Heading(words)),
            _ => self.blocks.push(Block::Paragraph(words)),
        }
    }
}
