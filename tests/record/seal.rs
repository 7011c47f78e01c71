//! The seal, against the canonical form of RFC 8785 and SHA-256 of another program.
use cotter::record;
use serde_json::json;

#[test]
fn keys_are_sorted_by_their_utf_16_units() {
    // The example of RFC 8785, 3.2.3, written out in its order and hashed by Python's hashlib.
    let example = json!({
        "\u{20ac}": "Euro Sign",
        "\r": "Carriage Return",
        "\u{fb33}": "Hebrew Letter Dalet With Dagesh",
        "1": "One",
        "\u{1f600}": "Emoji: Grinning Face",
        "\u{80}": "Control",
        "\u{f6}": "Latin Small Letter O With Diaeresis",
    });
    let wanted = "sha256:5e321556d22018a9656991a9e94f77ec175fa193e52a2429d312f8419ec8b08c";
    assert_eq!(record::seal(&example), wanted);
}

#[test]
fn texts_are_escaped_at_the_least_and_the_seal_is_left_out() {
    // {"a":1,"b":[true,null,"x\"\\\n\u000f"]}
    let record = json!({ "b": [true, null, "x\"\\\n\u{f}"], "seal": "anything", "a": 1 });
    let wanted = "sha256:1e41c7d34245690b8e3c78ec730ab9fb9cb80262504f0b89fc33d62393d9fd61";
    assert_eq!(record::seal(&record), wanted);
}
