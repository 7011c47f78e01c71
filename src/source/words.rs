//! Maps from short words, which are looked up many times a line.
use std::collections::HashMap;
use std::hash::{BuildHasher, Hasher, RandomState};
use std::sync::LazyLock;

/// A map from words of a few letters. For long keys the standard map is as good.
pub type WordMap<K, V> = HashMap<K, V, WordHash>;

/// Hashes eight bytes at a time, under a key of the process, so that no file can be made to collide.
#[derive(Debug, Clone, Copy)]
pub struct WordHash {
    key: u64,
}

static KEY: LazyLock<u64> = LazyLock::new(|| RandomState::new().hash_one(0_u8));

impl Default for WordHash {
    fn default() -> WordHash {
        WordHash { key: *KEY }
    }
}

impl BuildHasher for WordHash {
    type Hasher = WordHasher;

    fn build_hasher(&self) -> WordHasher {
        WordHasher { state: self.key }
    }
}

/// See [`WordHash`].
#[derive(Debug, Clone, Copy)]
pub struct WordHasher {
    state: u64,
}

impl WordHasher {
    fn mix(&mut self, part: u64) {
        // Any odd number without a pattern; this one is the golden ratio's.
        const SPREAD: u128 = 0x9e37_79b9_7f4a_7c15;
        let wide = u128::from(self.state ^ part) * SPREAD;
        self.state = (wide as u64) ^ ((wide >> 64) as u64).rotate_left(29);
    }
}

impl Hasher for WordHasher {
    fn write(&mut self, bytes: &[u8]) {
        let (wholes, rest) = bytes.as_chunks::<8>();
        for whole in wholes {
            self.mix(u64::from_le_bytes(*whole));
        }
        // Four bytes and more are read as two halves that may share some.
        let tail = match (rest.first_chunk::<4>(), rest.last_chunk::<4>()) {
            (Some(first), Some(last)) => {
                u64::from(u32::from_le_bytes(*first)) << 32 | u64::from(u32::from_le_bytes(*last))
            }
            _ => rest.iter().fold(0, |tail, &byte| tail << 8 | u64::from(byte)),
        };
        self.mix(tail ^ (bytes.len() as u64).rotate_right(8));
    }

    /// What ends a string; its length is mixed in already.
    fn write_u8(&mut self, byte: u8) {
        self.state ^= u64::from(byte);
    }

    fn finish(&self) -> u64 {
        self.state
    }
}
