//! `cotter schema`: the JSON Schemas of what other programs read.
use super::terminal::Terminal;
use crate::record::Record;
use crate::sheets::machine;
use clap::ValueEnum;

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(super) enum Schema {
    /// `procedure.json`, which a build makes of each procedure
    Procedure,
    /// The record that a bench page saves
    Record,
}

/// Prints the schema.
pub fn run(which: Schema, terminal: &mut Terminal) -> u8 {
    terminal.print(&match which {
        Schema::Procedure => machine::schema(),
        Schema::Record => Record::schema(),
    });
    0
}
