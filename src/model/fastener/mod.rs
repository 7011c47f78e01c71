//! Threaded fasteners: what their threads and classes bear, how they are tightened, and with what.
//!
//! What a torque does to a fastener is plausibility and is worked out in `f64`; exact quantities meet it at the edge.
pub mod friction;
pub mod pattern;
pub mod preload;
pub mod strength;
pub mod thread;
pub mod wrench;
