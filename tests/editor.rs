//! The language server, spoken to in its own messages, without a process between.
mod client;
mod completion;
mod findings;
mod fixes;
mod hover;
mod manners;
mod names;
mod random;
mod shown;
mod sync;
