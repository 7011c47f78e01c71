//! Pages in other languages than their source: all that is the program's own is in the language of the page.
use super::handout::ALL;
use super::text_of;
use crate::support::shop::{Shop, package, sources};
use cotter::model::{Document, Language, Settings};
use cotter::sheets::language::{Words, keys};
use cotter::sheets::{Context, assessment, bench, checklist, handout, index, instructor, kit};
use cotter::source::{FileId, SourceFile};
use std::collections::BTreeSet;

const OTHERS: [Language; 3] = [Language::German, Language::Spanish, Language::French];

fn demo(shop: &Shop) -> Vec<Document> {
    let paths = sources(&package("procedures"));
    let documents = paths.iter().map(|path| {
        let name = path.strip_prefix(package("")).unwrap().to_str().unwrap().to_owned();
        let source = SourceFile::new(FileId(0), name, std::fs::read_to_string(path).unwrap());
        shop.compile(&source).document
    });
    documents.filter(|document| document.procedure().is_some()).collect()
}

fn context(shop: &Shop, language: Language) -> Context<'_> {
    Context::new(&shop.settings, &shop.register, Words::of(language))
}

/// Every page that a build makes of the document.
fn pages(document: &Document, context: &Context<'_>) -> Vec<String> {
    let list = kit::of(document, 3, context).unwrap();
    let entry = index::Entry {
        others: index::OTHERS.map(|(file, ..)| file.to_owned()).to_vec(),
        ..index::Entry::of(document).unwrap()
    };
    let pages = [
        bench::render(document, context),
        checklist::render(document, context),
        instructor::render(document, 3, context),
        assessment::render(document, context),
        kit::render(&list, context),
        handout::bench(document, ALL, context),
        handout::checklist(document, ALL, context),
        handout::answers(document, ALL, context),
        index::render(&[entry], context),
    ];
    pages.into_iter().map(Result::unwrap).collect()
}

/// The texts of a page that are not marked as being in English, and those of its labels for screen readers.
fn own_texts(page: &str) -> Vec<String> {
    let (mut texts, mut open, mut depth) = (Vec::new(), Vec::<String>::new(), None);
    let body = page.find("<body>").unwrap();
    let mut rest = &page[body..];
    while let Some(start) = rest.find('<') {
        if depth.is_none() {
            texts.push(rest[..start].to_owned());
        }
        let end = start + rest[start..].find('>').unwrap();
        let tag = &rest[start + 1..end];
        if let Some(name) = tag.strip_prefix('/') {
            while open.pop().is_some_and(|it| it != name) {}
            depth = depth.filter(|depth| open.len() > *depth);
        } else {
            if let Some(label) = tag.split_once("aria-label=\"").filter(|_| depth.is_none()) {
                texts.push(label.1.split('"').next().unwrap().to_owned());
            }
            if !["meta", "link", "br", "use", "path", "circle", "img"]
                .contains(&tag.split(' ').next().unwrap())
                && !tag.ends_with('/')
            {
                if tag.contains(" lang=\"en\"") && depth.is_none() {
                    depth = Some(open.len());
                }
                open.push(tag.split(' ').next().unwrap().to_owned());
            }
        }
        rest = &rest[end + 1..];
    }
    texts.into_iter().map(|text| text.trim().to_owned()).filter(|text| !text.is_empty()).collect()
}

/// Every label of the English words, and every stretch of a phrase between its arguments, that the language says
/// otherwise. Short stretches are in other words too.
fn english_words(language: Language) -> (BTreeSet<String>, BTreeSet<String>) {
    let (english, own): (&Words, &Words) = (Words::of(Language::English), Words::of(language));
    let source = Language::English.source();
    let labels =
        keys(source).filter(|key: &&str| english.label(key) != *key && english.label(key) != own.label(key));
    let labels: BTreeSet<String> = labels.map(|key| english.label(key).to_owned()).collect();
    let lines = source.lines().filter(|line| line.contains('{') && line.contains(" = "));
    let texts = lines.filter_map(|line| line.split_once(" = ")).map(|(_, text)| text);
    let pieces = texts.flat_map(|text| text.split(['{', '}'])).filter(|piece| !piece.contains('$'));
    let long = pieces.map(str::trim).filter(|piece| piece.len() > 8 && piece.contains(' '));
    (labels, long.map(str::to_owned).collect())
}

#[test]
fn no_english_word_of_ours_is_left_on_a_demo_page() {
    let shop = Shop::demo();
    let documents = demo(&shop);
    assert!(documents.len() > 10);
    for language in OTHERS {
        let (labels, pieces) = english_words(language);
        assert!(labels.len() > 130 && pieces.len() > 20, "{} {}", labels.len(), pieces.len());
        let context = context(&shop, language);
        for document in &documents {
            for page in pages(document, &context) {
                assert!(page.contains(&format!("<html lang=\"{}\">", language.tag())));
                for text in own_texts(&page) {
                    let left = labels.contains(&text)
                        || pieces
                            .iter()
                            .chain(&labels)
                            .any(|it| it.contains(' ') && text.contains(it.as_str()));
                    assert!(!left, "{}: {text}", language.tag());
                }
            }
        }
    }
}

/// The search finds what it is to find: an English page is full of it.
#[test]
fn english_pages_are_full_of_english_words() {
    let shop = Shop::demo();
    let documents = demo(&shop);
    let (labels, _) = english_words(Language::German);
    let context = context(&shop, Language::English);
    for document in &documents {
        let page = bench::render(document, &context).unwrap();
        assert!(own_texts(&page).iter().filter(|text| labels.contains(*text)).count() > 10);
    }
}

#[test]
fn the_authors_words_stay_and_are_marked() {
    let shop = Shop::demo();
    for language in OTHERS {
        let context = context(&shop, language);
        for document in &demo(&shop) {
            let procedure = document.procedure().unwrap();
            let page = bench::render(document, &context).unwrap();
            let title = format!("<h1 lang=\"en\">{}</h1>", procedure.title.value);
            assert!(page.contains(&title), "{title}");
            let own = own_texts(&page);
            for part in &document.declarations.parts {
                let text = part.thing.text.as_str();
                assert!(text_of(&page).contains(text), "{text} is lost");
                assert!(!own.iter().any(|own| own == text), "{text} is not marked");
            }
        }
    }
}

/// A procedure in the sheet's own language needs no marks.
#[test]
fn words_in_the_language_of_the_page_carry_no_mark() {
    let shop = Shop::demo();
    let settings = Settings { written_in: Language::German, ..shop.settings.clone() };
    let context = Context { settings: &settings, ..context(&shop, Language::German) };
    for document in &demo(&shop) {
        for page in pages(document, &context) {
            assert_eq!(page.matches(" lang=").count(), 1);
        }
    }
}

/// Numbers have the comma of the page's language, in the sentences, the table and the blanks alike.
#[test]
fn decimals_have_the_comma_of_the_language() {
    let shop = Shop::demo();
    let documents = demo(&shop);
    let number = |document: &&Document| document.procedure().unwrap().number.value == "FW-PMP-014";
    let document = documents.iter().find(number).unwrap();
    for language in OTHERS {
        let context = context(&shop, language);
        for page in [bench::render(document, &context), checklist::render(document, &context)] {
            let page = page.unwrap();
            for value in page.split("<b class=\"value").skip(1).filter_map(|it| it.split("</b>").next()) {
                let point = value
                    .as_bytes()
                    .windows(3)
                    .any(|three| three[0].is_ascii_digit() && three[1] == b'.' && three[2].is_ascii_digit());
                assert!(!point, "{}: {value}", language.tag());
            }
            assert!(page.contains("30,002–30,015 mm"), "{}", language.tag());
        }
    }
}

/// The handouts hide the values in every language, also those that the author repeats with a point.
#[test]
fn no_handout_gives_its_answers_away() {
    let shop = Shop::demo();
    for language in OTHERS {
        let context = context(&shop, language);
        for document in &demo(&shop) {
            let answers = handout::answers(document, ALL, &context).unwrap();
            let page = handout::bench(document, ALL, &context).unwrap();
            let steps = text_of(&page[page.find("id=\"step-1\"").unwrap()..]);
            for cell in answers.split("<td class=\"values\">").skip(1) {
                let values = cell.split("</td>").next().unwrap().split("</p>").map(text_of);
                for value in values.filter(|value| value.contains('(') && value.contains(',')) {
                    assert!(!steps.contains(&value), "{value}");
                    let first = value.split(['–', ' ']).find(|it| it.contains(',')).unwrap_or(&value);
                    let with_point = format!(" {} ", first.replace(',', "."));
                    assert!(!steps.contains(&with_point), "{with_point} of {value}");
                }
            }
        }
    }
}
