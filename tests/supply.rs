//! What the program is made of: licences, versions and sources by the lists of `.deny.toml`, and a reason for each
//! dependency in `DEVELOPERS.md`.
use crate::support::shop::package;
use serde_json::Value;
use spdx::{Expression, ParseMode};
use std::collections::{BTreeMap, BTreeSet};
use std::process::Command;
use toml::Table;

fn table(name: &str) -> Table {
    toml::from_str(&std::fs::read_to_string(package(name)).unwrap()).unwrap()
}

fn texts(list: &toml::Value) -> BTreeSet<String> {
    list.as_array().unwrap().iter().map(|it| it.as_str().unwrap().to_owned()).collect()
}

/// Every package that goes into the program or its tests on this kind of machine, with all features, as cargo has it.
fn packages() -> Vec<Value> {
    let cargo = std::env::var("CARGO").unwrap_or_else(|_| "cargo".to_owned());
    let output = Command::new(cargo)
        .args(["metadata", "--format-version", "1", "--locked", "--offline", "--all-features"])
        .args(["--filter-platform", env!("COTTER_TARGET"), "--manifest-path"])
        .arg(package("Cargo.toml"))
        .output()
        .unwrap();
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    let metadata: Value = serde_json::from_slice(&output.stdout).unwrap();
    metadata["packages"].as_array().unwrap().clone()
}

/// Licence expressions are read by the crate `spdx`, which holds the list of SPDX itself.
#[test]
fn every_licence_is_an_allowed_one() {
    let allowed = texts(&table(".deny.toml")["licenses"]["allow"]);
    let packages = packages();
    assert!(packages.len() > 100, "{} packages", packages.len());
    let mut used = BTreeSet::new();
    for package in packages {
        let name = package["name"].as_str().unwrap();
        let written = package["license"].as_str().unwrap_or_default();
        let licence = Expression::parse_mode(written, ParseMode::LAX)
            .unwrap_or_else(|why| panic!("{name} says `{written}`: {why}"));
        let fits = licence.evaluate(|term| {
            let fits = allowed.contains(&term.to_string());
            if fits {
                used.insert(term.to_string());
            }
            fits
        });
        assert!(fits, "{name} is under `{written}`; allowed are {allowed:?}");
    }
    assert_eq!(used, allowed, "a licence is allowed that nothing has");
}

#[test]
fn two_versions_of_a_crate_are_listed_with_their_reason() {
    let mut versions: BTreeMap<String, Vec<String>> = BTreeMap::new();
    for package in table("Cargo.lock")["package"].as_array().unwrap() {
        let text = |key: &str| package[key].as_str().unwrap().to_owned();
        versions.entry(text("name")).or_default().push(text("version"));
    }
    // All but the newest are too many.
    let extra = versions.iter_mut().flat_map(|(name, versions)| {
        versions.sort_by_key(|it| it.split('.').map(|part| part.parse().unwrap_or(0)).collect::<Vec<u32>>());
        versions.iter().rev().skip(1).map(move |version| format!("{name}@{version}"))
    });
    let extra: BTreeSet<String> = extra.collect();
    let deny = table(".deny.toml");
    let skip = deny["bans"]["skip"].as_array().unwrap();
    assert!(skip.iter().all(|it| it["reason"].as_str().is_some_and(|why| why.len() > 8)));
    let listed: BTreeSet<String> = skip.iter().map(|it| it["crate"].as_str().unwrap().to_owned()).collect();
    assert_eq!(extra, listed);
}

#[test]
fn every_package_is_from_the_one_registry() {
    let allowed = texts(&table(".deny.toml")["sources"]["allow-registry"]);
    for lock in ["Cargo.lock", "tests/fuzz/Cargo.lock"].map(table) {
        for package in lock["package"].as_array().unwrap() {
            let name = package["name"].as_str().unwrap();
            let source = package.get("source").and_then(|it| it.as_str());
            let registry = source.and_then(|it| it.strip_prefix("registry+"));
            let is_own = ["cotter", "cotter-fuzz"].contains(&name);
            assert!(is_own || registry.is_some_and(|it| allowed.contains(it)), "{name}: {source:?}");
        }
    }
}

/// The crates of the first column of the table under "Dependencies", each with the words of the second.
fn reasons() -> Vec<(String, String)> {
    let map = std::fs::read_to_string(package("DEVELOPERS.md")).unwrap();
    let (_, section) = map.split_once("\n## Dependencies\n").unwrap();
    let section = section.split("\n## ").next().unwrap();
    let rows = section.lines().filter(|line| line.starts_with("| ")).skip(2);
    let cells = rows.map(|row| row.trim_matches('|').split_once('|').unwrap());
    cells
        .flat_map(|(crates, why)| {
            crates.split(',').map(move |it| (it.trim().to_owned(), why.trim().to_owned()))
        })
        .collect()
}

/// The crates of every table of dependencies, those for one kind of machine too.
fn dependencies(manifest: &toml::Table) -> Vec<&String> {
    let own = manifest.iter().filter(|(key, _)| key.ends_with("dependencies"));
    let of_targets = manifest.get("target").and_then(toml::Value::as_table).into_iter().flatten();
    let of_target = of_targets.filter_map(|(_, it)| it.as_table()).flat_map(dependencies);
    own.filter_map(|(_, it)| it.as_table()).flat_map(|it| it.keys()).chain(of_target).collect()
}

#[test]
fn every_direct_dependency_has_one_reason() {
    let manifest = table("Cargo.toml");
    let mut direct: Vec<&String> = dependencies(&manifest);
    direct.sort();
    direct.dedup();
    let reasons = reasons();
    assert!(reasons.iter().all(|(_, why)| why.split_whitespace().count() >= 3), "{reasons:?}");
    let mut named: Vec<&String> = reasons.iter().map(|(name, _)| name).collect();
    named.sort();
    assert_eq!(direct, named);
}
