//! A sentence that says what to do is too long to be kept in mind.
use super::passages::{Kind, Passage};
use super::prose_words::{most_words, sentences, words};
use super::{Rule, Subject};
use crate::report::{Finding, Severity};

/// ASD-STE100 rule 5.1, by a published summary: a procedural sentence has at most 20 words.
const MOST: usize = 20;

pub static RULE: Rule = Rule {
    id: "long-instruction",
    severity: Severity::Advice,
    waivable: true,
    summary: "A sentence that says what to do has more than 20 words",
    explain: "At the bench people read a sentence, look away, and do it. What does not fit in the head is done half. \
ASD-STE100 rule 5.1 allows 20 words in a procedural sentence.

Looked at are the prose under a step and a step's own sentence. A number with its unit counts as one word, and \
so do a hyphenated word, a quoted name and a `[reference]`. Reasons, questions and notes for instructors are \
not counted.",
    bad: "\
parts
    cover \"Bearing cover\"

clean cover
    Hold the cover by its flat faces over the tray and brush the old sealant from the groove toward the outer \
edge until you see bare metal.
",
    good: "\
parts
    cover \"Bearing cover\"

clean cover
    Hold the cover by its flat faces over the tray. Brush the old sealant from the groove until you see bare metal.
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    if subject.procedure().is_none() {
        return;
    }
    let long = |passage: &&Passage<'_>| {
        let text = passage.text();
        // A word and its blank take two bytes.
        passage.kind() == Kind::Instruction && text.len() > 2 * MOST && most_words(text) > MOST
    };
    for passage in subject.contents.passages.iter().filter(long) {
        for range in sentences(passage.text()) {
            let count = words(passage.text().get(range.clone()).unwrap_or("")).count();
            if count > MOST {
                let span = passage.span(subject.source, range.start, range.end);
                let text = format!(
                    "This sentence has {count} words; more than {MOST} are not kept in mind at the bench"
                );
                findings.push(Finding::new(RULE.id, span, text).help("Make it two sentences, or two steps"));
            }
        }
    }
}
