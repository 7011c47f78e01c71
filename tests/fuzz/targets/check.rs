#![no_main]
use cotter_fuzz::check;
use libfuzzer_sys::fuzz_target;

fuzz_target!(|bytes: &[u8]| check::holds(bytes));
