//! What several tests share.
pub mod programs;
pub mod shop;
pub mod workspace;
