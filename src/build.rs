//! How the program is linked, and what tells it from others.
#![allow(clippy::print_stdout, clippy::disallowed_methods)]
use std::hash::{DefaultHasher, Hasher};
use std::path::Path;

fn main() {
    println!("cargo::rustc-env=COTTER_PROGRAM={}", program());
    // At a fixed address nothing has to be relocated when the program starts, which was a third of the time that
    // starting took. What it gives up, a random address, guards memory that only unsafe code can corrupt.
    let target = |part: &str| std::env::var(format!("CARGO_CFG_TARGET_{part}")).unwrap_or_default();
    if target("OS") == "linux" && target("ENV") == "gnu" {
        println!("cargo::rustc-link-arg-bin=cotter=-no-pie");
    }
}

/// Other for any other program, so that none takes what another found for its own: of all that it is made from.
fn program() -> String {
    let mut hasher = DefaultHasher::new();
    let features = std::env::vars().filter(|(name, _)| name.starts_with("CARGO_FEATURE_"));
    let version = std::env::var("CARGO_PKG_VERSION").unwrap_or_default();
    for (name, _) in features {
        hasher.write(name.as_bytes());
    }
    for place in ["src", "grammar", "Cargo.lock"] {
        println!("cargo::rerun-if-changed={place}");
        take_in(Path::new(place), &mut hasher);
    }
    format!("{version}-{:016x}", hasher.finish())
}

fn take_in(place: &Path, hasher: &mut DefaultHasher) {
    let Ok(entries) = std::fs::read_dir(place) else {
        hasher.write(&std::fs::read(place).unwrap_or_default());
        return;
    };
    let mut places: Vec<_> = entries.flatten().map(|entry| entry.path()).collect();
    places.sort();
    for place in places {
        hasher.write(place.to_string_lossy().as_bytes());
        take_in(&place, hasher);
    }
}
