#![no_main]
use cotter_fuzz::import;
use libfuzzer_sys::fuzz_target;

fuzz_target!(|bytes: &[u8]| import::holds(bytes));
