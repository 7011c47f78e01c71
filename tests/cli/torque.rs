//! `cotter torque`.
use crate::support::workspace::Workspace;
use serde_json::Value;

/// Standard output's line of that name.
fn line(arguments: &[&str], name: &str) -> String {
    let run = Workspace::new().run(&[&["torque"], arguments].concat());
    let found = run.stdout.lines().find_map(|line| line.strip_prefix(name));
    found.unwrap_or_else(|| panic!("no {name} in\n{}{}", run.stdout, run.stderr)).trim().to_owned()
}

fn code(arguments: &[&str]) -> i32 {
    Workspace::new().run(&[&["torque"], arguments].concat()).code
}

/// Each with its source: lever, adapter, wanted, and the set value as printed there.
#[test]
fn the_set_value_is_that_of_the_manuals() {
    for (wanted, lever, adapter, angle, set) in [
        // TM 1-1500-204-23-9, par. 8.
        ("300 lbf.in", "10 in", "4 in", "0 deg", "214.3 lbf·in"),
        // TM 9-2350-277-40&P, WP 0004.
        ("40 lbf.ft", "12 in", "4 in", "0 deg", "30 lbf·ft"),
        // NAVEDTRA 14315, figure 3-45.
        ("100 lbf.in", "12in", "6in", "0 deg", "66.7 lbf·in"),
        // TM 9-254, figure 4-5: 60 lbf·in set gives 70.
        ("70 lbf.in", "12 in", "2 in", "0 deg", "60 lbf·in"),
        // A helicopter manual: 1.5 in straight on, and turned back.
        ("135 lbf.in", "10 in", "1.5 in", "0 deg", "117.39 lbf·in"),
        ("135 lbf.in", "10 in", "1.5 in", "180 deg", "158.82 lbf·in"),
        // The moment of the hand does not change at a right angle (common practice, no source).
        ("40 lbf.ft", "12 in", "4 in", "90 deg", "40 lbf·ft"),
    ] {
        let seen = line(&[wanted, "--wrench", lever, "--adapter", adapter, "--angle", angle], "set");
        let seen = seen.split(" (").next().unwrap();
        let ((seen, unit), (set, its_unit)) = (seen.split_once(' ').unwrap(), set.split_once(' ').unwrap());
        let (seen, set): (f64, f64) = (seen.parse().unwrap(), set.parse().unwrap());
        // Within the rounding of what is printed there.
        let off = (seen - set).abs();
        assert!(
            unit == its_unit && off <= set * 0.0025,
            "{wanted} {lever} {adapter} {angle}: {seen} for {set}"
        );
    }
}

/// TB 43-0218 par. 7c, limits inwards.
#[test]
fn the_other_unit_stays_inside_the_limits() {
    assert_eq!(line(&["50 to 70 lbf.in", "--show", "N.m"], "wanted"), "50–70 lbf·in (5.7–7.9 N·m)");
}

/// #10 and M5 retaining screws with medium thread locker, 20 to 30 lbf·in: common practice, no source.
#[test]
fn a_retaining_screw_in_its_unit_and_in_another() {
    for fastener in [["--thread", "#10-24 UNC", "--grade", "5"], ["--thread", "M5", "--class", "8.8"]] {
        let asked = |torque| [&[torque, "--condition", "locker"], &fastener[..]].concat();
        assert_eq!(line(&asked("20 to 30 in-lb"), "verdict"), "fine");
        assert_eq!(code(&asked("20 to 30 in-lb")), 0);
        let verdict = line(&asked("20 to 30 ft-lb"), "verdict");
        assert!(verdict.starts_with("the wrong unit: ") && verdict.contains("lbf.in ("), "{verdict}");
        assert_eq!(code(&asked("20 to 30 ft-lb")), 1);
    }
}

/// An engineering article: 3/8-16 grade 5, dry, 30 lbf·ft is 75 % of proof; proof load 85 000 psi on 0.0775 in².
#[test]
fn the_sum_is_shown() {
    let asked = ["30.9 lbf.ft", "--thread", "3/8-16 UNC", "--grade", "5", "--condition", "dry"];
    let fastener = line(&asked, "fastener");
    assert_eq!(fastener, "3/8-16 grade 5: stress area 50.0 mm², proof load 29.3 kN, yield at 31.7 kN");
    assert!(line(&asked, "share").contains("usually 75 % of the proof load"));
    assert!(line(&asked, "friction").starts_with("K 0.18 to 0.27, usually 0.20; dry ("));
}

#[test]
fn each_verdict_has_its_exit_code() {
    let m10 = |torque, class, condition| {
        let asked = [torque, "--thread", "M10", "--class", class, "--condition", condition];
        (line(&asked, "verdict"), code(&asked))
    };
    assert_eq!(m10("45 N.m", "8.8", "dry"), ("fine".to_owned(), 0));
    assert!(matches!(m10("60 N.m", "8.8", "oiled"), (text, 0) if text.starts_with("high: ")));
    assert!(matches!(m10("8 to 11 N.m", "8.8", "dry"), (text, 1) if text.starts_with("too little: ")));
    let twice = m10("130 N.m (96 lbf.ft)", "8.8", "dry");
    assert!(twice.0.starts_with("too much: ") && twice.1 == 1, "{twice:?}");
    assert_eq!(line(&["45 N.m", "--thread", "M10"], "verdict"), "not judged: no class given");
}

#[test]
fn json_says_the_same() {
    let asked = ["torque", "20 to 30 ft-lb", "--thread", "#10-24", "--grade", "5", "--format", "json"];
    let run = Workspace::new().run(&asked);
    let answer: Value = serde_json::from_str(&run.stdout).unwrap();
    assert_eq!((run.code, &answer["version"]), (1, &Value::from(1)));
    assert_eq!(answer["fastener"]["verdict"], "wrong-unit");
    assert_eq!(answer["fastener"]["fits_in"][0], "lbf.in");
    // ASME B1.1: 0.0175 in².
    let area = answer["fastener"]["stress_area_mm2"].as_f64().unwrap();
    assert!((area / 645.16 - 0.0175).abs() < 0.0001, "{area}");
}

#[test]
fn what_cannot_be_read_is_said_of_its_argument() {
    for (arguments, said) in [
        (&["10 Nmm"][..], "torque: `Nmm` is no unit"),
        (&["snug"], "torque: there is no value"),
        (&["10 to 5 N.m"], "torque: No value lies between"),
        (&["10 N.m", "--show", "bar"], "--show: `bar` is no unit of torque"),
        (&["10 N.m", "--thread", "M10x1.4", "--class", "8.8"], "--thread: There is no thread `M10x1.4`"),
        (&["10 N.m", "--thread", "M10", "--class", "8.9"], "--class: There is no class `8.9`"),
        (&["10 N.m", "--wrench", "250", "--adapter", "40 mm"], "--wrench: `250` has no unit"),
        (&["10 N.m", "--wrench", "2 kg", "--adapter", "40 mm"], "--wrench: "),
        (&["10 N.m\nparts"], "torque: one amount is wanted"),
        (&["10 N.m, 12 N.m"], "torque: one amount is wanted"),
        (&["10 N.m", "--class", "8.8"], "--thread <THREAD>"),
    ] {
        let run = Workspace::new().run(&[&["torque"], arguments].concat());
        assert_eq!(run.code, 2, "{arguments:?}");
        assert!(run.stderr.contains(said), "{arguments:?}: {}", run.stderr);
        assert_eq!(run.stdout, "");
        let said_once = run.stderr.matches("There is no").count() <= 1;
        assert!(said_once, "{}", run.stderr);
    }
}
