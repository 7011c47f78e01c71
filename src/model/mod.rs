//! A procedure with its names resolved and its quantities typed: what everything below reads.
pub mod quantity;
