//! Who may come in: the token in the path, the host that was called, the page that a request was sent from.

use hyper::header::{CONTENT_TYPE, HOST, HeaderName, ORIGIN};
use hyper::{HeaderMap, Method, Request};
use sha2::{Digest as _, Sha256};

/// The door of one walk.
#[derive(Debug)]
pub(super) struct Door {
    token: String,
    /// What a browser may call this machine.
    hosts: [String; 2],
}

/// What a request is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Way {
    Page,
    Alive,
    Try,
    Save,
}

/// The routes, all of them.
const WAYS: &[(&str, Method, Way)] = &[
    ("", Method::GET, Way::Page),
    ("alive", Method::GET, Way::Alive),
    ("try", Method::POST, Way::Try),
    ("save", Method::POST, Way::Save),
];

impl Door {
    pub(super) fn new(token: String, port: u16) -> Self {
        Self { token, hosts: [format!("127.0.0.1:{port}"), format!("localhost:{port}")] }
    }

    /// Where the page stands.
    pub(super) fn address(&self) -> String {
        let [host, _] = &self.hosts;
        format!("http://{host}/{}/", self.token)
    }

    /// What a request is for, or the status that it is refused with.
    pub(super) fn way<B>(&self, request: &Request<B>) -> Result<Way, u16> {
        let uri = request.uri();
        let path = uri.path().strip_prefix('/').and_then(|path| path.split_once('/'));
        let (token, rest) = path.ok_or(404_u16)?;
        if !self.is_token(token) {
            return Err(404);
        }
        // A page elsewhere that got a name of its own to lead here is refused by that name.
        let host = only(request.headers(), &HOST).filter(|host| self.hosts.iter().any(|ours| ours == host));
        let host = host.ok_or(403_u16)?;
        if uri.authority().is_some_and(|authority| authority.as_str() != host) {
            return Err(403);
        }
        if uri.query().is_some() {
            return Err(404);
        }
        let (_, method, way) = WAYS.iter().find(|(name, ..)| *name == rest).ok_or(404_u16)?;
        if method != request.method() {
            return Err(405);
        }
        if *method == Method::POST {
            let ours = format!("http://{host}");
            if only(request.headers(), &ORIGIN) != Some(ours.as_str()) {
                return Err(403);
            }
            // A form of another page cannot send this type.
            if only(request.headers(), &CONTENT_TYPE) != Some("application/json") {
                return Err(415);
            }
        }
        Ok(*way)
    }

    /// Compared by hash, so that how long it takes tells nothing of how much is right.
    fn is_token(&self, given: &str) -> bool {
        Sha256::digest(given.as_bytes()) == Sha256::digest(self.token.as_bytes())
    }
}

/// A header that stands once.
fn only<'h>(headers: &'h HeaderMap, name: &HeaderName) -> Option<&'h str> {
    let mut all = headers.get_all(name).iter();
    let first = all.next()?.to_str().ok()?;
    all.next().is_none().then_some(first)
}

#[cfg(test)]
mod tests;
