//! Text to tree: lines are split and classed by hand, structured lines are read by `grammar/cotter.pest`; the
//! plainest of them are read by hand too, to the same tree (`read/quick/`).
//! `print/` writes a file in the house's layout.
pub mod ast;
mod details;
mod lines;
mod parse;
mod print;
mod read;
mod stepwise;
mod unreadable;
pub mod words;

pub use lines::LONGEST_LINE;
pub use parse::{Parsed, parse, parse_by_grammar};
pub use print::format;
pub use stepwise::{Entry, Steps, Stepwise, open};
pub use unreadable::UNREADABLE_LINE;
