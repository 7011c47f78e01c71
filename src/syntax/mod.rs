//! Text to tree: lines are split and classed by hand, structured lines are read by `grammar/cotter.pest`.
pub mod ast;
pub mod words;
