//! Every test of the package in one binary: one module a subject.
#![allow(
    clippy::disallowed_methods,
    clippy::disallowed_types,
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::panic,
    clippy::print_stderr,
    clippy::print_stdout,
    clippy::unwrap_used
)]
#[allow(dead_code)]
mod support;

mod cache;
mod checks;
mod cli;
mod compare;
mod corpus;
mod docs;
mod draft;
mod duties;
#[cfg(feature = "editor")]
mod editor;
mod fastener;
mod hostile;
mod import;
mod format;
mod fuzz;
mod kit;
mod laws;
mod layers;
mod manuals;
mod pdf;
mod pictures;
mod quantity;
mod quick;
mod record;
mod resolve;
mod routes;
mod rules;
mod seeded;
mod sheets;
mod supply;
mod syntax;
mod tightening;
mod wording;
