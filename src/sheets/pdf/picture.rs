//! Authors' pictures on paper: photographs, and the shapes and words of drawings with the colours they say of
//! themselves.
use super::drawing::{self, Sketch};
use super::fonts::Fonts;
use super::markup::{self, Element};
use super::slab::{BLACK, Ink, Mark, Photograph, Placed, Shape, Stroke};
use super::tags::TagId;
use crate::model::picture::turn;
use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use krilla::image::Image;
use svgtypes::{Color, PointsParser, Transform};

/// The drawing that an `img` of a page holds; `None` for a photograph.
pub fn drawing(image: &Element) -> Option<Element> {
    let data = image.attribute("src")?.strip_prefix("data:image/svg+xml;base64,")?;
    let text = String::from_utf8(STANDARD.decode(data).ok()?).ok()?;
    markup::read(&text).find(&|it| it.is("svg")).cloned()
}

/// Pictures with more pixels than this take more memory than they are worth on paper.
const MOST_PIXELS: u64 = 40_000_000;

/// The photograph that an `img` of a page holds, as [`sketch`] has it; `None` where it cannot be read.
pub fn photograph(image: &Element, tag: TagId, width: f32, height: f32) -> Option<Sketch> {
    let source = image.attribute("src")?;
    let bytes = |head: &str| STANDARD.decode(source.strip_prefix(head)?).ok();
    let (read, turn) = if let Some(bytes) = bytes("data:image/png;base64,") {
        (Image::from_png(bytes.into(), false), 1)
    } else {
        let bytes = bytes("data:image/jpeg;base64,")?;
        let turn = turn(&bytes);
        (Image::from_jpeg(bytes.into(), false), turn)
    };
    let read = read.ok()?;
    let (wide, tall) = read.size();
    if u64::from(wide) * u64::from(tall) > MOST_PIXELS {
        return None;
    }
    let (wide, tall) = if turn < 5 { (wide as f32, tall as f32) } else { (tall as f32, wide as f32) };
    let scale = 0.75_f32.min(width / wide).min(height / tall);
    let (width, height) = (wide * scale, tall * scale);
    let mark = Mark::Photograph(Photograph { image: read, width, height, turn });
    Some(Sketch { width, height, below: 0.0, marks: vec![Placed { x: 0.0, y: 0.0, mark, tag: Some(tag) }] })
}

/// Its marks, as large as fits into so much room, in points; not larger than the page shows it.
pub fn sketch(svg: &Element, fonts: &Fonts, tag: TagId, width: f32, height: f32) -> Option<Sketch> {
    let [left, top, wide, tall] = drawing::view(svg)?;
    let shown = svg.number("width").filter(|it| *it > 0.0).unwrap_or(wide);
    // A pixel of the page is three quarters of a point (CSS Values 3, 6.2).
    let scale = (shown * 0.75 / wide).min(width / wide).min(height / tall);
    let map = Transform::new(
        f64::from(scale),
        0.0,
        0.0,
        f64::from(scale),
        f64::from(-left * scale),
        f64::from(-top * scale),
    );
    let mut pen = Pen { fonts, tag, marks: Vec::new() };
    pen.inside(svg, Style::default().of(svg), map);
    Some(Sketch { width: wide * scale, height: tall * scale, below: 0.0, marks: pen.marks })
}

/// What is handed down from an element to what stands in it.
#[derive(Clone, Copy)]
struct Style {
    fill: Option<Ink>,
    edge: Option<Ink>,
    thick: f32,
    /// How long lines and gaps are by turns; nothing: drawn through.
    dashes: [f32; 2],
    holes: bool,
    size: f32,
    bold: bool,
    /// How much of the words' length stands left of their place.
    before: f32,
    /// How far below their place the words' line is, in sizes.
    down: f32,
    hidden: bool,
}

impl Default for Style {
    fn default() -> Style {
        Style {
            fill: Some(BLACK),
            edge: None,
            thick: 1.0,
            dashes: [0.0; 2],
            holes: false,
            size: 16.0,
            bold: false,
            before: 0.0,
            down: 0.0,
            hidden: false,
        }
    }
}

impl Style {
    fn of(mut self, element: &Element) -> Style {
        let faint = element.number("opacity").unwrap_or(1.0);
        let ink = |key: &str, own: &str, usual: Option<Ink>| {
            let faint = faint * element.number(own).unwrap_or(1.0);
            match element.attribute(key).map(str::trim) {
                Some("none" | "transparent") => None,
                Some("currentColor") => Some(BLACK),
                Some(text) => text.parse::<Color>().ok().map(solid).or(usual),
                None => usual,
            }
            .map(|ink| paler(ink, faint))
        };
        self.fill = ink("fill", "fill-opacity", self.fill);
        self.edge = ink("stroke", "stroke-opacity", self.edge);
        self.thick = length(element, "stroke-width").unwrap_or(self.thick);
        self.dashes = element.attribute("stroke-dasharray").map_or(self.dashes, dashes);
        self.size = length(element, "font-size").unwrap_or(self.size);
        self.holes = element.attribute("fill-rule").map_or(self.holes, |it| it == "evenodd");
        self.bold =
            element.attribute("font-weight").map_or(self.bold, |it| matches!(it, "bold" | "700" | "800"));
        self.hidden = element.attribute("visibility").map_or(self.hidden, |it| it != "visible");
        self.before = match element.attribute("text-anchor") {
            Some("middle") => 0.5,
            Some("end") => 1.0,
            Some(_) => 0.0,
            None => self.before,
        };
        self.down = match element.attribute("dominant-baseline") {
            Some("central" | "middle") => 0.36,
            Some("hanging" | "text-before-edge") => 0.8,
            Some(_) => 0.0,
            None => self.down,
        };
        self
    }
}

fn length(element: &Element, key: &str) -> Option<f32> {
    element.attribute(key)?.trim().trim_end_matches("px").parse().ok()
}

/// The first line and the first gap; a single number is both (SVG 2, 13.5.6).
fn dashes(text: &str) -> [f32; 2] {
    let mut numbers = text.split([',', ' ']).filter_map(|number| number.trim().parse::<f32>().ok());
    let line = numbers.next().unwrap_or(0.0).max(0.0);
    [line, numbers.next().unwrap_or(line).max(0.0)]
}

fn solid(colour: Color) -> Ink {
    paler(Ink(colour.red, colour.green, colour.blue), f32::from(colour.alpha) / 255.0)
}

/// As it looks on white.
fn paler(Ink(red, green, blue): Ink, share: f32) -> Ink {
    let mix = |part: u8| (255.0 - (255.0 - f32::from(part)) * share.clamp(0.0, 1.0)).round() as u8;
    Ink(mix(red), mix(green), mix(blue))
}

struct Pen<'a> {
    fonts: &'a Fonts,
    tag: TagId,
    marks: Vec<Placed>,
}

impl Pen<'_> {
    fn inside(&mut self, parent: &Element, style: Style, map: Transform) {
        for element in parent.elements() {
            let style = style.of(element);
            let own = element.attribute("transform").and_then(|text| text.parse::<Transform>().ok());
            let map = own.map_or(map, |own| joined(map, own));
            match element.name.as_str() {
                "g" => self.inside(element, style, map),
                "text" => self.text(element, style, map),
                _ => self.shape(element, style, map),
            }
        }
    }

    fn shape(&mut self, element: &Element, style: Style, map: Transform) {
        let points = || PointsParser::from(element.attribute("points").unwrap_or(""));
        let outline = match element.name.as_str() {
            "polyline" | "polygon" => {
                let mut strokes: Vec<Stroke> =
                    points().map(|(x, y)| Stroke::Line(x as f32, y as f32)).collect();
                if let Some(first) = strokes.first_mut()
                    && let Stroke::Line(x, y) = *first
                {
                    *first = Stroke::Move(x, y);
                }
                if element.is("polygon") {
                    strokes.push(Stroke::Close);
                }
                strokes
            }
            _ => drawing::outline(element).unwrap_or_default(),
        };
        if outline.len() < 2 || style.hidden {
            return;
        }
        let outline = outline.into_iter().map(|stroke| moved(map, stroke)).collect();
        let edge = style.edge.map(|ink| (style.thick * size_of(map), ink));
        let fill = style.fill.filter(|_| !element.is("line"));
        let dashes = style.dashes.map(|length| length * size_of(map));
        self.mark(0.0, 0.0, Mark::Shape(Shape { outline, fill, edge, dashes, holes: style.holes }));
    }

    fn text(&mut self, element: &Element, style: Style, map: Transform) {
        let place = |it: &Element| (it.number("x"), it.number("y"));
        let (x, y) = place(element);
        let (x, y) = (x.unwrap_or(0.0), y.unwrap_or(0.0));
        let apart = element.elements().any(|it| it.is("tspan") && place(it) != (None, None));
        if !apart {
            return self.words(&element.words(), style, map, at(map, x, y));
        }
        for span in element.elements().filter(|it| it.is("tspan")) {
            let (own_x, own_y) = place(span);
            let here = at(map, own_x.unwrap_or(x), own_y.unwrap_or(y));
            self.words(&span.words(), style.of(span), map, here);
        }
    }

    fn words(&mut self, words: &str, style: Style, map: Transform, (x, y): (f32, f32)) {
        let Some(ink) = style.fill.filter(|_| !style.hidden) else { return };
        let scale = size_of(map);
        if scale <= 0.0 {
            return;
        }
        let size = style.size * scale;
        let [along_x, along_y, down_x, down_y] = [map.a, map.b, map.c, map.d].map(|part| part as f32 / scale);
        let slant = ((along_x, along_y) != (1.0, 0.0)).then_some([along_x, along_y, down_x, down_y]);
        let pieces = self.fonts.shape(words, style.bold);
        let whole: f32 = pieces.iter().map(|piece| piece.width * size).sum();
        let (mut along, down) = (-whole * style.before, size * style.down);
        for shaped in pieces {
            let (x, y) = (x + along * along_x + down * down_x, y + along * along_y + down * down_y);
            along += shaped.width * size;
            self.mark(x, y, Mark::Text { shaped, size, ink, slant });
        }
    }

    fn mark(&mut self, x: f32, y: f32, mark: Mark) {
        self.marks.push(Placed { x, y, mark, tag: Some(self.tag) });
    }
}

/// First `inner`, then `outer`.
fn joined(outer: Transform, inner: Transform) -> Transform {
    Transform::new(
        outer.a * inner.a + outer.c * inner.b,
        outer.b * inner.a + outer.d * inner.b,
        outer.a * inner.c + outer.c * inner.d,
        outer.b * inner.c + outer.d * inner.d,
        outer.a * inner.e + outer.c * inner.f + outer.e,
        outer.b * inner.e + outer.d * inner.f + outer.f,
    )
}

fn at(map: Transform, x: f32, y: f32) -> (f32, f32) {
    let (x, y) = (f64::from(x), f64::from(y));
    ((map.a * x + map.c * y + map.e) as f32, (map.b * x + map.d * y + map.f) as f32)
}

/// How much longer a line gets, on average of both ways.
fn size_of(map: Transform) -> f32 {
    (map.a * map.d - map.b * map.c).abs().sqrt() as f32
}

fn moved(map: Transform, stroke: Stroke) -> Stroke {
    match stroke {
        Stroke::Move(x, y) => {
            let (x, y) = at(map, x, y);
            Stroke::Move(x, y)
        }
        Stroke::Line(x, y) => {
            let (x, y) = at(map, x, y);
            Stroke::Line(x, y)
        }
        Stroke::Curve(a, b, c, d, x, y) => {
            let ((a, b), (c, d), (x, y)) = (at(map, a, b), at(map, c, d), at(map, x, y));
            Stroke::Curve(a, b, c, d, x, y)
        }
        Stroke::Close => Stroke::Close,
    }
}
