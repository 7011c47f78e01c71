//! Every example a reader may copy does what the page says of it.
use super::blocks::{Block, blocks};
use super::read;
use cotter::checks;
use cotter::model::catalogues::Catalogues;
use cotter::model::resolve::Surroundings;
use cotter::model::settings::Settings;
use cotter::report::Finding;
use cotter::source::{FileId, SourceFile};
use std::sync::Arc;

/// The generated page as it should be, so that a stale one fails its own test only. The examples of the rules
/// are tried with the rules.
fn pages() -> [(&'static str, String); 2] {
    [("README.md", read("README.md")), ("grammar/language.md", cotter::handbook::language())]
}

#[test]
fn examples_are_clean_unless_marked_bad() {
    let mut faults = Vec::new();
    let mut tried = 0;
    for (page, text) in pages() {
        let blocks = blocks(&text);
        let catalogues = catalogues(&blocks);
        for block in blocks.iter().filter(|block| block.language == "cotter") {
            tried += 1;
            let findings = findings(&block.text, &catalogues);
            if findings.is_empty() == block.bad {
                let said: Vec<String> =
                    findings.iter().map(|f| format!("  {}: {} {:?}", f.rule, f.message, f.help)).collect();
                faults.push(format!("{page}:{}\n{}", block.line, said.join("\n")));
            }
        }
    }
    assert!(tried > 14, "only {tried} examples were found");
    assert!(faults.is_empty(), "not as the page says:\n{}", faults.join("\n"));
}

#[test]
fn settings_in_the_pages_are_usable() {
    let tables: Vec<Block> =
        pages().iter().flat_map(|(_, text)| blocks(text)).filter(|block| block.language == "toml").collect();
    assert!(!tables.is_empty());
    for block in tables {
        let settings: Settings =
            toml::from_str(&block.text).unwrap_or_else(|e| panic!("{e}\n{}", block.text));
        assert_eq!(checks::misconfigured(&settings), None, "{}", block.text);
    }
}

/// The catalogues that a page tells the reader to save.
fn catalogues(blocks: &[Block]) -> Catalogues {
    let mut catalogues = checks::example_catalogues();
    for block in blocks.iter().filter(|block| block.text.starts_with("catalogue")) {
        let Some(file) = block.file.clone() else { continue };
        let source = SourceFile::new(FileId(1), file.as_str(), block.text.as_str());
        let (settings, register, others) = (Settings::default(), Default::default(), Catalogues::default());
        let around = Surroundings { settings: &settings, register: &register, catalogues: &others };
        let compiled = cotter::compile(&source, &around);
        catalogues.add(file, Ok(Arc::new(compiled.document)));
    }
    catalogues
}

fn findings(text: &str, catalogues: &Catalogues) -> Vec<Finding> {
    let source = SourceFile::new(FileId(0), "example.cotter", checks::example(text));
    let (settings, register) = (Settings::default(), checks::example_register());
    let around = Surroundings { settings: &settings, register: &register, catalogues };
    cotter::compile(&source, &around).findings
}
