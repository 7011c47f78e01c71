//! Words to lines.
use super::drawing::Sketch;
use super::fonts::{Fonts, Shaped};
use super::look::Look;
use super::slab::{Mark, Placed, Slab};
use super::tags::TagId;
use unicode_linebreak::{BreakOpportunity, linebreaks};

/// Stands in the text for a drawing among the words.
const DRAWING: char = '\u{fffc}';
/// Joins what stands on both sides of it, and is not drawn.
const NO_BREAK: char = '\u{2060}';
/// How far the highest letters reach above the baseline, of the size.
const ASCENT: f32 = 0.93;

/// Words and small drawings that run on from line to line.
#[derive(Default)]
pub struct Run {
    text: String,
    /// From which byte on which look holds.
    looks: Vec<(usize, Look)>,
    sketches: Vec<Sketch>,
}

impl Run {
    /// Adds words; blanks of any kind and number become one.
    pub fn words(&mut self, words: &str, look: Look) {
        self.looks.push((self.text.len(), look));
        for letter in words.chars() {
            if letter.is_ascii_whitespace() {
                if !self.text.is_empty() && !self.text.ends_with(' ') {
                    self.text.push(if look.whole { '\u{a0}' } else { ' ' });
                }
            } else if look.capitals {
                self.text.extend(letter.to_uppercase());
            } else {
                self.text.push(letter);
                if look.whole && matches!(letter, '–' | '-' | '/') {
                    self.text.push(NO_BREAK);
                }
            }
        }
    }

    pub fn sketch(&mut self, sketch: Sketch, look: Look) {
        self.looks.push((self.text.len(), look));
        self.text.push(DRAWING);
        self.sketches.push(sketch);
    }

    pub fn line_break(&mut self) {
        self.text.push('\n');
    }

    pub fn is_empty(&self) -> bool {
        self.text.trim().is_empty()
    }

    /// The lines, one strip each, `width` wide; the last may be followed by a line to write on.
    pub fn lines(self, width: f32, fonts: &Fonts, tag: TagId) -> Vec<Slab> {
        let text = self.text.trim_end().to_owned();
        let mut setter = Setter { width, fonts, tag, line: Vec::new(), at: 0.0, gap: 0.0, done: Vec::new() };
        let mut sketches = self.sketches.into_iter();
        let (mut from, mut look) = (0, None);
        let mut to_come = self.looks.iter().peekable();
        for (end, opportunity) in linebreaks(&text) {
            let mut chunk = Vec::new();
            let mut piece_from = from;
            for (at, letter) in text.get(from..end).unwrap_or("").char_indices() {
                let at = from + at;
                // In order, each met once.
                let mut changes = false;
                while let Some((_, next)) = to_come.next_if(|(place, _)| *place <= at) {
                    changes = at > piece_from;
                    if changes {
                        push_piece(&mut chunk, &text, piece_from..at, look);
                        piece_from = at;
                    }
                    look = Some(*next);
                }
                if !changes && letter == DRAWING {
                    push_piece(&mut chunk, &text, piece_from..at, look);
                    piece_from = at;
                }
                if letter == DRAWING {
                    chunk.extend(sketches.next().map(Piece::Sketch));
                    piece_from = at + letter.len_utf8();
                }
            }
            push_piece(&mut chunk, &text, piece_from..end, look);
            setter.chunk(chunk);
            if opportunity == BreakOpportunity::Mandatory && end < text.len() {
                setter.end_line();
            }
            from = end;
        }
        setter.end_line();
        setter.done
    }
}

enum Piece {
    Words(String, Look),
    Sketch(Sketch),
}

fn push_piece(chunk: &mut Vec<Piece>, text: &str, range: std::ops::Range<usize>, look: Option<Look>) {
    let words = text.get(range).unwrap_or("");
    if let Some(look) = look.filter(|_| !words.is_empty()) {
        chunk.push(Piece::Words(words.replace(NO_BREAK, ""), look));
    }
}

/// Something on a line, from its left end.
enum Set {
    Words(Shaped, Look),
    Sketch(Sketch),
}

struct Setter<'f> {
    width: f32,
    fonts: &'f Fonts,
    tag: TagId,
    line: Vec<(f32, Set)>,
    at: f32,
    /// The blank after what stands last, which the end of a line does without.
    gap: f32,
    done: Vec<Slab>,
}

impl Setter<'_> {
    /// Sets what no break goes through, unless it is longer than a line.
    fn chunk(&mut self, chunk: Vec<Piece>) {
        let mut set: Vec<(f32, Set)> = Vec::new();
        let (mut length, mut gap) = (0.0, 0.0);
        for piece in chunk {
            length += gap;
            gap = 0.0;
            match piece {
                Piece::Sketch(sketch) => {
                    let width = sketch.width;
                    set.push((length, Set::Sketch(sketch)));
                    length += width;
                }
                Piece::Words(words, look) => {
                    let core = words.trim_end_matches([' ', '\n']);
                    for shaped in self.fonts.shape(core, look.bold) {
                        let width = shaped.width * look.size;
                        set.push((length, Set::Words(shaped, look)));
                        length += width;
                    }
                    if core.len() < words.len() {
                        gap = self.fonts.shape(" ", look.bold).iter().map(|it| it.width).sum::<f32>()
                            * look.size;
                    }
                }
            }
        }
        if self.at > 0.0 && self.at + self.gap + length > self.width {
            self.end_line();
        }
        if length > self.width {
            return self.too_long(set);
        }
        let from = if self.line.is_empty() { 0.0 } else { self.at + self.gap };
        self.line.extend(set.into_iter().map(|(x, item)| (from + x, item)));
        (self.at, self.gap) = (from + length, gap);
    }

    /// A word longer than a line is cut wherever the line ends.
    fn too_long(&mut self, set: Vec<(f32, Set)>) {
        for (_, item) in set {
            let Set::Words(shaped, look) = item else {
                self.line.push((self.at, item));
                continue;
            };
            for letter in shaped.text.chars() {
                for shaped in self.fonts.shape(letter.encode_utf8(&mut [0; 4]), look.bold) {
                    let width = shaped.width * look.size;
                    if self.at > 0.0 && self.at + width > self.width {
                        self.end_line();
                    }
                    self.line.push((self.at, Set::Words(shaped, look)));
                    self.at += width;
                }
            }
        }
        self.gap = 0.0;
    }

    fn end_line(&mut self) {
        let line = std::mem::take(&mut self.line);
        (self.at, self.gap) = (0.0, 0.0);
        let tall = line.iter().map(|(_, set)| match set {
            Set::Words(_, look) => {
                (look.size * look.leading, look.size * (ASCENT + (look.leading - 1.3) / 2.0))
            }
            Set::Sketch(sketch) => (sketch.height * 1.1, sketch.height - sketch.below),
        });
        let (height, baseline) = tall
            .fold((0.0_f32, 0.0_f32), |(height, base), (tall, above)| (height.max(tall), base.max(above)));
        if line.is_empty() {
            return;
        }
        let mut marks = Vec::new();
        for (x, set) in line {
            match set {
                Set::Words(shaped, look) => {
                    let mark = Mark::Text { shaped, size: look.size, ink: look.ink, slant: None };
                    marks.push(Placed { x, y: baseline, mark, tag: Some(self.tag) });
                }
                Set::Sketch(sketch) => {
                    let top = baseline + sketch.below - sketch.height;
                    marks.extend(sketch.marks.into_iter().map(|placed| Placed {
                        x: placed.x + x,
                        y: placed.y + top,
                        ..placed
                    }));
                }
            }
        }
        self.done.push(Slab { height, marks, ..Slab::default() });
    }
}

/// How long the last line is.
pub fn length_of_last(lines: &[Slab]) -> f32 {
    let ends = lines.last().into_iter().flat_map(|line| &line.marks).map(|placed| match &placed.mark {
        Mark::Text { shaped, size, .. } => placed.x + shaped.width * size,
        Mark::Shape(_) | Mark::Photograph(_) | Mark::Heading(_) => placed.x,
    });
    ends.fold(0.0, f32::max)
}
