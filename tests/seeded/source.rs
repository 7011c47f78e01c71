//! A procedure's source as lines, for breaking it in one place.

/// The lines of one file; a mutant is the file with one thing changed.
pub struct Lines<'a>(pub Vec<&'a str>);

impl<'a> Lines<'a> {
    pub fn of(text: &'a str) -> Lines<'a> {
        Lines(text.lines().collect())
    }

    /// A line at the margin that is a step: not a block, a message, a section, a comment or the header.
    pub fn is_step(&self, at: usize) -> bool {
        const OTHERS: [&str; 15] = [
            "procedure",
            "due",
            "catalogue",
            "use",
            "section",
            "parts",
            "tools",
            "supplies",
            "torques",
            "figures",
            "danger",
            "warning",
            "caution",
            "notice",
            "note",
        ];
        let word = self.0[at].split(' ').next().unwrap_or("");
        self.0[at].starts_with(|c: char| c.is_ascii_lowercase()) && !OTHERS.contains(&word)
    }

    pub fn is_message(&self, at: usize) -> bool {
        let word = self.0[at].split(' ').next().unwrap_or("");
        ["danger", "warning", "caution", "notice", "note"].contains(&word)
    }

    /// The lines of the statement at `at`: itself and what is indented under it.
    pub fn extent(&self, at: usize) -> std::ops::Range<usize> {
        let deeper = self.0[at + 1..].iter().take_while(|line| line.starts_with(' ')).count();
        at..at + 1 + deeper
    }

    /// The keyword of the margin statement that line `at` belongs to.
    pub fn owner(&self, at: usize) -> &str {
        let margin = (0..=at).rev().find(|&i| !self.0[i].is_empty() && !self.0[i].starts_with([' ', '#']));
        margin.map_or("", |i| self.0[i].split(' ').next().unwrap_or(""))
    }

    pub fn steps(&self) -> impl Iterator<Item = usize> + '_ {
        (0..self.0.len()).filter(|&at| self.is_step(at))
    }

    pub fn messages(&self) -> impl Iterator<Item = usize> + '_ {
        (0..self.0.len()).filter(|&at| self.is_message(at))
    }

    /// The file with lines `range` replaced.
    pub fn with(&self, range: std::ops::Range<usize>, new: &[String]) -> String {
        let mut text = String::new();
        let before = self.0[..range.start].iter().map(|s| (*s).to_owned());
        let after = self.0[range.end..].iter().map(|s| (*s).to_owned());
        for line in before.chain(new.iter().cloned()).chain(after) {
            text.push_str(&line);
            text.push('\n');
        }
        text
    }

    /// The file with one line changed, for each line that `change` wants changed.
    pub fn changed(&self, change: impl Fn(usize, &str) -> Option<String>) -> Vec<String> {
        (0..self.0.len()).filter_map(|at| Some(self.with(at..at + 1, &[change(at, self.0[at])?]))).collect()
    }

    /// The file with lines added under the margin line of each step.
    pub fn under_steps(&self, added: &str) -> Vec<String> {
        // A line that ends in a comma or semicolon goes on below.
        let whole = |at: &usize| !self.0[*at].ends_with([',', ';']);
        self.steps().filter(whole).map(|at| self.with(at + 1..at + 1, &[format!("    {added}")])).collect()
    }

    /// The file with lines added above each step (above its messages).
    pub fn above_steps(&self, added: &str) -> Vec<String> {
        let lone = |at: &usize| !self.preceded_by_message(*at);
        self.steps().filter(lone).map(|at| self.with(at..at, &[added.to_owned()])).collect()
    }

    /// A message stands directly above.
    pub fn preceded_by_message(&self, at: usize) -> bool {
        let above = (0..at).rev().find(|&i| !self.0[i].is_empty() && !self.0[i].starts_with([' ', '#']));
        above.is_some_and(|i| self.is_message(i))
    }
}

/// Cuts `from` (first place) out of a line, up to the end of the text or word that follows it.
pub fn without(line: &str, from: &str) -> Option<String> {
    let at = line.find(from)?;
    let rest = &line[at + from.len()..];
    let end = if let Some(text) = rest.strip_prefix('"') {
        text.find('"')? + 2
    } else {
        rest.find([' ', ',', ';']).unwrap_or(rest.len())
    };
    let tail = &rest[end..];
    Some(format!(
        "{}{}",
        line[..at].trim_end(),
        if tail.is_empty() { String::new() } else { tail.to_owned() }
    ))
}

/// The file with each declaration on a line of its own, and one blank behind the key of a detail: easier to break.
pub fn one_line_each(text: &str) -> String {
    let mut plain: Vec<String> = Vec::new();
    let mut header = true;
    for line in text.lines() {
        header &= !line.is_empty();
        let goes_on = line.starts_with("        ") && !line.trim_start().starts_with("stage:");
        match plain.last_mut().filter(|_| goes_on) {
            Some(before) => *before = format!("{before} {}", line.trim_start()),
            None if header => plain.push(line.to_owned()),
            None => plain.push(match line.split_once(": ") {
                Some((key, value)) if !key.contains('"') => format!("{key}: {}", value.trim_start()),
                _ => line.to_owned(),
            }),
        }
    }
    plain.join("\n") + "\n"
}
