//! `cotter explain`: the rules, or one of them with its examples.
use super::terminal::{Look, Terminal, style};
use super::trouble::Trouble;
use crate::checks::{self, RULES, Rule};
use anstyle::{AnsiColor, Style};
use textwrap::{Options, WordSplitter};

/// Prints the list, or the rule of that name; 2 where there is none.
pub fn run(rule: Option<&str>, terminal: &mut Terminal) -> u8 {
    let Some(name) = rule else {
        terminal.print(&list(terminal.look()));
        return 0;
    };
    match checks::find(name.trim_matches(['[', ']'])) {
        Some(rule) => {
            terminal.print(&page(rule, terminal.look().width));
            0
        }
        None => {
            terminal.trouble(
                &Trouble::new("explain", format!("there is no rule `{name}`")).help(suggestion(name)),
            );
            2
        }
    }
}

/// What to say to somebody who wrote a rule's name wrongly.
pub fn suggestion(name: &str) -> String {
    match checks::near(name).first() {
        Some(near) => format!("did you mean `{near}`?"),
        None => "`cotter explain` lists the rules".to_owned(),
    }
}

/// One line a rule; on a terminal a long one goes on under its words.
fn list(look: Look) -> String {
    let widest = RULES.iter().map(|rule| rule.id.len()).max().unwrap_or(0);
    let line = |rule: &&Rule| {
        let line = format!("{:widest$}  {:7}  {}", rule.id, rule.severity.name(), rule.summary);
        let under = " ".repeat(widest + 11);
        let options = Options::new(look.width.max(widest + 40)).subsequent_indent(&under);
        if look.drawn { textwrap::fill(&line, options) + "\n" } else { line + "\n" }
    };
    RULES.iter().map(line).collect()
}

fn page(rule: &Rule, width: usize) -> String {
    let (bold, red, green) = (Style::new().bold(), style(AnsiColor::Red), style(AnsiColor::Green));
    let mut page = format!("{bold}{}{bold:#} ({})\n", rule.id, rule.severity.name());
    page.push_str(&wrapped(rule.summary, width));
    page.push_str(&format!("\n{}", wrapped(rule.explain.trim(), width)));
    page.push_str(&format!("\n{red}Refused:{red:#}\n\n{}", indented(rule.bad)));
    page.push_str(&format!("\n{green}Accepted:{green:#}\n\n{}", indented(rule.good)));
    if rule.waivable {
        page.push_str(&format!(
            "\nSet its weight for the house in cotter.toml:\n\n    [rules]\n    {0} = \"error\"  # or warning, advice, \
             off\n\nor set it aside for one statement, with the reason:\n\n    waive: {0} \"why it does not matter here\"\n",
            rule.id
        ));
    }
    page
}

/// Longer lines of prose are hard to read, however wide the terminal is.
const WIDEST: usize = 88;

/// Paragraphs broken between words; an item of a list goes on under its words, and a table stays as it is.
fn wrapped(text: &str, width: usize) -> String {
    let width = width.min(WIDEST);
    let line = |line: &str| {
        let mark = ["- ", "* "].into_iter().find(|mark| line.trim_start().starts_with(mark));
        let lead = line.len() - line.trim_start().len();
        let under = " ".repeat(lead + mark.map_or(0, str::len));
        let options = Options::new(width).subsequent_indent(&under).break_words(false);
        if line.starts_with('|') || line.starts_with("    ") {
            line.to_owned() + "\n"
        } else {
            textwrap::fill(line, options.word_splitter(WordSplitter::NoHyphenation)) + "\n"
        }
    };
    text.lines().map(line).collect()
}

fn indented(example: &str) -> String {
    let line = |line: &str| if line.is_empty() { "\n".to_owned() } else { format!("    {line}\n") };
    example.trim_matches('\n').lines().map(line).collect()
}
