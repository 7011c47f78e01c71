//! What stands on paper: strips that no page break goes through, and the marks in them.
use super::fonts::Shaped;
use super::tags::TagId;
use krilla::image::Image;

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Ink(pub u8, pub u8, pub u8);

pub const BLACK: Ink = Ink(0, 0, 0);
pub const WHITE: Ink = Ink(255, 255, 255);
pub const SOFT: Ink = Ink(0x3d, 0x48, 0x45);
pub const LINE: Ink = Ink(0x9a, 0xa5, 0xa1);

/// Part of an outline, in points.
#[derive(Debug, Clone, Copy)]
pub enum Stroke {
    Move(f32, f32),
    Line(f32, f32),
    Curve(f32, f32, f32, f32, f32, f32),
    Close,
}

/// Lines and grounds, relative to the place of their mark.
#[derive(Debug, Clone, Default)]
pub struct Shape {
    pub outline: Vec<Stroke>,
    pub fill: Option<Ink>,
    /// Width and colour.
    pub edge: Option<(f32, Ink)>,
    /// How long the edge's lines and gaps are; nothing: drawn through.
    pub dashes: [f32; 2],
    /// What is outlined twice is a hole.
    pub holes: bool,
}

/// From its top left corner, in points as it is seen.
#[derive(Debug, Clone)]
pub struct Photograph {
    pub image: Image,
    pub width: f32,
    pub height: f32,
    /// How it is to be held, 1 to 8 (Exif 2.32, 4.6.4, Orientation).
    pub turn: u32,
}

#[derive(Debug, Clone)]
pub enum Mark {
    /// From its left end on the baseline.
    Text {
        shaped: Shaped,
        size: f32,
        ink: Ink,
        /// Which way its line and its letters go, where not level: right and down of each.
        slant: Option<[f32; 4]>,
    },
    Shape(Shape),
    Photograph(Photograph),
    /// Where a heading of the outline begins.
    Heading(String),
}

/// A mark with its place from the strip's top left corner, in points downwards.
#[derive(Debug, Clone)]
pub struct Placed {
    pub x: f32,
    pub y: f32,
    pub mark: Mark,
    /// The tag it is part of; lines and grounds have none.
    pub tag: Option<TagId>,
}

/// A strip as wide as the page, `height` points tall.
#[derive(Debug, Clone, Default)]
pub struct Slab {
    pub height: f32,
    pub marks: Vec<Placed>,
    /// The next strip must stand on the same page.
    pub glued: bool,
    /// What it may be broken into where it is taller than a page; empty: nothing smaller.
    pub pieces: Vec<Slab>,
}

impl Slab {
    /// Only room, which the top of a page does without.
    pub fn room(height: f32) -> Slab {
        Slab { height, ..Slab::default() }
    }

    pub fn is_room(&self) -> bool {
        self.marks.is_empty()
    }

    /// Moves all of it to the right.
    #[must_use]
    pub fn moved(mut self, by: f32) -> Slab {
        self.shift(by, 0.0);
        self
    }

    /// With a bar in the margin to its left, on every piece of it.
    #[must_use]
    pub fn barred(mut self, bar: Bar) -> Slab {
        let lines: &[(f32, f32)] = match bar {
            Bar::Single => &[(-9.0, 3.5)],
            Bar::Double => &[(-10.0, 1.2), (-7.0, 1.2)],
        };
        for &(x, thick) in lines {
            let outline = vec![Stroke::Move(0.0, 0.0), Stroke::Line(0.0, self.height)];
            let shape = Shape { outline, edge: Some((thick, BLACK)), ..Shape::default() };
            self.marks.push(Placed { x, y: 0.0, mark: Mark::Shape(shape), tag: None });
        }
        self.pieces = self.pieces.into_iter().map(|piece| piece.barred(bar)).collect();
        self
    }

    fn shift(&mut self, right: f32, down: f32) {
        for placed in &mut self.marks {
            placed.x += right;
            placed.y += down;
        }
        for piece in &mut self.pieces {
            piece.shift(right, 0.0);
        }
    }
}

/// A bar in the margin.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Bar {
    Single,
    Double,
}

/// One strip of several, one below the other.
pub fn stack(slabs: Vec<Slab>) -> Slab {
    let pieces = slabs.clone();
    let mut whole = Slab::default();
    for mut slab in slabs {
        slab.shift(0.0, whole.height);
        whole.height += slab.height;
        whole.marks.append(&mut slab.marks);
        whole.glued = slab.glued;
    }
    Slab { pieces, ..whole }
}

/// One strip of several side by side, each moved to its place from the left.
pub fn side_by_side(columns: Vec<(f32, Vec<Slab>)>) -> Slab {
    let mut whole = Slab::default();
    for (x, slabs) in columns {
        let mut column = stack(slabs).moved(x);
        whole.height = whole.height.max(column.height);
        whole.marks.append(&mut column.marks);
        whole.pieces.append(&mut column.pieces);
    }
    whole
}

/// The strip in a frame that is `width` wide: `padding` on all sides, then ground and edge.
pub fn framed(
    inner: Vec<Slab>,
    width: f32,
    padding: f32,
    fill: Option<Ink>,
    edge: Option<(f32, Ink)>,
    at_least: f32,
) -> Slab {
    let mut inner = stack(inner).moved(padding);
    inner.shift(0.0, padding);
    let height = (inner.height + 2.0 * padding).max(at_least);
    let mut marks = Vec::new();
    if fill.is_some() || edge.is_some() {
        let mark = Mark::Shape(Shape { outline: rectangle(width, height), fill, edge, ..Shape::default() });
        marks.push(Placed { x: 0.0, y: 0.0, mark, tag: None });
    }
    marks.append(&mut inner.marks);
    Slab { height, marks, glued: inner.glued, pieces: inner.pieces }
}

pub fn rectangle(width: f32, height: f32) -> Vec<Stroke> {
    vec![
        Stroke::Move(0.0, 0.0),
        Stroke::Line(width, 0.0),
        Stroke::Line(width, height),
        Stroke::Line(0.0, height),
        Stroke::Close,
    ]
}

/// A level line from the left, `width` long.
pub fn rule(x: f32, y: f32, width: f32, thick: f32, ink: Ink) -> Placed {
    let outline = vec![Stroke::Move(0.0, 0.0), Stroke::Line(width, 0.0)];
    let shape = Shape { outline, edge: Some((thick, ink)), ..Shape::default() };
    Placed { x, y, mark: Mark::Shape(shape), tag: None }
}
