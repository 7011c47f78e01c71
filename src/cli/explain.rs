//! `cotter explain`: the rules, or one of them with its examples.
use super::terminal::{Terminal, style};
use super::trouble::Trouble;
use crate::checks::{self, RULES, Rule};
use anstyle::{AnsiColor, Style};

/// Prints the list, or the rule of that name; 2 where there is none.
pub fn run(rule: Option<&str>, terminal: &mut Terminal) -> u8 {
    let Some(name) = rule else {
        terminal.print(&list());
        return 0;
    };
    match checks::find(name.trim_matches(['[', ']'])) {
        Some(rule) => {
            terminal.print(&page(rule));
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

fn list() -> String {
    let widest = RULES.iter().map(|rule| rule.id.len()).max().unwrap_or(0);
    let line = |rule: &&Rule| format!("{:widest$}  {:7}  {}\n", rule.id, rule.severity.name(), rule.summary);
    RULES.iter().map(line).collect()
}

fn page(rule: &Rule) -> String {
    let (bold, red, green) = (Style::new().bold(), style(AnsiColor::Red), style(AnsiColor::Green));
    let mut page = format!("{bold}{}{bold:#} ({})\n{}\n", rule.id, rule.severity.name(), rule.summary);
    page.push_str(&format!("\n{}\n", rule.explain.trim()));
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

fn indented(example: &str) -> String {
    let line = |line: &str| if line.is_empty() { "\n".to_owned() } else { format!("    {line}\n") };
    example.trim_matches('\n').lines().map(line).collect()
}
