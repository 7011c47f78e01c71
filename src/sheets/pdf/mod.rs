//! Sheets as PDF, without a browser: drawn from the tags of the printed page itself, so that both say the same. Fonts
//! are in the file, every word is tagged for those who have it read out (PDF/UA-1), and it is made to be kept (PDF/A-2).
mod drawing;
mod fields;
mod flow;
mod fonts;
mod look;
mod markup;
mod pages;
mod picture;
mod slab;
mod table;
mod tags;
mod words;

use super::{Context, SheetError};
use crate::model::settings::Paper;
use flow::Flow;
use fonts::Fonts;
use krilla::configure::{Accessibility, Archival, ConfigurationBuilder};
use krilla::metadata::{DateTime, Metadata};
use krilla::{Document, SerializeSettings};
use pages::Format;
use tags::Tags;

/// What stands at the foot of every page.
struct Foot<'a> {
    left: &'a str,
    middle: &'a str,
    /// Of a page and how many there are.
    page: &'a dyn Fn(usize, usize) -> String,
}

/// Why there is no PDF.
#[derive(Debug, Clone, PartialEq, Eq)]
enum Fault {
    /// The program's own fonts cannot be read.
    Font,
    Size,
    /// The file would not be what it says it is.
    Refused(String),
}

impl std::fmt::Display for Fault {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Fault::Font => write!(f, "the fonts in the program cannot be read"),
            Fault::Size => write!(f, "the paper has no size"),
            Fault::Refused(why) => write!(f, "the PDF would not keep what it promises: {why}"),
        }
    }
}

impl std::error::Error for Fault {}

/// A sheet as PDF.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Drawn {
    pub bytes: Vec<u8>,
    /// Letters that the fonts lack: a sign stands for each of them, and a reader should know.
    pub lacking: Vec<char>,
}

/// A printed sheet of the procedure, `page` in HTML, as PDF.
///
/// # Errors
/// Where the file would not be the PDF it says it is.
pub fn of(page: &str, document: &crate::model::Document, context: &Context<'_>) -> Result<Drawn, SheetError> {
    let procedure = document.procedure().ok_or(SheetError::NotAProcedure)?;
    let words = context.words;
    let revision = procedure.header.revision.as_ref().map_or("", |it| it.as_str());
    let left = super::paper::foot(words, &procedure.number.value, revision);
    // Loose pages find back to their job, or to whose they are.
    let middle = page.split_once("data-foot=\"").and_then(|(_, rest)| rest.split_once('"'));
    let middle = middle.map(|(whose, _)| format!("{whose} ______________________")).unwrap_or_default();
    let numbered = |page: usize, pages: usize| {
        let [page, pages] = [page, pages].map(|number| number.to_string());
        words.say("page-of", &[("page", page.as_str().into()), ("pages", pages.as_str().into())])
    };
    let foot = Foot { left: &left, middle: &middle, page: &numbered };
    let paper = context.settings.paper;
    let made = |photographs| render(page, paper, &foot, date(revision), photographs);
    // A photograph that breaks off inside is found out at the end only.
    let made = made(true).or_else(|fault| if page.contains("<img") { made(false) } else { Err(fault) });
    made.map_err(|fault| SheetError::Pdf(fault.to_string()))
}

/// The date in a revision, "C, 2026-09-28"; the first of all days where it has none.
fn date(revision: &str) -> (u16, u8, u8) {
    let written = revision.split(|c: char| !c.is_ascii_digit() && c != '-').find_map(|word| {
        let mut parts = word.splitn(3, '-').map(str::parse::<u16>);
        let (year, month, day) = (parts.next()?.ok()?, parts.next()?.ok()?, parts.next()?.ok()?);
        Some((year, u8::try_from(month).ok()?, u8::try_from(day).ok()?))
    });
    let sound = |(year, month, day): &(u16, u8, u8)| {
        *year > 999 && (1..=12).contains(month) && (1..=31).contains(day)
    };
    written.filter(sound).unwrap_or((1970, 1, 1))
}

/// Points in a millimetre.
const MM: f32 = 72.0 / 25.4;

/// The page `html`, one of our own, on `paper`. `date` (year, month, day) is written into the file, which is the same
/// to the byte however often it is made.
///
/// # Errors
/// Where the file would not be the PDF it says it is.
fn render(
    html: &str,
    paper: Paper,
    foot: &Foot<'_>,
    date: (u16, u8, u8),
    photographs: bool,
) -> Result<Drawn, Fault> {
    let page = markup::read(html);
    let fonts = Fonts::load()?;
    let (width, height) = match paper {
        Paper::A4 => (210.0 * MM, 297.0 * MM),
        Paper::Letter => (612.0, 792.0),
    };
    let format = Format { width, height, side: 14.0 * MM, top: 14.0 * MM, bottom: 18.0 * MM };
    let mut flow = Flow { fonts: &fonts, page: &page, tags: Tags::new(), photographs };
    let slabs = flow.page(format.text_width());
    let Flow { tags, .. } = flow;
    let pages = pages::broken(slabs, &format);
    let words = |name: &str| page.find(&|it| it.is(name)).map(|it| it.words()).unwrap_or_default();
    let language = page.find(&|it| it.is("html")).and_then(|it| it.attribute("lang")).unwrap_or("en");
    let configuration = ConfigurationBuilder::new()
        .with_archival_validator(Archival::A2_A)
        .with_accessibility_validator(Accessibility::UA1)
        .finish()
        .map_err(|error| Fault::Refused(format!("{error:?}")))?;
    let settings = SerializeSettings { configuration, enable_tagging: true, ..SerializeSettings::default() };
    let mut document = Document::new_with(settings);
    let (year, month, day) = date;
    let made = DateTime::new(year).month(month).day(day);
    let metadata = Metadata::new().title(words("title")).language(language.to_owned()).creation_date(made);
    document.set_metadata(metadata.creator("Cotter".to_owned()));
    let bytes = pages::drawn(document, pages, tags, &fonts, &format, foot)?;
    Ok(Drawn { bytes, lacking: fonts.lacking() })
}
