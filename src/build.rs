//! How the program is linked.
#![allow(clippy::print_stdout, clippy::disallowed_methods)]

fn main() {
    println!("cargo::rerun-if-changed=src/build.rs");
    // At a fixed address nothing has to be relocated when the program starts, which was a third of the time that
    // starting took. What it gives up, a random address, guards memory that only unsafe code can corrupt.
    let target = |part: &str| std::env::var(format!("CARGO_CFG_TARGET_{part}")).unwrap_or_default();
    if target("OS") == "linux" && target("ENV") == "gnu" {
        println!("cargo::rustc-link-arg-bin=cotter=-no-pie");
    }
}
