//! Digests that stand for contents.
use serde::{Deserialize, Serialize};
use sha2::{Digest as _, Sha256};

/// SHA-256 of something.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct Digest([u8; 32]);

impl Digest {
    pub fn of(bytes: &[u8]) -> Digest {
        Digest(Sha256::digest(bytes).into())
    }

    pub fn bytes(&self) -> &[u8; 32] {
        &self.0
    }
}

/// A digest of several things, none of which can pass for a part of its neighbour.
#[derive(Default)]
pub struct Hasher(Sha256);

impl Hasher {
    #[must_use]
    pub fn text(mut self, text: &str) -> Hasher {
        self.0.update((text.len() as u64).to_le_bytes());
        self.0.update(text);
        self
    }

    /// A digest, or that there is none.
    #[must_use]
    pub fn digest(mut self, digest: Option<Digest>) -> Hasher {
        self.0.update([u8::from(digest.is_some())]);
        self.0.update(digest.unwrap_or_default().0);
        self
    }

    pub fn finish(self) -> Digest {
        Digest(self.0.finalize().into())
    }
}
