//! Strips to pages, and pages to a file.
use super::fonts::Fonts;
use super::slab::{Ink, Mark, Photograph, Placed, Shape, Slab, Stroke};
use super::tags::Tags;
use super::words::{Run, length_of_last};
use super::{Fault, Foot, look};
use krilla::Document;
use krilla::color::rgb;
use krilla::destination::XyzDestination;
use krilla::geom::{Path, PathBuilder, Point, Size, Transform};
use krilla::outline::{Outline, OutlineNode};
use krilla::page::PageSettings;
use krilla::paint::{Fill, FillRule, Stroke as Edge, StrokeDash};
use krilla::surface::Surface;
use krilla::tagging::{Artifact, ArtifactType, ContentTag, SpanTag};

/// A sheet's size and margins, in points.
#[derive(Debug, Clone, Copy)]
pub struct Format {
    pub width: f32,
    pub height: f32,
    pub side: f32,
    pub top: f32,
    pub bottom: f32,
}

impl Format {
    pub fn text_width(&self) -> f32 {
        self.width - 2.0 * self.side
    }
    fn text_height(&self) -> f32 {
        self.height - self.top - self.bottom
    }
}

/// Strips to pages: what is glued stays together, and what is taller than a page is broken where it may be.
pub fn broken(slabs: Vec<Slab>, format: &Format) -> Vec<Vec<Placed>> {
    let room = format.text_height();
    let mut pages: Vec<Vec<Placed>> = vec![Vec::new()];
    let mut down = 0.0;
    for clump in clumps(slabs, room) {
        let height: f32 = clump.iter().map(|slab| slab.height).sum();
        let only_room = clump.iter().all(Slab::is_room);
        if down > 0.0 && down + height > room && !only_room {
            pages.push(Vec::new());
            down = 0.0;
        }
        for slab in clump {
            if down == 0.0 && slab.is_room() {
                continue;
            }
            if let Some(page) = pages.last_mut() {
                let moved = slab.marks.into_iter();
                page.extend(moved.map(|it| Placed {
                    x: it.x + format.side,
                    y: it.y + down + format.top,
                    ..it
                }));
            }
            down += slab.height;
        }
    }
    pages.retain(|page| !page.is_empty());
    pages
}

/// Strips that stand on one page together; too tall ones in their pieces.
fn clumps(slabs: Vec<Slab>, room: f32) -> Vec<Vec<Slab>> {
    let mut together: Vec<Vec<Slab>> = Vec::new();
    let mut clump: Vec<Slab> = Vec::new();
    for slab in slabs {
        let glued = slab.glued;
        clump.push(slab);
        if !glued {
            together.push(std::mem::take(&mut clump));
        }
    }
    together.push(clump);
    let mut fitting = Vec::new();
    for clump in together.into_iter().filter(|clump| !clump.is_empty()) {
        if clump.iter().map(|slab| slab.height).sum::<f32>() <= room {
            fitting.push(clump);
            continue;
        }
        // A head stays with the first piece of what it heads.
        let mut head = Vec::new();
        for slab in clump {
            if slab.height <= room || slab.pieces.is_empty() {
                let (glued, small) = (slab.glued, slab.height < room / 4.0);
                head.push(slab);
                if !(glued && small) {
                    fitting.push(std::mem::take(&mut head));
                }
            } else {
                let mut pieces = clumps(slab.pieces, room);
                if let Some(first) = pieces.first_mut() {
                    first.splice(0..0, std::mem::take(&mut head));
                }
                fitting.append(&mut pieces);
            }
        }
        if !head.is_empty() {
            fitting.push(head);
        }
    }
    fitting
}

/// Draws the pages and closes the document.
pub fn drawn(
    mut document: Document,
    pages: Vec<Vec<Placed>>,
    mut tags: Tags,
    fonts: &Fonts,
    format: &Format,
    foot: &Foot<'_>,
) -> Result<Vec<u8>, Fault> {
    let mut outline = Outline::new();
    let count = pages.len();
    for (at, marks) in pages.into_iter().enumerate() {
        let settings = PageSettings::from_wh(format.width, format.height).ok_or(Fault::Size)?;
        let mut page = document.start_page_with(settings);
        let mut surface = page.surface();
        for placed in &marks {
            if let Mark::Heading(words) = &placed.mark {
                let place = XyzDestination::new(at, Point::from_xy(placed.x, placed.y));
                outline.push_child(OutlineNode::new(words.clone(), place));
            }
        }
        content(&mut surface, marks, &mut tags, fonts);
        footer(&mut surface, fonts, format, foot, (at + 1, count), &tags);
        surface.finish();
        page.finish();
    }
    document.set_outline(outline);
    document.set_tag_tree(tags.tree());
    document.finish().map_err(|error| Fault::Refused(format!("{error:?}")))
}

/// Marks in order; each stretch of one tag is one piece of content.
fn content(surface: &mut Surface<'_>, marks: Vec<Placed>, tags: &mut Tags, fonts: &Fonts) {
    let mut rest = marks.as_slice();
    while let Some(first) = rest.first() {
        let tag = first.tag;
        let length = rest.iter().take_while(|placed| placed.tag == tag).count();
        let (mine, others) = rest.split_at(length);
        rest = others;
        match tag {
            Some(tag) => {
                let shapes =
                    mine.iter().any(|placed| matches!(placed.mark, Mark::Shape(_) | Mark::Photograph(_)));
                let kind = if shapes { ContentTag::Other } else { ContentTag::Span(SpanTag::empty()) };
                let content = surface.start_tagged(kind);
                mine.iter().for_each(|placed| draw(surface, placed, fonts));
                surface.end_tagged();
                tags.fill(tag, content);
            }
            None => {
                surface.start_tagged(ContentTag::Artifact(Artifact::with_kind(ArtifactType::Layout)));
                mine.iter().for_each(|placed| draw(surface, placed, fonts));
                surface.end_tagged();
            }
        }
    }
}

fn draw(surface: &mut Surface<'_>, placed: &Placed, fonts: &Fonts) {
    match &placed.mark {
        Mark::Text { shaped, size, ink, slant } => {
            surface.set_stroke(None);
            surface.set_fill(Some(fill(*ink, false)));
            let font = fonts.font(shaped.which);
            let glyphs = |surface: &mut Surface<'_>, x, y| {
                surface.draw_glyphs(
                    Point::from_xy(x, y),
                    &shaped.glyphs,
                    font.clone(),
                    &shaped.text,
                    *size,
                    false,
                );
            };
            match *slant {
                None => glyphs(surface, placed.x, placed.y),
                Some([a, b, c, d]) => {
                    surface.push_transform(&Transform::from_row(a, b, c, d, placed.x, placed.y));
                    glyphs(surface, 0.0, 0.0);
                    surface.pop();
                }
            }
        }
        Mark::Shape(shape) => {
            if let Some(path) = path(shape, placed.x, placed.y) {
                surface.set_fill(shape.fill.map(|ink| fill(ink, shape.holes)));
                surface.set_stroke(shape.edge.map(|(width, ink)| edge(width, ink, shape.dashes)));
                surface.draw_path(&path);
            }
        }
        Mark::Photograph(it) => photograph(surface, placed, it),
        Mark::Heading(_) => {}
    }
}

fn edge(width: f32, ink: Ink, dashes: [f32; 2]) -> Edge {
    let dash = dashes.iter().all(|length| *length > 0.0);
    let dash = dash.then(|| StrokeDash { array: dashes.to_vec(), offset: 0.0 });
    Edge { paint: colour(ink).into(), width, dash, ..Edge::default() }
}

/// Drawn as large as it is in its file, and turned into its place.
fn photograph(surface: &mut Surface<'_>, placed: &Placed, it: &Photograph) {
    let (w, h) = (it.width, it.height);
    let (own_w, own_h) = if it.turn < 5 { (w, h) } else { (h, w) };
    let Some(size) = Size::from_wh(own_w, own_h) else { return };
    // Where the file's right and down go, and its first corner (Exif 2.32, 4.6.4, Orientation).
    let (a, b, c, d, x, y) = match it.turn {
        2 => (-1.0, 0.0, 0.0, 1.0, w, 0.0),
        3 => (-1.0, 0.0, 0.0, -1.0, w, h),
        4 => (1.0, 0.0, 0.0, -1.0, 0.0, h),
        5 => (0.0, 1.0, 1.0, 0.0, 0.0, 0.0),
        6 => (0.0, 1.0, -1.0, 0.0, w, 0.0),
        7 => (0.0, -1.0, -1.0, 0.0, w, h),
        8 => (0.0, -1.0, 1.0, 0.0, 0.0, h),
        _ => (1.0, 0.0, 0.0, 1.0, 0.0, 0.0),
    };
    surface.push_transform(&Transform::from_row(a, b, c, d, placed.x + x, placed.y + y));
    surface.draw_image(it.image.clone(), size);
    surface.pop();
}

fn path(shape: &Shape, x: f32, y: f32) -> Option<Path> {
    let mut path = PathBuilder::new();
    for stroke in &shape.outline {
        match *stroke {
            Stroke::Move(a, b) => path.move_to(a + x, b + y),
            Stroke::Line(a, b) => path.line_to(a + x, b + y),
            Stroke::Curve(a, b, c, d, e, f) => path.cubic_to(a + x, b + y, c + x, d + y, e + x, f + y),
            Stroke::Close => path.close(),
        }
    }
    path.finish()
}

fn colour(Ink(red, green, blue): Ink) -> rgb::Color {
    rgb::Color::new(red, green, blue)
}

fn fill(ink: Ink, holes: bool) -> Fill {
    let rule = if holes { FillRule::EvenOdd } else { FillRule::NonZero };
    Fill { paint: colour(ink).into(), rule, ..Fill::default() }
}

/// What every page says at its foot: which procedure in which revision, and which page.
fn footer(
    surface: &mut Surface<'_>,
    fonts: &Fonts,
    format: &Format,
    foot: &Foot<'_>,
    (page, of): (usize, usize),
    tags: &Tags,
) {
    const SIZE: f32 = 9.0;
    let left: fn(f32, &Format) -> f32 = |_, format| format.side;
    let right: fn(f32, &Format) -> f32 = |width, format| format.width - format.side - width;
    let middle: fn(f32, &Format) -> f32 = |width, format| (format.width - width) / 2.0;
    surface_artifact(surface, |surface| {
        let mut words = |text: &str, bold: bool, place: fn(f32, &Format) -> f32| {
            let mut run = Run::default();
            run.words(text, look::Look { size: SIZE, bold, ..look::BASE });
            let lines = run.lines(format.text_width(), fonts, tags.root());
            let x = place(length_of_last(&lines), format);
            let y = format.height - format.bottom + 12.0;
            // One line: a foot that is longer is cut.
            for placed in lines.into_iter().take(1).flat_map(|line| line.marks) {
                draw(surface, &Placed { x: placed.x + x, y: placed.y + y, ..placed }, fonts);
            }
        };
        words(foot.left, true, left);
        words(foot.middle, false, middle);
        words(&(foot.page)(page, of), false, right);
    });
}

fn surface_artifact(surface: &mut Surface<'_>, draws: impl FnOnce(&mut Surface<'_>)) {
    surface.start_tagged(ContentTag::Artifact(Artifact::with_kind(ArtifactType::Footer)));
    draws(surface);
    surface.end_tagged();
}
