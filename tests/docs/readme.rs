//! The README's first words, its commands and what it says that they print.
use super::blocks::blocks;
use super::read;
use crate::support::workspace::Workspace;

/// The first paragraph under the title.
fn job() -> String {
    let page = read("README.md");
    let mut paragraphs = page.split("\n\n").map(str::trim);
    paragraphs.find(|text| !text.starts_with('#')).unwrap_or_default().to_owned()
}

#[test]
fn the_first_paragraph_states_the_job() {
    let job = job();
    for word in ["procedure", "plain text", "checks", "sheets"] {
        assert!(job.contains(word), "{word:?} is missing from: {job}");
    }
    assert!(job.split_whitespace().count() <= 120, "one paragraph, not an essay");
}

#[test]
fn the_two_commands_are_there() {
    let page = read("README.md");
    assert!(page.contains("\ncargo run --release -- build procedures\n"));
    assert!(page.contains("\ncargo test --workspace\n"));
    assert!(read(".ci/run").contains("cargo test --workspace"), "CI runs what the README says");
}

/// The words behind the program's name in a line that calls it.
fn called(line: &str) -> Option<&str> {
    let line = line.split('#').next().unwrap_or("").trim();
    let through_cargo = || Some(line.strip_prefix("cargo run")?.split_once(" -- ")?.1);
    line.strip_prefix("cotter ").or_else(through_cargo)
}

#[test]
fn commands_name_real_subcommands() {
    let blocks = blocks(&read("README.md"));
    let shell = blocks.iter().filter(|block| block.language == "sh");
    let commands: Vec<&str> = shell.flat_map(|block| block.text.lines().filter_map(called)).collect();
    assert!(commands.len() >= 3, "{commands:?}");
    for command in commands {
        let subcommand = command.split_whitespace().next().unwrap();
        let plain = |word: &&str| word.bytes().all(|byte| byte.is_ascii_lowercase());
        let path: Vec<&str> = command.split_whitespace().take_while(plain).chain(["--help"]).collect();
        let help = Workspace::new().run(&path);
        assert_eq!(help.code, 0, "cotter {subcommand}: {}", help.stderr);
        for option in command.split_whitespace().filter(|word| word.starts_with('-')) {
            assert!(help.stdout.contains(option), "cotter {subcommand} has no {option}");
        }
    }
}

/// Files are saved, differences applied and commands run as a reader would; what the page shows is what is printed.
#[test]
fn the_tour_prints_what_the_page_shows() {
    let workspace = Workspace::new();
    let (mut command, mut compared) = (None, 0);
    for block in blocks(&read("README.md")) {
        let at = format!("README.md:{}", block.line);
        match (block.language.as_str(), &block.file) {
            ("cotter", Some(file)) => workspace.write(file, &block.text),
            ("diff", Some(file)) => {
                let changed = patched(&workspace.read(file), &block.text, &at);
                workspace.write(file, changed);
            }
            ("sh", _) => command = block.text.lines().next().and_then(called).map(str::to_owned),
            ("text", _) => {
                let command = command.take().unwrap_or_else(|| panic!("{at}: no command prints this"));
                let run = workspace.run(&command.split_whitespace().collect::<Vec<_>>());
                assert_eq!(format!("{}{}", run.stdout, run.stderr), block.text, "{at}");
                assert_eq!(run.code, i32::from(block.text.contains("error[")), "{at}");
                compared += 1;
            }
            _ => {}
        }
    }
    assert!(compared >= 3, "the tour shows a clean page, a mistake and a build");
    let bench = workspace.read("out/TOUR-1/bench.html");
    let plain: String =
        bench.split('<').filter_map(|part| part.split_once('>')).map(|(_, text)| text).collect();
    let last = "Tighten the 4 cover screws to 7–9 N·m (62–79 lbf·in), crosswise, with torque wrench S.";
    assert!(plain.replace('\u{a0}', " ").contains(last), "the page reads otherwise than the README says");
    assert!(read("README.md").replace('\n', " ").contains(last));
}

/// `-` lines of the text become the `+` lines that follow them.
fn patched(text: &str, difference: &str, at: &str) -> String {
    let lines = |sign: char| -> String {
        difference.lines().filter_map(|line| line.strip_prefix(sign)).flat_map(|line| [line, "\n"]).collect()
    };
    let (old, new) = (lines('-'), lines('+'));
    assert_eq!(text.matches(&old).count(), 1, "{at}: the lines to change stand once in the file");
    text.replace(&old, &new)
}
