//! The blocks of a page, one below the other: the layout that the print style sheet asks for, on paper.
use super::drawing::{self, Pens, Sketch, sketch, tick_box};
use super::fonts::Fonts;
use super::look::{self, BASE, Look, PLAIN};
use super::markup::{Element, Node};
use super::picture;
use super::slab::{BLACK, Bar, Ink, LINE, Mark, Placed, Slab, WHITE, framed, rule, side_by_side, stack};
use super::table;
use super::tags::{TagId, Tags};
use super::words::Run;
use krilla::tagging::Tag;

/// Tags that begin a block; all else runs on with the words around it.
const BLOCKS: [&str; 25] = [
    "article",
    "blockquote",
    "dd",
    "div",
    "dl",
    "dt",
    "figcaption",
    "figure",
    "footer",
    "h1",
    "h2",
    "h3",
    "header",
    "li",
    "main",
    "nav",
    "ol",
    "p",
    "pre",
    "section",
    "table",
    "tbody",
    "thead",
    "tr",
    "ul",
];
pub(super) const GAP: f32 = PLAIN * 0.5;
/// What a message and a list are moved in by.
const TICKS: f32 = 44.0;
pub(super) const BLANKS: f32 = 152.0;

pub struct Flow<'a> {
    pub fonts: &'a Fonts,
    pub page: &'a Element,
    pub tags: Tags,
    /// Whether they are drawn; where not, their words stand for them.
    pub photographs: bool,
}

/// Where a block stands: how wide it may be, how its words look, and in which tag it is.
#[derive(Clone, Copy)]
pub struct Place {
    pub width: f32,
    pub look: Look,
    pub tag: TagId,
    /// How far messages are moved in, to stand above what they guard.
    pub inset: f32,
    pub since: Since,
}

/// What bars in the margin tell of an earlier revision.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Since {
    Same,
    /// The step that is met here changed.
    Changed,
    /// Within a step that has its bar already.
    Barred,
}

impl<'a> Flow<'a> {
    /// The strips of the page's own content.
    pub fn page(&mut self, width: f32) -> Vec<Slab> {
        let main = self.page.find(&|it| it.is("main")).or_else(|| self.page.find(&|it| it.is("body")));
        let tag = self.tags.root();
        main.map(|main| self.children(main, Place { width, look: BASE, tag, inset: 0.0, since: Since::Same }))
            .unwrap_or_default()
    }

    /// What stands in `element`, in order; words between blocks are a block of their own.
    pub fn children(&mut self, element: &'a Element, place: Place) -> Vec<Slab> {
        self.nodes(element.children.iter(), place)
    }

    fn nodes(&mut self, nodes: impl Iterator<Item = &'a Node>, place: Place) -> Vec<Slab> {
        let mut slabs = Vec::new();
        let mut run = Run::default();
        let mut is_told = false;
        for child in nodes {
            match child {
                Node::Element(child) if is_block(child) => {
                    slabs.extend(self.words(std::mem::take(&mut run), place));
                    let says = child.has("since") && place.since != Since::Barred;
                    let bar = match () {
                        () if says || child.has("step") && place.since == Since::Changed => Some(Bar::Single),
                        // The words stand before the message that they are about.
                        () if is_told && child.has("message") => Some(Bar::Double),
                        () => None,
                    };
                    let block = self.block(child, place);
                    slabs.extend(block.into_iter().map(|slab| match bar {
                        Some(bar) if !slab.is_room() => slab.barred(bar),
                        _ => slab,
                    }));
                    is_told = says;
                }
                _ => self.run(child, place.look, place.tag, &mut run),
            }
        }
        slabs.extend(self.words(run, place));
        slabs
    }

    pub(super) fn words(&mut self, run: Run, place: Place) -> Vec<Slab> {
        if run.is_empty() { Vec::new() } else { run.lines(place.width, self.fonts, place.tag) }
    }

    /// Adds a node to words that run on.
    pub(super) fn run(&mut self, node: &Node, look: Look, tag: TagId, run: &mut Run) {
        let element = match node {
            Node::Text(text) => return run.words(text, look),
            Node::Element(element) => element,
        };
        let inner = look::inside(element, look);
        match element.name.as_str() {
            "br" => run.line_break(),
            // A range of steps stays on its line.
            "a" => {
                let look = Look { whole: inner.whole || !element.words().contains(' '), ..inner };
                element.children.iter().for_each(|child| self.run(child, look, tag, run));
            }
            "script" | "style" | "title" | "input" | "button" => {}
            "svg" => {
                let pens = Pens { fonts: self.fonts, page: self.page, alert: (BLACK, WHITE), tag };
                let sketch = sketch(element, pens, Some(if element.has("sign") { 21.0 } else { 14.0 }));
                run.sketch(Sketch { below: sketch.height * 0.3, ..sketch }, look);
                run.words(" ", look);
            }
            _ if element.has("choice") => {
                element.children.iter().for_each(|child| self.run(child, inner, tag, run));
                run.words("\u{a0}\u{a0}", inner);
            }
            _ if element.has("box") => {
                let small = element.has("small");
                let (side, thick) = if small { (PLAIN * 0.95, 1.1) } else { (PLAIN * 1.5, 1.5) };
                run.sketch(tick_box(side, thick), inner);
                run.words("\u{a0}", if small { inner } else { Look { size: 2.0 * inner.size, ..inner } });
            }
            _ if element.has("rule") => {}
            _ => element.children.iter().for_each(|child| self.run(child, inner, tag, run)),
        }
    }

    pub(super) fn block(&mut self, element: &'a Element, around: Place) -> Vec<Slab> {
        let tag = self.tags.of(around.tag, element);
        let place = Place { look: look::inside(element, around.look), tag, ..around };
        match element.name.as_str() {
            "table" => return spaced(table::table(self, element, place), 0.0, GAP),
            "h1" => return self.children(element, place),
            "h2" => return self.heading(element, place),
            "ul" if element.has("wear") => return self.in_line(element, place),
            "ul" if element.has("again") => return self.in_line(element, place),
            "ul" | "ol" => return self.list(element, place),
            "figure" => return self.figure(element, place),
            "svg" => return self.drawing(element, around),
            "img" => return self.picture(element, around),
            "dl" => return self.cells(element, place),
            _ => {}
        }
        match () {
            () if element.has("message") => self.message(element, place),
            () if element.has("step") => vec![self.step(element, place)],
            () if element.has("job") => vec![self.job(element, place)],
            () if element.has("signatures") => vec![self.signatures(element, place)],
            () if element.has("lines") => vec![self.lines_to_sign(element, place)],
            () if element.has("write") => vec![self.line_to_write(element, place)],
            () if element.has("blanks") => self.blanks(element, place),
            () if element.has("group") => self.group(element, place),
            () if element.has("rounds") => {
                let inner = self.children(element, Place { width: place.width - 12.0, ..place });
                spaced(vec![framed(inner, place.width, 6.0, None, Some((0.8, BLACK)), 0.0)], GAP, 0.0)
            }
            () if element.has("title-block") => self.title(element, place),
            () if element.has("how") => {
                let inner = self.children(element, Place { width: place.width - 12.0, ..place });
                spaced(vec![framed(inner, place.width, 6.0, None, Some((1.5, BLACK)), 0.0)], GAP, GAP)
            }
            () if element.has("remarks") => {
                let inner = self.children(element, Place { width: place.width - 8.0, ..place });
                vec![framed(inner, place.width, 4.0, None, Some((0.8, BLACK)), 58.0)]
            }
            () if element.has("result") => vec![stack(self.children(element, place))],
            () if element.has("verdict") => spaced(self.children(element, place), GAP, GAP),
            () if element.is("blockquote") => {
                let inner = self.children(element, Place { width: place.width - 12.0, ..place });
                inner.into_iter().map(|slab| slab.moved(12.0)).collect()
            }
            () if element.is("pre") => self.as_written(element, place),
            () if element.has("rule-text") => spaced(self.children(element, place), GAP, GAP),
            () => self.children(element, place),
        }
    }

    fn title(&mut self, element: &'a Element, place: Place) -> Vec<Slab> {
        let mut slabs = self.children(element, place);
        let line =
            Slab { height: 6.0, marks: vec![rule(0.0, 4.0, place.width, 1.5, BLACK)], ..Slab::default() };
        slabs.push(line);
        slabs
    }

    /// White on black, on the page of what it heads.
    fn heading(&mut self, element: &'a Element, place: Place) -> Vec<Slab> {
        let inner = self.children(element, Place { width: place.width - 10.0, ..place });
        let inner = inner.into_iter().map(|line| line.moved(2.5)).collect();
        let mut head = framed(inner, place.width, 2.5, Some(BLACK), None, 0.0);
        head.marks.push(Placed { x: 0.0, y: 0.0, mark: Mark::Heading(element.words()), tag: None });
        head.glued = true;
        vec![Slab::room(PLAIN * 1.1), head, Slab { glued: true, ..Slab::room(PLAIN * 0.3) }]
    }

    /// One block that is kept together, with a line under it.
    fn group(&mut self, element: &'a Element, place: Place) -> Vec<Slab> {
        let inset = if element.has("opening") { 0.0 } else { TICKS };
        let since = if element.has("changed") { Since::Changed } else { place.since };
        let mut slabs = self.children(element, Place { inset, since, ..place });
        slabs.push(Slab::room(GAP));
        let mut whole = stack(slabs);
        whole.marks.push(rule(0.0, whole.height, place.width, 0.5, LINE));
        vec![whole, Slab::room(GAP)]
    }

    fn step(&mut self, element: &'a Element, place: Place) -> Slab {
        let since = if place.since == Since::Changed { Since::Barred } else { place.since };
        let place = Place { since, ..place };
        let child = |class: &'static str| element.elements().find(move |it| it.has(class));
        let blanks = child("blanks");
        let taken = if blanks.is_some() { BLANKS + 8.0 } else { 0.0 };
        let mut columns = Vec::new();
        let parts = [
            (child("tick"), 0.0, TICKS),
            (child("body"), TICKS, place.width - TICKS - taken),
            (blanks, place.width - BLANKS, BLANKS),
        ];
        for (part, x, width) in parts {
            if let Some(part) = part {
                let mut slabs = self.block(part, Place { width, ..place });
                if x > 0.0 {
                    // Level with the number.
                    slabs.insert(0, Slab::room(2.5));
                }
                columns.push((x, slabs));
            }
        }
        side_by_side(columns)
    }

    fn message(&mut self, element: &'a Element, place: Place) -> Vec<Slab> {
        let colours = look::signal(element);
        let (ground, on) = colours.unwrap_or((WHITE, BLACK));
        let left = place.inset;
        let width = place.width - left;
        let mut slabs = Vec::new();
        for part in element.elements() {
            if part.has("signal") {
                slabs.push(self.signal(part, Place { width, ..place }, ground, on));
            } else {
                let inner = self.block(part, Place { width: width - 16.0, ..place });
                slabs.push(framed(inner, width, 5.0, None, None, 0.0));
            }
        }
        let edge = if colours.is_some() { BLACK } else { LINE };
        let whole = framed(slabs, width, 0.0, None, Some((1.1, edge)), 0.0).moved(left);
        vec![Slab { glued: true, ..whole }, Slab { glued: true, ..Slab::room(GAP) }]
    }

    /// The signal word on its ground, with the alert sign before it.
    fn signal(&mut self, element: &'a Element, place: Place, ground: Ink, on: Ink) -> Slab {
        let tag = self.tags.of(place.tag, element);
        let mut run = Run::default();
        for child in element.elements() {
            let look = Look { ink: on, bold: true, ..place.look };
            if child.is("svg") {
                let pens = Pens { fonts: self.fonts, page: self.page, alert: (on, ground), tag };
                let alert = sketch(child, pens, Some(15.0));
                run.sketch(Sketch { below: 3.0, ..alert }, look);
                run.words(" ", look);
            } else if child.is("strong") {
                let plain = ground == WHITE;
                let size = if plain { PLAIN } else { PLAIN * 1.2 };
                run.words(&child.words(), Look { size, capitals: !plain, ..look });
                run.words("  ", look);
            } else {
                run.words(&child.words(), look);
            }
        }
        let lines = run.lines(place.width - 16.0, self.fonts, tag);
        let moved = lines.into_iter().map(|line| line.moved(5.0)).collect();
        framed(moved, place.width, 2.5, Some(ground), None, 0.0)
    }

    /// Items that run on along the line.
    fn in_line(&mut self, element: &'a Element, place: Place) -> Vec<Slab> {
        let mut run = Run::default();
        for (at, item) in element.elements().enumerate() {
            if at > 0 {
                run.words("\u{a0}\u{a0} ", place.look);
            }
            let tag = self.tags.of(place.tag, item);
            let look = Look { whole: true, ..place.look };
            item.children.iter().for_each(|child| self.run(child, look, tag, &mut run));
            run.words(" ", place.look);
        }
        // One line of words has one tag: that of the list's first item holds them all.
        let item = self.tags.open(place.tag, Tag::LI);
        let body = self.tags.open(item, Tag::LBody);
        self.words(run, Place { tag: body, ..place })
    }

    fn list(&mut self, element: &'a Element, place: Place) -> Vec<Slab> {
        let mut slabs = Vec::new();
        for (item, number) in element.elements().filter(|it| it.is("li")).zip(1..) {
            if item.elements().next().is_some_and(|first| first.has("box")) {
                slabs.extend(self.ticked(item, place));
                continue;
            }
            let (left, mark) = match element.name.as_str() {
                "ol" => (16.0, format!("{number}.")),
                _ => (12.0, "•".to_owned()),
            };
            let whole = self.tags.open(place.tag, Tag::LI);
            let (label, body) = (self.tags.open(whole, Tag::Lbl), self.tags.open(whole, Tag::LBody));
            let look = look::inside(item, place.look);
            let inner = self.children(item, Place { width: place.width - left, look, tag: body, ..place });
            let mut inner: Vec<Slab> = inner.into_iter().map(|slab| slab.moved(left)).collect();
            if let Some(first) = inner.first_mut() {
                let mut run = Run::default();
                run.words(&mark, place.look);
                let lines = run.lines(left, self.fonts, label);
                // Read before the words.
                first.marks.splice(0..0, lines.into_iter().flat_map(|line| line.marks));
            }
            slabs.append(&mut inner);
        }
        slabs
    }

    /// An item with a box before it, its further lines below the words.
    fn ticked(&mut self, item: &'a Element, place: Place) -> Vec<Slab> {
        let tag = self.tags.of(place.tag, item);
        let boxed = tick_box(PLAIN * 0.95, 1.1);
        let left = boxed.width + 4.0;
        let is_box = |node: &&Node| matches!(node, Node::Element(element) if element.has("box"));
        let words = item.children.iter().skip_while(|node| !is_box(node)).skip(1);
        let lines = self.nodes(words, Place { width: place.width - left, tag, ..place });
        let mut lines: Vec<Slab> = lines.into_iter().map(|line| line.moved(left)).collect();
        if let Some(first) = lines.first_mut() {
            first.marks.extend(boxed.marks.into_iter().map(|placed| Placed { y: placed.y + 2.0, ..placed }));
        }
        lines
    }

    /// Lines that break where they were broken.
    fn as_written(&mut self, element: &'a Element, place: Place) -> Vec<Slab> {
        let text = element.text();
        let lines = text.trim_end().split('\n').map(|line| {
            let mut run = Run::default();
            run.words(&line.replace(' ', "\u{a0}"), place.look);
            if line.trim().is_empty() { vec![Slab::room(GAP)] } else { self.words(run, place) }
        });
        lines.flatten().collect()
    }

    fn figure(&mut self, element: &'a Element, place: Place) -> Vec<Slab> {
        spaced(vec![stack(self.children(element, place))], 2.0, 2.0)
    }

    /// A drawing that stands alone, no wider than its place.
    fn drawing(&mut self, element: &'a Element, place: Place) -> Vec<Slab> {
        let words = element.find(&|it| it.is("title")).map(Element::words).unwrap_or_default();
        let tag = self.tags.figure(place.tag, words);
        let pens = Pens { fonts: self.fonts, page: self.page, alert: (BLACK, WHITE), tag };
        let whole = drawing::sketch(element, pens, None);
        let scale = (place.width / whole.width).min(0.8);
        let drawn = drawing::sketch(element, pens, Some(whole.height * scale));
        vec![Slab { height: drawn.height + 2.0, marks: drawn.marks, ..Slab::default() }]
    }

    /// An author's picture; of one that cannot be drawn its words in a frame, and where to see it.
    fn picture(&mut self, element: &'a Element, place: Place) -> Vec<Slab> {
        const TALLEST: f32 = 380.0;
        let words = element.attribute("alt").unwrap_or_default();
        let tag = self.tags.figure(place.tag, words.to_owned());
        let drawn = match picture::drawing(element) {
            Some(svg) => picture::sketch(&svg, self.fonts, tag, place.width, TALLEST),
            None if self.photographs => picture::photograph(element, tag, place.width, TALLEST),
            None => None,
        };
        if let Some(drawn) = drawn {
            return vec![Slab { height: drawn.height + 2.0, marks: drawn.marks, ..Slab::default() }];
        }
        let mut run = Run::default();
        run.words(words, place.look);
        run.line_break();
        run.words(element.attribute("data-on-paper").unwrap_or_default(), place.look);
        let inner = self.words(run, Place { width: place.width - 16.0, ..place });
        vec![framed(inner, place.width, 8.0, None, Some((0.8, LINE)), 0.0)]
    }

    /// Facts in cells, three to a row.
    fn cells(&mut self, element: &'a Element, place: Place) -> Vec<Slab> {
        const ACROSS: usize = 3;
        let cells: Vec<&Element> = element.elements().collect();
        let width = place.width / ACROSS as f32;
        let rows = cells.chunks(ACROSS).map(|row| {
            let columns = row.iter().zip(0_u8..).map(|(cell, at)| {
                (f32::from(at) * width, self.block(cell, Place { width: width - 8.0, ..place }))
            });
            side_by_side(columns.collect())
        });
        let rows: Vec<Slab> = rows.collect();
        spaced(rows, GAP, 0.0)
    }
}

fn is_block(element: &Element) -> bool {
    let drawn = element.is("svg") && element.has("pattern");
    let below = ["more", "write"].iter().any(|class| element.has(class));
    BLOCKS.contains(&element.name.as_str()) || element.is("img") || drawn || below
}

/// With room before, which stays with what it stands before, and after.
pub(super) fn spaced(mut slabs: Vec<Slab>, before: f32, after: f32) -> Vec<Slab> {
    slabs.insert(0, Slab { glued: true, ..Slab::room(before) });
    slabs.push(Slab::room(after));
    slabs
}
