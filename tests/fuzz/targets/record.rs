#![no_main]
use cotter_fuzz::record;
use libfuzzer_sys::fuzz_target;

fuzz_target!(|bytes: &[u8]| record::holds(bytes));
