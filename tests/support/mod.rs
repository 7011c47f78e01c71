//! What several tests share.
pub mod shop;
pub mod workspace;
