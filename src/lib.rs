//! Cotter reads repair procedures written in a plain-text language, says what is wrong with them, and
//! makes the sheets people work from.
//!
//! Modules in reading order; each uses only those before it.
pub mod source;
pub mod report;
pub mod syntax;
pub mod model;
pub mod checks;
pub mod sheets;
