//! One of our own pages as a tree of tags. What a page shows stands in it once; the PDF is drawn from the same tags.
use html5gum::{StartTag, Token, Tokenizer};

#[derive(Debug, Clone)]
pub enum Node {
    Element(Element),
    Text(String),
}

#[derive(Debug, Clone, Default)]
pub struct Element {
    pub name: String,
    classes: Vec<String>,
    attributes: Vec<(String, String)>,
    pub children: Vec<Node>,
}

/// Tags that hold nothing and are never closed.
const EMPTY: [&str; 6] = ["meta", "link", "br", "hr", "img", "input"];

/// Tags in tags deeper than this are left out, and what is in them moves up: no page of ours needs them.
const DEEPEST: usize = 64;

/// The tags of a page, below one that stands for the page itself. What is not closed ends with what it stands in.
pub fn read(html: &str) -> Element {
    let mut open = vec![Element::default()];
    let mut left_out: Vec<String> = Vec::new();
    for token in Tokenizer::new(html) {
        match token {
            Ok(Token::StartTag(tag)) => {
                let element = element(&tag);
                let closed = tag.self_closing || EMPTY.contains(&element.name.as_str());
                if open.len() < DEEPEST {
                    open.push(element);
                    if closed {
                        close(&mut open);
                    }
                } else if !closed {
                    left_out.push(element.name);
                }
            }
            Ok(Token::EndTag(tag)) => {
                let name = String::from_utf8_lossy(&tag.name);
                if left_out.last().is_some_and(|last| *last == name) {
                    left_out.pop();
                } else if let Some(at) = open.iter().rposition(|element| element.name == *name) {
                    while open.len() > at.max(1) {
                        close(&mut open);
                    }
                }
            }
            Ok(Token::String(text)) => {
                let text = String::from_utf8_lossy(&text).into_owned();
                if let Some(last) = open.last_mut() {
                    last.children.push(Node::Text(text));
                }
            }
            Ok(Token::Comment(_) | Token::Doctype(_) | Token::Error(_)) | Err(_) => {}
        }
    }
    while open.len() > 1 {
        close(&mut open);
    }
    open.pop().unwrap_or_default()
}

fn close(open: &mut Vec<Element>) {
    if let Some(done) = open.pop()
        && let Some(last) = open.last_mut()
    {
        last.children.push(Node::Element(done));
    }
}

fn element(tag: &StartTag<()>) -> Element {
    let lossy = |bytes: &[u8]| String::from_utf8_lossy(bytes).into_owned();
    let attributes: Vec<(String, String)> =
        tag.attributes.iter().map(|(key, value)| (lossy(key), lossy(value))).collect();
    let classes = attributes.iter().find(|(key, _)| key == "class");
    let classes = classes.map(|(_, value)| value.split_whitespace().map(str::to_owned).collect());
    Element { name: lossy(&tag.name), classes: classes.unwrap_or_default(), attributes, children: Vec::new() }
}

impl Element {
    pub fn is(&self, name: &str) -> bool {
        self.name == name
    }

    pub fn has(&self, class: &str) -> bool {
        self.classes.iter().any(|it| it == class)
    }

    pub fn attribute(&self, key: &str) -> Option<&str> {
        self.attributes.iter().find(|(it, _)| it == key).map(|(_, value)| value.as_str())
    }

    pub fn number(&self, key: &str) -> Option<f32> {
        self.attribute(key)?.trim().parse().ok()
    }

    pub fn elements(&self) -> impl Iterator<Item = &Element> {
        self.children.iter().filter_map(|node| match node {
            Node::Element(element) => Some(element),
            Node::Text(_) => None,
        })
    }

    /// The first below it, at any depth, that fits.
    pub fn find(&self, fits: &impl Fn(&Element) -> bool) -> Option<&Element> {
        self.elements().find_map(|child| if fits(child) { Some(child) } else { child.find(fits) })
    }

    /// All its words, a blank between each two.
    pub fn words(&self) -> String {
        self.text().split_whitespace().collect::<Vec<_>>().join(" ")
    }

    /// All its words, blanks and lines as they stand.
    pub fn text(&self) -> String {
        let mut words = String::new();
        self.gather(&mut words);
        words
    }

    fn gather(&self, words: &mut String) {
        for child in &self.children {
            match child {
                Node::Text(text) => words.push_str(text),
                Node::Element(element) => element.gather(words),
            }
        }
    }
}
