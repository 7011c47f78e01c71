//! A bar on standard error, only where somebody watches and the work takes long enough to be seen.
use indicatif::{ProgressBar, ProgressDrawTarget, ProgressStyle};

/// Fewer files than this are done before a bar could be read.
const WORTH_SHOWING: usize = 300;

/// A bar for `files` files; silent where it is not worth showing.
pub fn bar(files: usize, watched: bool) -> ProgressBar {
    if !watched || files < WORTH_SHOWING {
        return ProgressBar::hidden();
    }
    let total = u64::try_from(files).unwrap_or(u64::MAX);
    let bar = ProgressBar::with_draw_target(Some(total), ProgressDrawTarget::stderr_with_hz(10));
    match ProgressStyle::with_template("{bar:30} {pos}/{len} files") {
        Ok(style) => bar.with_style(style),
        Err(_) => bar,
    }
}
