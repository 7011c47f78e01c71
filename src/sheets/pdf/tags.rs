//! What each piece of a page is, for those who have it read out.
use super::markup::Element;
use krilla::tagging::{Identifier, ListNumbering, Node, TableHeaderScope, Tag, TagGroup, TagKind, TagTree};
use std::num::NonZeroU16;

/// A tag of the document.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct TagId(usize);

struct Tagged {
    kind: TagKind,
    children: Vec<Child>,
}

enum Child {
    Tag(usize),
    Content(Identifier),
}

/// The tags in reading order, the document's own first.
pub struct Tags(Vec<Tagged>);

impl Tags {
    pub fn new() -> Tags {
        Tags(vec![Tagged { kind: Tag::Div.into(), children: Vec::new() }])
    }

    pub fn root(&self) -> TagId {
        TagId(0)
    }

    pub fn open(&mut self, parent: TagId, kind: impl Into<TagKind>) -> TagId {
        let id = self.0.len();
        self.0.push(Tagged { kind: kind.into(), children: Vec::new() });
        if let Some(parent) = self.0.get_mut(parent.0) {
            parent.children.push(Child::Tag(id));
        }
        TagId(id)
    }

    /// The tag of an element of a page.
    pub fn of(&mut self, parent: TagId, element: &Element) -> TagId {
        let heading = |level: u16| {
            let level = NonZeroU16::new(level).unwrap_or(NonZeroU16::MIN);
            TagKind::from(Tag::Hn(level, Some(element.words())))
        };
        let kind = match element.name.as_str() {
            "h1" => heading(1),
            "h2" => heading(2),
            "h3" => heading(3),
            "section" => Tag::Section.into(),
            "ul" => Tag::L(ListNumbering::None).into(),
            "ol" => Tag::L(ListNumbering::Decimal).into(),
            "li" => {
                let item = self.open(parent, Tag::LI);
                return self.open(item, Tag::LBody);
            }
            "table" => Tag::Table.into(),
            "thead" => Tag::THead.into(),
            "tbody" => Tag::TBody.into(),
            "tr" => Tag::TR.into(),
            "th" if element.attribute("scope") == Some("row") => Tag::TH(TableHeaderScope::Row).into(),
            "th" => Tag::TH(TableHeaderScope::Column).into(),
            "td" => Tag::TD.into(),
            "p" | "dt" | "dd" => Tag::P.into(),
            "figcaption" | "caption" => Tag::Caption.into(),
            _ => Tag::Div.into(),
        };
        self.open(parent, kind)
    }

    /// A drawing that `words` describe.
    pub fn figure(&mut self, parent: TagId, words: String) -> TagId {
        self.open(parent, Tag::Figure(Some(words)))
    }

    pub fn fill(&mut self, tag: TagId, content: Identifier) {
        if let Some(tagged) = self.0.get_mut(tag.0) {
            tagged.children.push(Child::Content(content));
        }
    }

    pub fn tree(self) -> TagTree {
        let mut tree = TagTree::new();
        // From the last back: what stands in a tag always came after it.
        let mut done: Vec<Option<TagGroup>> = Vec::new();
        done.resize_with(self.0.len(), || None);
        for (at, tagged) in self.0.into_iter().enumerate().rev() {
            let mut group = TagGroup::new(tagged.kind);
            for child in tagged.children {
                match child {
                    Child::Content(content) => group.push(content),
                    Child::Tag(id) => {
                        let inner = done.get_mut(id).and_then(Option::take);
                        if let Some(inner) = inner.filter(|inner| !inner.children.is_empty()) {
                            group.push(Node::Group(inner));
                        }
                    }
                }
            }
            if let Some(place) = done.get_mut(at) {
                *place = Some(group);
            }
        }
        if let Some(root) = done.first_mut().and_then(Option::take) {
            tree.push(Node::Group(root));
        }
        tree
    }
}
