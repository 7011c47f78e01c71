//! Where the program prints. Colour and drawing are decided once, here, and passed on.
use super::trouble::Trouble;
use super::{Colour, paths, plain};
use anstream::stream::IsTerminal;
use anstyle::{AnsiColor, Style};
use std::io::{self, Write};
use std::process::ExitCode;

/// The widest a finding is drawn, in columns; wider lines are hard to read.
const WIDEST: usize = 120;

/// How findings look on standard output.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Look {
    /// Drawn with frames, for a terminal; else one plain line and the source line.
    pub drawn: bool,
    pub coloured: bool,
    /// Columns a finding may take when drawn.
    pub width: usize,
}

/// The program's two streams. Findings and summaries go to the first, troubles and progress to the second.
pub struct Terminal {
    out: anstream::AutoStream<io::Stdout>,
    err: anstream::AutoStream<io::Stderr>,
    look: Look,
    /// Whether progress may be drawn on standard error.
    watched: bool,
    failed: Option<io::Error>,
}

impl Terminal {
    pub fn new(colour: Colour) -> Terminal {
        let wanted = match colour {
            Colour::Auto => anstream::ColorChoice::Auto,
            Colour::Always => anstream::ColorChoice::Always,
            Colour::Never => anstream::ColorChoice::Never,
        };
        let decide = |auto: anstream::ColorChoice| if colour == Colour::Auto { auto } else { wanted };
        let out_choice = decide(anstream::AutoStream::choice(&io::stdout()));
        let err_choice = decide(anstream::AutoStream::choice(&io::stderr()));
        let width = terminal_size::terminal_size().map_or(100, |(width, _)| usize::from(width.0));
        Terminal {
            look: Look {
                drawn: io::stdout().is_terminal(),
                coloured: out_choice != anstream::ColorChoice::Never,
                width: width.clamp(40, WIDEST),
            },
            watched: io::stderr().is_terminal(),
            out: anstream::AutoStream::new(io::stdout(), out_choice),
            err: anstream::AutoStream::new(io::stderr(), err_choice),
            failed: None,
        }
    }

    pub fn look(&self) -> Look {
        self.look
    }

    pub fn watched(&self) -> bool {
        self.watched
    }

    /// Prints to standard output. A failure is kept for [`Terminal::finish`].
    pub fn print(&mut self, text: &str) {
        if self.failed.is_none() {
            self.failed = self.out.write_all(text.as_bytes()).err();
        }
    }

    /// Hands a text on to the byte, for whatever reads it: nothing in it is a style to be left out.
    pub fn hand_on(&mut self, text: &str) {
        if self.failed.is_none() {
            self.failed = io::stdout().write_all(text.as_bytes()).err();
        }
    }

    /// Prints a remark about the run to standard error.
    pub fn note(&mut self, text: &str) {
        // Nobody is left to tell when standard error itself is gone.
        let _ = self.err.write_all(text.as_bytes());
    }

    /// Prints what went wrong with a file to standard error.
    pub fn trouble(&mut self, trouble: &Trouble) {
        let red = style(AnsiColor::Red);
        let named = Trouble { file: paths::printable(&trouble.file), ..trouble.clone() };
        let text = plain::harmless(&named.to_string());
        let mut lines = format!("{red}cotter:{red:#} {text}\n");
        if let Some(help) = &trouble.help {
            lines.push_str(&format!("  help: {}\n", plain::harmless(help)));
        }
        // Nobody is left to tell when standard error itself is gone.
        let _ = self.err.write_all(lines.as_bytes());
    }

    /// The exit code: `code`, or 2 where the output could not be written. A reader that went away early
    /// (`| head`) is no failure.
    pub fn finish(mut self, code: u8) -> ExitCode {
        let failed = self.failed.take().or_else(|| self.out.flush().err());
        match failed {
            Some(error) if error.kind() != io::ErrorKind::BrokenPipe => {
                self.trouble(&Trouble::new("standard output", error.to_string()));
                ExitCode::from(2)
            }
            _ => ExitCode::from(code),
        }
    }
}

/// Bold in a colour, for the words that carry the weight of a finding.
pub fn style(colour: AnsiColor) -> Style {
    Style::new().bold().fg_color(Some(colour.into()))
}
