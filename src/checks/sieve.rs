//! A quick look whether a text may hold one of some words, so that most text need not be cut into words.

/// First letters looked at, of each word.
const LETTERS: usize = 6;

/// What a byte is to the words.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Class {
    NoLetter,
    Letter,
    /// A letter that one of the words starts with.
    Starts,
}

/// For texts in which words may be; see [`Sieve::lets_through`].
pub struct Sieve {
    classes: [Class; 256],
    /// For each of the first letters: which of the words, a bit each, have which byte there.
    letters: [[u32; 256]; LETTERS],
}

impl<'w> FromIterator<&'w str> for Sieve {
    /// Of ASCII words that have the letters. Past 32 words some share a bit, and the sieve lets more through.
    fn from_iter<I: IntoIterator<Item = &'w str>>(words: I) -> Sieve {
        let mut letters = [[0; 256]; LETTERS];
        for (word, bit) in words.into_iter().zip((0..32).cycle()) {
            for (table, letter) in letters.iter_mut().zip(word.bytes()) {
                for case in [letter.to_ascii_lowercase(), letter.to_ascii_uppercase()] {
                    if let Some(words) = table.get_mut(usize::from(case)) {
                        *words |= 1 << bit;
                    }
                }
            }
        }
        let class = |byte: u8| match () {
            () if !byte.is_ascii_alphabetic() => Class::NoLetter,
            () if letters.first().is_some_and(|first| of(first, byte) != 0) => Class::Starts,
            () => Class::Letter,
        };
        let mut classes = [Class::NoLetter; 256];
        for (byte, place) in (0..=u8::MAX).zip(&mut classes) {
            *place = class(byte);
        }
        Sieve { classes, letters }
    }
}

impl Sieve {
    /// False only where none of the words is in `text` as a word of its own, in whatever case.
    pub fn lets_through(&self, text: &str) -> bool {
        let bytes = text.as_bytes();
        let mut before = Class::NoLetter;
        bytes.iter().enumerate().any(|(at, byte)| {
            let class = of(&self.classes, *byte);
            let starts = class == Class::Starts && before == Class::NoLetter;
            before = class;
            starts && self.begins(bytes.get(at..).unwrap_or(&[]))
        })
    }

    /// Whether the first letters are those of one of the words.
    fn begins(&self, bytes: &[u8]) -> bool {
        let mut left = u32::MAX;
        let fits = |(table, byte): (&[u32; 256], &u8)| {
            left &= of(table, *byte);
            left != 0
        };
        bytes.len() >= LETTERS && self.letters.iter().zip(bytes).all(fits)
    }
}

fn of<T: Copy>(table: &[T; 256], byte: u8) -> T {
    let [first, ..] = *table;
    table.get(usize::from(byte)).copied().unwrap_or(first)
}
