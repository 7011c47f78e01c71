//! The shop in whose texts `tests/browser/injection.mjs` writes what would run: it has every text that the language has,
//! by the tables and the grammar themselves.
use super::exchange::parsed;
use super::machine::context;
use crate::support::shop::{Shop, package, sources};
use cotter::model::Document;
use cotter::model::Settings;
use cotter::report::Severity;
use cotter::sheets::exchange::{self, Standard};
use cotter::sheets::machine;
use cotter::source::{FileId, SourceFile};
use cotter::syntax::words::{self, AttributeForm, ValueForm};
use roxmltree::Document as Xml;
use serde_json::Value;
use std::collections::BTreeSet;
use std::path::PathBuf;

/// Texts that cannot be free, each with the reason.
const CLOSED: [(&str, &str); 5] = [
    ("detail-wear", "one of the equipment of the hazard table"),
    ("detail-figure", "the name of a figure"),
    ("line-entry-use", "the path of a catalogue that is there"),
    ("line-attribute-term", "an attribute of the table, each with a slot of its own"),
    ("line-by-turn", "no verb takes words behind `by`"),
];

/// Settings that hold no words of the house's own.
const NO_WORDS: [&str; 12] = [
    "edition",
    "language",
    "written-in",
    "units",
    "signal-words",
    "paper",
    "benches",
    "cautions",
    "required-header",
    "rules",
    "limits",
    "pictures",
];

fn shop() -> PathBuf {
    package("tests/injection/shop")
}

/// The names between `«` and `»` in all files of the shop.
fn slots() -> BTreeSet<String> {
    let files =
        std::fs::read_dir(shop()).unwrap().map(|it| std::fs::read_to_string(it.unwrap().path()).unwrap());
    let names = |text: String| -> Vec<String> {
        text.split('«').skip(1).map(|rest| rest.split('»').next().unwrap().to_owned()).collect()
    };
    files.flat_map(names).collect()
}

/// Rules of the grammar that take a text in quotes.
fn quoting_rules() -> Vec<String> {
    let grammar = std::fs::read_to_string(package("grammar/cotter.pest")).unwrap();
    let code: String =
        grammar.lines().filter(|line| !line.trim_start().starts_with("//")).collect::<Vec<_>>().join("\n");
    let is_word = |c: char| c.is_ascii_alphanumeric() || c == '_';
    let mut rules: Vec<(String, bool)> = Vec::new();
    for line in code.lines() {
        let (name, body) = line.split_once('=').unwrap_or(("", line));
        if !name.trim().is_empty() && name.trim().chars().all(is_word) {
            rules.push((name.trim().to_owned(), false));
        }
        let quotes = body.split(|c| !is_word(c)).any(|word| word == "text");
        if let Some(last) = rules.last_mut() {
            last.1 |= quotes;
        }
    }
    rules.into_iter().filter(|(name, quotes)| *quotes && name != "text").map(|(name, _)| name).collect()
}

fn free_texts() -> BTreeSet<String> {
    let attributes = words::attributes()
        .filter(|it| matches!(it.form, AttributeForm::Text | AttributeForm::NamesBy) && it.key != "picture")
        .map(|it| format!("attribute-{}", it.key));
    let is_free = |form| matches!(form, ValueForm::Free | ValueForm::Prose | ValueForm::List);
    let details = words::details().filter(|it| is_free(it.value)).map(|it| format!("detail-{}", it.key));
    let lines = quoting_rules().into_iter().map(|rule| format!("line-{}", rule.replace('_', "-")));
    let settings = serde_json::to_value(Settings::default()).unwrap();
    let settings: Vec<String> = settings.as_object().unwrap().keys().cloned().collect();
    let settings =
        settings.into_iter().filter(|it| !NO_WORDS.contains(&it.as_str())).map(|it| format!("setting-{it}"));
    attributes.chain(details).chain(lines).chain(settings).collect()
}

#[test]
fn every_free_text_of_the_language_has_a_slot() {
    let (slots, texts) = (slots(), free_texts());
    assert!(texts.len() > 40, "{texts:?}");
    let closed = |it: &&String| CLOSED.iter().any(|(name, _)| name == it);
    let missing: Vec<&String> = texts.difference(&slots).filter(|it| !closed(it)).collect();
    assert!(missing.is_empty(), "write a slot for them into {}: {missing:?}", shop().display());
    for (name, _) in CLOSED {
        assert!(texts.contains(name) && !slots.contains(name), "{name} is closed no more, or gone");
    }
    let of_tables =
        |it: &&String| ["attribute-", "detail-", "line-", "setting-"].iter().any(|kind| it.starts_with(kind));
    // Calls are texts of the grammar; the keys that hold them have a slot each.
    let keys: BTreeSet<String> = words::details().map(|it| format!("detail-{}", it.key)).collect();
    let stray: Vec<&String> =
        slots.difference(&texts).filter(of_tables).filter(|it| !keys.contains(*it)).collect();
    assert!(stray.is_empty(), "no table has them: {stray:?}");
}

/// What the procedure of the shop becomes with a text in every slot.
fn made<T>(text: &str, make: impl FnOnce(&Document, &cotter::sheets::Context<'_>) -> T) -> T {
    let shop = Shop::of(&shop(), &sources(&shop()));
    let source = std::fs::read_to_string(self::shop().join("work.cotter")).unwrap();
    let source = SourceFile::new(FileId::default(), "work.cotter", filled(&source, text));
    let compiled = shop.compile(&source);
    let errors = compiled.findings.iter().filter(|it| it.severity == Severity::Error);
    // The picture is a slot too, and is not read here.
    let errors: Vec<_> = errors.filter(|it| !it.rule.ends_with("-picture")).collect();
    assert!(errors.is_empty(), "{errors:#?}");
    make(&compiled.document, &context(&shop))
}

fn filled(source: &str, text: &str) -> String {
    let (first, rest) = source.split_once('«').unwrap();
    let mut out = first.to_owned();
    for part in rest.split('«') {
        let (name, rest) = part.split_once('»').unwrap();
        // Between a word and its colon quotes have no escape.
        let text = if name.starts_with("argument-") { text.replace('"', "") } else { text.to_owned() };
        let quoted = out.ends_with('"');
        out.push_str(&if quoted { text.replace('\\', "\\\\").replace('"', "\\\"") } else { text });
        out.push_str(rest);
    }
    out
}

const PAYLOADS: [&str; 6] = [
    "zq ]]><script>window.zq=1</script> zq",
    "zq \" onload='x' &amp; &#60; zq",
    "zq <!-- --> <?xml zq?> zq",
    "zq <![CDATA[ <x/> zq",
    "zq %entity <!ENTITY zq SYSTEM 'x'> zq",
    "zq {{house}} {{{house}}} ${zq} zq",
];

fn elements(xml: &Xml<'_>) -> usize {
    xml.descendants().filter(|it| it.is_element()).count()
}

#[test]
fn no_text_becomes_an_element_of_an_open_standard() {
    for standard in [Standard::Dita, Standard::S1000d] {
        let export = |text: &str| {
            made(text, |document, context| exchange::render(document, standard, context)).unwrap()
        };
        let harmless = export("zq words zq");
        let plain = elements(&parsed(&harmless));
        for payload in PAYLOADS {
            let text = export(payload);
            let xml = parsed(&text);
            assert_eq!(elements(&xml), plain, "{payload} in {text}");
            let mut texts = xml.descendants().filter_map(|it| it.text());
            assert!(texts.any(|it| it.contains(payload)), "{payload} is not to be read in {text}");
        }
    }
}

#[test]
fn no_text_becomes_a_field_of_the_machine_form() {
    let keys = |value: &Value| value.as_object().unwrap().keys().cloned().collect::<Vec<_>>();
    let read = |text: &str| -> Value { serde_json::from_str(&made(text, machine::render).unwrap()).unwrap() };
    let plain = keys(&read("zq words zq"));
    for payload in PAYLOADS {
        let form = read(payload);
        assert_eq!(form["title"], payload);
        assert_eq!(keys(&form), plain);
    }
}
