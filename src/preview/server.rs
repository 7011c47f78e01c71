//! The socket: it listens to this machine alone, and hands requests on.
use super::answer::{Answer, Request, answer, plain};
use super::shop::Shop;
use std::io::{self, Read};
use std::net::{Ipv4Addr, SocketAddrV4};
use std::sync::Arc;
use std::sync::atomic::{AtomicUsize, Ordering};
use tiny_http::{Header, Method, Response};

/// Requests that are answered side by side; each open page has one that waits.
const MOST: usize = 64;

/// No procedure is longer than the workspace reads; a text in JSON is at most six times as long.
const LARGEST_BODY: u64 = 6 * crate::workspace::files::LARGEST;

pub struct Server {
    http: tiny_http::Server,
    authority: String,
    /// Stands first in every path: whoever does not know it gets nothing.
    word: String,
}

impl Server {
    pub fn bind(port: u16) -> io::Result<Server> {
        let http = tiny_http::Server::http(SocketAddrV4::new(Ipv4Addr::LOCALHOST, port))
            .map_err(|error| io::Error::other(error.to_string()))?;
        let port = http.server_addr().to_ip().map_or(port, |address| address.port());
        let mut bytes = [0_u8; 16];
        getrandom::fill(&mut bytes).map_err(|error| io::Error::other(error.to_string()))?;
        let word = bytes.iter().map(|byte| format!("{byte:02x}")).collect();
        Ok(Server { http, authority: format!("127.0.0.1:{port}"), word })
    }

    pub fn address(&self) -> String {
        format!("http://{}/{}/", self.authority, self.word)
    }

    /// Answers until the socket closes.
    pub fn run(&self, shop: &Arc<Shop>) {
        let busy = AtomicUsize::new(0);
        std::thread::scope(|scope| {
            for request in self.http.incoming_requests() {
                if busy.fetch_add(1, Ordering::SeqCst) >= MOST {
                    busy.fetch_sub(1, Ordering::SeqCst);
                    respond(request, plain(503, "too many pages are open"));
                    continue;
                }
                let done = Done(&busy);
                scope.spawn(move || {
                    let _done = done;
                    self.serve(shop, request);
                });
            }
        });
    }

    fn serve(&self, shop: &Shop, mut request: tiny_http::Request) {
        let header = |name: &'static str| {
            let of_name = request.headers().iter().find(|it| it.field.equiv(name));
            of_name.map(|it| it.value.as_str().to_owned())
        };
        let (host, origin) = (header("Host").unwrap_or_default(), header("Origin"));
        let post = match request.method() {
            Method::Get => false,
            Method::Post => true,
            _ => return respond(request, plain(405, "only to be read and written")),
        };
        let mut body = String::new();
        if post {
            let mut reader = request.as_reader().take(LARGEST_BODY + 1);
            if reader.read_to_string(&mut body).is_err() || body.len() as u64 > LARGEST_BODY {
                return respond(request, plain(413, "the text is too long, or no text"));
            }
        }
        let url = request.url().to_owned();
        let (path, query) = url.split_once('?').unwrap_or((&url, ""));
        let behind = path.strip_prefix('/').and_then(|path| path.split_once('/'));
        let path = behind.filter(|(word, _)| same(word, &self.word)).map(|(_, path)| path);
        let asked = Request { post, path, query, host: &host, origin: origin.as_deref(), body: &body };
        let answer = answer(shop, &self.authority, &asked);
        respond(request, answer);
    }
}

/// Counts a request down, however it ends.
struct Done<'a>(&'a AtomicUsize);

impl Drop for Done<'_> {
    fn drop(&mut self) {
        self.0.fetch_sub(1, Ordering::SeqCst);
    }
}

/// Takes as long for a word that is wrong at its end as for one that is wrong at its start.
fn same(given: &str, word: &str) -> bool {
    let differs = given.bytes().zip(word.bytes()).fold(0, |found, (a, b)| found | (a ^ b));
    given.len() == word.len() && differs == 0
}

fn respond(request: tiny_http::Request, answer: Answer) {
    let mut response = Response::from_string(answer.body).with_status_code(answer.status);
    let headers = [
        ("Content-Type", answer.kind),
        ("Content-Security-Policy", answer.policy),
        ("Cache-Control", "no-store"),
        ("Referrer-Policy", "no-referrer"),
        ("X-Content-Type-Options", "nosniff"),
        ("Cross-Origin-Resource-Policy", "same-origin"),
    ];
    for (name, value) in headers {
        if let Ok(header) = Header::from_bytes(name, value) {
            response.add_header(header);
        }
    }
    // Whoever asked may be gone.
    let _ = request.respond(response);
}
