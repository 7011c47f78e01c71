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
    /// False only where none of the words is in `text`, in whatever case.
    pub fn lets_through(&self, text: &str) -> bool {
        let words = |table: &[u32; 256], byte: u8| table.get(usize::from(byte)).copied().unwrap_or(0);
        let [first, second, third, fourth, fifth, sixth] = &self.0;
        text.as_bytes().array_windows().any(|&[a, b, c, d, e, f]| {
            // Four letters are nearly always enough to tell.
            let begun = words(first, a) & words(second, b) & words(third, c) & words(fourth, d);
            begun != 0 && begun & words(fifth, e) & words(sixth, f) != 0
        })
    }
}
