//! A quick look whether a text may hold one of some words, so that most text need not be cut into words.

/// First letters looked at, of each word.
const LETTERS: usize = 6;

/// For each of the first letters: which of the words, a bit each, have which byte there.
pub struct Sieve([[u32; 256]; LETTERS]);

impl<'w> FromIterator<&'w str> for Sieve {
    /// Of ASCII words that have the letters. Past 32 words some share a bit, and the sieve lets more through.
    fn from_iter<I: IntoIterator<Item = &'w str>>(words: I) -> Sieve {
        let mut tables = [[0; 256]; LETTERS];
        for (word, bit) in words.into_iter().zip((0..32).cycle()) {
            for (table, letter) in tables.iter_mut().zip(word.bytes()) {
                for case in [letter.to_ascii_lowercase(), letter.to_ascii_uppercase()] {
                    if let Some(words) = table.get_mut(usize::from(case)) {
                        *words |= 1 << bit;
                    }
                }
            }
        }
        Sieve(tables)
    }
}

impl Sieve {
    /// False only where none of the words is in `text` as a word of its own, in whatever case.
    pub fn lets_through(&self, text: &str) -> bool {
        let bytes = text.as_bytes();
        let mut in_word = false;
        bytes.iter().enumerate().any(|(at, byte)| {
            let starts = !in_word && words(self.0.first(), *byte) != 0;
            in_word = byte.is_ascii_alphabetic();
            starts && self.begins(bytes.get(at..).unwrap_or(&[]))
        })
    }

    /// Whether the first letters are those of one of the words.
    fn begins(&self, bytes: &[u8]) -> bool {
        let both = |so_far: u32, (table, byte): (_, &u8)| so_far & words(Some(table), *byte);
        bytes.len() >= LETTERS && self.0.iter().zip(bytes).fold(u32::MAX, both) != 0
    }
}

fn words(table: Option<&[u32; 256]>, byte: u8) -> u32 {
    table.and_then(|table| table.get(usize::from(byte))).copied().unwrap_or(0)
}
