//! Instructions, counted by valgrind: the same to a thousandth whatever else the machine does.
use std::path::Path;
use std::process::Command;

/// How many the program takes with these words.
pub fn instructions(program: &Path, words: &[&str]) -> f64 {
    let run = Command::new("valgrind")
        .args(["--tool=cachegrind", "--cache-sim=no", "--cachegrind-out-file=/dev/null"])
        .arg(program)
        .args(words)
        .output()
        .expect("valgrind is there: install it");
    let told = String::from_utf8_lossy(&run.stderr);
    let line = told.lines().find_map(|line| line.split_once("refs:"));
    let (_, count) = line.expect("valgrind tells a count");
    count.trim().replace(',', "").parse().expect("a count")
}
