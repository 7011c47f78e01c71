//! The record of one job: what is to be filled in at a procedure, what was, and whether the two agree.
//!
//! A bench page writes a record, `cotter record` reads it. The seal over it shows slips and careless edits. It is no
//! signature: the page holds no secret, so whoever sets out to forge a record can seal it anew.
mod bounds;
mod hang;
mod job;
mod judge;
mod plan;
mod read;
mod seal;
mod shape;
mod table;
mod turns;

pub use bounds::{Bounds, Side};
pub use hang::Hang;
pub use judge::{Problem, judge};
pub use plan::{Branch, Field, Hold, Kind, Plan, Planned, Redo, Scale, Turn};
pub use read::{LARGEST, Opened, ReadError, read};
pub use seal::{fingerprint, seal};
pub use shape::{FORMAT, Job, Made, Outcome, Record, Signed, State, StepRecord, VERSION, Value};
pub use table::{Reading, readings};
