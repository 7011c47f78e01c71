//! The first text of a new procedure: its head from a few answers, and under it a worked example that the author
//! replaces. The layout is the formatter's affair.
mod examples;

use crate::ledger::{Brought, brought};
use crate::model::Document;
use crate::model::document::Standing;
use crate::model::fastener::wrench;
use crate::model::quantity::{Exact, Quantity};
use crate::source::quotes::quoted;
use examples::{COVER, Example};

pub use examples::Danger;

/// What the author says before anything is written. Texts are as they stand behind their keys.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Answers {
    pub number: String,
    pub title: String,
    pub equipment: String,
    pub models: String,
    /// `90 min`.
    pub time: String,
    /// At least one.
    pub people: u32,
    /// Calls with `;` between them, or `none`.
    pub requires: String,
    pub afterwards: String,
    pub dangers: Vec<Danger>,
}

/// What the house has already.
#[derive(Debug, Default)]
pub struct Shop<'a> {
    /// Paths of catalogues, as the new file writes them.
    pub uses: Vec<String>,
    /// These, and the house's own.
    pub catalogues: Vec<&'a Document>,
    /// Fields of the head that the house asks for.
    pub required: &'a [String],
    /// Call standing messages where there are some of the right word and class.
    pub calls: bool,
}

/// The middle of what the example's screws are tightened to.
const TORQUE: &str = "8 N.m";
/// The example's own wrench.
const WRENCH: &str = "wrench-s";

/// The text of a file that can be checked as it is.
#[must_use]
pub fn skeleton(answers: &Answers, shop: &Shop<'_>) -> String {
    let had = brought(&answers.requires);
    let dangers: Vec<&Example> =
        answers.dangers.iter().filter(|it| !covers(had, **it)).map(|it| it.example()).collect();
    let mut text = head(answers, shop);
    for path in &shop.uses {
        text.push_str(&format!("use \"{path}\"\n"));
    }
    text.push_str(&declarations(&dangers, shop));
    text.push_str(&steps(&dangers, had, shop));
    // The step that the header's second pair of hands is for.
    let helpers =
        if answers.people > 1 { format!("\n    people: {}", answers.people) } else { String::new() };
    text.replace("\n    people: ALL", &helpers)
}

/// Whether the machine comes without this danger.
fn covers(had: Brought, danger: Danger) -> bool {
    match danger {
        Danger::Live => had.dead,
        Danger::Pressurised => had.vented,
        Danger::Hot => had.cold,
        Danger::Raised => had.raised,
    }
}

fn head(answers: &Answers, shop: &Shop<'_>) -> String {
    let Answers { number, title, equipment, models, time, people, requires, afterwards, .. } = answers;
    let title = quoted(title);
    let leaves = if afterwards == "none" { states(requires) } else { "none".to_owned() };
    let mut text = format!(
        "# The steps below are an example. Put the work of your machine in their place, and delete what you do not need.
# A line like this one is a comment: no sheet shows it.
procedure {number} {title}
    # When you give it out, write the date behind the letter: A, 2026-11-02
    revision: A
    equipment: {equipment}
    models: {models}
    # Name the manual and its issue; the maker's current service information goes before this file.
    source: manual \"the maker's current service information\"
    time: {time}
    people: {people}
    # What somebody can do who has done this work.
    outcome: Take a cover off, renew its gasket, and put it back tight.
    requires: {requires}
    afterwards: {afterwards}
    # The state that the machine is left in, in quotes, where it is not ready for use.
    leaves: {leaves}
"
    );
    let asked = |field: &str| shop.required.iter().any(|it| it == field);
    if asked("serials") {
        text.push_str("    # The serial numbers it holds for: 300000 and up\n    serials: none\n");
    }
    if asked("approved") {
        text.push_str("    # Who released it, and when: workshop office, 2026-11-04\n    approved: none\n");
    }
    text.push('\n');
    text
}

/// The states that calls bring, as `leaves:` writes them.
fn states(calls: &str) -> String {
    let states: Vec<String> =
        calls.split('"').skip(1).step_by(2).map(|state| format!("\"{state}\"")).collect();
    if states.is_empty() { "none".to_owned() } else { states.join("; ") }
}

fn declarations(dangers: &[&Example], shop: &Shop<'_>) -> String {
    let all = || dangers.iter().copied().chain([&COVER]);
    let lent = |line: &&str| !shop.has(line.trim_start().split(' ').next().unwrap_or(""));
    let mut text = String::from(
        "\n# What the work handles: a name for the steps, a text for the sheets, and what is true of it.\nparts\n",
    );
    all().for_each(|it| text.push_str(it.parts));
    if all().any(|it| it.hot) {
        text = text.replace("\"Cover\" sharp", "\"Cover\" sharp, hot 90 degC");
    }
    let own = shop.wrench().is_none();
    let tools: Vec<&str> = all()
        .flat_map(|it| it.tools.lines())
        .filter(lent)
        .filter(|line| own || !line.contains(WRENCH))
        .collect();
    text.push_str(&block(
        "tools",
        &tools,
        shop.catalogues.iter().any(|it| !it.declarations.tools.is_empty()),
    ));
    let supplies: Vec<&str> = all().flat_map(|it| it.supplies.lines()).filter(lent).collect();
    let lends = shop.catalogues.iter().any(|it| !it.declarations.supplies.is_empty());
    text.push_str(&block("supplies", &supplies, lends));
    text
}

fn block(kind: &str, lines: &[&str], lent: bool) -> String {
    match (lines.is_empty(), lent) {
        (true, true) => String::new(),
        (true, false) => format!("\n{kind} none\n"),
        (false, _) => format!("\n{kind}\n{}\n", lines.join("\n")),
    }
}

fn steps(dangers: &[&Example], had: Brought, shop: &Shop<'_>) -> String {
    let mut text = String::from("\nsection \"Make safe\"\n\n");
    text.push_str(examples::FIRST);
    if had != Brought::default() {
        text.push_str(
            "# What `requires:` brings is not done again here: look at the machine before you rely on it.\n",
        );
    }
    let mut lines: String = dangers.iter().map(|it| it.safe).collect();
    lines.push_str(COVER.safe);
    lines.push_str("\nsection \"Test\"\n\n");
    // What came last into its safe state leaves it first.
    lines.extend(dangers.iter().rev().map(|it| it.back));
    lines.push_str(COVER.back);
    text.push_str(&messages(&lines, shop));
    text.replace(WRENCH, shop.wrench().unwrap_or(WRENCH))
}

/// The lines, with the shop's standing messages called where it has one of the same word and class.
fn messages(lines: &str, shop: &Shop<'_>) -> String {
    let mut text = String::new();
    let (mut called, mut explained) = (false, false);
    for line in lines.lines() {
        // What a standing message says is in its catalogue.
        if called && line.starts_with(' ') {
            continue;
        }
        let standing = shop.standing(line);
        called = standing.is_some();
        if called && !explained {
            text.push_str("# The shop says this message often: it is called by its name.\n");
            explained = true;
        }
        text.push_str(&standing.unwrap_or_else(|| line.to_owned()));
        text.push('\n');
    }
    text
}

impl<'a> Shop<'a> {
    /// Whether a catalogue lends a tool or a supply of that name.
    fn has(&self, name: &str) -> bool {
        self.catalogues.iter().map(|it| &it.declarations).any(|it| {
            let mut things =
                it.tools.iter().map(|it| &it.thing).chain(it.supplies.iter().map(|it| &it.thing));
            things.any(|thing| thing.name.as_str() == name)
        })
    }

    /// The torque wrench that suits the example best.
    fn wrench(&self) -> Option<&'a str> {
        let tools = self.catalogues.iter().flat_map(|it| &it.declarations.tools);
        let scaled = tools.filter(|tool| wrench::scale(tool).is_some());
        let values: Vec<Quantity> = Quantity::read(TORQUE).into_iter().collect();
        wrench::best(scaled, &values, |_| Some(Exact::from_integer(1))).map(|tool| tool.thing.name.as_str())
    }

    /// The call that says as much as the line, `warning CLASS` and how far it reaches.
    fn standing(&self, line: &str) -> Option<String> {
        let (signal, rest) = line.split_once(' ').filter(|_| self.calls)?;
        let (class, reach) = rest.split_at(rest.find(' ').unwrap_or(rest.len()));
        let fits = |it: &&Standing| it.signal.word() == signal && it.hazard.name == class;
        let standing = self.catalogues.iter().flat_map(|it| &it.standing).find(fits)?;
        Some(format!("{signal} {}{reach}", standing.name.as_str()))
    }
}
