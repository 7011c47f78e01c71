//! `cotter preview`, as far as no browser is needed; `tests/browser/preview.mjs` has the rest.
use crate::support::workspace::Workspace;

#[test]
fn a_folder_that_is_not_there_ends_with_2() {
    let run = Workspace::new().run(&["preview", "no-such-folder"]);
    assert_eq!(run.code, 2);
    assert!(run.stderr.contains("no-such-folder: there is no such folder"), "{}", run.stderr);
}

#[test]
fn a_port_that_is_taken_ends_with_2() {
    let taken = std::net::TcpListener::bind("127.0.0.1:0").expect("a port is free");
    let port = taken.local_addr().expect("it has an address").port().to_string();
    let run = Workspace::new().run(&["preview", "--port", &port]);
    assert_eq!(run.code, 2);
    assert!(run.stderr.contains(&format!("port {port}: cannot be listened on")), "{}", run.stderr);
}
