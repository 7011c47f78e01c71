//! The block of data and the script in the bench page.
use super::Shop;
use cotter::record::Plan;
use cotter::sheets::language::{Language, Words};
use cotter::sheets::{Context, bench};
use cotter::source::{FileId, SourceFile};
use serde_json::Value;

fn page(text: &str) -> String {
    let shop = Shop::default();
    let source = SourceFile::new(FileId(0), "one.cotter", text);
    let context = Context::new(&shop.settings, &shop.register, Words::of(Language::English));
    bench::render(&shop.compile(&source).document, &context).unwrap()
}

fn data(page: &str) -> Value {
    let (_, rest) = page.split_once("id=\"record-data\">").unwrap();
    serde_json::from_str(rest.split_once("</script>").unwrap().0).unwrap()
}

#[test]
fn an_authors_words_cannot_end_the_block_of_data() {
    let steps =
        "parts\n    pump \"</script><script>alert(1)</script>\"\nmeasure pump \"<!--<script>\" 1 to 2 mm\n";
    let page = page(&cotter::checks::example(steps));
    assert_eq!(page.matches("<script").count(), 2, "the data and the script");
    assert_eq!(data(&page)["steps"][0]["fields"][0]["label"], "<!--<script>");
}

#[test]
fn the_page_carries_the_plan_that_the_record_is_held_against() {
    let text = cotter::checks::example("parts\n    pump \"Pump\"\nmeasure pump \"play\" max 0.5 mm\n");
    let source = SourceFile::new(FileId(0), "one.cotter", text.as_str());
    let shop = Shop::default();
    let plan = Plan::of(&shop.compile(&source).document, &shop.settings.units).unwrap();
    let mut found = data(&page(&text));
    found.as_object_mut().unwrap().remove("words");
    assert_eq!(found, serde_json::to_value(&plan).unwrap());
}

#[test]
fn only_the_bench_page_runs_a_script_and_only_that_one() {
    let page = page(&cotter::checks::example("parts\n    pump \"Pump\"\nclean pump\n"));
    let (_, policy) = page.split_once("Content-Security-Policy\" content=\"").unwrap();
    let policy = policy.split_once('"').unwrap().0;
    assert!(policy.starts_with("default-src 'none'; script-src 'sha256-"), "{policy}");
    assert!(!policy.contains("script-src 'unsafe"), "{policy}");
    // The text of the script is the same whatever the procedure, so that one hash serves all pages.
    let script = |page: &str| page.split_once("<script>").unwrap().1.to_owned();
    let other = self::page(&cotter::checks::example("parts\n    tank \"Tank\"\nclean tank\n"));
    assert_eq!(script(&page), script(&other));
    assert!(script(&page).len() < 40_000);
}
