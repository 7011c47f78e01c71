#![no_main]
use cotter_fuzz::parse;
use libfuzzer_sys::fuzz_target;

fuzz_target!(|bytes: &[u8]| parse::holds(bytes));
