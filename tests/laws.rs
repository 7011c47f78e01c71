//! What holds of every file, however broken: nothing panics, findings lie in their file, the same text gives the
//! same findings.
use crate::support::shop::{Shop, name, package, sources};
use cotter::source::{FileId, SourceFile};
use std::path::PathBuf;

/// How many places of each file are cut at, and how many bytes are flipped. Raise them for a longer look.
const CUTS: usize = 10;
const FLIPS: usize = 10;

/// One folder of sources with what they share.
struct World {
    shop: Shop,
    files: Vec<(String, String)>,
}

#[test]
fn no_prefix_of_a_file_panics() {
    each(|world, name, text| {
        for cut in 0..CUTS {
            let at = text.floor_char_boundary(text.len() * cut / CUTS + cut);
            holds(&world.shop, name, &text[..at]);
        }
    });
}

#[test]
fn no_flipped_byte_panics() {
    each(|world, name, text| {
        let mut place = text.len() / 7;
        for flip in 0..FLIPS {
            let mut bytes = text.as_bytes().to_vec();
            // A stride that has no factor in common with most lengths visits every part of the file.
            place = (place + 7919) % bytes.len();
            bytes[place] ^= 1 << (flip % 8);
            holds(&world.shop, name, &String::from_utf8_lossy(&bytes));
        }
    });
}

#[test]
fn findings_lie_in_their_file_and_repeat() {
    each(|world, name, text| {
        holds(&world.shop, name, text);
        let source = SourceFile::new(FileId(0), name, text);
        assert_eq!(world.shop.compile(&source).findings, world.shop.compile(&source).findings, "{name}");
    });
}

#[test]
fn odd_files_panic_nowhere() {
    let shop = Shop::default();
    let deep = "(".repeat(10_000);
    let long = "a".repeat(200_000);
    let wide = "é".repeat(5_000);
    let odd = [
        "",
        "\n",
        "\r",
        "\r\n",
        "\u{feff}",
        "\u{feff}procedure",
        "procedure",
        "procedure X",
        "procedure X \"",
        "\"",
        "#",
        "    ",
        "\t\t",
        ";",
        ",",
        ":",
        "parts",
        "parts\n    ",
        "parts\n    a",
        "section",
        "use",
        "use \"\"",
        "warning",
        "warning crushing",
        "remove",
        "remove x",
        "repeat",
        "calculate a =",
        "measure a",
        "\0",
        "\u{202e}",
        "é",
        "“”",
        "    hazard: x",
        "calculate a = 1 / 0",
        "tighten a to 99999999999999999999999999999999999999999 N.m",
        deep.as_str(),
        long.as_str(),
        wide.as_str(),
    ];
    for text in odd {
        holds(&shop, "odd.cotter", text);
        holds(&shop, "odd.cotter", &format!("procedure FW-TST-001 \"Odd\"\n{text}\n"));
        holds(
            &shop,
            "odd.cotter",
            &format!("procedure FW-TST-001 \"Odd\"\n    {text}\nremove {text}\n    {text}\n"),
        );
    }
}

fn holds(shop: &Shop, name: &str, text: &str) {
    let source = SourceFile::new(FileId(0), name, text);
    let findings = shop.compile(&source).findings;
    for finding in &findings {
        let range = finding.span.range();
        assert!(text.get(range.clone()).is_some(), "{name}: [{}] points at {range:?}", finding.rule);
        assert!(!finding.message.is_empty(), "{name}: [{}] says nothing", finding.rule);
    }
    let places: Vec<_> = findings.iter().map(|finding| finding.span.start).collect();
    assert!(places.is_sorted(), "{name}: findings are not in order: {places:?}");
}

fn each(law: impl Fn(&World, &str, &str)) {
    for world in worlds() {
        for (name, text) in &world.files {
            law(&world, name, text);
        }
    }
}

/// The demo shop, and each rule's folder of fixtures.
fn worlds() -> Vec<World> {
    let rules = std::fs::read_dir(package("tests/checks")).into_iter().flatten();
    let folders: Vec<PathBuf> =
        rules.map(|entry| entry.unwrap().path()).filter(|path| path.is_dir()).collect();
    let worlds = folders.into_iter().chain([package("procedures")]).map(|folder| {
        let files = sources(&folder);
        let read = |path: &PathBuf| (name(&folder, path), std::fs::read_to_string(path).unwrap());
        World { shop: Shop::of(&folder, &files), files: files.iter().map(read).collect() }
    });
    worlds.filter(|world| !world.files.is_empty()).collect()
}
