use super::*;

#[test]
fn a_file_may_have_a_mebibyte_and_not_a_byte_more() {
    let mut sources = Sources::new();
    let full = vec![b'#'; MAX_BYTES];
    assert!(sources.add_bytes("full.toml", &full).is_ok());
    let over = vec![b'#'; MAX_BYTES + 1];
    let error = sources.add_bytes("over.toml", &over).unwrap_err();
    assert_eq!(error.to_string(), "`over.toml` is 1048577 bytes long; a file may have at most 1048576 bytes");
    assert_eq!(error.help(), "split the file, or move what is not a spec elsewhere");
    assert_eq!(sources.iter().count(), 1, "a file that is refused is not kept");
}

#[test]
fn bytes_that_are_no_text_are_refused_with_the_line() {
    // (bytes, the line of the first bad byte)
    let rows: [(&[u8], usize); 5] = [
        (b"\xff", 1),
        (b"a = 1\nb = \"\xe9\"\n", 2),
        // UTF-16, as some editors save it.
        (b"\xff\xfea\x00", 1),
        // A character that is cut off by the end.
        (b"a\n\n\xe2\x82", 3),
        // A surrogate, written as if it were a character.
        (b"\r\n\xed\xa0\x80", 2),
    ];
    for (bytes, line) in rows {
        let error = Sources::new().add_bytes("x.toml", bytes).unwrap_err();
        assert_eq!(error, SourceError::NotUtf8 { name: "x.toml".to_owned(), line }, "{bytes:?}");
        assert_eq!(
            error.to_string(),
            format!("`x.toml` is not UTF-8 text: line {line} holds a byte that no UTF-8 text has there")
        );
        assert_eq!(error.help(), "save the file as UTF-8 in the editor");
    }
}

#[test]
fn a_byte_order_mark_stays_in_the_text_and_out_of_the_columns() {
    let mut sources = Sources::new();
    let id = sources.add_bytes("a.toml", b"\xef\xbb\xbf[build]\n").unwrap();
    assert_eq!(sources.text(id), "\u{feff}[build]\n");
    let build = Span::new(id, 4, 9);
    assert_eq!(sources.slice(build), "build");
    assert_eq!(sources.locate(build), Location { line: 1, column: 2 });
    assert_eq!(sources.at(id, Location { line: 1, column: 2 }), Some(Span::new(id, 4, 5)));
}

#[test]
fn spans_that_are_not_ours_give_nothing_and_do_no_harm() {
    let mut sources = Sources::new();
    let id = sources.add("a.toml", "½ in");
    let mut others = sources.clone();
    let other = others.add("b.toml", "x");
    assert_eq!((sources.name(other), sources.text(other)), ("?", ""));
    assert_eq!(sources.slice(Span::new(other, 0, 1)), "");
    assert_eq!(sources.locate(Span::new(other, 7, 9)), Location { line: 1, column: 1 });
    assert_eq!(sources.at(other, Location { line: 1, column: 1 }), None);
    assert_eq!(sources.slice(Span::new(id, 1, 3)), "", "cuts a character in two");
    assert_eq!(sources.slice(Span::new(id, 3, 99)), "", "past the end");
    assert_eq!(sources.slice(Span::new(id, 3, 2)), "", "backwards");
    assert_eq!((others.name(id), others.name(other), other.number()), ("a.toml", "b.toml", 1));
}

#[test]
fn a_place_is_one_character_wide() {
    let mut sources = Sources::new();
    let id = sources.add("a.toml", "a½b\n");
    let slice = |column| sources.at(id, Location { line: 1, column }).map(|span| sources.slice(span));
    assert_eq!(slice(2), Some("½"));
    assert_eq!(slice(3), Some("b"));
    assert_eq!(sources.at(id, Location { line: 2, column: 1 }), Some(Span::new(id, 5, 5)), "the end");
    assert_eq!(sources.at(id, Location { line: 9, column: 1 }), None);
}
