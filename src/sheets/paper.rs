//! Sheets on paper: its size, what stands at the foot of each page, and the look of what is filled in by hand.
use super::language::Words;
use super::{Sheet, html, since};
use crate::model::Settings;
use crate::model::settings::Paper;

/// What all sheets share in print.
pub const STYLE: &str = include_str!("paper.css");
/// What is filled in by hand: black on white, boxes, rules and signatures.
pub const SHEET: &str = include_str!("sheet.css");

/// The house's paper, and number and revision at the foot of each page.
pub fn style(sheet: &Sheet<'_>) -> String {
    let revision = sheet.procedure.header.revision.as_ref().map_or("", |it| it.as_str());
    let mut style =
        size(sheet.settings(), &foot(sheet.context.words, &sheet.procedure.number.value, revision));
    style.push_str(if sheet.context.since.is_some() { since::STYLE } else { "" });
    style
}

/// The house's paper, with words at the foot of each page.
pub fn size(settings: &Settings, foot: &str) -> String {
    let size = match settings.paper {
        Paper::A4 => "A4",
        Paper::Letter => "letter",
    };
    let foot = html::css_string(foot);
    format!("@page{{size:{size} portrait;@bottom-left{{content:{foot}}}}}")
}

/// Number and revision as they stand at the foot of each printed page.
pub fn foot(words: &Words, number: &str, revision: &str) -> String {
    match revision {
        "" => number.to_owned(),
        _ => format!("{number}  {}", words.say("foot-revision", &[("revision", revision.into())])),
    }
}
