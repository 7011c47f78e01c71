//! A quick look whether a text may hold one of some words, so that most text need not be cut into words.

/// First letters looked at, of each word.
const LETTERS: usize = 6;
/// Every so many bytes a pair of letters is looked at: a word of six letters has such a pair in its first five.
const STRIDE: usize = 4;
/// A letter in five bits, whatever its case; other bytes share the bits of some letter.
const FIVE_BITS: usize = 0x1f;
const PAIRS: usize = 1 << 10;

/// For texts in which words may be; see [`Sieve::lets_through`].
pub struct Sieve {
    /// Pairs of letters that stand together in one of the words, not past its fifth letter.
    pairs: [bool; PAIRS],
    /// For each of the first letters: which of the words, a bit each, have which byte there.
    letters: [[u32; 256]; LETTERS],
}

impl<'w> FromIterator<&'w str> for Sieve {
    /// Of ASCII words of six letters and more; shorter ones are never found. Past 32 words some share a bit, and the
    /// sieve lets more through.
    fn from_iter<I: IntoIterator<Item = &'w str>>(words: I) -> Sieve {
        let mut sieve = Sieve { pairs: [false; PAIRS], letters: [[0; 256]; LETTERS] };
        for (word, bit) in words.into_iter().zip((0..32).cycle()) {
            for pair in word.as_bytes().array_windows().take(STRIDE) {
                if let Some(known) = sieve.pairs.get_mut(index(pair)) {
                    *known = true;
                }
            }
            for (table, letter) in sieve.letters.iter_mut().zip(word.bytes()) {
                for case in [letter.to_ascii_lowercase(), letter.to_ascii_uppercase()] {
                    if let Some(words) = table.get_mut(usize::from(case)) {
                        *words |= 1 << bit;
                    }
                }
            }
        }
        sieve
    }
}

impl Sieve {
    /// False only where none of the words is in `text`, in whatever case.
    pub fn lets_through(&self, text: &str) -> bool {
        let bytes = text.as_bytes();
        let (chunks, rest) = bytes.as_chunks::<STRIDE>();
        let found = |nth: usize, pair: &[u8; 2]| {
            self.pairs.get(index(pair)) == Some(&true)
                && (0..STRIDE).any(|back| self.begins(bytes, (nth * STRIDE).checked_sub(back)))
        };
        chunks.iter().enumerate().any(|(nth, &[a, b, ..])| found(nth, &[a, b]))
            || rest.first_chunk().is_some_and(|pair| found(chunks.len(), pair))
    }

    /// Whether the letters from there on are the first of one of the words.
    fn begins(&self, bytes: &[u8], at: Option<usize>) -> bool {
        let Some(letters) = at.and_then(|at| bytes.get(at..at + LETTERS)) else { return false };
        let mut left = u32::MAX;
        self.letters.iter().zip(letters).all(|(table, byte)| {
            left &= table.get(usize::from(*byte)).copied().unwrap_or(0);
            left != 0
        })
    }
}

fn index(&[a, b]: &[u8; 2]) -> usize {
    (usize::from(a) & FIVE_BITS) << 5 | usize::from(b) & FIVE_BITS
}
