//! How the program is linked, what tells it from others, and what it says of how it was built.
#![allow(clippy::print_stdout, clippy::disallowed_methods, clippy::disallowed_types)]
use std::env::var;
use std::hash::{DefaultHasher, Hasher};
use std::path::Path;
use std::process::Command;

/// What the program is made of.
const SOURCES: [&str; 4] = ["src", "grammar", "Cargo.toml", "Cargo.lock"];

fn main() {
    let tell = |name: &str, value: &str| println!("cargo::rustc-env=COTTER_{name}={value}");
    tell("PROGRAM", &program());
    // At a fixed address nothing has to be relocated when the program starts, which was a third of the time that
    // starting took. What it gives up, a random address, guards memory that only unsafe code can corrupt.
    let target = |part: &str| var(format!("CARGO_CFG_TARGET_{part}")).unwrap_or_default();
    if target("OS") == "linux" && target("ENV") == "gnu" {
        println!("cargo::rustc-link-arg-bin=cotter=-no-pie");
    }
    tell("TARGET", &var("TARGET").unwrap_or_default());
    tell("FEATURES", &features());
    tell(
        "RUSTC",
        said(Command::new(var("RUSTC").unwrap_or_default()).arg("--version")).as_deref().unwrap_or(""),
    );
    tell("COMMIT", commit().as_deref().unwrap_or(""));
}

fn features() -> String {
    let on = ["editor", "pdf"]
        .into_iter()
        .filter(|it| var(format!("CARGO_FEATURE_{}", it.to_uppercase())).is_ok());
    on.collect::<Vec<_>>().join(", ")
}

/// The commit of a release build out of its own repository, and whether its files were changed since. No time: the same
/// sources give the same program.
fn commit() -> Option<String> {
    // While one works, each commit would have everything built anew.
    if var("PROFILE").ok()? != "release" {
        return None;
    }
    let root = var("CARGO_MANIFEST_DIR").ok()?;
    let git = |arguments: &[&str]| said(Command::new("git").current_dir(&root).args(arguments));
    // Sources that were unpacked inside somebody else's repository are none of its commits.
    let top = std::fs::canonicalize(git(&["rev-parse", "--show-toplevel"])?).ok()?;
    if top != std::fs::canonicalize(&root).ok()? {
        return None;
    }
    // A file that is not there would have everything built anew each time.
    if let Some(log) = git(&["rev-parse", "--git-path", "logs/HEAD"]).filter(|it| Path::new(it).exists()) {
        println!("cargo::rerun-if-changed={log}");
    }
    let commit = git(&["rev-parse", "--short=12", "HEAD"])?;
    let changed = git(&[&["status", "--porcelain", "--"], &SOURCES[..]].concat())?;
    Some(if changed.is_empty() { commit } else { format!("{commit}, changed") })
}

/// What a program prints, without the line's end; none where it fails or is not there.
fn said(command: &mut Command) -> Option<String> {
    let output = command.output().ok().filter(|it| it.status.success())?;
    Some(String::from_utf8(output.stdout).ok()?.trim().to_owned())
}

/// Other for any other program, so that none takes what another found for its own: of all that it is made from.
fn program() -> String {
    let mut hasher = DefaultHasher::new();
    let features = std::env::vars().filter(|(name, _)| name.starts_with("CARGO_FEATURE_"));
    let version = var("CARGO_PKG_VERSION").unwrap_or_default();
    for (name, _) in features {
        hasher.write(name.as_bytes());
    }
    for place in SOURCES {
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
