#![no_main]
use cotter_fuzz::sheets;
use libfuzzer_sys::fuzz_target;

fuzz_target!(|bytes: &[u8]| sheets::holds(bytes));
