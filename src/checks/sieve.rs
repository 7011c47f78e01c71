//! A quick look whether a text may hold one of some words, so that most text need not be cut into words.

/// First letters looked at, of each word.
const LETTERS: usize = 6;
/// Every so many bytes three letters are looked at: one of the four such places in the first six letters of a word
/// falls on them.
const STRIDE: usize = 4;
/// A letter in five bits, whatever its case; other bytes share the bits of some letter.
const FIVE_BITS: usize = 0x1f;
/// Three letters of five bits, a bit each.
const TRIPLES: usize = (1 << 15) / 64;

/// For texts in which words may be; see [`Sieve::lets_through`].
pub struct Sieve {
    /// Threes of letters that stand together in the first six of one of the words.
    triples: [u64; TRIPLES],
    /// For each of the first letters: which of the words, a bit each, have which byte there.
    letters: [[u32; 256]; LETTERS],
}

impl<'w> FromIterator<&'w str> for Sieve {
    /// Of ASCII words of six letters and more; shorter ones are never found. Past 32 words some share a bit, and the
    /// sieve lets more through.
    fn from_iter<I: IntoIterator<Item = &'w str>>(words: I) -> Sieve {
        let mut sieve = Sieve { triples: [0; TRIPLES], letters: [[0; 256]; LETTERS] };
        for (word, bit) in words.into_iter().zip((0..32).cycle()) {
            for &three in word.as_bytes().array_windows().take(STRIDE) {
                let (at, mask) = place(three);
                if let Some(known) = sieve.triples.get_mut(at) {
                    *known |= mask;
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
        for (nth, &[a, b, c, _]) in chunks.iter().enumerate() {
            if self.knows([a, b, c]) && self.begins_near(bytes, nth * STRIDE) {
                return true;
            }
        }
        rest.first_chunk().is_some_and(|&three| self.knows(three))
            && self.begins_near(bytes, chunks.len() * STRIDE)
    }

    fn knows(&self, three: [u8; 3]) -> bool {
        let (at, mask) = place(three);
        self.triples.get(at).is_some_and(|known| known & mask != 0)
    }

    /// Whether one of the words begins at `at` or within a stride before it.
    #[cold]
    fn begins_near(&self, bytes: &[u8], at: usize) -> bool {
        (0..STRIDE).any(|back| self.begins(bytes, at.checked_sub(back)))
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

/// Which word of the table, and which bit in it.
fn place([a, b, c]: [u8; 3]) -> (usize, u64) {
    let [a, b, c] = [a, b, c].map(|letter| usize::from(letter) & FIVE_BITS);
    (a << 4 | b >> 1, 1 << ((b & 1) << 5 | c))
}
