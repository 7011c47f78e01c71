#![no_main]
use cotter_fuzz::format;
use libfuzzer_sys::fuzz_target;

fuzz_target!(|bytes: &[u8]| format::holds(bytes));
