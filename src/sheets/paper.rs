//! Sheets on paper: its size, and what stands at the foot of each page.
use super::{Sheet, html, title};
use crate::model::settings::Paper;

/// What all sheets share in print.
pub const STYLE: &str = include_str!("paper.css");

/// The house's paper, and number and revision at the foot of each page.
pub fn style(sheet: &Sheet<'_>) -> String {
    let size = match sheet.settings().paper {
        Paper::A4 => "A4",
        Paper::Letter => "letter",
    };
    let foot = html::css_string(&title::footer(sheet));
    format!("@page{{size:{size} portrait;@bottom-left{{content:{foot}}}}}")
}
