//! The live preview: the sheets of a workspace in a browser on this machine, made anew at each save, with a box to
//! write in. It listens to this machine alone, and answers only who knows the word in its address.
#![allow(clippy::disallowed_methods, clippy::disallowed_types)]
mod answer;
mod draft;
mod server;
mod shop;
mod told;
mod watch;

use crate::workspace::{self, Reach};
use shop::Shop;
use std::io;
use std::path::Path;
use std::sync::Arc;

/// A preview that listens, and has not begun to answer.
pub struct Preview {
    server: server::Server,
    shop: Arc<Shop>,
}

impl Preview {
    /// Of the workspace around `folder`, an absolute and tidy path; on `port`, or on any that is free (0). `named`: the
    /// user said that it is this folder. One that nobody named, and that is no workspace, is not searched all the way
    /// down.
    ///
    /// # Errors
    /// Where the port cannot be had, or the system has no chance to give.
    pub fn open(folder: &Path, named: bool, port: u16) -> io::Result<Preview> {
        let root = workspace::root_of(folder, folder);
        let whole = named || root.join(workspace::settings::FILE_NAME).is_file();
        let reach = if whole { Reach::All } else { Reach::Folder };
        let shop = Arc::new(Shop::new(root, reach));
        Ok(Preview { server: server::Server::bind(port)?, shop })
    }

    /// Where it is to be seen. Whoever knows it may read and write the procedures.
    pub fn address(&self) -> String {
        self.server.address()
    }

    /// Answers until the program ends.
    pub fn run(self) {
        self.shop.look();
        watch::watch(Arc::clone(&self.shop));
        self.server.run(&self.shop);
    }
}
