//! `cotter trace`.
use crate::support::workspace::Workspace;
use cotter::checks;

const STEPS: &str = "\
parts
    cover   \"Bearing cover\"         models F40, matched housing
    cover-s \"Bearing cover, flush\"  models F40S
    housing \"Bearing housing\"

mark cover, housing as line \"with one line across the joint\"
    only: F40
remove cover from housing
    only: F40
clean housing
align cover, housing at line; install cover on housing
    only: F40
clean cover-s
    only: F40S
";

fn workspace() -> Workspace {
    Workspace::new().file("one.cotter", checks::example(STEPS))
}

#[test]
fn a_part_is_followed_from_step_to_step() {
    let run = workspace().run(&["trace", "one.cotter", "cover"]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    let told = [
        "cover \"Bearing cover\", on F40",
        "  1  line 20: mark cover, housing as line",
        "on the machine, marked\n",
        "  2  line 22: remove cover from housing",
        "off, marked; to be fitted\n",
        "  4  line 25: align cover, housing at line; install cover on housing",
        "fitted, marked, aligned\n",
    ];
    let mut rest = run.stdout.as_str();
    for part in told {
        let at =
            rest.find(part).unwrap_or_else(|| panic!("{part} is missing or too early in\n{}", run.stdout));
        rest = &rest[at + part.len()..];
    }
    assert!(!run.stdout.contains("clean housing"), "{}", run.stdout);
}

#[test]
fn each_group_of_models_has_its_own_life() {
    let run = workspace().run(&["trace", "one.cotter", "housing", "--format", "json"]);
    let answer: serde_json::Value = serde_json::from_str(&run.stdout).unwrap();
    let lives = answer["lives"].as_array().unwrap();
    let models: Vec<_> = lives.iter().map(|life| life["models"][0].as_str().unwrap()).collect();
    assert_eq!(models, ["F40", "F40S"]);
    let steps =
        |at: usize| lives[at]["events"].as_array().unwrap().iter().map(|it| it["step"].as_u64().unwrap());
    assert_eq!(steps(0).collect::<Vec<_>>(), [1, 2, 3, 4]);
    assert_eq!(steps(1).collect::<Vec<_>>(), [3]);
}

#[test]
fn what_is_not_there_is_answered() {
    let run = workspace().run(&["trace", "one.cotter", "covr"]);
    assert_eq!(run.code, 2);
    assert!(run.stderr.contains("did you mean `cover`?"), "{}", run.stderr);
    assert_eq!(workspace().run(&["trace", "two.cotter", "cover"]).code, 2);
    assert_eq!(workspace().run(&["trace", ".", "cover"]).code, 2);
}
