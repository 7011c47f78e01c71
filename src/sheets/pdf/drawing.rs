//! The drawings of a page, from the shapes they are made of.
use super::fonts::Fonts;
use super::markup::Element;
use super::slab::{BLACK, Ink, LINE, Mark, Placed, Shape, Stroke, WHITE};
use super::tags::TagId;
use svgtypes::{SimplePathSegment, SimplifyingPathParser};

/// A drawing among words or alone: its marks from its top left corner.
#[derive(Debug, Clone, Default)]
pub struct Sketch {
    pub width: f32,
    pub height: f32,
    /// How far it reaches below the baseline.
    pub below: f32,
    pub marks: Vec<Placed>,
}

/// What a drawing is made with.
#[derive(Clone, Copy)]
pub struct Pens<'a> {
    pub fonts: &'a Fonts,
    /// The page, where the drawings stand that others use.
    pub page: &'a Element,
    /// Of the alert sign: its triangle, and the mark in it.
    pub alert: (Ink, Ink),
    pub tag: TagId,
}

/// How far a curve's handles reach so that four make a circle.
const ROUND: f32 = 0.552_284_8;
const DISC: Ink = Ink(0x0a, 0x5a, 0xa6);

/// `svg` as tall as `height`; as it was drawn where that is `None`. Nothing of a drawing without a size.
pub fn sketch(svg: &Element, pens: Pens<'_>, height: Option<f32>) -> Sketch {
    let used =
        svg.find(&|it| it.is("use")).and_then(|it| it.attribute("href")).and_then(|it| it.strip_prefix('#'));
    let symbol = used.and_then(|id| pens.page.find(&|it| it.is("symbol") && it.attribute("id") == Some(id)));
    let drawn = symbol.unwrap_or(svg);
    let Some([left, top, wide, tall]) = view(drawn) else { return Sketch::default() };
    let scale = height.map_or(1.0, |height| height / tall);
    let mut pen = Pen { pens, left, top, scale, marks: Vec::new() };
    pen.all(drawn, false);
    Sketch { width: wide * scale, height: tall * scale, below: 0.0, marks: pen.marks }
}

/// The part of the plane that is seen: left, top, width, height.
pub fn view(svg: &Element) -> Option<[f32; 4]> {
    // Attributes come in small letters.
    let view = svg.attribute("viewbox")?;
    let numbers: Vec<f32> = view.split_whitespace().filter_map(|number| number.parse().ok()).collect();
    let view: [f32; 4] = numbers.try_into().ok()?;
    (view[2] > 0.0 && view[3] > 0.0).then_some(view)
}

struct Pen<'a> {
    pens: Pens<'a>,
    left: f32,
    top: f32,
    scale: f32,
    marks: Vec<Placed>,
}

impl Pen<'_> {
    fn all(&mut self, element: &Element, first: bool) {
        for child in element.elements() {
            match child.name.as_str() {
                "g" => self.all(child, child.has("first")),
                "text" => self.text(child, first),
                _ => self.shape(child, first),
            }
        }
    }

    fn shape(&mut self, element: &Element, first: bool) {
        let Some(outline) = outline(element) else { return };
        let outline = outline.into_iter().map(|stroke| self.placed(stroke)).collect();
        let thick = element.number("stroke-width");
        let (fill, edge) = self.inks(element, first);
        let edge = edge.map(|(usual, ink)| (thick.unwrap_or(usual) * self.scale, ink));
        let holes = element.attribute("fill-rule") == Some("evenodd");
        let mark = Mark::Shape(Shape { outline, fill, edge, holes, ..Shape::default() });
        self.marks.push(Placed { x: 0.0, y: 0.0, mark, tag: Some(self.pens.tag) });
    }

    /// Ground and edge by the class, as the page's style sheet has them.
    fn inks(&self, element: &Element, first: bool) -> (Option<Ink>, Option<(f32, Ink)>) {
        let has = |class| element.has(class);
        let (field, mark) = self.pens.alert;
        match () {
            () if has("disc") => (Some(DISC), None),
            () if has("figure") => (Some(WHITE), None),
            () if has("line") => (None, Some((1.0, WHITE))),
            () if has("named-side") => (None, Some((5.0, BLACK))),
            () if has("edge") => (None, Some((1.5, LINE))),
            () if has("alert-field") => (Some(field), Some((1.0, field))),
            () if has("alert-mark") => (Some(mark), None),
            () if element.is("circle") && first => (Some(BLACK), Some((2.0, BLACK))),
            () if element.is("circle") => (Some(WHITE), Some((2.0, BLACK))),
            () => (None, Some((1.5, BLACK))),
        }
    }

    /// In the middle of its place, both ways.
    fn text(&mut self, element: &Element, first: bool) {
        let own = element.has("own");
        let size = if own { 13.0 } else { 16.0 } * self.scale;
        let (Some(x), Some(y)) = (element.number("x"), element.number("y")) else { return };
        let pieces = self.pens.fonts.shape(&element.words(), !own);
        let width: f32 = pieces.iter().map(|piece| piece.width * size).sum();
        let (x, y) = self.at(x, y);
        let mut from = x - width / 2.0;
        for shaped in pieces {
            let along = shaped.width * size;
            let ink = if first && !own { WHITE } else { BLACK };
            let mark = Mark::Text { shaped, size, ink, slant: None };
            self.marks.push(Placed { x: from, y: y + size * 0.36, mark, tag: Some(self.pens.tag) });
            from += along;
        }
    }

    fn at(&self, x: f32, y: f32) -> (f32, f32) {
        ((x - self.left) * self.scale, (y - self.top) * self.scale)
    }

    fn placed(&self, stroke: Stroke) -> Stroke {
        match stroke {
            Stroke::Move(x, y) => {
                let (x, y) = self.at(x, y);
                Stroke::Move(x, y)
            }
            Stroke::Line(x, y) => {
                let (x, y) = self.at(x, y);
                Stroke::Line(x, y)
            }
            Stroke::Curve(a, b, c, d, x, y) => {
                let ((a, b), (c, d), (x, y)) = (self.at(a, b), self.at(c, d), self.at(x, y));
                Stroke::Curve(a, b, c, d, x, y)
            }
            Stroke::Close => Stroke::Close,
        }
    }
}

/// The outline of a shape in its own numbers; `None` for what is no shape.
pub fn outline(element: &Element) -> Option<Vec<Stroke>> {
    let number = |key| element.number(key).unwrap_or(0.0);
    Some(match element.name.as_str() {
        "path" => path(element.attribute("d")?),
        "circle" => ellipse(number("cx"), number("cy"), number("r"), number("r")),
        "ellipse" => ellipse(number("cx"), number("cy"), number("rx"), number("ry")),
        "rect" => rounded(number("x"), number("y"), number("width"), number("height"), number("rx")),
        "line" => vec![Stroke::Move(number("x1"), number("y1")), Stroke::Line(number("x2"), number("y2"))],
        _ => return None,
    })
}

/// As far as the path can be read.
fn path(text: &str) -> Vec<Stroke> {
    let mut strokes = Vec::new();
    let (mut x0, mut y0) = (0.0, 0.0);
    for segment in SimplifyingPathParser::from(text).map_while(Result::ok) {
        match segment {
            SimplePathSegment::MoveTo { x, y } => {
                strokes.push(Stroke::Move(x as f32, y as f32));
                (x0, y0) = (x, y);
            }
            SimplePathSegment::LineTo { x, y } => {
                strokes.push(Stroke::Line(x as f32, y as f32));
                (x0, y0) = (x, y);
            }
            SimplePathSegment::CurveTo { x1, y1, x2, y2, x, y } => {
                strokes.push(curve(x1, y1, x2, y2, x, y));
                (x0, y0) = (x, y);
            }
            SimplePathSegment::Quadratic { x1, y1, x, y } => {
                let third = |from: f64, to: f64| from + (to - from) * 2.0 / 3.0;
                strokes.push(curve(third(x0, x1), third(y0, y1), third(x, x1), third(y, y1), x, y));
                (x0, y0) = (x, y);
            }
            SimplePathSegment::ClosePath => strokes.push(Stroke::Close),
        }
    }
    strokes
}

fn curve(x1: f64, y1: f64, x2: f64, y2: f64, x: f64, y: f64) -> Stroke {
    Stroke::Curve(x1 as f32, y1 as f32, x2 as f32, y2 as f32, x as f32, y as f32)
}

fn ellipse(cx: f32, cy: f32, rx: f32, ry: f32) -> Vec<Stroke> {
    let (kx, ky) = (rx * ROUND, ry * ROUND);
    vec![
        Stroke::Move(cx + rx, cy),
        Stroke::Curve(cx + rx, cy + ky, cx + kx, cy + ry, cx, cy + ry),
        Stroke::Curve(cx - kx, cy + ry, cx - rx, cy + ky, cx - rx, cy),
        Stroke::Curve(cx - rx, cy - ky, cx - kx, cy - ry, cx, cy - ry),
        Stroke::Curve(cx + kx, cy - ry, cx + rx, cy - ky, cx + rx, cy),
        Stroke::Close,
    ]
}

/// A rectangle with round corners of radius `r`.
pub fn rounded(x: f32, y: f32, width: f32, height: f32, r: f32) -> Vec<Stroke> {
    let r = r.min(width / 2.0).min(height / 2.0);
    let k = r * (1.0 - ROUND);
    let (right, bottom) = (x + width, y + height);
    vec![
        Stroke::Move(x + r, y),
        Stroke::Line(right - r, y),
        Stroke::Curve(right - k, y, right, y + k, right, y + r),
        Stroke::Line(right, bottom - r),
        Stroke::Curve(right, bottom - k, right - k, bottom, right - r, bottom),
        Stroke::Line(x + r, bottom),
        Stroke::Curve(x + k, bottom, x, bottom - k, x, bottom - r),
        Stroke::Line(x, y + r),
        Stroke::Curve(x, y + k, x + k, y, x + r, y),
        Stroke::Close,
    ]
}

/// An empty box to tick, `side` long.
pub fn tick_box(side: f32, thick: f32) -> Sketch {
    let outline = rounded(0.0, 0.0, side, side, 1.2);
    let shape = Shape { outline, fill: Some(WHITE), edge: Some((thick, BLACK)), ..Shape::default() };
    let marks = vec![Placed { x: 0.0, y: 0.0, mark: Mark::Shape(shape), tag: None }];
    Sketch { width: side + side * 0.15, height: side, below: side * 0.14, marks }
}
