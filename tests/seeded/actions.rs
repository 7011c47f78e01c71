//! The actions of a procedure's steps, for taking one out, exchanging two, or leaving one object off.
use super::source::Lines;

/// One action of one step, as it is written.
#[derive(Clone)]
pub struct Act {
    /// The line of its step, and which of the step's actions it is.
    pub at: usize,
    pub index: usize,
    pub text: String,
}

const VERBS: [&str; 3] = ["lock out ", "turn off ", "turn on "];

impl Act {
    /// Its verb and what follows.
    pub fn split(&self) -> (&str, &str) {
        let two = VERBS.iter().find(|verb| self.text.starts_with(**verb)).map(|verb| verb.len() - 1);
        let end = two.or_else(|| self.text.find(' ')).unwrap_or(self.text.len());
        (&self.text[..end], self.text[end..].trim_start())
    }

    pub fn verb(&self) -> &str {
        self.split().0
    }

    /// The list of its objects as written, and the rest of the line.
    fn list(&self) -> (&str, &str) {
        let rest = self.split().1;
        let ends = [
            " from ",
            " on ",
            " onto ",
            " in ",
            " into ",
            " off ",
            " out of ",
            " to ",
            " with ",
            " at ",
            " as ",
            " facing ",
            " by ",
            " until ",
            " against ",
            " using ",
            " over ",
            " under ",
            " for ",
            " \"",
            " crosswise",
            " must ",
            " align ",
            " max ",
            " min ",
            " new ",
        ];
        let from = if rest.starts_with("new ") { 4 } else { 0 };
        let end = ends.iter().filter_map(|end| rest[from..].find(end).map(|at| at + from)).min();
        let end = if rest.contains(", new ") {
            ends.iter().filter(|end| **end != " new ").filter_map(|end| rest.find(end)).min()
        } else {
            end
        };
        rest.split_at(end.unwrap_or(rest.len()))
    }

    /// The names of its objects.
    pub fn objects(&self) -> Vec<String> {
        let names = self.list().0.split(", ").map(|name| name.split(' ').next_back().unwrap_or(""));
        names.filter(|name| !name.is_empty() && !name.starts_with('"')).map(str::to_owned).collect()
    }

    /// The action without one of its objects; something harmless where it was the only one.
    pub fn without(&self, object: &str) -> String {
        let (list, rest) = self.list();
        let kept: Vec<&str> =
            list.split(", ").filter(|name| name.split(' ').next_back() != Some(object)).collect();
        if kept.is_empty() { self.idle() } else { format!("{} {}{rest}", self.verb(), kept.join(", ")) }
    }

    /// Something harmless in its place that keeps its tools, supplies and label in use.
    pub fn idle(&self) -> String {
        let mut tools: Vec<&str> = Vec::new();
        for word in ["with ", "using "] {
            let from = self.text.find(&format!(" {word}")).map(|at| at + 1 + word.len());
            let Some(from) = from.filter(|from| self.text[..*from].matches('"').count().is_multiple_of(2))
            else {
                continue;
            };
            let mut list = &self.text[from..];
            for end in [" with ", " using ", " until ", " as ", " \"", " from ", " to "] {
                list = list.split(end).next().unwrap_or(list);
            }
            tools.extend(list.split(", ").filter(|it| !it.is_empty() && !it.contains('"')));
        }
        let label = self.text.find(" as ").map_or("", |at| {
            let rest = &self.text[at + 4..];
            rest.split([' ', ',']).next().unwrap_or("")
        });
        let with = if tools.is_empty() { String::new() } else { format!(" with {}", tools.join(", ")) };
        let label = if label.is_empty() { String::new() } else { format!(" as {label}") };
        format!("do \"go on with the work\"{with}{label}")
    }
}

/// The lines of a step's own statement, without what is indented under it.
fn head(lines: &Lines<'_>, at: usize) -> std::ops::Range<usize> {
    let more = lines.0[at..].iter().take_while(|line| line.ends_with([',', ';'])).count();
    at..at + more + 1
}

/// The actions of the step at that line.
pub fn of_step(lines: &Lines<'_>, at: usize) -> Vec<String> {
    let text = lines.0[head(lines, at)].iter().map(|line| line.trim()).collect::<Vec<_>>().join(" ");
    let (mut actions, mut quoted) = (vec![String::new()], false);
    for c in text.chars() {
        quoted ^= c == '"';
        match c {
            ';' if !quoted => actions.push(String::new()),
            _ => actions.last_mut().unwrap().push(c),
        }
    }
    actions.iter().map(|action| action.trim().to_owned()).filter(|action| !action.is_empty()).collect()
}

/// Every action of every step.
pub fn of(lines: &Lines<'_>) -> Vec<Act> {
    let step =
        |at| of_step(lines, at).into_iter().enumerate().map(move |(index, text)| Act { at, index, text });
    lines.steps().flat_map(step).collect()
}

/// The file with actions replaced, each by its new text; an empty text leaves the action out.
pub fn replaced(lines: &Lines<'_>, new: &[(&Act, String)]) -> String {
    let mut lines_now: Vec<String> = lines.0.iter().map(|line| (*line).to_owned()).collect();
    let mut steps: Vec<usize> = new.iter().map(|(act, _)| act.at).collect();
    steps.sort_unstable();
    steps.dedup();
    for at in steps.into_iter().rev() {
        let mut actions = of_step(lines, at);
        for (act, text) in new.iter().filter(|(act, _)| act.at == at) {
            actions[act.index] = text.clone();
        }
        actions.retain(|action| !action.is_empty());
        lines_now.splice(head(lines, at), [actions.join("; ")]);
    }
    lines_now.join("\n") + "\n"
}

/// What the parts block says of a name, further lines included; empty where it is no part.
pub fn declaration(lines: &Lines<'_>, name: &str) -> String {
    let from = lines.0.iter().position(|line| *line == "parts").unwrap_or(lines.0.len());
    let block: Vec<&str> =
        lines.0.iter().skip(from + 1).take_while(|line| line.starts_with(' ')).copied().collect();
    let own = block.iter().position(|line| line.starts_with(&format!("    {name} ")));
    let Some(own) = own else { return String::new() };
    let more = block[own + 1..].iter().take_while(|line| line.starts_with("     ")).copied();
    std::iter::once(block[own]).chain(more).map(str::trim).collect::<Vec<_>>().join(" ")
}

/// The names behind a word of a declaration: `holds cover, cover-s`.
pub fn named(declaration: &str, word: &str) -> Vec<String> {
    let Some(at) = declaration.find(&format!(" {word} ")) else { return Vec::new() };
    let rest = &declaration[at + word.len() + 2..];
    let known = ["holds", "locks", "single-use", "sided", "thread", "torque", "matched", "number", "callout"];
    let mut names = Vec::new();
    for name in rest.split(", ") {
        let mut words = name.split(' ');
        let first = words.next().unwrap_or("");
        if known.contains(&first) || first.contains('"') {
            break;
        }
        names.push(first.to_owned());
        if words.next().is_some() {
            break;
        }
    }
    names
}
