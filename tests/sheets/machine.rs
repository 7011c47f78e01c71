//! `procedure.json`: its schema takes it, and a sheet could be built from it alone.
use crate::support::shop::{Shop, name, package, sources};
use cotter::model::Document;
use cotter::sheets::language::{Language, Words};
use cotter::sheets::{Context, SheetError, bench, machine};
use cotter::source::{FileId, SourceFile};
use serde_json::Value;

pub fn demo() -> (Shop, Vec<Document>) {
    let shop = Shop::demo();
    let documents = sources(&package("procedures")).into_iter().map(|path| {
        let text = std::fs::read_to_string(&path).unwrap();
        let source = SourceFile::new(FileId(0), name(&package(""), &path), text);
        shop.compile(&source).document
    });
    let documents = documents.filter(|it| it.procedure().is_some()).collect();
    (shop, documents)
}

pub fn context(shop: &Shop) -> Context<'_> {
    Context::new(&shop.settings, &shop.register, Words::of(Language::English))
}

#[test]
fn the_published_schema_is_current() {
    let path = package("grammar/procedure.schema.json");
    if std::env::var_os("COTTER_BLESS").is_some() {
        std::fs::write(&path, machine::schema()).unwrap();
    }
    assert_eq!(std::fs::read_to_string(&path).unwrap(), machine::schema(), "bless it");
}

#[test]
fn the_schema_takes_every_demo_procedure_and_no_other_shape() {
    let schema: Value = serde_json::from_str(&machine::schema()).unwrap();
    let validator = jsonschema::draft202012::new(&schema).unwrap();
    let (shop, documents) = demo();
    for document in &documents {
        let text = machine::render(document, &context(&shop)).unwrap();
        let mut value: Value = serde_json::from_str(&text).unwrap();
        assert!(validator.is_valid(&value), "{:?}", validator.iter_errors(&value).next());
        for path in ["/number", "/sections/0/steps/0/number", "/parts/0/count", "/source", "/disclaimer"] {
            *value.pointer_mut(path).unwrap() = Value::Null;
            assert!(!validator.is_valid(&value), "{path}");
            value = serde_json::from_str(&text).unwrap();
        }
    }
    assert_eq!(documents.len(), 12);
}

/// The words of a page, without its tags.
fn words(page: &str) -> String {
    let (_, main) = page.split_once("<main").unwrap();
    let mut text = String::new();
    let mut inside = false;
    for letter in main.chars() {
        match letter {
            '<' => inside = true,
            '>' => {
                inside = false;
                text.push(' ');
            }
            _ if !inside => text.push(letter),
            _ => {}
        }
    }
    let text = text.replace("&quot;", "\"").replace("&#39;", "'").replace("&lt;", "<").replace("&amp;", "&");
    let joined = text.split_whitespace().collect::<Vec<_>>().join(" ");
    // Tags stand before stops and brackets too.
    [" .", " ,", " ;", " :", " )"]
        .iter()
        .fold(joined, |text, gap| text.replace(gap, &gap[1..]))
        .replace("( ", "(")
}

/// What a reader of the JSON would print, in order.
fn sentences(machine: &Value) -> Vec<String> {
    let mut all = Vec::new();
    let list = |value: &Value, key: &str| value[key].as_array().cloned().unwrap_or_default();
    for section in list(machine, "sections") {
        for step in list(&section, "steps") {
            for message in list(&step, "messages") {
                all.extend(message["avoid_html"].as_str().map(str::to_owned));
            }
            for action in list(&step, "actions").iter().chain(&list(&step, "outcomes")) {
                all.push(action["sentence"].as_str().unwrap().to_owned());
            }
        }
    }
    all
}

#[test]
fn what_a_bench_page_says_stands_in_it_in_the_same_order() {
    let (shop, documents) = demo();
    let mut seen = 0;
    for document in &documents {
        let page = words(&bench::render(document, &context(&shop)).unwrap());
        let machine: Value =
            serde_json::from_str(&machine::render(document, &context(&shop)).unwrap()).unwrap();
        let mut from = 0;
        for sentence in sentences(&machine) {
            // Passes are a list on the page, and links and entities in HTML are words here.
            if sentence.contains(" 1. ") || sentence.contains('<') || sentence.contains('&') {
                continue;
            }
            let wanted = sentence.split_whitespace().collect::<Vec<_>>().join(" ");
            let place = page[from..].find(&wanted);
            let place = place.unwrap_or_else(|| {
                panic!("not on the page, or not here: {wanted}\n{}", &page[from..from + 600])
            });
            from += place;
            seen += 1;
        }
    }
    assert!(seen > 400, "{seen}");
}

#[test]
fn a_catalogue_has_none() {
    let shop = Shop::default();
    let source = SourceFile::new(FileId(0), "c.cotter", "catalogue \"Tools\"\n");
    let made = machine::render(&shop.compile(&source).document, &context(&shop));
    assert_eq!(made, Err(SheetError::NotAProcedure));
}
