//! Sheets as PDF: every printed page of the demo shop can be drawn, the same to the byte each time, on both papers, and
//! so can pages that nobody would write. What stands in the files is read back by other programs in `tests/browser/`.
#![cfg(feature = "pdf")]
use crate::support::shop::{Shop, name, package, sources};
use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use cotter::model::settings::Paper;
use cotter::model::{Document, Register, Settings};
use cotter::sheets::language::{Language, Words};
use cotter::sheets::pdf::{Drawn, of};
use cotter::sheets::{Context, assessment, checklist, kit};
use cotter::source::{FileId, SourceFile};

fn demo() -> (Shop, Vec<Document>) {
    let shop = Shop::demo();
    let documents = sources(&package("procedures")).into_iter().map(|path| {
        let text = std::fs::read_to_string(&path).unwrap();
        let source = SourceFile::new(FileId(0), name(&package(""), &path), text);
        shop.compile(&source).document
    });
    let documents = documents.filter(|document| document.procedure().is_some()).collect();
    (shop, documents)
}

fn context<'a>(settings: &'a Settings, register: &'a Register) -> Context<'a> {
    Context::new(settings, register, Words::of(Language::English))
}

#[test]
fn every_printed_sheet_of_the_demo_shop_can_be_drawn_the_same_each_time() {
    let (shop, documents) = demo();
    assert!(documents.len() > 8);
    for (at, document) in documents.iter().enumerate() {
        // Both papers in turn: the drawing takes long without optimisation.
        let paper = if at % 2 == 0 { Paper::A4 } else { Paper::Letter };
        let settings = Settings { paper, ..shop.settings.clone() };
        let context = context(&settings, &shop.register);
        let parts = kit::of(document, 12, &context).unwrap();
        let pages = [
            checklist::render(document, &context),
            assessment::render(document, &context),
            kit::render(&parts, &context),
        ];
        for page in pages {
            let page = page.unwrap();
            let drawn = of(&page, document, &context).unwrap();
            assert!(drawn.bytes.starts_with(b"%PDF-1.7"));
            assert!(drawn.lacking.is_empty(), "{:?}", drawn.lacking);
            if at == 0 {
                assert_eq!(drawn, of(&page, document, &context).unwrap());
            }
        }
    }
}

/// A page with that in its body, as a sheet of the first demo procedure.
fn drawn(body: &str) -> Drawn {
    let (shop, documents) = demo();
    let page = format!(
        "<!DOCTYPE html><html lang=\"en\"><head><title>A sheet</title></head><body><main>{body}</main></body></html>"
    );
    of(&page, &documents[0], &context(&shop.settings, &shop.register)).unwrap()
}

#[test]
fn letters_that_no_font_has_are_told_of() {
    let drawn = drawn("<p>Use 漢字, العربية and 🔧, but ≤ 5 µm, Ø 20, Łódź, Ωμέγα and Привет are there.</p>");
    let lacking: String = drawn.lacking.iter().collect();
    assert!(lacking.contains('漢') && lacking.contains('🔧') && lacking.contains('ع'), "{lacking}");
    assert!(lacking.chars().all(|letter| letter as u32 > 0x5ff), "{lacking}");
}

#[test]
fn pages_that_nobody_would_write_are_drawn_all_the_same() {
    let deep = format!("{}deep{}", "<ul><li>".repeat(5_000), "</li></ul>".repeat(5_000));
    let endless = format!("<p>{}</p>", "long".repeat(5_000));
    let tall = format!(
        "<div class=\"group\"><div class=\"message danger\"><p class=\"signal\"><strong>Danger</strong></p>\
         <div class=\"words\">{}</div></div><div class=\"step\"><p class=\"tick\">1</p><div class=\"body\">Do</div></div></div>",
        "<p>One of many lines.</p>".repeat(400)
    );
    for body in [
        "",
        "<p>",
        "</p></main></body>",
        "<table><tr></table>",
        "<svg class=\"pattern\" viewBox=\"0 0 0 0\"/>",
    ] {
        drawn(&format!("{body}<p>Something</p>"));
    }
    for body in [deep, endless, tall] {
        drawn(&body);
    }
}

#[test]
fn what_names_no_title_is_refused() {
    let (shop, documents) = demo();
    let made = of("<main><p>Words</p></main>", &documents[0], &context(&shop.settings, &shop.register));
    assert!(made.unwrap_err().to_string().contains("NoDocumentTitle"));
}

fn figure(source: &str) -> String {
    format!("<figure><img alt=\"A cap\" data-on-paper=\"Screen only\" src=\"{source}\"></figure>")
}

fn data(kind: &str, bytes: &[u8]) -> String {
    format!("data:image/{kind};base64,{}", STANDARD.encode(bytes))
}

fn photograph(name: &str) -> Vec<u8> {
    std::fs::read(package(&format!("tests/pictures/{name}"))).unwrap()
}

fn holds(drawn: &Drawn, words: &[u8]) -> bool {
    drawn.bytes.windows(words.len()).any(|window| window == words)
}

#[test]
fn an_authors_picture_is_drawn_and_one_that_cannot_be_told_of() {
    let told = drawn(&figure("data:image/png;base64,AAAA")).bytes;
    let drawing = b"<svg viewBox=\"0 0 9 9\"><rect width=\"9\" height=\"9\"/></svg>";
    let drawing = drawn(&figure(&data("svg+xml", drawing))).bytes;
    // The words in the frame bring the letters of a font with them, a rectangle does not.
    assert!(drawing.len() < told.len(), "{} {}", drawing.len(), told.len());
    assert_eq!(told, drawn(&figure("data:image/svg+xml;base64,!!!")).bytes);
    let (png, jpeg) = (photograph("marker.png"), photograph("turned.jpg"));
    assert_ne!(told, drawn(&figure(&data("png", &png))).bytes);
    // A JPEG goes into the file as it is.
    assert!(holds(&drawn(&figure(&data("jpeg", &jpeg))), &jpeg[jpeg.len() - 40..]));
}

#[test]
fn a_photograph_that_breaks_off_inside_is_told_of_by_its_words() {
    let mut bytes = photograph("marker.png");
    let middle = bytes.len() / 2;
    bytes[middle..middle + 40].fill(0);
    let broken = drawn(&figure(&data("png", &bytes)));
    assert_eq!(broken.bytes, drawn(&figure("data:image/png;base64,AAAA")).bytes);
}

#[test]
fn dashes_and_slanted_words_of_a_drawing_are_drawn_so() {
    let svg = |inner: &str| {
        let text = format!("<svg viewBox=\"0 0 90 90\" width=\"90\" height=\"90\">{inner}</svg>");
        drawn(&figure(&data("svg+xml", text.as_bytes()))).bytes
    };
    let line = |more: &str| svg(&format!("<path d=\"M0 0L90 90\" stroke=\"#000\"{more}/>"));
    assert_ne!(line(" stroke-dasharray=\"4 2\""), line(""));
    assert_eq!(line(" stroke-dasharray=\"0 2\""), line(""), "no line is no dash");
    let words = |more: &str| svg(&format!("<text x=\"9\" y=\"45\"{more}>Lug</text>"));
    assert_ne!(words(" transform=\"rotate(-90 9 45)\""), words(""));
    words(" transform=\"scale(0)\"");
}

/// The list leads to what was made as PDF, and to no other.
#[test]
fn the_list_of_procedures_leads_to_the_pdfs() {
    let source =
        std::fs::read_to_string(crate::support::shop::package("tests/browser/again.cotter")).unwrap();
    let workspace = crate::support::workspace::Workspace::new().file("again.cotter", source);
    for (call, wanted) in [(&["build", "--pdf"][..], true), (&["build"], false)] {
        let run = workspace.run(call);
        assert_eq!(run.code, 0, "{}{}", run.stdout, run.stderr);
        let list = workspace.read("out/index.html");
        let links = list.split("href=\"").skip(1).map(|rest| rest.split('"').next().unwrap());
        let pdfs: Vec<&str> = links.filter(|it| it.ends_with(".pdf")).collect();
        assert_eq!(pdfs.len(), if wanted { 3 } else { 0 }, "{list}");
        assert!(pdfs.iter().all(|it| workspace.path("out").join(it).exists()), "{pdfs:?}");
    }
}
