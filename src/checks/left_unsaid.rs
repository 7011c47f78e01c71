//! A sentence of the author's own leaves out what else stands on its line.
use super::{Rule, Subject};
use crate::model::action::Work;
use crate::model::placeholder::stands_for_words;
use crate::model::quantity::{Figures, Quantity};
use crate::model::verb::Quantities;
use crate::report::{Finding, Severity};
use crate::source::Span;

pub static RULE: Rule = Rule {
    id: "left-unsaid",
    severity: Severity::Warning,
    waivable: true,
    summary: "A sentence of the author's own leaves out what else stands on its line",
    explain: "\
A text behind a verb that asks for none is the sentence of the step, and stands in place of the one that is made of the line. \
What the line says besides is then on no sheet: `run pump \"Let it warm up.\" for 5 min` tells the learner nothing of the five \
minutes.

Say it in the sentence, or take the sentence out and let the line speak. Limits and torques are printed behind it anyway, and \
tools and supplies stand in their lists.",
    bad: "\
parts
    shaft \"Pump shaft\"

clean shaft
turn shaft \"Turn the pump shaft slowly.\" by 2 turns
",
    good: "\
parts
    shaft \"Pump shaft\"

clean shaft
turn shaft \"Turn the pump shaft by 2 turns, slowly.\" by 2 turns
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    for work in &subject.contents.works {
        let Some(sentence) = &work.sentence else { continue };
        let said = sentence.as_str().to_lowercase();
        for (place, words) in left_unsaid(work, &said) {
            let text = format!("Your own sentence says nothing of {words}, which would be on no sheet");
            findings.push(
                Finding::new(RULE.id, place, text)
                    .label(sentence.span, "this stands in place of the sentence that is made of the line")
                    .help("Say it in the sentence, or take the sentence out"),
            );
        }
    }
}

/// What the line gives besides objects, places and tools, and the sentence, in small letters, does not say.
fn left_unsaid(work: &Work, said: &str) -> Vec<(Span, String)> {
    let amount = work.quantity.as_ref().filter(|_| work.verb.quantity == Quantities::Amount);
    let amounts = [work.by.as_ref(), work.lasting.as_ref(), amount].into_iter().flatten();
    let amounts = amounts.filter(|amount| !tells(said, amount)).map(|it| (it.span(), it.print()));
    let texts = [("facing", &work.facing), ("until", &work.until), ("while", &work.during)];
    let texts = texts.into_iter().filter_map(|(word, text)| Some((word, text.as_ref()?)));
    // Dots that keep the place of words have their finding.
    let lost = |text: &str| !stands_for_words(text) && !said.contains(&text.to_lowercase());
    let texts = texts.filter(|(_, text)| lost(text.as_str()));
    amounts.chain(texts.map(|(word, text)| (text.span, format!("`{word} \"{}\"`", text.as_str())))).collect()
}

/// Numbers that are written out.
const WORDS: [&str; 16] = [
    "half", "quarter", "third", "once", "twice", "one", "two", "three", "four", "five", "six", "seven",
    "eight", "nine", "ten", "full",
];

/// Whether one of its numbers stands in the sentence, in figures or in words.
fn tells(said: &str, amount: &Quantity) -> bool {
    let words = || {
        said.split(|c: char| !c.is_alphanumeric() && !matches!(c, '.' | ',' | '/'))
            .map(|it| it.trim_end_matches(['.', ',']))
    };
    let figures: Vec<String> = amount.form().numbers().map(|it| Figures::ENGLISH.number(it)).collect();
    words().any(|word| WORDS.contains(&word) || figures.iter().any(|it| it == word))
}
