//! Threaded fasteners: what their threads and classes bear, how they are tightened, and with what.
pub mod wrench;
