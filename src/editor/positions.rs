//! Places in a text as editors count them: lines from 0, and in the line the units of one encoding.
use crate::source::Span;

/// What a client counts the place in a line by.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Encoding {
    Utf8,
    #[default]
    Utf16,
}

/// Line and place in the line, both from 0.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Place {
    pub line: u32,
    pub character: u32,
}

/// Where the lines of a text start. A line ends with `\n`, `\r\n` or a lone `\r`.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Lines {
    starts: Vec<usize>,
    encoding: Encoding,
}

impl Lines {
    pub fn of(text: &str, encoding: Encoding) -> Lines {
        let bytes = text.as_bytes();
        let ends = memchr::memchr2_iter(b'\n', b'\r', bytes)
            .filter(|&at| bytes.get(at) == Some(&b'\n') || bytes.get(at + 1) != Some(&b'\n'));
        Lines { starts: std::iter::once(0).chain(ends.map(|at| at + 1)).collect(), encoding }
    }

    /// The byte that the place means in `text`, of which these are the lines. A place behind the end of its line is
    /// the end of the line, one behind the last line the end of the text, and one inside a character its start.
    pub fn offset(&self, text: &str, place: Place) -> usize {
        let line = place.line as usize;
        let Some(&start) = self.starts.get(line) else { return text.len() };
        let content = self.content(text, line);
        let wanted = place.character as usize;
        let mut passed = 0;
        for (at, letter) in content.char_indices() {
            let next = passed + self.units(letter);
            if next > wanted {
                return start + at;
            }
            passed = next;
        }
        start + content.len()
    }

    /// The place of a byte of `text`, of which these are the lines.
    pub fn place(&self, text: &str, offset: usize) -> Place {
        let mut offset = offset.min(text.len());
        while !text.is_char_boundary(offset) {
            offset -= 1;
        }
        let line = self.starts.partition_point(|&start| start <= offset).saturating_sub(1);
        let start = self.starts.get(line).copied().unwrap_or(0);
        let before = text.get(start..offset).unwrap_or("");
        let character = match self.encoding {
            Encoding::Utf8 => before.len(),
            Encoding::Utf16 => before.chars().map(|letter| self.units(letter)).sum(),
        };
        Place { line: clip(line), character: clip(character) }
    }

    /// First and last place of a span.
    pub fn range(&self, text: &str, span: Span) -> (Place, Place) {
        (self.place(text, span.start as usize), self.place(text, span.end as usize))
    }

    /// The line without its end; empty where there is none of that number.
    fn content<'t>(&self, text: &'t str, line: usize) -> &'t str {
        let start = self.starts.get(line).copied().unwrap_or(text.len());
        let end = self.starts.get(line + 1).copied().unwrap_or(text.len());
        text.get(start..end).unwrap_or("").trim_end_matches(['\n', '\r'])
    }

    fn units(&self, letter: char) -> usize {
        match self.encoding {
            Encoding::Utf8 => letter.len_utf8(),
            Encoding::Utf16 => letter.len_utf16(),
        }
    }
}

fn clip(n: usize) -> u32 {
    u32::try_from(n).unwrap_or(u32::MAX)
}
