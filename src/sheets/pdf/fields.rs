//! What is filled in by hand: boxes and lines to write on, readings, and signatures.
use super::flow::{BLANKS, Flow, GAP, Place, spaced};
use super::look::Look;
use super::markup::{Element, Node};
use super::slab::{BLACK, Placed, Slab, framed, rule, side_by_side, stack};
use super::words::{Run, length_of_last};

impl<'a> Flow<'a> {
    /// Boxes side by side to write in.
    pub(super) fn job(&mut self, element: &'a Element, place: Place) -> Slab {
        const SPACE: f32 = 6.0;
        let count = element.elements().count().max(1) as f32;
        let width = (place.width - SPACE * (count - 1.0)) / count;
        let mut columns = Vec::new();
        for (cell, at) in element.elements().zip(0_u8..) {
            let inner = self.block(cell, Place { width: width - 6.0, ..place });
            let boxed = framed(inner, width, 3.0, None, Some((0.8, BLACK)), 33.0);
            columns.push((f32::from(at) * (width + SPACE), vec![boxed]));
        }
        stack(spaced(vec![side_by_side(columns)], GAP * 1.5, GAP))
    }

    pub(super) fn signatures(&mut self, element: &'a Element, place: Place) -> Slab {
        const SPACE: f32 = 8.0;
        let width = (place.width - SPACE) / 2.0;
        let cells: Vec<&Element> = element.elements().collect();
        let mut rows = vec![Slab::room(GAP)];
        for pair in cells.chunks(2) {
            let columns = pair.iter().zip(0_u8..).map(|(cell, at)| {
                let mut look = Look { bold: true, ..place.look };
                let mut inner = Vec::new();
                for part in cell.elements() {
                    inner.extend(self.block(part, Place { width: width - 10.0, look, ..place }));
                    // Who signs stands out.
                    look.bold = false;
                }
                let boxed = framed(inner, width, 5.0, None, Some((0.8, BLACK)), 0.0);
                (f32::from(at) * (width + SPACE), vec![boxed])
            });
            rows.push(side_by_side(columns.collect()));
            rows.push(Slab::room(SPACE));
        }
        stack(rows)
    }

    /// Lines to sign and date on, their words below.
    pub(super) fn lines_to_sign(&mut self, element: &'a Element, place: Place) -> Slab {
        let count = element.elements().count().max(1) as f32;
        let mut columns = Vec::new();
        let mut x = 0.0;
        for (at, cell) in element.elements().enumerate() {
            // The first, the name, takes twice the room.
            let share = if at == 0 { 2.0 } else { 1.0 };
            let width = place.width * share / (count + 1.0) - 6.0;
            let mut run = Run::default();
            run.words(&cell.words(), place.look);
            let mut slabs = vec![Slab::room(23.0)];
            slabs.extend(self.words(run, Place { width, ..place }));
            let mut column = stack(slabs);
            column.marks.push(rule(0.0, 23.0, width, 0.8, BLACK));
            columns.push((x, vec![column]));
            x += width + 6.0;
        }
        side_by_side(columns)
    }

    /// A line to write on, with the unit behind it.
    pub(super) fn line_to_write(&mut self, element: &'a Element, place: Place) -> Slab {
        const TALL: f32 = 20.0;
        let mut run = Run::default();
        let before_rule = element.children.iter().take_while(|node| !is_rule(node));
        let mut ahead = Run::default();
        before_rule.for_each(|node| self.run(node, place.look, place.tag, &mut ahead));
        let after = element.children.iter().skip_while(|node| !is_rule(node));
        after.for_each(|node| self.run(node, place.look, place.tag, &mut run));
        let (ahead, behind) = (self.words(ahead, place), self.words(run, place));
        let (left, right) = (length_of_last(&ahead), length_of_last(&behind));
        let space = |length: f32| if length > 0.0 { length + 4.0 } else { 0.0 };
        let line =
            rule(space(left), TALL - 2.5, (place.width - space(left) - space(right)).max(20.0), 1.0, BLACK);
        let mut marks = vec![line];
        for (slabs, x) in [(ahead, 0.0), (behind, place.width - right)] {
            let words = stack(slabs);
            let down = TALL - words.height;
            marks.extend(words.marks.into_iter().map(|it| Placed { x: it.x + x, y: it.y + down, ..it }));
        }
        Slab { height: TALL, marks, ..Slab::default() }
    }

    pub(super) fn blanks(&mut self, element: &'a Element, place: Place) -> Vec<Slab> {
        let across = if place.width > 1.5 * BLANKS { 2 } else { 1 };
        let width = place.width / across as f32 - if across > 1 { 6.0 } else { 0.0 };
        let blanks: Vec<&Element> = element.elements().collect();
        let mut rows = Vec::new();
        for row in blanks.chunks(across) {
            let columns = row.iter().zip(0_u8..).map(|(blank, at)| {
                let boxed = blank.has("initials");
                let inner = Place { width: if boxed { width - 8.0 } else { width }, ..place };
                let mut slabs = self.block(blank, inner);
                if boxed {
                    slabs = vec![framed(slabs, width, 4.0, None, Some((1.5, BLACK)), 34.0)];
                }
                (f32::from(at) * (width + 12.0), slabs)
            });
            rows.push(side_by_side(columns.collect()));
            rows.push(Slab::room(GAP));
        }
        rows
    }
}

fn is_rule(node: &Node) -> bool {
    matches!(node, Node::Element(element) if element.has("rule"))
}
