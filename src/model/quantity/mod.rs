//! Typed quantities.
