#![no_main]
use cotter_fuzz::editor;
use libfuzzer_sys::fuzz_target;

fuzz_target!(|bytes: &[u8]| editor::holds(bytes));
