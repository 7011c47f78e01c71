//! Procedures in open standards. No registry carries the schema of S1000D or the DTD of the machinery task, so their
//! shape is held against tables of what may stand in what, read off the standards `from memory`.
use super::machine::{context, demo};
use crate::support::shop::Shop;
use cotter::model::Document;
use cotter::sheets::exchange::{self, Standard};
use cotter::sheets::machine;
use cotter::source::{FileId, SourceFile};
use roxmltree::{Document as Xml, Node, ParsingOptions};
use serde_json::Value;
use std::collections::BTreeSet;

/// What may stand in what, in this order; each any number of times.
type Table = &'static [(&'static str, &'static [&'static str])];

/// OASIS, DITA 1.3 part 3, machinery task: taskbody constraint, task requirements domain, hazard statement domain.
const DITA: Table = &[
    ("task", &["title", "shortdesc", "prolog", "taskbody"]),
    ("prolog", &["metadata"]),
    ("metadata", &["othermeta"]),
    ("taskbody", &["prelreqs", "steps", "closereqs"]),
    ("prelreqs", &["reqconds", "reqpers", "supequip", "supplies", "spares", "safety"]),
    ("reqconds", &["noconds", "reqcond"]),
    ("reqpers", &["personnel"]),
    ("supequip", &["nosupeq", "supeqli"]),
    ("supeqli", &["supequi"]),
    ("supplies", &["nosupply", "supplyli"]),
    ("supplyli", &["supply"]),
    ("spares", &["nospares", "sparesli"]),
    ("sparesli", &["spare"]),
    ("safety", &["nosafety", "safecond"]),
    ("step", &["note|hazardstatement", "cmd", "info"]),
    ("hazardstatement", &["messagepanel"]),
    ("messagepanel", &["typeofhazard", "consequence", "howtoavoid"]),
    ("info", &["p"]),
    ("closereqs", &["reqconds"]),
    ("steps", &["stepsection|step"]),
];

/// S1000D issue 4.2, chapters 3.9.5.2.1.1 to 3.9.5.2.3.
const S1000D: Table = &[
    ("dmodule", &["identAndStatusSection", "content"]),
    ("identAndStatusSection", &["dmAddress", "dmStatus"]),
    ("dmAddress", &["dmIdent", "dmAddressItems"]),
    ("dmIdent", &["dmCode", "language", "issueInfo"]),
    ("dmAddressItems", &["issueDate", "dmTitle"]),
    ("dmTitle", &["techName", "infoName"]),
    (
        "dmStatus",
        &[
            "security",
            "responsiblePartnerCompany",
            "originator",
            "applic",
            "brexDmRef",
            "qualityAssurance",
            "remarks",
        ],
    ),
    ("content", &["procedure"]),
    ("procedure", &["preliminaryRqmts", "mainProcedure", "closeRqmts"]),
    (
        "preliminaryRqmts",
        &["reqCondGroup", "reqPersons", "reqSupportEquips", "reqSupplies", "reqSpares", "reqSafety"],
    ),
    ("reqCondGroup", &["noConds", "reqCondNoRef"]),
    ("reqSupportEquips", &["noSupportEquips", "supportEquipDescrGroup"]),
    ("supportEquipDescrGroup", &["supportEquipDescr"]),
    ("supportEquipDescr", &["name", "identNumber", "reqQuantity"]),
    ("reqSupplies", &["noSupplies", "supplyDescrGroup"]),
    ("supplyDescr", &["name", "identNumber", "reqQuantity"]),
    ("reqSpares", &["noSpares", "spareDescrGroup"]),
    ("spareDescr", &["name", "identNumber", "reqQuantity"]),
    ("mainProcedure", &["proceduralStep"]),
    ("proceduralStep", &["title", "warning|caution|note", "para", "proceduralStep"]),
    ("warning", &["warningAndCautionPara"]),
    ("caution", &["warningAndCautionPara"]),
    ("note", &["notePara"]),
    ("closeRqmts", &["reqCondGroup"]),
];

const BOTH: [(Standard, Table); 2] = [(Standard::Dita, DITA), (Standard::S1000d, S1000D)];

pub fn parsed(text: &str) -> Xml<'_> {
    let options = ParsingOptions { allow_dtd: true, ..ParsingOptions::default() };
    Xml::parse_with_options(text, options).unwrap()
}

fn of_table(node: Node<'_, '_>, table: Table) {
    let name = node.tag_name().name();
    let Some((_, allowed)) = table.iter().find(|(of, _)| *of == name) else { return };
    let mut place = 0;
    for child in node.children().filter(Node::is_element) {
        let child = child.tag_name().name();
        let fits = |group: &str| group.split('|').any(|it| it == child);
        let further = allowed[place..].iter().position(|group| fits(group));
        place += further.unwrap_or_else(|| panic!("<{child}> has no place there in <{name}>"));
    }
}

#[test]
fn what_stands_in_what_is_what_the_standards_say() {
    let (shop, documents) = demo();
    for (standard, table) in BOTH {
        for document in &documents {
            let text = exchange::render(document, standard, &context(&shop)).unwrap();
            let xml = parsed(&text);
            xml.descendants().filter(Node::is_element).for_each(|node| of_table(node, table));
            let ids: Vec<&str> = xml.descendants().filter_map(|node| node.attribute("id")).collect();
            assert_eq!(ids.iter().collect::<BTreeSet<_>>().len(), ids.len(), "an id stands twice");
        }
    }
}

/// All its words, with one blank between them.
fn words(node: Node<'_, '_>) -> String {
    let all: String =
        node.descendants().filter_map(|it| it.text().filter(|_| it.is_text())).collect::<Vec<_>>().join(" ");
    all.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn every_sentence_and_message_stands_in_it_in_order() {
    let (shop, documents) = demo();
    for (standard, _) in BOTH {
        for document in &documents {
            let text = exchange::render(document, standard, &context(&shop)).unwrap();
            let whole = words(parsed(&text).root());
            let machine: Value =
                serde_json::from_str(&machine::render(document, &context(&shop)).unwrap()).unwrap();
            let mut from = 0;
            let steps = machine["sections"].as_array().unwrap().iter();
            for step in steps.flat_map(|section| section["steps"].as_array().unwrap()) {
                let list = |key: &str| step[key].as_array().cloned().unwrap_or_default();
                let messages = list("messages")
                    .into_iter()
                    .filter_map(|it| it["avoid_html"].as_str().map(str::to_owned));
                let sentences =
                    list("actions").into_iter().map(|it| it["sentence"].as_str().unwrap().to_owned());
                for wanted in messages.chain(sentences).filter(|it| !it.contains(['<', '&'])) {
                    let place = whole[from..].find(&wanted);
                    from += place.unwrap_or_else(|| panic!("{standard:?}: not there, or too late: {wanted}"));
                }
            }
            assert!(whole.contains("does not replace training"), "what prevails is said");
        }
    }
}

#[test]
fn no_words_of_an_author_can_break_out() {
    let parts = "parts\n    pump \"<script>&]]> \\\"quoted\\\"\"\ninspect pump \"]]></cmd><cmd>\" as look\n    \
                 if torn: report supervisor\n";
    let source = SourceFile::new(FileId(0), "one.cotter", cotter::checks::example(parts));
    let shop = Shop::default();
    let document: Document = shop.compile(&source).document;
    for (standard, _) in BOTH {
        let text = exchange::render(&document, standard, &context(&shop)).unwrap();
        let xml = parsed(&text);
        assert!(xml.descendants().all(|node| node.tag_name().name() != "script"));
        assert!(words(xml.root()).contains("]]></cmd><cmd>"), "{text}");
    }
}
