//! `pintle walk` as its users and their enemies meet it: the built program, a plain connection, real files.

use std::fmt::Write as _;
use std::io::{BufRead as _, BufReader, Read as _, Write as _};
use std::net::TcpStream;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};

use serde_json::{Value, json};

use crate::tool::{demo_shop, edit, pintle_in};

const SPEC: &str = "builds/sound-6x10-wedge.toml";

/// A walk that is on, and ends with its test.
struct Walk {
    child: Child,
    port: u16,
    token: String,
    spec: PathBuf,
}

/// What came back.
#[derive(Debug)]
struct Reply {
    status: u16,
    head: String,
    body: String,
}

impl Reply {
    fn json(&self) -> Value {
        serde_json::from_str(&self.body).unwrap_or_else(|error| panic!("{error}: {self:?}"))
    }
}

impl Walk {
    fn of(folder: &Path, arguments: &[&str]) -> Self {
        let mut child = Command::new(env!("CARGO_BIN_EXE_pintle"))
            .args([&["walk", SPEC], arguments].concat())
            .current_dir(folder)
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .unwrap();
        let mut said = String::new();
        let mut out = BufReader::new(child.stdout.take().unwrap());
        while !said.contains("http://") && out.read_line(&mut said).unwrap() > 0 {}
        let mut wrong = String::new();
        if !said.contains("http://") {
            child.stderr.take().unwrap().read_to_string(&mut wrong).unwrap();
        }
        let address = said.split_once("http://127.0.0.1:").unwrap_or_else(|| panic!("{said}{wrong}")).1;
        let (port, rest) = address.split_once('/').unwrap();
        let token = rest.split_once('/').unwrap().0.to_owned();
        std::thread::spawn(move || std::io::copy(&mut out, &mut std::io::sink()));
        Self { child, port: port.parse().unwrap(), token, spec: folder.join(SPEC) }
    }

    fn connect(&self) -> TcpStream {
        let stream = TcpStream::connect(("127.0.0.1", self.port)).unwrap();
        stream.set_read_timeout(Some(Duration::from_secs(60))).unwrap();
        stream
    }

    /// Sends bytes as they are, and reads until the server hangs up.
    fn raw(&self, bytes: &[u8]) -> Reply {
        let mut stream = self.connect();
        let _ = stream.write_all(bytes);
        let mut told = Vec::new();
        let _ = stream.read_to_end(&mut told);
        let told = String::from_utf8(told).unwrap();
        let (head, body) = told.split_once("\r\n\r\n").unwrap_or((told.as_str(), ""));
        let status = head.split(' ').nth(1).and_then(|status| status.parse().ok()).unwrap_or(0);
        Reply { status, head: head.to_owned(), body: body.to_owned() }
    }

    fn ask(&self, method: &str, path: &str, headers: &[(&str, &str)], body: &str) -> Reply {
        let headers: Vec<String> =
            headers.iter().map(|(name, value)| format!("{name}: {value}\r\n")).collect();
        let headers = headers.concat();
        let length = body.len();
        self.raw(format!("{method} {path} HTTP/1.1\r\n{headers}Connection: close\r\nContent-Length: {length}\r\n\r\n{body}").as_bytes())
    }

    fn host(&self) -> String {
        format!("127.0.0.1:{}", self.port)
    }

    fn page(&self) -> Reply {
        self.ask("GET", &format!("/{}/", self.token), &[("Host", &self.host())], "")
    }

    fn post(&self, way: &str, body: &str) -> Reply {
        let (host, origin) = (self.host(), format!("http://{}", self.host()));
        let headers = [("Host", host.as_str()), ("Origin", &origin), ("Content-Type", "application/json")];
        self.ask("POST", &format!("/{}/{way}", self.token), &headers, body)
    }

    /// The hash and the record that the page holds.
    fn begun(&self) -> (String, Value) {
        let page = self.page();
        assert_eq!(page.status, 200, "{page:?}");
        let of = |name: &str| {
            let (_, rest) = page.body.split_once(&format!("{name}=\"")).unwrap();
            rest.split_once('"')
                .unwrap()
                .0
                .replace("&quot;", "\"")
                .replace("&lt;", "<")
                .replace("&gt;", ">")
                .replace("&amp;", "&")
        };
        (of("data-hash"), serde_json::from_str(&of("data-record")).unwrap())
    }

    fn send(&self, way: &str, base: &str, begun: &Value, record: &Value) -> Reply {
        self.post(way, &json!({ "base": base, "begun": begun, "record": record }).to_string())
    }

    fn text(&self) -> String {
        std::fs::read_to_string(&self.spec).unwrap()
    }

    fn kill(&mut self) {
        self.child.kill().unwrap();
        self.child.wait().unwrap();
    }
}

impl Drop for Walk {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

#[test]
fn a_record_is_tried_and_saved_and_the_rest_of_the_file_stays() {
    let shop = demo_shop();
    let walk = Walk::of(shop.path(), &["--port", "0"]);
    let before = walk.text();
    let (hash, begun) = walk.begun();
    let mut record = begun.clone();
    record["ticket"][0]["tongue"] = json!("440 lb");
    record["note"] = json!("</script><b>");
    let tried = walk.send("try", &hash, &begun, &record);
    assert_eq!(tried.status, 200, "{tried:?}");
    let told = tried.json();
    assert_eq!(told["verdict"]["word"], "held", "{told}");
    let heavy = told["readings"].as_array().unwrap().iter().find(|reading| {
        reading["path"] == "ticket.0"
            || reading["path"].as_str().is_some_and(|path| path.starts_with("ticket.0."))
    });
    assert!(heavy.is_some(), "{told}");
    assert_eq!(walk.text(), before, "trying writes nothing");
    // What is missing is told where it would be typed in.
    let mut less = begun.clone();
    less.as_object_mut().unwrap().remove("vin");
    let told = walk.send("try", &hash, &begun, &less).json();
    let missing = told["readings"].as_array().unwrap().iter().find(|reading| reading["path"] == "vin");
    assert_eq!(missing.unwrap()["verdict"], "fault", "{missing:?}");
    // A record that the rules find faulty is saved: it says what was measured.
    let saved = walk.send("save", &hash, &begun, &record);
    assert_eq!((saved.status, &saved.json()["saved"]), (200, &json!(true)));
    let after = walk.text();
    assert_eq!(
        after.replace("\"440 lb\"", "\"244 lb\"").replace("note      = \"</script><b>\"\n", ""),
        before,
        "{after}"
    );
    let (new, now) = walk.begun();
    assert_eq!((new.as_str(), &now), (saved.json()["hash"].as_str().unwrap(), &record));
    // What the page's live readings say is what the inspection of the file says.
    let inspected = pintle_in(shop.path(), &["inspect", SPEC, "--format", "json"]);
    let inspected: Value = serde_json::from_str(&inspected.out).unwrap();
    let found = |rule: &str| {
        inspected["specs"][0]["readings"]
            .as_array()
            .unwrap()
            .iter()
            .any(|reading| reading["rule"] == rule && reading["verdict"] == "fault")
    };
    assert!(found("record/weighed-heavy-tongue"));
}

#[test]
fn what_cannot_be_read_is_refused_at_its_field_and_nothing_is_written() {
    let shop = demo_shop();
    let walk = Walk::of(shop.path(), &["--port", "0"]);
    let before = walk.text();
    let (hash, begun) = walk.begun();
    let rows: &[(&str, Value, &str)] = &[
        ("/lugs/torque", json!("105"), "lugs.torque"),
        ("/lugs/torque", json!("105 lb"), "lugs.torque"),
        ("/delivered", json!("yesterday"), "delivered"),
        ("/ticket/1/state", json!("on the moon"), "ticket.1.state"),
        ("/ticket/0/gross", json!("-4 lb"), "ticket.0.gross"),
        ("/torque/2/item", json!("nothing"), "torque.2.item"),
        ("/vin", json!("a\u{202e}b"), "vin"),
        ("/vin", json!("v".repeat(10_000)), "vin"),
        ("/brake_test", json!({ "wheels": "two" }), "brake_test.wheels"),
        ("/brake_test", json!({ "wheels": "99999999999" }), "brake_test.wheels"),
        ("/brake_test", json!({ "straight": "perhaps" }), "brake_test.straight"),
        ("/photo/0", json!({ "@was": 0, "shows": "gas" }), "photo.0.file"),
    ];
    for (at, to, path) in rows {
        let mut record = begun.clone();
        match record.pointer_mut(at) {
            Some(place) => *place = to.clone(),
            None => record[at.trim_start_matches('/')] = to.clone(),
        }
        for way in ["try", "save"] {
            let refused = walk.send(way, &hash, &begun, &record);
            let told = &refused.json()["problems"];
            assert_eq!(refused.status, 422, "{at}: {told}");
            let paths: Vec<&str> =
                told.as_array().unwrap().iter().map(|problem| problem["path"].as_str().unwrap()).collect();
            assert_eq!(paths, [*path], "{at}: {told}");
        }
    }
    assert_eq!(walk.text(), before);
}

#[test]
fn a_file_that_has_changed_is_a_conflict_and_is_left_alone() {
    let shop = demo_shop();
    let walk = Walk::of(shop.path(), &["--port", "0"]);
    let (hash, begun) = walk.begun();
    edit(shop.path(), SPEC, "delivered = \"2026-05-04\"", "delivered = \"2026-05-09\"");
    edit(shop.path(), SPEC, "\"1ZZBW10C3NM000108\"", "\"THEIRS\"");
    let theirs = walk.text();
    let mut record = begun.clone();
    record["vin"] = json!("MINE");
    record["note"] = json!("n");
    for way in ["try", "save"] {
        let conflict = walk.send(way, &hash, &begun, &record);
        assert_eq!(conflict.status, 409, "{conflict:?}");
        let told = conflict.json();
        assert_eq!(told["theirs"]["vin"], "THEIRS");
        assert_eq!(told["merged"]["delivered"], "2026-05-09", "what one side changed is merged");
        assert_eq!(told["merged"]["note"], "n");
        assert_eq!(
            told["conflicts"],
            json!([{ "path": "vin", "begun": "1ZZBW10C3NM000108", "mine": "MINE", "theirs": "THEIRS" }])
        );
        assert_eq!(walk.text(), theirs, "nothing is written over what is there now");
    }
    let told = walk.send("save", &hash, &begun, &record).json();
    let saved = walk.send("save", told["hash"].as_str().unwrap(), &told["theirs"], &told["merged"]);
    assert_eq!(saved.status, 200, "{saved:?}");
    assert!(walk.text().contains("\"MINE\"") && walk.text().contains("\"2026-05-09\""));
    // A file that cannot be read, or is gone, is neither written nor made.
    edit(shop.path(), SPEC, "[record]", "[record");
    let broken = walk.text();
    let refused = walk.send("save", &hash, &begun, &record);
    assert!(refused.status == 409 && refused.json()["unreadable"].is_array(), "{refused:?}");
    assert_eq!(walk.text(), broken);
    assert_eq!(walk.page().status, 503);
    std::fs::remove_file(&walk.spec).unwrap();
    assert_eq!(walk.send("save", &hash, &begun, &record).status, 409);
    assert!(!walk.spec.exists());
}

#[test]
fn only_who_has_the_token_and_comes_from_the_page_gets_in() {
    let shop = demo_shop();
    let walk = Walk::of(shop.path(), &["--port", "0"]);
    assert!(
        walk.token.len() == 64 && walk.token.bytes().all(|byte| byte.is_ascii_hexdigit()),
        "{}",
        walk.token
    );
    let host = walk.host();
    let home = format!("/{}/", walk.token);
    let get = |path: &str, host: &str| walk.ask("GET", path, &[("Host", host)], "").status;
    assert_eq!(get(&home, &host), 200);
    assert_eq!(get(&home, &format!("localhost:{}", walk.port)), 200);
    for host in ["evil.example", "evil.example:80", "127.0.0.1", ""] {
        assert_eq!(get(&home, host), 403, "{host}");
    }
    let other = format!("/{}/", "0".repeat(64));
    for path in [
        "/",
        "/index.html",
        "/favicon.ico",
        other.as_str(),
        "/..",
        "/../../../../etc/passwd",
        "/%2e%2e/%2e%2e/etc/passwd",
    ] {
        assert_eq!(get(path, &host), 404, "{path}");
    }
    for rest in [
        "..",
        "../",
        "../../etc/passwd",
        "..%2fpintle.toml",
        "pintle.toml",
        "builds/",
        "%00",
        "save/../../x",
        "?a",
    ] {
        assert_eq!(get(&format!("{home}{rest}"), &host), 404, "{rest}");
    }
    for method in ["PUT", "DELETE", "OPTIONS", "TRACE", "PATCH", "HEAD"] {
        assert_eq!(walk.ask(method, &home, &[("Host", &host)], "").status, 405, "{method}");
    }
    let save = format!("{home}save");
    let json = ("Content-Type", "application/json");
    let ours = format!("http://{host}");
    let post = |headers: &[(&str, &str)]| walk.ask("POST", &save, headers, "{}").status;
    assert_eq!(post(&[("Host", &host), json]), 403, "no origin");
    assert_eq!(post(&[("Host", &host), json, ("Origin", "http://evil.example")]), 403);
    assert_eq!(post(&[("Host", &host), json, ("Origin", "null")]), 403);
    assert_eq!(post(&[("Host", &host), ("Content-Type", "text/plain"), ("Origin", &ours)]), 415);
    assert_eq!(post(&[("Host", &host), json, ("Origin", &ours)]), 400, "all is well but for the body");
    for body in
        ["", "{", "[]", "null", "{\"base\":1}", "{\"base\":\"\",\"begun\":{},\"record\":{\"build\":{}}}"]
    {
        assert_eq!(walk.post("save", body).status, 400, "{body}");
    }
    let deep = "[".repeat(100_000);
    assert_eq!(walk.post("save", &deep).status, 400);
    assert_eq!(walk.page().status, 200, "and after all that it is still there");
}

#[test]
fn every_answer_is_sealed() {
    let shop = demo_shop();
    let walk = Walk::of(shop.path(), &["--port", "0"]);
    let missing = walk.ask("GET", "/", &[("Host", &walk.host())], "");
    for reply in [walk.page(), missing, walk.post("try", "{}")] {
        let head = reply.head.to_lowercase();
        for header in [
            "cache-control: no-store",
            "x-content-type-options: nosniff",
            "referrer-policy: no-referrer",
            "x-frame-options: deny",
            "content-security-policy: default-src 'none'",
            "frame-ancestors 'none'",
        ] {
            assert!(head.contains(header), "{header} is not in {head}");
        }
        assert!(!head.contains("access-control"), "{head}");
    }
    assert!(walk.page().head.contains("connect-src 'self'"));
}

#[test]
fn what_is_too_large_or_too_slow_is_hung_up_on_and_others_are_served_meanwhile() {
    let shop = demo_shop();
    let walk = Walk::of(shop.path(), &["--port", "0"]);
    let large = "x".repeat(256 * 1024 + 1);
    assert_eq!(walk.post("save", &large).status, 413);
    // Without a length, in pieces.
    let mut pieces = format!(
        "POST /{}/save HTTP/1.1\r\nHost: {host}\r\nOrigin: http://{host}\r\nContent-Type: application/json\r\nTransfer-Encoding: chunked\r\n\r\n",
        walk.token,
        host = walk.host()
    );
    for _ in 0..5 {
        let _ = write!(pieces, "10000\r\n{}\r\n", "x".repeat(0x10000));
    }
    pieces.push_str("0\r\n\r\n");
    assert_eq!(walk.raw(pieces.as_bytes()).status, 413);
    let head = walk.raw(format!("GET / HTTP/1.1\r\nX: {}\r\n\r\n", "x".repeat(100_000)).as_bytes());
    assert!([0, 400, 431].contains(&head.status), "{head:?}");
    let many: Vec<String> = (0..200).map(|at| format!("X-{at}: y\r\n")).collect();
    let many = many.concat();
    let head = walk.raw(format!("GET / HTTP/1.1\r\n{many}\r\n").as_bytes());
    assert!([0, 400, 431].contains(&head.status), "{head:?}");
    assert!([0, 400].contains(&walk.raw(b"\x16\x03\x01 not http\r\n\r\n").status));
    // Ten that never end what they began, and one whose body never comes.
    let began = Instant::now();
    let mut slow: Vec<TcpStream> = (0..10).map(|_| walk.connect()).collect();
    // Every second one says nothing at all.
    for stream in slow.iter_mut().step_by(2) {
        stream.write_all(b"GET / HTTP/1.1\r\nHos").unwrap();
    }
    let mut body = walk.connect();
    body.write_all(
        format!(
            "POST /{}/save HTTP/1.1\r\nHost: {host}\r\nOrigin: http://{host}\r\nContent-Type: application/json\r\nContent-Length: 10\r\n\r\n{{",
            walk.token,
            host = walk.host()
        )
        .as_bytes(),
    )
    .unwrap();
    assert_eq!(walk.page().status, 200);
    assert!(began.elapsed() < Duration::from_secs(9), "others wait for the slow: {:?}", began.elapsed());
    let mut told = String::new();
    body.read_to_string(&mut told).unwrap();
    assert!(told.starts_with("HTTP/1.1 408"), "{told}");
    for mut stream in slow {
        let mut told = Vec::new();
        let _ = stream.read_to_end(&mut told);
        assert!(began.elapsed() < Duration::from_secs(40), "a slow one is never hung up on");
    }
    assert_eq!(walk.page().status, 200);
}

/// Killed again and again while it saves: the file is always the one or the other, whole.
#[test]
fn a_server_that_is_killed_while_it_saves_leaves_a_whole_file() {
    let shop = demo_shop();
    let (mut wrote, mut kept) = (0, 0);
    for round in 0..12_u64 {
        let mut walk = Walk::of(shop.path(), &["--port", "0"]);
        let (hash, begun) = walk.begun();
        let before = walk.text();
        let mut record = begun.clone();
        record["note"] = json!(format!("round {round} {}", "n".repeat(1500)));
        let body = json!({ "base": hash, "begun": begun, "record": record }).to_string();
        let mut stream = walk.connect();
        let host = walk.host();
        let head = format!(
            "POST /{}/save HTTP/1.1\r\nHost: {host}\r\nOrigin: http://{host}\r\nContent-Type: application/json\r\nContent-Length: {}\r\n\r\n",
            walk.token,
            body.len()
        );
        stream.write_all(head.as_bytes()).unwrap();
        stream.write_all(body.as_bytes()).unwrap();
        // Some are killed before it is judged, some about when it is written, some after the file shows it.
        let sent_at = Instant::now();
        let patience = Duration::from_millis(if round % 2 == 0 { 40 * round } else { 30_000 });
        while walk.text() == before && sent_at.elapsed() < patience {
            std::thread::sleep(Duration::from_micros(200));
        }
        walk.kill();
        let after = walk.text();
        if after == before {
            kept += 1;
        } else {
            wrote += 1;
            assert!(after.contains(&format!("round {round} nnn")), "round {round}");
            assert_eq!(
                after.lines().count(),
                before.lines().count() + usize::from(!before.contains("note      = \"round")),
                "round {round}"
            );
        }
        assert_eq!(pintle_in(shop.path(), &["weigh", SPEC]).code, 0, "round {round}: the file can be read");
    }
    assert!(wrote >= 4 && kept >= 1, "{wrote} written, {kept} kept: nothing was tried");
}

#[test]
fn two_that_save_at_once_do_not_overwrite_each_other() {
    let shop = demo_shop();
    let walk = Walk::of(shop.path(), &["--port", "0"]);
    let (hash, begun) = walk.begun();
    let statuses: Vec<u16> = std::thread::scope(|scope| {
        let save = |at: usize| {
            let (hash, begun, walk) = (&hash, &begun, &walk);
            scope.spawn(move || {
                let mut record = begun.clone();
                record["vin"] = json!(format!("NUMBER {at}"));
                walk.send("save", hash, begun, &record).status
            })
        };
        let all: Vec<_> = (0..4).map(save).collect();
        all.into_iter().map(|one| one.join().unwrap()).collect()
    });
    assert_eq!(statuses.iter().filter(|status| **status == 200).count(), 1, "{statuses:?}");
    assert_eq!(statuses.iter().filter(|status| **status == 409).count(), 3, "{statuses:?}");
    assert_eq!(walk.text().matches("\"NUMBER ").count(), 1);
}

#[test]
fn a_spec_has_a_port_of_its_own_and_is_walked_round_once_at_a_time() {
    let shop = demo_shop();
    let one = Walk::of(shop.path(), &[]);
    assert!((20_000..30_000).contains(&one.port), "{}", one.port);
    let second = pintle_in(shop.path(), &["walk", SPEC]);
    assert_eq!((second.code, second.out.as_str()), (2, ""));
    assert!(second.err.contains(&format!("port {} of this machine is taken", one.port)), "{}", second.err);
    assert!(second.err.contains("--port"), "{}", second.err);
    let (port, token) = (one.port, one.token.clone());
    drop(one);
    let again = Walk::of(shop.path(), &[]);
    assert_eq!(again.port, port, "the browser finds its drafts again");
    assert_ne!(again.token, token);
}

#[cfg(unix)]
#[test]
fn ctrl_c_ends_it_and_it_says_so() {
    let shop = demo_shop();
    for signal in ["-INT", "-TERM"] {
        let mut walk = Walk::of(shop.path(), &["--port", "0"]);
        assert_eq!(walk.page().status, 200);
        // One that is connected and says nothing does not hold it up.
        let _idle = walk.connect();
        Command::new("kill").args([signal, &walk.child.id().to_string()]).status().unwrap();
        let began = Instant::now();
        let code = loop {
            if let Some(ended) = walk.child.try_wait().unwrap() {
                break ended.code();
            }
            assert!(began.elapsed() < Duration::from_secs(20), "it does not end");
            std::thread::sleep(Duration::from_millis(20));
        };
        assert_eq!(code, Some(0), "{signal}");
    }
}

#[test]
fn what_is_no_spec_is_not_walked_round() {
    let shop = demo_shop();
    let rows: [(&[&str], &str); 5] = [
        (&["walk", "builds"], "is a folder"),
        (&["walk", "nothing.toml"], "there is no such file"),
        (&["walk", "stock/gas.toml"], "belongs to the stock list"),
        (&["walk", SPEC, "--port", "99999"], "99999"),
        (&["walk"], "SPEC"),
    ];
    for (arguments, words) in rows {
        let ran = pintle_in(shop.path(), arguments);
        assert_eq!((ran.code, ran.out.as_str()), (2, ""), "{arguments:?}");
        assert!(ran.err.contains(words), "{arguments:?}: {}", ran.err);
    }
    edit(shop.path(), SPEC, "[build]", "[bild]");
    let ran = pintle_in(shop.path(), &["walk", SPEC]);
    assert!(ran.code == 2 && ran.err.contains("`bild`"), "{}", ran.err);
}
