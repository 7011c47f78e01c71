//! What several tests share.
pub mod workspace;
