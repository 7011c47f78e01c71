//! `cotter preview`: the sheets in a browser on this machine, made anew at each save.
use super::paths;
use super::terminal::Terminal;
use super::trouble::Trouble;
use crate::preview::Preview;
use clap::Args;
use std::path::{Path, PathBuf};

#[derive(Debug, Args)]
pub(super) struct PreviewArguments {
    /// A folder of the workspace; none means the current one
    folder: Option<PathBuf>,
    /// The port to listen on (0: any that is free)
    #[arg(long, value_name = "PORT", default_value_t = 0)]
    port: u16,
}

/// Says where the preview is to be seen, and answers until the program is ended; 2 where it cannot begin.
pub fn run(arguments: &PreviewArguments, terminal: &mut Terminal) -> u8 {
    match open(arguments) {
        Ok(preview) => {
            terminal.print(&format!("preview at {}\nend it with Ctrl+C\n", preview.address()));
            preview.run();
            0
        }
        Err(trouble) => {
            terminal.trouble(&trouble);
            2
        }
    }
}

fn open(arguments: &PreviewArguments) -> Result<Preview, Trouble> {
    let here = std::env::current_dir().map_err(|error| Trouble::new(".", error.to_string()))?;
    let folder = arguments.folder.as_deref().unwrap_or(Path::new("."));
    let shown = folder.display().to_string();
    let folder = paths::tidy(&here, folder);
    if !folder.is_dir() {
        return Err(Trouble::new(shown, "there is no such folder").help("name the folder of your procedures"));
    }
    let port = arguments.port;
    Preview::open(&folder, arguments.folder.is_some(), port).map_err(|error| {
        Trouble::new(format!("port {port}"), format!("cannot be listened on: {error}"))
            .help("name another with `--port`, or none")
    })
}
