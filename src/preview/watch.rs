//! Looks again when something in the workspace has changed.
use super::shop::Shop;
use notify::event::ModifyKind;
use notify::{Event, EventKind, RecursiveMode, Watcher};
use std::path::Path;
use std::sync::Arc;
use std::sync::mpsc::{Receiver, RecvTimeoutError, channel};
use std::time::Duration;

/// An editor saves in several moves; they are one change.
const SETTLED: Duration = Duration::from_millis(15);
/// As many events at the most are taken for one change.
const MOST: usize = 100;
/// How often it is asked whether the folder is still there, or there again.
const ROUND: Duration = Duration::from_secs(1);

/// Watches until the program ends.
pub fn watch(shop: Arc<Shop>) {
    std::thread::spawn(move || {
        loop {
            let (sender, events) = channel();
            let watcher = notify::recommended_watcher(sender).and_then(|mut watcher| {
                watcher.watch(shop.root(), RecursiveMode::Recursive)?;
                Ok(watcher)
            });
            // What happened before the watch began.
            shop.look();
            match watcher {
                Ok(watcher) => {
                    until_gone(&shop, &events);
                    drop(watcher);
                }
                // A folder that is gone, or a system that cannot watch: look now and then.
                Err(_) => std::thread::sleep(ROUND),
            }
        }
    });
}

/// Looks at each change until the folder is gone.
fn until_gone(shop: &Shop, events: &Receiver<notify::Result<Event>>) {
    loop {
        match events.recv_timeout(ROUND) {
            Ok(event) => {
                let first = [event].into_iter();
                // Something that never rests may not put the look off for ever.
                let settled = std::iter::from_fn(|| events.recv_timeout(SETTLED).ok()).take(MOST);
                let (mut counts, mut gone) = (false, false);
                for event in first.chain(settled) {
                    gone |= removes(&event, shop.root());
                    counts |= matters(event);
                }
                if counts {
                    shop.look();
                }
                // Another folder of the same name is not watched by this.
                if gone {
                    return;
                }
            }
            Err(RecvTimeoutError::Timeout) => {}
            Err(RecvTimeoutError::Disconnected) => return,
        }
        if !shop.root().is_dir() {
            return shop.look();
        }
    }
}

fn removes(event: &notify::Result<Event>, root: &Path) -> bool {
    let removed =
        |event: &Event| matches!(event.kind, EventKind::Remove(_) | EventKind::Modify(ModifyKind::Name(_)));
    event.as_ref().is_ok_and(|event| removed(event) && event.paths.iter().any(|path| path == root))
}

/// Reading a file is an event too, and looking reads them all; built sheets are none of a workspace's sources.
fn matters(event: notify::Result<Event>) -> bool {
    let Ok(event) = event else { return true };
    let source = |path: &Path| path.extension().is_none_or(|it| it != "html" && it != "pdf");
    !matches!(event.kind, EventKind::Access(_)) && event.paths.iter().any(|path| source(path))
}
