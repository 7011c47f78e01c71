//! The language server: the same stages as on the command line, for whoever types.
#![allow(clippy::disallowed_methods, clippy::disallowed_types)]
mod colours;
mod completion;
mod desk;
mod folding;
mod formatting;
mod hints;
mod hover;
mod marks;
mod names;
mod outline;
mod positions;
mod protocol;
mod server;
mod shop;
mod texts;
mod uri;

pub use protocol::{Connection, Message, Notification, Request, RequestId, Response};
pub use server::{End, serve};

/// Serves a client over standard input and output. 0 where it took its leave as the protocol says, else 1.
pub fn language_server() -> u8 {
    let (connection, threads) = Connection::stdio();
    let end = serve(&connection);
    // The writing thread ends when nobody can write any more.
    drop(connection);
    if end == End::Asked {
        let _ = threads.join();
    }
    u8::from(end == End::Lost)
}
