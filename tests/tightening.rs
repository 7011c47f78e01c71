//! What is tightened, in which order, and with what: against published sequences and arithmetic.
mod order;
mod steps;
mod wrench;
