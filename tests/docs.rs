//! The examples of the written documentation: sources compile, and commands exist as they are written.
//!
//! A block marked `cotter` must give no finding, one marked `cotter refused` must give some. In a block marked `sh`
//! each line that calls the program must use a subcommand and flags it has.
use crate::support::shop::{Shop, package};
use crate::support::workspace::Workspace;
use cotter::checks;
use cotter::source::{FileId, SourceFile};

const PAGES: &[&str] = &["README.md", "DEVELOPERS.md"];

struct Block {
    page: &'static str,
    line: usize,
    info: String,
    text: String,
}

#[test]
fn sources_in_the_documentation_compile() {
    for block in blocks().iter().filter(|block| block.info.split(' ').next() == Some("cotter")) {
        let mut shop = Shop::default();
        shop.register = checks::example_register();
        let source = SourceFile::new(FileId(0), block.page, checks::example(&block.text));
        let findings = shop.compile(&source).findings;
        let seen: Vec<_> = findings.iter().map(|f| format!("[{}] {}", f.rule, f.message)).collect();
        let refused = block.info.contains("refused");
        assert_eq!(!seen.is_empty(), refused, "{}:{}: {seen:#?}", block.page, block.line);
    }
}

#[test]
fn commands_in_the_documentation_exist() {
    let workspace = Workspace::new();
    for block in blocks().iter().filter(|block| block.info == "sh") {
        for command in block.text.lines().filter_map(called) {
            let mut words = command.split_whitespace();
            let Some(subcommand) = words.next().filter(|word| !word.starts_with('-')) else { continue };
            let help = workspace.run(&[subcommand, "--help"]);
            assert_eq!(help.code, 0, "{}:{}: {command}", block.page, block.line);
            for flag in words.filter(|word| word.starts_with('-')) {
                let flag = flag.split('=').next().unwrap();
                assert!(help.stdout.contains(flag), "{}:{}: {flag} in {command}", block.page, block.line);
            }
        }
    }
}

#[test]
fn blocks_are_found_with_their_lines() {
    let found =
        blocks_of("a.md", "text\n```cotter refused\nremove x\n```\n\n  ```sh\n  cotter check\n  ```\n");
    let seen: Vec<_> = found.iter().map(|b| (b.line, b.info.as_str(), b.text.as_str())).collect();
    assert_eq!(seen, [(2, "cotter refused", "remove x\n"), (6, "sh", "  cotter check\n")]);
    assert_eq!(called("  cotter check x # why"), Some("check x"));
    assert_eq!(called("cargo run --release -- build procedures"), Some("build procedures"));
    assert_eq!(called("cargo test"), None);
}

fn blocks() -> Vec<Block> {
    let read = |page: &&'static str| Some((*page, std::fs::read_to_string(package(page)).ok()?));
    PAGES.iter().filter_map(read).flat_map(|(page, text)| blocks_of(page, &text)).collect()
}

fn blocks_of(page: &'static str, text: &str) -> Vec<Block> {
    let mut found = Vec::new();
    let mut open: Option<Block> = None;
    for (index, line) in text.lines().enumerate() {
        match (line.trim_start().strip_prefix("```"), open.take()) {
            (Some(info), None) => {
                open =
                    Some(Block { page, line: index + 1, info: info.trim().to_owned(), text: String::new() });
            }
            (Some(_), Some(block)) => found.push(block),
            (None, Some(mut block)) => {
                block.text.push_str(line);
                block.text.push('\n');
                open = Some(block);
            }
            (None, None) => {}
        }
    }
    found
}

/// What follows the program's name in a line that calls it.
fn called(line: &str) -> Option<&str> {
    let line = line.split('#').next().unwrap_or("").trim().trim_start_matches("$ ");
    let direct = line.strip_prefix("cotter ");
    let through_cargo =
        line.strip_prefix("cargo run").and_then(|rest| rest.split_once(" -- ")).map(|(_, rest)| rest);
    direct.or(through_cargo).map(str::trim)
}
