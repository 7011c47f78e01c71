//! The program: arguments in, exit code out.
use std::process::ExitCode;

/// Checking and building make many small strings; this allocator hands them out faster than the system's.
#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

fn main() -> ExitCode {
    cotter::cli::main(&cotter::cli::Servers {
        #[cfg(feature = "editor")]
        language_server: cotter::editor::language_server,
    })
}
