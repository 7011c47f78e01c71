//! Tables: columns as wide as their kind asks for, rows that no page break goes through.
use super::flow::{Flow, Place};
use super::look;
use super::markup::Element;
use super::slab::{BLACK, LINE, Slab, framed, rule, side_by_side, stack};

/// Widths in points of columns that do not share what is left.
const WIDTHS: [(&str, f32); 6] =
    [("at", 54.0), ("count", 52.0), ("done", 34.0), ("mark", 46.0), ("no", 26.0), ("part-no", 96.0)];

pub fn table<'a>(flow: &mut Flow<'a>, element: &'a Element, place: Place) -> Vec<Slab> {
    let mut slabs = Vec::new();
    let rows = |part: &'a Element| part.elements().filter(|it| it.is("tr"));
    let widest = element.elements().flat_map(rows).max_by_key(|row| row.elements().count());
    let Some(widths) = widest.map(|row| widths(row, place.width)) else { return slabs };
    for part in element.elements() {
        let tag = flow.tags.of(place.tag, part);
        let inner = Place { look: look::inside(part, place.look), tag, ..place };
        if part.is("caption") {
            slabs.extend(flow.children(part, inner));
        }
        for row in rows(part) {
            let head = part.is("thead");
            let mut strip = table_row(flow, row, &widths, inner);
            let (thick, ink) = if head { (1.1, BLACK) } else { (0.5, LINE) };
            strip.marks.push(rule(0.0, strip.height, place.width, thick, ink));
            strip.glued = head;
            slabs.push(strip);
        }
    }
    slabs
}

fn widths(row: &Element, whole: f32) -> Vec<f32> {
    let fixed = |cell: &Element| WIDTHS.iter().find(|(class, _)| cell.has(class)).map(|(_, width)| *width);
    let cells: Vec<Option<f32>> = row.elements().map(fixed).collect();
    let taken: f32 = cells.iter().flatten().sum();
    let shares = cells.iter().filter(|cell| cell.is_none()).count().max(1) as f32;
    cells.into_iter().map(|cell| cell.unwrap_or(((whole - taken) / shares).max(30.0))).collect()
}

fn table_row<'a>(flow: &mut Flow<'a>, row: &'a Element, widths: &[f32], place: Place) -> Slab {
    let tag = flow.tags.of(place.tag, row);
    let mut columns = Vec::new();
    let (mut x, mut at) = (0.0, 0);
    for cell in row.elements() {
        let across = cell.attribute("colspan").and_then(|it| it.parse().ok()).unwrap_or(1_usize);
        let width: f32 = widths.iter().skip(at).take(across).sum();
        let look = look::inside(cell, place.look);
        let tag = flow.tags.of(tag, cell);
        let inner = flow.children(cell, Place { width: width - 8.0, look, tag, ..place });
        let inner = if cell.has("count") { right(inner, width - 8.0) } else { inner };
        columns.push((x, vec![framed(inner, width, 4.0, None, None, 0.0)]));
        (x, at) = (x + width, at + across);
    }
    stack(vec![side_by_side(columns)])
}

/// Moves each strip to the right end.
fn right(slabs: Vec<Slab>, width: f32) -> Vec<Slab> {
    let length = super::words::length_of_last;
    let moved = slabs.into_iter().map(|slab| {
        let by = width - length(std::slice::from_ref(&slab));
        slab.moved(by.max(0.0))
    });
    moved.collect()
}
