//! What is answered to whom: a request in, an answer out, without a socket.
use super::draft::{self, Draft, Refusal};
use super::shop::Shop;
use serde::Serialize;
use std::time::Duration;

/// As much of a request as counts.
#[derive(Debug, Clone, Default)]
pub struct Request<'a> {
    pub post: bool,
    /// The path behind the secret word, without a slash before it; `None` where the word is wrong.
    pub path: Option<&'a str>,
    /// What stands behind the question mark.
    pub query: &'a str,
    pub host: &'a str,
    pub origin: Option<&'a str>,
    pub body: &'a str,
}

#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Answer {
    pub status: u16,
    pub kind: &'static str,
    pub policy: &'static str,
    pub body: String,
}

const HTML: &str = "text/html; charset=utf-8";
const JSON: &str = "application/json";

/// The page of the preview loads only from here; nobody else may show it.
const OWN: &str = "default-src 'none'; script-src 'self'; style-src 'self'; connect-src 'self'; frame-src 'self'; \
                   img-src data:; base-uri 'none'; form-action 'none'; frame-ancestors 'none'";
/// A sheet has a policy of its own; here it says who may show it.
const SHEET: &str = "frame-ancestors 'self'";

/// A page asks again after so long, so that a browser that is gone is not waited for.
const LONGEST_WAIT: Duration = Duration::from_secs(20);

/// `authority` is what this server is called by, "127.0.0.1:4711".
pub fn answer(shop: &Shop, authority: &str, request: &Request<'_>) -> Answer {
    // A page of another site that is led here by its own name has that name in its requests.
    if request.host != authority {
        return plain(421, "this preview answers only under its own address");
    }
    let Some(path) = request.path else { return plain(404, "there is nothing here") };
    if !request.post {
        return get(shop, path, request.query);
    }
    if request.origin.is_none_or(|origin| origin.strip_prefix("http://") != Some(authority)) {
        return plain(403, "only the preview's own page may write");
    }
    match serde_json::from_str::<Draft>(request.body) {
        Ok(draft) => post(shop, path, &draft),
        Err(error) => plain(400, &format!("this is no text with its file: {error}")),
    }
}

fn get(shop: &Shop, path: &str, query: &str) -> Answer {
    match path {
        "" => page(HTML, include_str!("page/shell.html")),
        "shell.css" => page("text/css", include_str!("page/shell.css")),
        "shell.js" => page("text/javascript", include_str!("page/shell.js")),
        "list" => json(&shop.list()),
        "wait" => json(&shop.wait(query.parse().unwrap_or(0), LONGEST_WAIT)),
        "text" => draft::open(shop, &decoded(query)).map_or_else(refused, |opened| json(&opened)),
        _ => sheet(shop, path),
    }
}

/// `sheets/NUMBER/bench.html`: as they lie in a build, so that links from one to another lead somewhere.
fn sheet(shop: &Shop, path: &str) -> Answer {
    let named = path.strip_prefix("sheets/").and_then(|rest| rest.split_once('/'));
    match named.and_then(|(number, kind)| shop.sheet(&decoded(number), kind)) {
        Some(Ok(body)) => Answer { status: 200, kind: HTML, policy: SHEET, body },
        Some(Err(error)) => plain(500, &error.to_string()),
        None => plain(404, "there is no such sheet"),
    }
}

fn post(shop: &Shop, path: &str, draft: &Draft) -> Answer {
    match path {
        "check" => draft::check(shop, draft).map_or_else(refused, |told| json(&told)),
        "save" => draft::save(shop, draft).map_or_else(refused, |state| json(&state)),
        _ => plain(404, "there is nothing here"),
    }
}

fn refused(refusal: Refusal) -> Answer {
    match refusal {
        Refusal::Unknown => plain(404, "the workspace has no such file"),
        Refusal::Changed => plain(409, "the file was changed elsewhere"),
        Refusal::Trouble(why) => plain(500, &why),
    }
}

fn json(value: &impl Serialize) -> Answer {
    let body = serde_json::to_string(value).unwrap_or_default();
    Answer { status: 200, kind: JSON, policy: OWN, body }
}

fn page(kind: &'static str, body: &str) -> Answer {
    Answer { status: 200, kind, policy: OWN, body: body.to_owned() }
}

pub fn plain(status: u16, body: &str) -> Answer {
    Answer { status, kind: "text/plain; charset=utf-8", policy: OWN, body: body.to_owned() }
}

/// `%20` and the like (RFC 3986, 2.1).
fn decoded(text: &str) -> String {
    let mut bytes = Vec::with_capacity(text.len());
    let mut rest = text.as_bytes();
    while let Some((&first, after)) = rest.split_first() {
        let hex = after.get(..2).filter(|_| first == b'%').and_then(|pair| std::str::from_utf8(pair).ok());
        match hex.and_then(|pair| u8::from_str_radix(pair, 16).ok()) {
            Some(byte) => {
                bytes.push(byte);
                rest = after.get(2..).unwrap_or_default();
            }
            None => {
                bytes.push(first);
                rest = after;
            }
        }
    }
    String::from_utf8_lossy(&bytes).into_owned()
}
