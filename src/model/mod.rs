//! A document with its names resolved and its quantities typed: what everything below reads.
//!
//! Only `resolve` knows the syntax tree. What could not be resolved is kept as plain data, a [`Slip`]; the
//! rule of that name words it.
pub mod action;
pub mod catalogues;
pub mod declarations;
pub mod document;
pub mod fastener;
pub mod ghs;
pub mod hazard;
pub mod in_force;
pub mod language;
pub mod levels;
pub mod message;
pub mod net;
pub mod noun;
pub mod picture;
pub mod placeholder;
pub mod prose;
pub mod quantity;
pub mod rare;
pub mod register;
pub mod resolve;
pub mod settings;
pub mod slip;
pub mod step;
pub mod template;
pub mod tightening;
pub mod torque;
pub mod verb;

pub use action::Action;
pub use catalogues::Catalogues;
pub use declarations::{Declarations, Name};
pub use document::{Body, Document, Procedure};
pub use language::Language;
pub use message::Message;
pub use net::Net;
pub use picture::{Picture, Pictures};
pub use prose::Prose;
pub use register::Register;
pub use resolve::Surroundings;
pub use settings::Settings;
pub use slip::Slip;
pub use step::Step;
pub use torque::Torque;
