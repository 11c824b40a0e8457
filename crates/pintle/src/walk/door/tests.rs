//! Who comes in, and who does not.

use hyper::{Method, Request};

use super::{Door, Way};

const OURS: &str = "http://127.0.0.1:20000";

fn door() -> Door {
    Door::new("token".to_owned(), 20_000)
}

fn way(method: &Method, uri: &str, headers: &[(&str, &str)]) -> Result<Way, u16> {
    let mut request = Request::builder().method(method).uri(uri);
    for (name, value) in headers {
        request = request.header(*name, *value);
    }
    door().way(&request.body(()).unwrap())
}

#[test]
fn with_token_and_host_a_page_is_given() {
    assert_eq!(door().address(), "http://127.0.0.1:20000/token/");
    for host in ["127.0.0.1:20000", "localhost:20000"] {
        assert_eq!(way(&Method::GET, "/token/", &[("host", host)]), Ok(Way::Page));
        assert_eq!(way(&Method::GET, "/token/alive", &[("host", host)]), Ok(Way::Alive));
    }
}

#[test]
fn without_the_token_there_is_nothing() {
    let host = [("host", "127.0.0.1:20000")];
    for uri in [
        "/",
        "/token",
        "/toke/",
        "/tokens/",
        "/Token/",
        "//token/",
        "/x/token/",
        "/token%2f",
        "*",
        "/%74oken/",
    ] {
        assert_eq!(way(&Method::GET, uri, &host), Err(404), "{uri}");
    }
}

#[test]
fn there_are_four_routes_and_no_other() {
    let host = [("host", "127.0.0.1:20000")];
    for uri in [
        "/token/pintle.toml",
        "/token/../token/",
        "/token/..%2f..%2fetc%2fpasswd",
        "/token//",
        "/token/alive/",
        "/token/alive?x=1",
        "/token/?",
        "/token/.",
    ] {
        assert_eq!(way(&Method::GET, uri, &host), Err(404), "{uri}");
    }
    for method in [Method::HEAD, Method::PUT, Method::DELETE, Method::OPTIONS, Method::POST, Method::CONNECT]
    {
        assert_eq!(way(&method, "/token/", &host), Err(405), "{method}");
    }
    assert_eq!(way(&Method::GET, "/token/save", &host), Err(405));
}

#[test]
fn a_host_of_another_name_is_refused() {
    for headers in [
        &[][..],
        &[("host", "evil.example:20000")],
        &[("host", "127.0.0.1")],
        &[("host", "127.0.0.1:20001")],
        &[("host", "127.0.0.1:20000.evil.example")],
        &[("host", "[::1]:20000")],
        &[("host", "127.0.0.1:20000"), ("host", "evil.example")],
    ] {
        assert_eq!(way(&Method::GET, "/token/", headers), Err(403), "{headers:?}");
    }
    assert_eq!(way(&Method::GET, "http://evil.example/token/", &[("host", "127.0.0.1:20000")]), Err(403));
}

#[test]
fn what_is_sent_comes_from_our_own_page() {
    let host = ("host", "127.0.0.1:20000");
    let json = ("content-type", "application/json");
    let post = |headers: &[(&str, &str)]| way(&Method::POST, "/token/save", headers);
    assert_eq!(post(&[host, json, ("origin", OURS)]), Ok(Way::Save));
    assert_eq!(
        post(&[("host", "localhost:20000"), json, ("origin", "http://localhost:20000")]),
        Ok(Way::Save)
    );
    for origin in [
        "null",
        "http://evil.example",
        "https://127.0.0.1:20000",
        "http://127.0.0.1:20001",
        "http://localhost:20000",
    ] {
        assert_eq!(post(&[host, json, ("origin", origin)]), Err(403), "{origin}");
    }
    assert_eq!(post(&[host, json]), Err(403), "no origin at all");
    for kind in ["text/plain", "application/x-www-form-urlencoded", "multipart/form-data"] {
        assert_eq!(post(&[host, ("content-type", kind), ("origin", OURS)]), Err(415), "{kind}");
    }
}
