//! The layers of `src/`: who may use whom, read off the paths in the code; the offender is named.
use std::path::{Path, PathBuf};

/// Each layer with those it may use besides itself. The longest prefix of a file's path decides.
const MAY_USE: &[(&str, &[&str])] = &[
    ("source", &[]),
    ("report", &["source"]),
    ("syntax", &["source", "report"]),
    ("model", &["source", "report"]),
    ("model/resolve", &["source", "report", "syntax"]),
    ("ledger", &["source", "model"]),
    ("draft", &["source", "model", "ledger"]),
    ("record", &["source", "model"]),
    ("checks", &["source", "report", "model", "ledger"]),
    ("compare", &["source", "model"]),
    ("import", &["source", "model"]),
    ("sheets", &["source", "report", "model", "ledger", "record", "compare"]),
    ("handbook", &["source", "report", "syntax", "model", "ledger", "checks", "compile"]),
    ("workspace", &["source", "report", "syntax", "model", "ledger", "checks", "compile", "Compiled"]),
    ("preview", &["source", "report", "syntax", "model", "sheets", "workspace", "compile", "Compiled"]),
    (
        "cli",
        &[
            "preview",
            "source",
            "report",
            "syntax",
            "model",
            "ledger",
            "draft",
            "record",
            "checks",
            "compare",
            "import",
            "sheets",
            "workspace",
            "compile",
            "Compiled",
        ],
    ),
    (
        "editor",
        &[
            "source",
            "report",
            "syntax",
            "model",
            "ledger",
            "record",
            "checks",
            "sheets",
            "handbook",
            "workspace",
            "compile",
            "Compiled",
        ],
    ),
    ("main.rs", &[]),
    ("build.rs", &[]),
    (
        "lib.rs",
        &["source", "report", "syntax", "model", "ledger", "checks", "sheets", "cli", "compile", "Compiled"],
    ),
];

/// Lines after which a file is looked at hard, and after which it is refused.
const LONGEST_FILE: usize = 800;

#[test]
fn layers_use_only_those_below() {
    let mut offenders = Vec::new();
    for file in sources() {
        let text = std::fs::read_to_string(&file.path).unwrap();
        let allowed = allowed(&file.name);
        for (line, used) in paths(&text, file.depth()) {
            if used != file.layer() && !allowed.contains(&used.as_str()) {
                offenders.push(format!("src/{}:{line} uses {used}", file.name));
            }
        }
    }
    assert!(offenders.is_empty(), "a layer reaches up:\n{}", offenders.join("\n"));
}

#[test]
fn every_layer_is_named_here() {
    let known = |layer: &str| MAY_USE.iter().any(|(name, _)| *name == layer);
    let unknown: Vec<String> = sources().into_iter().filter(|f| !known(f.layer())).map(|f| f.name).collect();
    assert!(unknown.is_empty(), "say what these may use: {unknown:?}");
}

#[test]
fn files_stay_short() {
    let long: Vec<String> = sources()
        .into_iter()
        .filter(|f| std::fs::read_to_string(&f.path).unwrap().lines().count() > LONGEST_FILE)
        .map(|f| f.name)
        .collect();
    assert!(long.is_empty(), "over {LONGEST_FILE} lines, split them: {long:?}");
}

#[test]
fn the_reader_of_paths_sees_what_it_should() {
    let text = "use crate::source::{Span};\nuse crate::{model, report::Finding};\n// crate::cli\n\
                let x = crate::checks::run();\nuse super::super::sheets::bench;\nuse super::noun;\n";
    let seen: Vec<String> = paths(text, 2).into_iter().map(|(line, used)| format!("{line} {used}")).collect();
    assert_eq!(seen, ["1 source", "2 model", "2 report", "4 checks", "5 sheets"]);
}

struct Source {
    path: PathBuf,
    /// Relative to `src/`, with forward slashes.
    name: String,
}

impl Source {
    fn layer(&self) -> &str {
        self.name.split('/').next().unwrap()
    }
    /// How many `super` lead from this file's module to the crate's root.
    fn depth(&self) -> usize {
        let parts = self.name.split('/').count();
        if self.name.ends_with("mod.rs") { parts - 1 } else { parts }
    }
}

fn sources() -> Vec<Source> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut found = Vec::new();
    let mut folders = vec![root.clone()];
    while let Some(folder) = folders.pop() {
        for entry in std::fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                folders.push(path);
            } else if path.extension().is_some_and(|e| e == "rs") {
                let name = path.strip_prefix(&root).unwrap().to_str().unwrap().replace('\\', "/");
                found.push(Source { path, name });
            }
        }
    }
    found.sort_by(|a, b| a.name.cmp(&b.name));
    assert!(!found.is_empty());
    found
}

fn allowed(name: &str) -> &'static [&'static str] {
    let covers =
        |layer: &str| name == layer || name.strip_prefix(layer).is_some_and(|r| r.starts_with(['/', '.']));
    let best = MAY_USE.iter().filter(|(layer, _)| covers(layer)).max_by_key(|(layer, _)| layer.len());
    best.map_or(&[], |(_, may)| may)
}

/// Line number and first segment of every path from the crate's root.
fn paths(text: &str, depth: usize) -> Vec<(usize, String)> {
    let mut found = Vec::new();
    let from_root = "super::".repeat(depth);
    for (index, line) in text.lines().enumerate() {
        let code = line.split("//").next().unwrap_or("");
        let rest_of = code.split("crate::").skip(1).filter(|_| !code.contains("$crate"));
        let climbed =
            (depth > 0).then(|| code.split_once(from_root.as_str())).flatten().map(|(_, rest)| rest);
        for rest in rest_of.chain(climbed) {
            found.extend(first_segments(rest).into_iter().map(|used| (index + 1, used)));
        }
    }
    found
}

/// `a::b` gives a; `{a, b::{c, d}}` gives a and b.
fn first_segments(rest: &str) -> Vec<String> {
    let word = |text: &str| -> String {
        text.trim().chars().take_while(|c| c.is_alphanumeric() || *c == '_').collect()
    };
    let Some(inside) = rest.strip_prefix('{') else { return vec![word(rest)] };
    let mut level = 0;
    let mut segments = vec![String::new()];
    for c in inside.chars() {
        match c {
            '{' => level += 1,
            '}' if level == 0 => break,
            '}' => level -= 1,
            ',' if level == 0 => segments.push(String::new()),
            _ => {}
        }
        if level == 0 && c != ',' {
            segments.last_mut().unwrap().push(c);
        }
    }
    segments.iter().map(|segment| word(segment)).filter(|segment| !segment.is_empty()).collect()
}
