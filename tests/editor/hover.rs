//! What is told of a word.
use super::client::{Client, HEAD, clean, covered};
use cotter::checks;
use serde_json::json;

fn told(client: &mut Client, text: &str, needle: &str) -> (String, String) {
    let told = client.at("textDocument/hover", "a.cotter", text, needle, json!({})).unwrap();
    if told.is_null() {
        return (String::new(), String::new());
    }
    (covered(text, &told["range"]), told["contents"]["value"].as_str().unwrap().to_owned())
}

fn opened(text: &str) -> Client {
    let mut client = Client::new(&[("a.cotter", text)]);
    client.open("a.cotter", text);
    client
}

#[test]
fn a_verb_tells_what_it_does_counts_as_and_reads_like() {
    let text = clean();
    let mut client = opened(&text);
    let (word, words) = told(&mut client, &text, "tig¦hten screws");
    assert_eq!(word, "tighten");
    for part in [
        "Tighten to the torque",
        "torque, do up",
        "Counts as: tightens",
        "tighten screws with wrench-s",
        "reads: Tighten the 4",
    ] {
        assert!(words.contains(part), "{part}: {words}");
    }
}

#[test]
fn a_torque_is_told_in_both_units_with_its_share_of_the_proof_load() {
    let text = clean();
    let mut client = opened(&text);
    let (word, words) = told(&mut client, &text, "7 t¦o 9");
    assert_eq!(word, "7 to 9 N.m");
    assert!(words.starts_with("7–9 N·m (62–79 lbf·in)"), "{words}");
    // ISO 898-1: stress area of M6 20.1 mm², proof stress of class 8.8 580 N/mm², so 11.7 kN. T = K·d·F with the
    // handbook's K of 0.2 for a dry thread: 8 N·m clamp 6.7 kN, 57 % of it.
    assert!(
        words.contains("M6 class 8.8")
            && words.contains("6.67 kN")
            && words.contains("57 % of the proof load"),
        "{words}"
    );
}

#[test]
fn a_part_tells_its_declaration_and_how_it_stands_at_this_step() {
    let text = clean();
    let mut client = opened(&text);
    let (_, words) = told(&mut client, &text, "screws, cov¦er, gasket; d");
    assert!(words.contains("cover  \"Bearing cover\""), "{words}");
    assert!(words.contains("After step 1: off; to be fitted"), "{words}");
    let (_, words) = told(&mut client, &text, "gasket, cov¦er, screws\n");
    assert!(words.contains("After step 3: fitted"), "{words}");
    let (_, words) = told(&mut client, &text, "with wre¦nch");
    assert!(words.starts_with("tool"), "{words}");
    let (_, words) = told(&mut client, &text, "as lo¦ok");
    assert!(words.starts_with("label of step 2"), "{words}");
}

#[test]
fn attributes_details_hazards_and_numbers_tell_what_they_are() {
    let more = "warning ejection\n    hazard: It jumps.\n    harm:   Eye injury.\n    avoid:  Stand back.\n    wear:   eye protection\nremove cover\nfollow ED-2\n";
    let text = clean() + more;
    let other = clean().replace("ED-1", "ED-2");
    let mut client = Client::new(&[("a.cotter", &text), ("b.cotter", &other)]);
    client.open("a.cotter", &text);
    let mut holds = |needle: &str, part: &str| {
        let (_, words) = told(&mut client, &text, needle);
        assert!(words.contains(part), "{needle}: {words}");
    };
    holds("single-¦use", "Never goes back in");
    holds("eject¦ion", "**Ejection**");
    holds("warn¦ing ejection", "Death or severe injury can follow");
    holds("eye prot¦ection", "ISO 7010");
    holds("    avo¦id:", "**avoid:**");
    holds("follow E¦D-2", "Renew the gasket");
    holds("foll¦ow ED-2", "Another procedure is worked here");
    holds("30¦ min", "30 min");
}

#[test]
fn a_finding_brings_the_explanation_of_its_rule() {
    let text = clean().replace("new gasket", "gasket");
    let mut client = opened(&text);
    let (word, words) = told(&mut client, &text, "install gas¦ket");
    assert_eq!(word, "gasket");
    let rule = checks::find("reused-single-use").unwrap();
    assert!(words.contains(rule.summary) && words.contains(rule.explain.trim()), "{words}");
}

#[test]
fn blank_places_and_plain_words_tell_nothing() {
    let text = format!("{HEAD}\n\ndo \"Take the old label off.\"\n");
    let mut client = opened(&text);
    assert_eq!(told(&mut client, &text, "old lab¦el").1, "");
    assert_eq!(told(&mut client, &text, "none\n¦\n").1, "");
}
