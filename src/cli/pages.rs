//! Completions and manual pages, made from the command line's own definition.
use super::files;
use super::terminal::Terminal;
use super::trouble::Trouble;
use clap::{Args, Command};
use clap_complete::Shell;
use std::path::{Path, PathBuf};

#[derive(Debug, Args)]
pub(super) struct CompletionArguments {
    /// The shell that is to complete
    #[arg(value_enum)]
    shell: Shell,
}

#[derive(Debug, Args)]
pub(super) struct ManArguments {
    /// Write the page of the program and of each subcommand into this folder
    #[arg(short, long, value_name = "FOLDER")]
    output: Option<PathBuf>,
}

/// Prints the script that makes the shell complete.
pub fn completions(arguments: &CompletionArguments, mut command: Command, terminal: &mut Terminal) -> u8 {
    let mut script = Vec::new();
    clap_complete::generate(arguments.shell, &mut command, "cotter", &mut script);
    terminal.print(&String::from_utf8_lossy(&script));
    0
}

/// Prints the program's page, or writes all of them.
pub fn man(arguments: &ManArguments, command: Command, terminal: &mut Terminal) -> u8 {
    // A page is about a version, not about how one program of it was built.
    let mut command = command.disable_help_subcommand(true).long_version(None);
    command.build();
    let made = match &arguments.output {
        None => page(command).map(|text| terminal.print(&String::from_utf8_lossy(&text))),
        Some(folder) => all(command, folder),
    };
    match made {
        Ok(()) => 0,
        Err(trouble) => {
            terminal.trouble(&trouble);
            2
        }
    }
}

fn page(command: Command) -> Result<Vec<u8>, Trouble> {
    let mut text = Vec::new();
    let made = clap_mangen::Man::new(command).render(&mut text);
    made.map(|()| text).map_err(|error| Trouble::new("man", error.to_string()))
}

/// `cotter.1`, `cotter-check.1` and so on, each whole or not at all.
fn all(command: Command, folder: &Path) -> Result<(), Trouble> {
    let failed =
        |error: std::io::Error| Trouble::new(folder.to_string_lossy(), format!("cannot be written: {error}"));
    std::fs::create_dir_all(folder).map_err(failed)?;
    let mut open = vec![command];
    while let Some(command) = open.pop() {
        open.extend(command.get_subcommands().filter(|it| !it.is_hide_set()).cloned());
        let name = command.get_display_name().unwrap_or_else(|| command.get_name()).replace(' ', "-");
        let command = command.display_name(name.clone());
        files::write(&folder.join(format!("{name}.1")), &page(command)?).map_err(failed)?;
    }
    Ok(())
}
