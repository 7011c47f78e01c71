//! Large and hostile texts: how work grows with them.
use super::corpus;

/// A procedure of about `bytes`.
pub fn of_size(bytes: usize) -> String {
    let per_round = (corpus::rounds(1, 200).len() - corpus::rounds(1, 100).len()) / 100;
    corpus::rounds(1, bytes / per_round)
}

/// 5,000 steps that are followed for each of 16 models, with a branch under every other one.
pub fn of_models(steps: usize) -> String {
    for_models(16, steps)
}

/// The same for so many models.
pub fn for_models(models: usize, steps: usize) -> String {
    let names: Vec<String> = (1..=models).map(|model| format!("M{model}")).collect();
    let part = |model: &String| format!("    cover-{} \"Cover\"  models {model}\n", model.to_lowercase());
    let parts: String = names.iter().map(part).collect();
    let head = corpus::header(1);
    let head = head.split("\nparts").next().unwrap_or("").lines().map(|line| {
        if line.trim_start().starts_with("models:") {
            format!("    models:     {}", names.join(", "))
        } else {
            line.to_owned()
        }
    });
    let mut text = head.collect::<Vec<_>>().join("\n");
    text.push_str(&format!("\ntools none\nsupplies none\nparts\n{parts}    drum \"Drum\"\n\n"));
    for step in 0..steps / 3 {
        let model = &names[step % names.len()];
        let part = format!("cover-{}", model.to_lowercase());
        text.push_str(&format!("remove {part} from \"the housing\"\n    only: {model}\n"));
        text.push_str(&format!("install {part} on \"the housing\"\n    only: {model}\n"));
        text.push_str("inspect drum \"its rim\"\n    if cracked: renew drum\n");
    }
    text
}

/// A text of `n` of something that nobody would write.
pub type Input = (&'static str, fn(usize) -> String);

pub const HOSTILE: [Input; 10] = [
    ("100,000 open quotes, one a line", |n| "remove \"\n".repeat(n)),
    ("100,000 open quotes on one line", |n| "\"".repeat(n)),
    ("one line of 1 MB", |n| format!("remove {}", "x".repeat(10 * n))),
    ("100,000 commas on one line", |n| format!("remove {}", ",".repeat(n))),
    ("100,000 commas over lines", |n| "remove screws,,,,,,,,,,\n".repeat(n / 10)),
    ("deep indentation", |n| (0..n / 30).map(|deep| format!("{}x\n", " ".repeat(deep.min(3_000)))).collect()),
    ("brackets, 10,000 lines", |n| "calculate x = ((((((((((1 mm))))))))))\n".repeat(n / 10)),
    ("100,000 unknown names", |n| (0..n).map(|part| format!("remove part-{part}\n")).collect()),
    ("100,000 messages", |n| "warning crushing\n".repeat(n)),
    ("10,000 times the same steps in the wrong order", |n| {
        let again = "section \"S\"\nremove ring from \"the shaft\"\nwarning ejection\n".repeat(n / 10);
        format!("procedure FW-1 \"Rings\"\n\nparts\n    ring \"Ring\" spring-loaded\n\n{again}")
    }),
];
