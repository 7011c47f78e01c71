//! A drawing, written anew from a short list of what it may be made of. What would be lost of what the author sees is
//! no drawing for a sheet; what no one sees goes silently.
use super::{Kind, Picture, within};
use roxmltree::{Document, Node, ParsingOptions};
use std::collections::BTreeSet;
use std::fmt::Write as _;

const SVG: &str = "http://www.w3.org/2000/svg";

/// Shapes and words of SVG 1.1: nothing that runs, loads, moves, or refers to anything.
const ELEMENTS: [&str; 12] = [
    "circle", "desc", "ellipse", "g", "line", "path", "polygon", "polyline", "rect", "text", "title", "tspan",
];

/// What an element may say of itself.
const ATTRIBUTES: [&str; 42] = [
    "cx",
    "cy",
    "d",
    "dominant-baseline",
    "dx",
    "dy",
    "fill",
    "fill-opacity",
    "fill-rule",
    "font-family",
    "font-size",
    "font-style",
    "font-weight",
    "height",
    "opacity",
    "points",
    "preserveAspectRatio",
    "r",
    "rotate",
    "rx",
    "ry",
    "stroke",
    "stroke-dasharray",
    "stroke-dashoffset",
    "stroke-linecap",
    "stroke-linejoin",
    "stroke-miterlimit",
    "stroke-opacity",
    "stroke-width",
    "text-anchor",
    "transform",
    "vector-effect",
    "version",
    "viewBox",
    "visibility",
    "width",
    "x",
    "x1",
    "x2",
    "y",
    "y1",
    "y2",
];

/// How deep groups may stand in groups, and how much there may be: more was not drawn by hand.
const DEEPEST: usize = 32;
const MOST: u32 = 50_000;

/// The drawing, harmless.
pub fn read(bytes: &[u8]) -> Result<Picture, String> {
    let other = "it is no PNG, JPEG or SVG, whatever its name says";
    let text = std::str::from_utf8(bytes).map_err(|_| other.to_owned())?.trim_start_matches('\u{feff}');
    if !text.trim_start().starts_with('<') {
        return Err(other.to_owned());
    }
    let options = ParsingOptions { allow_dtd: false, nodes_limit: MOST, ..ParsingOptions::default() };
    let document = Document::parse_with_options(text, options).map_err(|error| match error {
        roxmltree::Error::DtdDetected => "it holds a document type, in which anything may hide".to_owned(),
        roxmltree::Error::NodesLimitReached => format!("it is made of more than {MOST} pieces"),
        error => format!("it cannot be read: {error}"),
    })?;
    let root = document.root_element();
    if !root.has_tag_name((SVG, "svg")) {
        return Err(other.to_owned());
    }
    let (view, (width, height)) = size(root)?;
    let mut writer = Writer { out: String::with_capacity(text.len()), numbers: BTreeSet::new() };
    let [x, y, across, down] = view;
    let _ = write!(
        writer.out,
        "<svg xmlns=\"{SVG}\" viewBox=\"{x} {y} {across} {down}\" width=\"{width}\" height=\"{height}\""
    );
    writer.attributes(root, &["viewBox", "width", "height", "x", "y", "version"])?;
    writer.out.push('>');
    writer.children(root, 0)?;
    writer.out.push_str("</svg>");
    let numbers = writer.numbers.into_iter().collect();
    Ok(Picture { kind: Kind::Svg, bytes: writer.out.into_bytes(), width, height, numbers })
}

/// The part of the plane that is seen, and how large it is shown.
fn size(root: Node<'_, '_>) -> Result<([f32; 4], (u32, u32)), String> {
    let of = |name: &str| root.attribute(name).and_then(pixels);
    let sides = of("width").zip(of("height"));
    let view = root.attribute("viewBox").and_then(|text| {
        let numbers = text.split([' ', ',', '\n', '\t']).filter(|it| !it.is_empty());
        let numbers: Vec<f32> =
            numbers.map_while(|it| it.parse().ok()).filter(|it: &f32| it.is_finite()).collect();
        <[f32; 4]>::try_from(numbers).ok()
    });
    let view = view.or(sides.map(|(width, height)| [0.0, 0.0, width, height]));
    let [_, _, across, down] = view.ok_or("it has no size: neither a `viewBox` nor `width` and `height`")?;
    let (width, height) = sides.unwrap_or((across, down));
    if !(across > 0.0 && down > 0.0 && width >= 1.0 && height >= 1.0) {
        return Err("it has no size".to_owned());
    }
    let size = within(width.round() as u32, height.round() as u32)?;
    Ok((view.unwrap_or_default(), size))
}

/// A length in pixels (CSS Values 3, 6.2); shares of something else have none.
fn pixels(text: &str) -> Option<f32> {
    let text = text.trim();
    let digits = text.find(|c: char| c.is_ascii_alphabetic() || c == '%').unwrap_or(text.len());
    let (number, unit) = text.split_at(digits);
    let factor = match unit {
        "" | "px" => 1.0,
        "mm" => 96.0 / 25.4,
        "cm" => 96.0 / 2.54,
        "in" => 96.0,
        "pt" => 96.0 / 72.0,
        _ => return None,
    };
    number.parse::<f32>().ok().filter(|it| it.is_finite()).map(|number| number * factor)
}

struct Writer {
    out: String,
    numbers: BTreeSet<u32>,
}

impl Writer {
    fn children(&mut self, parent: Node<'_, '_>, depth: usize) -> Result<(), String> {
        if depth > DEEPEST {
            return Err(format!("its groups stand in each other more than {DEEPEST} deep"));
        }
        for child in parent.children() {
            if child.is_element() {
                self.element(child, depth)?;
            } else if child.is_text()
                && matches!(parent.tag_name().name(), "text" | "tspan" | "title" | "desc")
            {
                escape(&mut self.out, child.text().unwrap_or(""));
            }
        }
        Ok(())
    }

    fn element(&mut self, element: Node<'_, '_>, depth: usize) -> Result<(), String> {
        let name = element.tag_name().name();
        // What a drawing program keeps for itself.
        let unseen = element.tag_name().namespace() != Some(SVG) || name == "metadata";
        if unseen || name == "defs" && !element.children().any(|child| child.is_element()) {
            return active(element).map_or(Ok(()), Err);
        }
        if !ELEMENTS.contains(&name) {
            return Err(format!("it holds `<{}>`, which has no place on a sheet", told(name)));
        }
        let _ = write!(self.out, "<{name}");
        self.attributes(element, &[])?;
        self.out.push('>');
        self.children(element, depth + 1)?;
        let _ = write!(self.out, "</{name}>");
        if name == "text" {
            let words: String =
                element.descendants().filter_map(|it| it.text().filter(|_| it.is_text())).collect();
            let words = words.trim();
            let digits = words.len() <= 2 && words.bytes().all(|it| it.is_ascii_digit());
            self.numbers.extend(words.parse::<u32>().ok().filter(|number| digits && *number > 0));
        }
        Ok(())
    }

    fn attributes(&mut self, element: Node<'_, '_>, but: &[&str]) -> Result<(), String> {
        if let Some(why) = active(element) {
            return Err(why);
        }
        let mut said: Vec<(&str, &str)> = Vec::new();
        for attribute in element.attributes().filter(|it| it.namespace().is_none() && it.name() != "style") {
            said.push((attribute.name(), attribute.value()));
        }
        // What the style says counts before the attribute, and what it says last before what it says first.
        let style = element.attribute("style").unwrap_or("");
        for (property, value) in style.split(';').filter_map(|it| it.split_once(':')) {
            let property = property.trim();
            said.retain(|(name, _)| *name != property);
            said.push((property, value.trim()));
        }
        for (name, value) in
            said.into_iter().filter(|(name, _)| ATTRIBUTES.contains(name) && !but.contains(name))
        {
            let _ = write!(self.out, " {name}=\"");
            escape(&mut self.out, value);
            self.out.push('"');
        }
        Ok(())
    }
}

/// What of the element itself would run, load or refer to something; `None` where nothing does.
fn active(element: Node<'_, '_>) -> Option<String> {
    if element.tag_name().name().eq_ignore_ascii_case("script") {
        return Some("it holds `<script>`, which has no place on a sheet".to_owned());
    }
    element.attributes().find_map(|attribute| {
        let (name, value) = (attribute.name(), attribute.value());
        let small: String = value.chars().filter(|it| !it.is_whitespace()).collect::<String>().to_lowercase();
        let lower = name.to_ascii_lowercase();
        let runs = lower.starts_with("on") || small.contains("javascript:");
        let drawn = element.tag_name().namespace() == Some(SVG);
        let refers = drawn && (lower == "href" || small.contains("url(") || small.contains("@import"));
        let why = if runs { "which would run" } else { "which refers to something else" };
        (runs || refers).then(|| format!("it holds `{}=`, {why}", told(name)))
    })
}

/// A name from the file, short enough to be told.
fn told(name: &str) -> String {
    name.chars().filter(|it| it.is_alphanumeric() || *it == '-').take(30).collect()
}

fn escape(out: &mut String, text: &str) {
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            _ => out.push(c),
        }
    }
}
