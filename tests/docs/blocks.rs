//! What a Markdown page holds that can be tried out: fenced blocks, links, headings, quoted paths.

/// A fenced block: the words behind its fence, its text, and the line of the fence.
pub struct Block {
    pub language: String,
    pub bad: bool,
    /// The file the reader is told to save it as.
    pub file: Option<String>,
    pub text: String,
    pub line: usize,
}

pub fn blocks(page: &str) -> Vec<Block> {
    let mut found = Vec::new();
    let mut lines = page.lines().enumerate();
    while let Some((index, line)) = lines.next() {
        let Some(info) = line.strip_prefix("```").filter(|info| !info.is_empty()) else {
            assert!(line != "```", "line {}: a block without a language", index + 1);
            continue;
        };
        let mut words = info.split_whitespace();
        let language = words.next().unwrap().to_owned();
        let words: Vec<&str> = words.collect();
        let text = lines.by_ref().map(|(_, line)| line).take_while(|line| *line != "```");
        let text: String = text.flat_map(|line| [line, "\n"]).collect();
        let file = words.iter().find(|word| word.contains('.')).map(|word| (*word).to_owned());
        found.push(Block { language, bad: words.contains(&"bad"), file, text, line: index + 1 });
    }
    found
}

/// Relative links outside code, each with its line.
pub fn links(page: &str) -> Vec<(String, usize)> {
    let mut found = Vec::new();
    for (line, text) in outside_blocks(page) {
        for rest in text.split("](").skip(1) {
            let target = rest.split(')').next().unwrap();
            if !target.contains("://") {
                found.push((target.to_owned(), line));
            }
        }
    }
    found
}

/// The anchors of a page's headings, as GitHub makes them.
pub fn anchors(page: &str) -> impl Iterator<Item = String> {
    outside_blocks(page).filter(|(_, line)| line.starts_with('#')).map(|(_, line)| {
        let words = line.trim_start_matches('#').trim().to_lowercase().replace(' ', "-");
        words.chars().filter(|c| c.is_alphanumeric() || matches!(c, '-' | '_')).collect()
    })
}

/// Paths in backticks (`src/model/`, `tests/main.rs`), each with its line; those with a blank, a capital word
/// that stands for any name, or a wildcard are forms and not paths.
pub fn quoted_paths(page: &str) -> Vec<(String, usize)> {
    let mut found = Vec::new();
    for (line, text) in outside_blocks(page) {
        for quoted in text.split('`').skip(1).step_by(2) {
            let stands_for_any =
                quoted.split(['/', '.']).any(|part| part.len() > 1 && part == part.to_uppercase());
            let is_path = quoted.contains('/') && !quoted.contains([' ', '*', ':', '<', '{']);
            if is_path && !stands_for_any {
                found.push((quoted.to_owned(), line));
            }
        }
    }
    found
}

fn outside_blocks(page: &str) -> impl Iterator<Item = (usize, &str)> {
    let mut inside = false;
    page.lines().enumerate().filter_map(move |(index, line)| {
        let fence = line.starts_with("```");
        let shown = !inside && !fence && !line.starts_with("    ");
        inside ^= fence;
        shown.then_some((index + 1, line))
    })
}
