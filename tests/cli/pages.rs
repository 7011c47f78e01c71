//! `cotter completions` and `cotter man`: a real shell and a real formatter read them, where the machine has them.
use crate::support::workspace::Workspace;
use std::process::Command;

/// Whether the machine has the program; where it has not, nothing can be said of it.
fn has(program: &str) -> bool {
    Command::new(program).arg("--version").output().is_ok()
}

#[test]
fn every_shell_gets_a_script_that_knows_the_subcommands() {
    for shell in ["bash", "elvish", "fish", "powershell", "zsh"] {
        let run = Workspace::new().run(&["completions", shell]);
        assert_eq!(run.code, 0, "{shell}");
        for word in ["compare", "import-text", "explain"] {
            assert!(run.stdout.contains(word), "{shell} does not know {word}");
        }
    }
    assert_eq!(Workspace::new().run(&["completions", "abacus"]).code, 2);
}

/// bash itself completes with the script.
#[test]
fn bash_reads_the_script_and_completes_with_it() {
    if !has("bash") {
        return;
    }
    let workspace = Workspace::new();
    workspace.write("cotter.bash", workspace.run(&["completions", "bash"]).stdout);
    let bash = |arguments: &[&str]| {
        Command::new("bash").args(arguments).current_dir(workspace.path(".")).output().unwrap()
    };
    let read = bash(&["-n", "cotter.bash"]);
    assert!(read.status.success() && read.stderr.is_empty(), "{}", String::from_utf8_lossy(&read.stderr));
    let script = "source ./cotter.bash; COMP_WORDS=(cotter comp); COMP_CWORD=1; _cotter cotter comp cotter; \
                  printf '%s\\n' \"${COMPREPLY[@]}\"";
    let completed = String::from_utf8(bash(&["--norc", "-c", script]).stdout).unwrap();
    assert_eq!(completed.split_whitespace().collect::<Vec<_>>(), ["compare", "completions"]);
}

#[test]
fn the_pages_are_formatted_without_a_warning() {
    let workspace = Workspace::new();
    let one = workspace.run(&["man"]);
    assert_eq!(one.code, 0);
    assert!(one.stdout.contains(".TH"), "{}", one.stdout);
    assert_eq!(workspace.run(&["man", "--output", "man1"]).code, 0);
    let pages = workspace.files("man1");
    let names: Vec<&str> = pages.iter().map(|(name, _)| name.as_str()).collect();
    for name in ["cotter.1", "cotter-check.1", "cotter-record-check.1", "cotter-man.1"] {
        assert!(names.contains(&name), "{name}: {names:?}");
    }
    for (name, bytes) in pages.iter().filter(|_| has("groff")) {
        let output = Command::new("groff")
            .args(["-man", "-wall", "-Tutf8", "-K", "utf8", "-z", name])
            .current_dir(workspace.path("man1"))
            .output()
            .unwrap();
        let told = String::from_utf8_lossy(&output.stderr).into_owned();
        assert!(
            output.status.success() && told.is_empty(),
            "{name}: {told}\n{}",
            String::from_utf8_lossy(bytes)
        );
    }
    workspace.write("file", "");
    assert_eq!(workspace.run(&["man", "--output", "file"]).code, 2);
}

/// What the list of commands says of each is what its own help begins with.
#[test]
fn the_help_of_a_command_begins_as_the_list_says() {
    let list = Workspace::new().run(&["--help"]).stdout;
    let rows =
        list.lines().skip_while(|line| *line != "Commands:").skip(1).take_while(|line| !line.is_empty());
    let mut commands: Vec<(&str, String)> = Vec::new();
    for row in rows {
        let (name, about) = row.trim_start().split_once("  ").unwrap_or(("", row));
        match commands.last_mut().filter(|_| row.starts_with("     ")) {
            // The list is wrapped.
            Some((_, last)) => *last = format!("{last} {}", row.trim()),
            None => commands.push((name, about.trim().to_owned())),
        }
    }
    commands.retain(|(name, _)| *name != "help");
    assert!(commands.len() >= 15, "{commands:?}");
    for (name, about) in commands {
        let help = Workspace::new().run(&[name, "--help"]).stdout;
        let first: Vec<&str> = help.lines().take_while(|line| !line.is_empty()).collect();
        assert_eq!(first.join(" "), about, "{name}");
    }
}
