//! What the fuzz targets hold any bytes to, on every fixture and on each input that once broke it.
#[path = "fuzz/laws/mod.rs"]
mod laws;

use crate::support::shop::{package, sources};
use rayon::prelude::*;
use std::panic::catch_unwind;
use std::path::{Path, PathBuf};

type Law = fn(&[u8]);

const LAWS: [(&str, Law); 7] = [
    ("check", laws::check::holds),
    ("editor", laws::editor::holds),
    ("format", laws::format::holds),
    ("import", laws::import::holds),
    ("parse", laws::parse::holds),
    ("record", laws::record::holds),
    ("sheets", laws::sheets::holds),
];

/// The files in a folder, which may not be there.
fn inside(folder: &Path) -> Vec<PathBuf> {
    std::fs::read_dir(folder).into_iter().flatten().map(|entry| entry.unwrap().path()).collect()
}

/// The files that break it; why is on standard error.
fn broken(law: Law, files: &[PathBuf]) -> Vec<String> {
    let breaks = |path: &&PathBuf| {
        let bytes = std::fs::read(path).unwrap();
        catch_unwind(|| law(&bytes)).is_err()
    };
    files.par_iter().filter(breaks).map(|path| path.display().to_string()).collect()
}

#[test]
fn what_was_once_found_stays_mended() {
    let found = package("tests/fuzz/found");
    for folder in inside(&found) {
        let kind = folder.file_name().unwrap().to_str().unwrap();
        let (_, law) = LAWS.iter().find(|(name, _)| *name == kind).expect("a folder is named as a target");
        assert_eq!(broken(*law, &inside(&folder)), [""; 0]);
    }
}

#[test]
fn every_target_has_its_law() {
    let targets = inside(&package("tests/fuzz/targets"));
    let mut names: Vec<&str> = targets.iter().map(|it| it.file_stem().unwrap().to_str().unwrap()).collect();
    names.sort_unstable();
    assert_eq!(names, LAWS.map(|(name, _)| name));
    let script = std::fs::read_to_string(package("tests/fuzz/run")).unwrap();
    let missing: Vec<&&str> = names.iter().filter(|name| !script.contains(*name)).collect();
    assert!(missing.is_empty(), "{missing:?}");
}

/// Fixtures are what the targets start from. All sheets of one take long without optimisation.
#[test]
fn fixtures_keep_the_laws() {
    let files = sources(&package("tests/checks"));
    assert!(files.len() > 100);
    assert_eq!(broken(laws::check::holds, &files), [""; 0]);
    let some: Vec<PathBuf> = files.into_iter().step_by(4).collect();
    assert_eq!(broken(laws::sheets::holds, &some), [""; 0]);
}

/// A record in which all is done, as the target starts from: it is judged, not only refused.
#[test]
fn the_record_that_is_started_from_passes() {
    let (plan, name) = (laws::record::plan(), "tests/fuzz/seeds/record.json");
    crate::docs::is_current(name, &format!("{:#}\n", crate::record::good(plan)));
    let opened = cotter::record::read(&std::fs::read(package(name)).unwrap()).unwrap();
    assert_eq!(cotter::record::judge(&opened, plan), []);
}
