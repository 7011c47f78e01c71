//! The fonts of the PDF, and how wide words are in them.
//!
//! `fonts/` holds Noto Sans, regular and bold, and the signs of Noto Sans Math (SIL Open Font License 1.1), cut down to
//! Latin, Greek, Cyrillic, and the signs of a workshop.
use super::Fault;
use krilla::text::{Font, GlyphId, KrillaGlyph};
use rustybuzz::{Direction, Face, UnicodeBuffer};
use std::cell::RefCell;
use std::collections::BTreeSet;

const REGULAR: &[u8] = include_bytes!("fonts/NotoSans-Regular.ttf");
const BOLD: &[u8] = include_bytes!("fonts/NotoSans-Bold.ttf");
const SIGNS: &[u8] = include_bytes!("fonts/NotoSansMath-Regular.ttf");

/// Stands for a letter that no font has.
const UNKNOWN: char = '\u{fffd}';

pub struct Fonts {
    regular: Cut,
    bold: Cut,
    signs: Cut,
    /// Letters that were asked for and that no font has.
    lacking: RefCell<BTreeSet<char>>,
}

/// One font, for drawing and for shaping.
struct Cut {
    font: Font,
    face: Face<'static>,
}

/// Which of the fonts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Which {
    Regular,
    Bold,
    Signs,
}

/// Letters of one font as they are drawn: their glyphs, their text, and their width for a size of 1.
#[derive(Debug, Clone)]
pub struct Shaped {
    pub which: Which,
    pub text: String,
    pub glyphs: Vec<KrillaGlyph>,
    pub width: f32,
}

impl Fonts {
    /// # Errors
    /// Where the fonts in the program cannot be read, which a test would show.
    pub fn load() -> Result<Fonts, Fault> {
        Ok(Fonts {
            regular: Cut::of(REGULAR)?,
            bold: Cut::of(BOLD)?,
            signs: Cut::of(SIGNS)?,
            lacking: RefCell::default(),
        })
    }

    fn cut(&self, which: Which) -> &Cut {
        match which {
            Which::Regular => &self.regular,
            Which::Bold => &self.bold,
            Which::Signs => &self.signs,
        }
    }

    pub fn font(&self, which: Which) -> Font {
        self.cut(which).font.clone()
    }

    /// What the sheet shows only as a sign that something is missing.
    pub fn lacking(&self) -> Vec<char> {
        self.lacking.borrow().iter().copied().collect()
    }

    /// Left to right, cut where another font has the letters. A letter that none has shows as one sign that says so.
    pub fn shape(&self, text: &str, bold: bool) -> Vec<Shaped> {
        let usual = if bold { Which::Bold } else { Which::Regular };
        let mut pieces: Vec<(Which, String)> = Vec::new();
        for letter in text.chars() {
            let (which, letter) = if self.cut(usual).has(letter) {
                (usual, letter)
            } else if self.signs.has(letter) {
                (Which::Signs, letter)
            } else {
                self.lacking.borrow_mut().insert(letter);
                (usual, UNKNOWN)
            };
            match pieces.last_mut() {
                Some((last, piece)) if *last == which => piece.push(letter),
                _ => pieces.push((which, letter.into())),
            }
        }
        pieces.into_iter().map(|(which, piece)| self.cut(which).shape(which, piece)).collect()
    }
}

impl Cut {
    fn of(bytes: &'static [u8]) -> Result<Cut, Fault> {
        let font = Font::new(bytes.to_vec().into(), 0).ok_or(Fault::Font)?;
        Ok(Cut { font, face: Face::from_slice(bytes, 0).ok_or(Fault::Font)? })
    }

    fn has(&self, letter: char) -> bool {
        self.face.glyph_index(letter).is_some()
    }

    fn shape(&self, which: Which, text: String) -> Shaped {
        let mut buffer = UnicodeBuffer::new();
        buffer.push_str(&text);
        buffer.guess_segment_properties();
        buffer.set_direction(Direction::LeftToRight);
        let shaped = rustybuzz::shape(&self.face, &[], buffer);
        let em = self.face.units_per_em() as f32;
        let (positions, infos) = (shaped.glyph_positions(), shaped.glyph_infos());
        let mut glyphs = Vec::with_capacity(infos.len());
        let mut width = 0.0;
        for (at, (position, info)) in positions.iter().zip(infos).enumerate() {
            let start = info.cluster as usize;
            let next = infos.iter().skip(at + 1).find(|next| next.cluster != info.cluster);
            let end = next.map_or(text.len(), |next| next.cluster as usize);
            let [along, right, up] =
                [position.x_advance, position.x_offset, position.y_offset].map(|units| units as f32 / em);
            width += along;
            glyphs.push(KrillaGlyph::new(
                GlyphId::new(info.glyph_id),
                along,
                right,
                up,
                0.0,
                start..end,
                None,
            ));
        }
        Shaped { which, text, glyphs, width }
    }
}
