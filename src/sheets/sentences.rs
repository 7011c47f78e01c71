//! The generated sentences as markup: values set off, other steps as links, passes as a list.
use super::said::{Branch, Part};
use super::wording::{self, Run, Sentence};
use super::{Sheet, Withhold, drawing, html, sketch, withhold};
use crate::model::{Action, Step};

/// Each action of a step as a paragraph, with the passes of a staged tightening below it.
pub fn actions(out: &mut String, sheet: &Sheet<'_>, step: &Step) {
    let pen = Pen { sheet };
    for action in &step.actions {
        once(out, sheet, Part::Action(action), |out| {
            let sentence = wording::action(action, &sheet.words);
            out.push_str("<p class=\"do\">");
            pen.runs(out, &sentence);
            out.push_str("</p>");
            pen.list(out, &sentence);
        });
        if let Action::Work(work) = action {
            drawing::of_work(out, sheet, work);
            sketch::of_sides(out, sheet, work);
        }
    }
}

/// Writes what every sheet says alike, worded for the first of them; where values are left blank, for each.
fn once(out: &mut String, sheet: &Sheet<'_>, part: Part<'_>, write: impl FnOnce(&mut String)) {
    match sheet.said.filter(|_| sheet.withhold == Withhold::default()) {
        Some(said) => said.once(out, part, write),
        None => write(out),
    }
}

/// A repeat sends people back past messages they have read once.
pub fn again(out: &mut String, sheet: &Sheet<'_>, step: &Step) {
    let repeats = |action: &Action| matches!(action, Action::Repeat(repeat) if !repeat.for_each.is_empty());
    if step.actions.iter().any(repeats) {
        html::element(out, "p", "again-holds", sheet.label("again-holds"));
    }
}

/// The sentence of one action.
pub fn of_action(sheet: &Sheet<'_>, action: &Action) -> String {
    let mut out = String::new();
    runs(&mut out, &wording::action(action, &sheet.words));
    out
}

/// What the step is for: "F40S only", "Only if step 12 failed". Markup, without full stops.
pub fn limits(sheet: &Sheet<'_>, step: &Step) -> Vec<String> {
    let applies = wording::applies(&step.applies, &sheet.words).into_iter();
    let conditions = step.conditions.iter().map(|it| wording::condition(it, &sheet.words));
    let inline = |sentence: Sentence| {
        let mut out = String::new();
        runs(&mut out, &sentence);
        out.strip_suffix('.').map(str::to_owned).unwrap_or(out)
    };
    applies.chain(conditions).map(inline).collect()
}

/// Methods, exceptions and outcomes: one sentence each, its condition set off, behind `mark`.
pub fn branches(out: &mut String, sheet: &Sheet<'_>, step: &Step, mark: &str) {
    let options = step.options.iter().map(Branch::Option);
    let exceptions = step.exceptions.iter().map(Branch::Exception);
    let outcomes = step.outcomes.iter().map(Branch::Outcome);
    let mut branches = options.chain(exceptions).chain(outcomes).peekable();
    if branches.peek().is_none() {
        return;
    }
    out.push_str("<ul class=\"branches\">");
    let pen = Pen { sheet };
    for branch in branches {
        out.push_str("<li>");
        out.push_str(mark);
        once(out, sheet, Part::Branch(branch), |out| {
            let sentence = match branch {
                Branch::Option(it) => wording::option(it, &sheet.words),
                Branch::Exception(it) => wording::exception(it, &sheet.words),
                Branch::Outcome(it) => wording::outcome(it, &sheet.words),
            };
            pen.led(out, &sentence);
            pen.list(out, &sentence);
        });
        out.push_str("</li>");
    }
    out.push_str("</ul>");
}

/// An author's words, with what the names in brackets stand for.
pub fn phrase(sheet: &Sheet<'_>, text: &str) -> String {
    let mut out = String::new();
    runs(&mut out, &wording::phrase(text, &sheet.words));
    out
}

/// An author's sentence, with a capital also where a name in brackets begins it.
pub fn sentence(sheet: &Sheet<'_>, text: &str) -> String {
    let mut out = String::new();
    runs(&mut out, &wording::sentence(text, &sheet.words));
    out
}

pub fn runs(out: &mut String, sentence: &Sentence) {
    let mut author = Author::of(sentence);
    let words = words_of(sentence);
    for (it, text) in sentence.runs() {
        author.at(out, it);
        run(out, it, text, words);
    }
    author.end(out);
}

/// How the words of a sentence are written: it is looked through once, and not each of its runs.
fn words_of(sentence: &Sentence) -> fn(&mut String, &str) {
    if html::needs_escape(sentence.lead()) { html::escape } else { String::push_str }
}

/// Marks the stretches of a sentence that its author wrote in another language.
struct Author {
    language: Option<&'static str>,
    open: bool,
}

impl Author {
    fn of(sentence: &Sentence) -> Author {
        Author { language: sentence.own(), open: false }
    }

    /// To be called before each run.
    fn at(&mut self, out: &mut String, run: Run) {
        let Some(language) = self.language else { return };
        let own = matches!(run, Run::Own | Run::Name(_));
        if own && !self.open {
            html::open_in(out, "span", language);
        } else if !own {
            self.end(out);
        }
        self.open = own;
    }

    fn end(&mut self, out: &mut String) {
        if std::mem::take(&mut self.open) {
            html::close(out, "span");
        }
    }
}

fn run(out: &mut String, run: Run, text: &str, words: fn(&mut String, &str)) {
    match run {
        Run::Text | Run::Own | Run::Name(_) => words(out, text),
        Run::Value | Run::Torque | Run::Limit => value(out, text),
        Run::Step(number) => {
            out.push_str("<a href=\"#step-");
            html::number(out, number);
            out.push_str("\">");
            html::escape(out, &text.replace(' ', "\u{a0}"));
            html::close(out, "a");
        }
    }
}

/// Writes sentences whose values may be withheld.
struct Pen<'a> {
    sheet: &'a Sheet<'a>,
}

impl Pen<'_> {
    fn run(&self, out: &mut String, it: Run, text: &str, words: fn(&mut String, &str)) {
        if self.sheet.withhold.hides(it) {
            withhold::blank(out, self.sheet);
        } else {
            run(out, it, text, words);
        }
    }

    fn runs(&self, out: &mut String, sentence: &Sentence) {
        let mut author = Author::of(sentence);
        let words = words_of(sentence);
        for (it, text) in sentence.runs() {
            author.at(out, it);
            self.run(out, it, text, words);
        }
        author.end(out);
    }

    /// The words up to the first colon are strong.
    fn led(&self, out: &mut String, sentence: &Sentence) {
        let mut leading = true;
        let mut author = Author::of(sentence);
        let words = words_of(sentence);
        out.push_str("<b>");
        for (it, text) in sentence.runs() {
            author.at(out, it);
            let lead = text.split_once(':').filter(|_| leading && it == Run::Text);
            match lead {
                Some((lead, rest)) => {
                    words(out, lead);
                    out.push_str(":</b>");
                    words(out, rest);
                    leading = false;
                }
                None => self.run(out, it, text, words),
            }
        }
        author.end(out);
        if leading {
            out.push_str("</b>");
        }
    }

    fn list(&self, out: &mut String, sentence: &Sentence) {
        if sentence.list.is_empty() {
            return;
        }
        html::open(out, "ol", "passes");
        for item in &sentence.list {
            html::open(out, "li", "");
            self.runs(out, item);
            self.list(out, item);
            html::close(out, "li");
        }
        html::close(out, "ol");
    }
}

/// Longer ones may break anywhere: a phone is narrow.
const LONGEST_UNBROKEN: usize = 26;

/// A number stays beside its unit; the second unit in brackets may go on the next line.
fn value(out: &mut String, text: &str) {
    let bracket = text.match_indices('(').map(|(at, _)| text.split_at(at)).find(|it| it.0.ends_with(' '));
    let Some((first, second)) = bracket else { return set_off(out, text) };
    set_off(out, first.strip_suffix(' ').unwrap_or(first));
    out.push(' ');
    set_off(out, second);
}

fn set_off(out: &mut String, text: &str) {
    let whole = text.chars().count() <= LONGEST_UNBROKEN;
    out.push_str(if whole { "<b class=\"value whole\">" } else { "<b class=\"value\">" });
    html::escape(out, text);
    out.push_str("</b>");
}
