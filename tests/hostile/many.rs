//! A hundred thousand files.
use super::calm;
use crate::support::workspace::Workspace;
use std::time::Instant;

const FILES: usize = 100_000;
/// On two processors, without optimisation; far more than it takes.
const LONGEST: u64 = 300;

/// `cargo test --test main -- --ignored hostile::many`
#[test]
#[ignore = "makes 100,000 files"]
fn a_hundred_thousand_files_are_read_in_minutes() {
    let mut workspace = Workspace::new();
    for at in 0..FILES {
        let text = format!("catalogue \"Drawer {at}\"\n");
        let name = format!("{:03}/{at:06}", at / 500);
        workspace = if at % 2 == 0 {
            workspace.file(&format!("{name}.cotter"), text)
        } else {
            workspace.file(&name, text)
        };
    }
    for command in ["check", "build", "fmt"] {
        let started = Instant::now();
        let run = workspace.run(&[command]);
        calm(&run);
        assert_eq!(run.code, 0, "{}", run.stderr);
        assert!(run.stdout.contains(&(FILES / 2).to_string()) || command == "build", "{}", run.stdout);
        let took = started.elapsed().as_secs();
        println!("{command}: {took} s");
        assert!(took < LONGEST, "{command} took {took} s");
    }
}
