//! What is said of a change, and what a small file shows better than the demo shop.
use super::{compared, told};
use crate::support::shop::Shop;
use cotter::compare::{Change, Class, How, Kind};

/// The whole file with these steps.
fn file(steps: &str) -> String {
    format!(
        "procedure T-1 \"Test\"\n    revision: A\n    models: F40\n\nparts\n    bolt \"Bolt, M8\" x4\n    lid \"Lid\"\n\n{steps}"
    )
}

fn changes(old: &str, new: &str) -> Vec<String> {
    let found = compared(&Shop::default(), "t.cotter", old, new);
    found.changes.iter().map(told).collect()
}

#[test]
fn a_change_is_told_in_plain_words() {
    let old = file("tighten bolt to 7 to 9 N.m\nremove lid\n");
    let new = file("tighten bolt to 8 to 9 N.m\nremove lid\n");
    assert_eq!(
        changes(&old, &new),
        ["tighten bolt to 8 to 9 N.m: torque changed: was 7–9 N·m, now 8–9 N·m (to sign)"]
    );
}

#[test]
fn the_same_amount_in_another_unit_or_form_is_a_rewording() {
    let old = file("measure lid \"height\" 9 to 11 mm\n");
    for same in ["0.9 to 1.1 cm", "10 +/- 1 mm"] {
        let new = file(&format!("measure lid \"height\" {same}\n"));
        let found = compared(&Shop::default(), "t.cotter", &old, &new);
        let kinds: Vec<Kind> = found.changes.iter().map(|change| change.kind).collect();
        assert_eq!(kinds, [Kind::Wording], "{same}");
    }
}

/// Other words are a rewording, whatever they say; but with a `not` more or less they say the opposite.
#[test]
fn a_not_in_words_is_meaning() {
    let message = |words: &str| file(&format!("warning fire\n    hazard: {words}\nclean lid\n"));
    let from = message("Do not smoke here.");
    assert_eq!(
        changes(&from, &message("Smoke here.")),
        [
            "warning fire: Smoke here., before `clean lid`: safety message weakened, hazard: was Do not smoke here., now Smoke here. (to sign)"
        ]
    );
    for (same, class) in [
        ("Do NOT smoke in here.", Class::Words),
        ("Don't smoke.", Class::Words),
        ("Knots smoke.", Class::Meaning),
    ] {
        let found = compared(&Shop::default(), "t.cotter", &from, &message(same));
        let classes: Vec<Class> = found.changes.iter().map(Change::class).collect();
        assert_eq!(classes, [class], "{same}");
    }
    let prose = |words: &str| file(&format!("clean lid\n    - {words}\n"));
    let found =
        compared(&Shop::default(), "t.cotter", &prose("Nie ohne Handschuhe."), &prose("Ohne Handschuhe."));
    assert_eq!(found.changes[0].kind, Kind::Number);
}

#[test]
fn a_name_that_stands_twice_by_a_slip_is_the_same_as_itself() {
    let twice = file("clean lid\n").replace("    lid \"Lid\"\n", "    lid \"Lid\"\n    lid \"Cap\"\n");
    assert_eq!(changes(&twice, &twice), Vec::<String>::new());
}

/// Were each name held against each other, this would take hours.
#[test]
fn each_name_of_a_catalogue_may_change_at_once() {
    let catalogue = |prefix: &str| {
        let parts = (0..3000).map(|at| format!("    {prefix}{at} \"Part {at}\"\n"));
        format!("catalogue \"Large\"\nparts\n{}", parts.collect::<String>())
    };
    let found = compared(&Shop::default(), "t.cotter", &catalogue("a"), &catalogue("b"));
    assert_eq!((found.changes.len(), found.meant().count()), (3000, 0));
}

#[test]
fn of_two_like_steps_the_right_one_is_gone() {
    let old = file("turn lid\nremove bolt\nturn lid\nclean lid\n");
    let new = file("remove bolt\nturn lid\nclean lid\n");
    assert_eq!(changes(&old, &new)[0], "turn lid: step gone");
    assert_eq!(changes(&old, &new).len(), 2, "besides that three steps have other numbers");
}

#[test]
fn a_step_that_is_moved_and_changed_is_told_as_both() {
    let old = file("turn lid\nremove bolt\nclean lid\ninstall bolt\n");
    let new = file("remove bolt\nclean lid\ninstall bolt\nturn lid 2 times\n");
    let found = changes(&old, &new);
    assert_eq!(
        found[..2],
        [
            "turn lid 2 times: step moved: was step 1, now step 4, behind `install bolt`".to_owned(),
            "turn lid 2 times: amount added, times: 2 times".to_owned(),
        ]
    );
}

#[test]
fn a_message_that_goes_with_its_step_is_told_with_it() {
    let message =
        "warning crushing\n    hazard: The lid falls.\n    harm: Crushed fingers.\n    avoid: Prop it.\n";
    let old = file(&format!("turn lid\n{message}remove lid\nclean bolt\n"));
    let new = file("turn lid\nclean bolt\n");
    assert_eq!(changes(&old, &new)[0], "remove lid: step gone");
    let scoped = old.replace("warning crushing", "warning crushing for next 2 steps");
    assert!(
        changes(&scoped, &new).iter().any(|it| it.contains("safety message gone")),
        "another step needs it"
    );
}

#[test]
fn a_standing_message_that_is_weakened_is_told_once_for_all_its_steps() {
    let house = |signal: &str| {
        format!(
            "{signal} crushing as lid-falls\n    hazard: The lid falls.\n    harm: Crushed fingers.\n    avoid: Prop it.\n\
             remove lid\n{signal} lid-falls\ninstall lid\n"
        )
    };
    let found = compared(&Shop::default(), "t.cotter", &file(&house("warning")), &file(&house("caution")));
    let [only]: [Change; 1] = found.changes.try_into().expect("one change");
    assert_eq!(
        (only.kind, only.how, only.also.as_slice()),
        (Kind::Caution, How::Weakened, [(2, 0)].as_slice())
    );
}

#[test]
fn a_catalogue_is_compared_by_its_names() {
    let old = "catalogue \"Shop\"\n\nsupplies\n    oil \"Oil\"  hazards H304\n    grease \"Grease\"\n\n\
               warning fire as vapour\n    hazard: Vapour burns.\n    harm: Burns.\n    avoid: Keep flames 5 m away.\n";
    let new = old.replace("H304", "H304 H411").replace("    grease \"Grease\"\n", "").replace("5 m", "2 m");
    assert_eq!(
        changes(old, &new),
        [
            "supply `oil`: supply changed, hazards: was H304, now H304 H411",
            "supply `grease`: supply gone: was Grease",
            "safety message `vapour`: safety message weakened, avoid: was Keep flames 5 m away., now Keep flames 2 m away. (to sign)",
        ]
    );
}
