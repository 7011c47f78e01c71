//! `missing-caution` and `missing-protection` against published duties: for each row of `grammar/demands.toml` a
//! step that has the duty, and one that just has not, with what the published text says.
//!
//! The words `read` and `from memory` say how the text beside a duty was had.
use cotter::checks;
use cotter::ledger::hazards::demand::Row;
use cotter::model::hazard::Wear;
use cotter::model::{Catalogues, Settings, Surroundings};
use cotter::source::{FileId, SourceFile};
use std::collections::BTreeSet;

/// What a published text asks for.
struct Duty {
    /// The row it stands behind.
    row: &'static str,
    /// The text, and what it says.
    source: &'static str,
    parts: &'static str,
    tools: &'static str,
    supplies: &'static str,
    /// A step that has the duty.
    owed: &'static str,
    /// Steps that have not.
    free: &'static [&'static str],
    /// The class of a message that fulfils it.
    class: &'static str,
    /// What to wear, where the text or the class asks for it.
    wear: &'static str,
}

const NONE: Duty = Duty {
    row: "",
    source: "",
    parts: "    cover \"Cover\"",
    tools: "",
    supplies: "",
    owed: "",
    free: &[],
    class: "",
    wear: "",
};

const DUTIES: &[Duty] = &[
    Duty {
        row: "spring",
        source: "29 CFR 1910.133(a)(1), from memory: eye or face protection against flying particles",
        parts: "    ring \"Retaining ring\" spring-loaded",
        owed: "remove ring from \"the shaft\"",
        free: &["inspect ring \"rust\"", "clean ring"],
        class: "ejection",
        wear: "eye protection",
        ..NONE
    },
    Duty {
        row: "spring-held",
        source: "29 CFR 1910.133(a)(1), from memory; that what holds a spring lets it go: common practice, no source",
        parts: "    cap \"Cap\" holds spring\n    guard \"Guard\" holds cap\n    spring \"Spring\" spring-loaded",
        owed: "remove cap from \"the valve\"",
        free: &["clean cap", "remove guard from \"the valve\""],
        class: "ejection",
        wear: "eye protection",
        ..NONE
    },
    Duty {
        row: "press",
        source: "29 CFR 1910.212(a)(3)(ii), from memory: the point of operation that exposes to injury is guarded",
        tools: "    press \"Arbor press\" capacity 100 kN\n    pipe \"Pipe\"",
        owed: "press cover into \"the housing\" with press",
        free: &["press cover into \"the housing\" with pipe", "remove cover from \"the housing\" with press"],
        class: "crushing",
        ..NONE
    },
    Duty {
        row: "burst",
        source: "29 CFR 1910.133(a)(1), from memory: flying particles; that hard rings burst: common practice, no source",
        parts: "    bearing \"Bearing\" pressed",
        owed: "drive bearing out of \"the hub\"",
        free: &["inspect bearing \"rust\"", "slide bearing onto \"the shaft\""],
        class: "ejection",
        wear: "face shield",
        ..NONE
    },
    Duty {
        row: "blown-air",
        source: "29 CFR 1910.242(b), read: air for cleaning only with chip guarding and protective equipment",
        owed: "blow out cover max 29 psi",
        free: &["wipe cover", "dry cover"],
        class: "eye-injury",
        wear: "eye protection",
        ..NONE
    },
    Duty {
        row: "heavy",
        source: "NIOSH 94-110, read in a transcription: the load constant is 23 kg (51 lb)",
        parts: "    motor \"Pump motor\" mass 51 lb\n    gland \"Gland\" mass 50 lb\n    crate \"Crate\" mass 46 kg",
        tools: "    jack \"Trolley jack\"",
        owed: "remove motor from \"the base\"",
        free: &[
            "remove gland from \"the base\"",
            "remove motor from \"the base\" with jack",
            "remove crate from \"the base\"\n    people: 2",
            "inspect motor \"rust\"",
        ],
        class: "lifting",
        ..NONE
    },
    Duty {
        row: "hung",
        source: "29 CFR 1910.184(c)(9), read in a state's copy: keep clear of suspended loads",
        parts: "    motor \"Pump motor\" mass 40 kg",
        tools: "    hoist \"Workshop hoist\"\n    jack \"Trolley jack\"",
        owed: "lift motor with hoist",
        free: &["lift motor with jack"],
        class: "falling-load",
        wear: "safety footwear",
        ..NONE
    },
    Duty {
        row: "raised",
        source: "29 CFR 1910.244(a)(2)(iii), from memory: a raised load is cribbed or blocked at once",
        parts: "    trailer \"Trailer\" mass 420 kg\n    lid \"Lid\" mass 4 kg",
        tools: "    jack \"Trolley jack\"",
        owed: "raise trailer with jack",
        free: &["raise lid with jack"],
        class: "falling-load",
        wear: "safety footwear",
        ..NONE
    },
    Duty {
        row: "hot",
        source: "ISO 13732-1, from memory: bare metal, 51 degC for one minute of contact",
        parts: "    head \"Head\" hot 52 degC\n    pipe \"Pipe\" hot 51 degC",
        owed: "remove head from \"the block\"",
        free: &["remove pipe from \"the block\"", "inspect head \"rust\""],
        class: "burn",
        wear: "heat gloves",
        ..NONE
    },
    Duty {
        row: "heating",
        source: "29 CFR 1910.138(a), read: hand protection against thermal burns",
        owed: "heat cover",
        free: &["cool cover", "clean cover"],
        class: "burn",
        wear: "heat gloves",
        ..NONE
    },
    Duty {
        row: "bath",
        source: "ISO 13732-1, from memory: bare metal, 51 degC for one minute of contact",
        owed: "do \"warm the cover in oil\" on cover to 60 degC",
        free: &["do \"warm the cover in oil\" on cover to 45 degC", "cool cover to 60 degC"],
        class: "burn",
        wear: "heat gloves",
        ..NONE
    },
    Duty {
        row: "live",
        source: "29 CFR 1910.333(a)(1), read as quoted: de-energise from 50 V; 60 V DC: EN 60204-1, read as quoted",
        parts: "    switch \"Switch\" live 51 V AC\n    relay \"Relay\" live 50 V AC\n    pack \"Pack\" live 60 V DC",
        owed: "disconnect switch from \"the line\"",
        free: &[
            "disconnect relay from \"the line\"",
            "disconnect pack from \"the line\"",
            "inspect switch \"cracks\"",
        ],
        class: "electric-shock",
        wear: "insulating gloves",
        ..NONE
    },
    Duty {
        row: "pressure",
        source: "29 CFR 1910.147(d)(5), read: stored energy is relieved and rendered safe",
        parts: "    vessel \"Vessel\" pressurised 6 bar\n    valve \"Valve\"",
        owed: "disconnect valve from vessel",
        free: &["inspect vessel \"rust\"", "clean vessel"],
        class: "high-pressure",
        wear: "face shield",
        ..NONE
    },
    Duty {
        row: "filling",
        source: "29 CFR 1910.133(a)(1), from memory: flying particles, liquids, gases",
        owed: "pressurise cover to 2 bar",
        free: &["close cover"],
        class: "high-pressure",
        wear: "eye protection",
        ..NONE
    },
    Duty {
        row: "charged",
        source: "29 CFR 1910.133(a)(1), from memory: flying particles, liquids, gases",
        parts: "    vessel \"Vessel\" pressurised 6 bar\n    sump \"Sump\"",
        supplies: "    oil \"Oil\"",
        owed: "fill vessel using oil",
        free: &["fill sump using oil"],
        class: "high-pressure",
        wear: "eye protection",
        ..NONE
    },
    Duty {
        row: "rotating",
        source: "29 CFR 1910.212(a)(1), from memory: guard against rotating parts",
        parts: "    motor \"Motor\" rotating",
        owed: "start motor",
        free: &["turn motor 2 times", "inspect motor \"rust\""],
        class: "entanglement",
        ..NONE
    },
    Duty {
        row: "tried",
        source: "29 CFR 1910.212(a)(1), from memory: guard against rotating parts",
        parts: "    motor \"Motor\" rotating",
        owed: "test motor \"press the start button\"",
        free: &["measure motor \"length\" max 300 mm", "turn motor 2 times"],
        class: "unexpected-start",
        ..NONE
    },
    Duty {
        row: "restored",
        source: "29 CFR 1910.147(e)(2), from memory: people are clear and told before power comes back",
        parts: "    switch \"Switch\" live 400 V AC\n    lamp \"Lamp\" live 24 V DC",
        owed: "turn on switch",
        free: &["turn off switch", "turn on lamp"],
        class: "unexpected-start",
        ..NONE
    },
    Duty {
        row: "sharp",
        source: "29 CFR 1910.138(a), read: hand protection against severe cuts",
        parts: "    blade \"Blade\" sharp",
        owed: "remove blade from \"the hub\"",
        free: &["inspect blade \"cracks\"", "tighten blade to 40 N.m"],
        class: "cutting",
        wear: "cut gloves",
        ..NONE
    },
    Duty {
        row: "cutting",
        source: "29 CFR 1910.133(a)(1), from memory: flying particles",
        owed: "drill cover to 8 mm",
        free: &["thread cover", "cut cover"],
        class: "eye-injury",
        wear: "eye protection",
        ..NONE
    },
    Duty {
        row: "grinding",
        source: "29 CFR 1910.133(a)(1), from memory: flying particles",
        owed: "grind cover",
        free: &["file cover", "sand cover"],
        class: "eye-injury",
        wear: "eye protection",
        ..NONE
    },
    Duty {
        row: "flammable",
        source: "GHS Annex 3, from memory: H225 highly flammable liquid and vapour; H304 is no matter of fire",
        supplies: "    spirit \"Spirit\" hazards H225\n    soap \"Soap\"",
        owed: "clean cover using spirit",
        free: &["clean cover using soap"],
        class: "fire",
        ..NONE
    },
    Duty {
        row: "skin",
        source: "GHS Annex 3, from memory: H317 may cause an allergic skin reaction; P280 wear protective gloves",
        supplies: "    locker \"Thread locker\" hazards H317",
        owed: "apply locker to cover",
        free: &["clean cover"],
        class: "chemical",
        wear: "chemical gloves",
        ..NONE
    },
    Duty {
        row: "eyes",
        source: "GHS Annex 3, from memory: H319 serious eye irritation; P280 wear eye protection",
        supplies: "    cleaner \"Cleaner\" hazards H319\n    salt \"Salt\" hazards H411",
        owed: "clean cover using cleaner",
        free: &["clean cover using salt"],
        class: "chemical",
        wear: "eye protection",
        ..NONE
    },
    Duty {
        row: "breath",
        source: "GHS Annex 3, from memory: H336 drowsiness or dizziness; H360FD is a kind of H360",
        supplies: "    thinner \"Thinner\" hazards H336\n    paste \"Paste\" hazards H360FD",
        owed: "clean cover using thinner, paste",
        free: &["clean cover"],
        class: "chemical",
        ..NONE
    },
];

#[test]
fn every_row_has_a_duty_of_its_own_source() {
    let rows: Vec<&str> = Row::all().iter().map(|row| row.name.as_str()).collect();
    assert_eq!(DUTIES.iter().map(|duty| duty.row).collect::<Vec<_>>(), rows);
    for (row, duty) in Row::all().iter().zip(DUTIES) {
        assert!(duty.source.starts_with(&row.source), "{}: {} or {}?", row.name, row.source, duty.source);
    }
    assert!(rows.len() <= 32, "a set of rows is a number");
    assert_eq!(rows.iter().collect::<BTreeSet<_>>().len(), rows.len());
}

#[test]
fn a_step_with_a_duty_needs_its_message_and_its_neighbours_need_none() {
    for duty in DUTIES {
        let owed = found(duty, "", duty.owed);
        assert!(owed.contains(&"missing-caution".to_owned()), "{}: {owed:?}", duty.source);
        for step in duty.free {
            assert!(!found(duty, "", step).contains(&"missing-caution".to_owned()), "{}: {step}", duty.row);
        }
        let guarded = found(duty, &message(duty.class, duty.wear), duty.owed);
        assert!(guarded.iter().all(|rule| !rule.starts_with("missing-")), "{}: {guarded:?}", duty.row);
        let other = found(duty, &message("slip", duty.wear), duty.owed);
        assert!(other.contains(&"missing-caution".to_owned()), "{}: guarded by another class", duty.row);
    }
}

#[test]
fn a_message_without_the_equipment_its_hazard_needs_is_told() {
    for duty in DUTIES {
        let bare = found(duty, &message(duty.class, ""), duty.owed);
        let told = bare.contains(&"missing-protection".to_owned());
        assert_eq!(told, !duty.wear.is_empty(), "{}: {bare:?}", duty.row);
    }
}

/// The house draws the line elsewhere (NIOSH 94-110 sets 23 kg; many shops take less).
#[test]
fn a_house_may_draw_the_line_lower_or_higher() {
    let duty = |row| DUTIES.iter().find(|duty| duty.row == row).unwrap();
    let settings = |text: &str| toml::from_str::<Settings>(text).unwrap();
    let heavy = duty("heavy");
    let lift =
        |text: &str, step| with(heavy, "", step, &settings(text)).contains(&"missing-caution".to_owned());
    let gland = "remove gland from \"the base\"";
    assert!(lift("[limits]\nlift = \"20 kg\"", gland));
    assert!(!lift("[limits]\nlift = \"60 lb\"", heavy.owed));
    let hot = duty("hot");
    let touch = with(hot, "", hot.owed, &settings("[limits]\ntouch = \"60 degC\""));
    assert!(!touch.contains(&"missing-caution".to_owned()));
    for wrong in ["lift = \"20\"", "lift = \"20 mm\"", "touch = \"20 kg\"", "lift = 20"] {
        assert!(toml::from_str::<Settings>(&format!("[limits]\n{wrong}")).is_err(), "{wrong}");
    }
}

#[test]
fn protective_equipment_that_a_row_asks_for_is_in_the_table() {
    for any_of in Row::all().iter().flat_map(|row| &row.wear) {
        assert!(!any_of.is_empty() && any_of.iter().all(|wear| Wear::all().contains(wear)));
    }
}

fn message(class: &str, wear: &str) -> String {
    let wear = if wear.is_empty() { String::new() } else { format!("    wear: {wear}\n") };
    format!("warning {class}\n    hazard: It can hurt.\n    harm: Injury.\n    avoid: Keep away.\n{wear}")
}

/// The names of the rules that find something.
fn found(duty: &Duty, before: &str, step: &str) -> Vec<String> {
    with(duty, before, step, &Settings::default())
}

fn with(duty: &Duty, before: &str, step: &str, settings: &Settings) -> Vec<String> {
    let block = |name: &str, rows: &str| {
        if rows.is_empty() { String::new() } else { format!("{name}\n{rows}\n\n") }
    };
    let blocks = [("parts", duty.parts), ("tools", duty.tools), ("supplies", duty.supplies)];
    let declared: String = blocks.iter().map(|(name, rows)| block(name, rows)).collect();
    let text = checks::example(&format!("{declared}{before}{step}\n"));
    let source = SourceFile::new(FileId(0), "duty.cotter", text.as_str());
    let (register, catalogues) = (checks::example_register(), Catalogues::default());
    let compiled =
        cotter::compile(&source, &Surroundings { settings, register: &register, catalogues: &catalogues });
    assert_eq!(compiled.document.slips, [], "{text}");
    compiled.findings.iter().map(|finding| finding.rule.to_owned()).collect()
}
