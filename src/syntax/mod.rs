//! Text to tree: lines are split and classed by hand, structured lines are read by `grammar/cotter.pest`.
pub mod ast;
mod details;
mod lines;
mod parse;
mod read;
mod unreadable;
pub mod words;

pub use lines::LONGEST_LINE;
pub use parse::{Parsed, parse};
pub use unreadable::UNREADABLE_LINE;
