//! An XML document as it is put together, and how it is written.
use quick_xml::Writer;
use quick_xml::events::{BytesEnd, BytesStart, BytesText, Event};
use std::io;

#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Element {
    name: &'static str,
    attributes: Vec<(&'static str, String)>,
    children: Vec<Node>,
}

#[derive(Debug, Clone, PartialEq, Eq)]
enum Node {
    Element(Element),
    Text(String),
}

impl Element {
    pub fn new(name: &'static str) -> Element {
        Element { name, attributes: Vec::new(), children: Vec::new() }
    }

    #[must_use]
    pub fn with(mut self, name: &'static str, value: impl Into<String>) -> Element {
        self.attributes.push((name, value.into()));
        self
    }

    #[must_use]
    pub fn text(mut self, text: impl Into<String>) -> Element {
        self.children.push(Node::Text(text.into()));
        self
    }

    #[must_use]
    pub fn child(mut self, child: Element) -> Element {
        self.children.push(Node::Element(child));
        self
    }

    #[must_use]
    pub fn children(mut self, children: impl IntoIterator<Item = Element>) -> Element {
        self.children.extend(children.into_iter().map(Node::Element));
        self
    }
}

/// The document with its declaration, then `head` as it stands, then the root.
pub fn written(head: &str, root: &Element) -> Result<String, String> {
    let mut bytes = format!("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n{head}").into_bytes();
    let mut writer = Writer::new_with_indent(&mut bytes, b' ', 2);
    put(&mut writer, root).map_err(|error| error.to_string())?;
    let text = String::from_utf8(bytes).map_err(|error| error.to_string())?;
    Ok(text + "\n")
}

fn put<W: io::Write>(writer: &mut Writer<W>, element: &Element) -> io::Result<()> {
    let attributes = element.attributes.iter().map(|(name, value)| (*name, value.as_str()));
    let start = BytesStart::new(element.name).with_attributes(attributes);
    if element.children.is_empty() {
        return writer.write_event(Event::Empty(start));
    }
    writer.write_event(Event::Start(start))?;
    for child in &element.children {
        match child {
            Node::Element(child) => put(writer, child)?,
            Node::Text(text) => writer.write_event(Event::Text(BytesText::new(&allowed(text))))?,
        }
    }
    writer.write_event(Event::End(BytesEnd::new(element.name)))
}

/// Without letters that XML has no place for (XML 1.0, 2.2).
fn allowed(text: &str) -> String {
    text.chars().filter(|c| *c >= ' ' || matches!(c, '\t' | '\n')).collect()
}
