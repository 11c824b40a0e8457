//! Files made to do harm: very many, very long, very deep. Each must be answered, and soon.

use std::fmt::Write as _;
use std::sync::mpsc;
use std::time::Duration;

use pintle_source::MAX_BYTES;

use super::bench::{HEAD, Read, STOCK, TRAILER, load, with, worded};

/// How long any file of a mebibyte may take; a hundred times what it takes, so that a slow machine does not matter.
const SOON: Duration = Duration::from_secs(60);

/// Reads on a thread of its own, and gives up when it takes too long.
#[track_caller]
fn soon(spec: String, stock: String) -> Read {
    assert!(spec.len() <= MAX_BYTES && stock.len() <= MAX_BYTES, "{} and {} bytes", spec.len(), stock.len());
    let (done, wait) = mpsc::channel();
    std::thread::spawn(move || done.send(Box::new(load(&spec, &stock))));
    let read = *wait.recv_timeout(SOON).expect("an answer in time");
    let told: usize = read.problems.iter().map(|problem| problem.message.len()).sum();
    assert!(read.problems.len() <= 2 * 5_001 && told < 2_000_000, "{} problems", read.problems.len());
    read.problems.iter().for_each(worded);
    read
}

/// As many of numbered texts as go into a mebibyte after a beginning.
fn fill(beginning: &str, one: impl Fn(usize) -> String) -> (String, usize) {
    let mut text = beginning.to_owned();
    for count in 0.. {
        let next = one(count);
        if text.len() + next.len() > MAX_BYTES {
            return (text, count);
        }
        text.push_str(&next);
    }
    unreachable!()
}

#[test]
fn more_states_than_anybody_judges_are_refused_once() {
    let state = |at: usize| format!("[[state]]\nname = \"s{at}\"\nuse = \"road\"\nfill = {{}}\n");
    let (spec, count) = fill(&with(""), state);
    assert!(count > 10_000);
    let read = soon(spec, STOCK.to_owned());
    let told: Vec<_> = read.problems.iter().map(|problem| problem.message.as_str()).collect();
    assert_eq!(told, ["a spec may have at most 100 states"]);
    let few = (0..100).map(state).fold(String::new(), |text, state| text + &state);
    assert_eq!(soon(with(&few), STOCK.to_owned()).problems, []);
}

#[test]
fn twenty_thousand_sound_items() {
    let mut spec = format!("{HEAD}{TRAILER}");
    for count in 0..20_000 {
        let _ = writeln!(spec, "[[berth]]\ntag=\"{count}\"\nat={{front=\"1in\",left=\"1in\"}}");
    }
    let read = soon(spec, STOCK.to_owned());
    assert_eq!(read.codes(), [""; 0]);
    assert_eq!(read.build.unwrap().items.len(), 20_000);
}

#[test]
fn very_many_items_on_one_rack_and_named_in_one_state() {
    let beginning = with("[[item]]\ntag=\"r\"\npart=\"rack-low\"\nzone=\"roof\"\nat={front=\"1in\"}\n");
    let (mut spec, _) = fill(&beginning, |count| {
        format!(
            "[[item]]\ntag=\"t{count}\"\nkind=\"tent\"\nremovable=true\nzone=\"rack\"\nat={{front=\"1in\"}}\n"
        )
    });
    spec.truncate(800_000);
    spec.truncate(spec.rfind("[[item]]").unwrap());
    let items = spec.matches("[[item]]").count();
    spec.push_str("[[state]]\nname=\"s\"\nuse=\"road\"\nout=[");
    (0..items - 1).for_each(|count| write!(spec, "\"t{count}\",").unwrap());
    spec.push_str("]\n");
    let read = soon(spec, STOCK.to_owned());
    assert_eq!(read.codes(), [""; 0]);
    assert_eq!(read.build.unwrap().states[0].out.len(), items - 1);
}

#[test]
fn a_chain_of_parts_that_stand_on_each_other() {
    let (spec, count) = fill(&with(""), |count| {
        let zone = if count == 0 { "inside".to_owned() } else { format!("l{}", count - 1) };
        format!(
            "[[locker]]\ntag=\"l{count}\"\nzone=\"{zone}\"\nat={{front=\"1in\",left=\"1in\"}}\nlength=\"9in\"\n"
        )
    });
    assert!(count > 8_000);
    assert_eq!(soon(spec, STOCK.to_owned()).codes(), ["zone-loop"]);
    // The other way round: the search begins at the end of the chain.
    let (spec, _) = fill(&with(""), |count| {
        format!("[[locker]]\ntag=\"l{count}\"\nzone=\"l{}\"\nat={{front=\"1in\",left=\"1in\"}}\n", count + 1)
    });
    assert_eq!(soon(spec, STOCK.to_owned()).codes(), ["zone-loop", "unknown-zone"]);
}

#[test]
fn a_loop_of_very_many_parts() {
    let (spec, count) =
        fill(&with("[[locker]]\ntag=\"l0\"\nzone=\"l5000\"\nat={front=\"1in\"}\n"), |count| {
            format!("[[locker]]\ntag=\"l{}\"\nzone=\"l{count}\"\nat={{front=\"1in\"}}\n", count + 1)
        });
    assert!(count > 5_000);
    let read = soon(spec, STOCK.to_owned());
    assert_eq!(read.codes().into_iter().filter(|code| *code == "zone-loop").count(), 5_000);
}

/// Modules of which each needs some of those after it.
fn modules(count: usize, needs: impl Fn(usize) -> Vec<usize>) -> String {
    (0..count).fold(with(""), |mut spec, at| {
        let needs: Vec<String> = needs(at).into_iter().map(|needed| format!("\"{needed}\"")).collect();
        let _ = writeln!(
            spec,
            "[[item]]\ntag=\"{at}\"\npart=\"galley\"\nat={{front=\"1in\"}}\nneeds=[{}]",
            needs.join(",")
        );
        spec
    })
}

/// Groups of two, each of a module and one that is half of them further on.
fn halves(count: usize) -> String {
    (0..count / 2).fold(String::new(), |mut groups, at| {
        let other = at + count / 2;
        let _ = writeln!(groups, "[[either]]\nname=\"{at}\"\nof=[\"{at}\",\"{other}\"]\nnone=true");
        groups
    })
}

#[test]
fn a_chain_of_needs_across_very_many_groups() {
    let count = 8_000;
    let chain =
        |last: Vec<usize>| modules(count, move |at| if at + 1 < count { vec![at + 1] } else { last.clone() });
    let read = soon(format!("{}{}", chain(Vec::new()), halves(count)), STOCK.to_owned());
    assert_eq!(read.codes(), ["never-aboard"], "the last that brings two of one group");
    assert_eq!(
        read.problems[0].message,
        "item `3999` can never be aboard: `7999` comes with it, and `3999` takes only one of the two"
    );
    let read = soon(chain(vec![0]), STOCK.to_owned());
    assert_eq!(read.codes().into_iter().filter(|code| *code == "needs-loop").count(), 5_000);
}

#[test]
fn a_thicket_of_needs_and_groups() {
    let count = 2_000;
    let spec = modules(count, |at| (at + 1..count.min(at + 50)).collect());
    let read = soon(format!("{spec}{}", halves(count)), STOCK.to_owned());
    assert_eq!(read.codes(), ["never-aboard"], "the last that brings two of one group");
    assert_eq!(soon(spec, STOCK.to_owned()).codes(), [""; 0]);
}

#[test]
fn very_many_states_that_leave_out_what_is_needed() {
    let mut spec = modules(1_000, |at| if at > 0 { vec![0] } else { Vec::new() });
    for count in 0..100 {
        let _ = writeln!(spec, "[[state]]\nname=\"{count}\"\nuse=\"road\"\nout=[\"0\"]");
    }
    assert_eq!(soon(spec, STOCK.to_owned()).codes().last(), Some(&"too-many-problems"));
    let mut spec = modules(4_000, |at| if at > 0 { vec![0] } else { Vec::new() });
    for count in 0..100 {
        let _ = writeln!(spec, "[[state]]\nname=\"{count}\"\nuse=\"road\"");
    }
    assert_eq!(soon(spec, STOCK.to_owned()).codes(), [""; 0]);
}

#[test]
fn very_many_unknown_names() {
    let (spec, _) = fill(&with(""), |count| {
        format!(
            "[[locker]]\ntag=\"locker-{count}\"\nzone=\"lokcer-{count}\"\nat={{front=\"1in\",left=\"1in\"}}\n"
        )
    });
    let read = soon(spec, STOCK.to_owned());
    assert_eq!(read.codes().last(), Some(&"too-many-problems"));
    let (_, message, help, ..) = *read.said().last().unwrap();
    assert_eq!(message, "more than 5000 problems were found, and the rest of the file was not read");
    assert_eq!(help, "correct these first");
    let (stock, parts) = fill("", |count| format!("[[part]]\nname=\"module-{count}\"\nkind=\"module\"\n"));
    let (spec, _) = fill(&with(""), |count| format!("[[item]]\ntag=\"a{count}\"\npart=\"modlue-{count}\"\n"));
    assert!(parts > 15_000);
    assert_eq!(soon(spec, stock).codes().last(), Some(&"too-many-problems"));
}

#[test]
fn very_long_names() {
    let long = |letter: &str| letter.repeat(300_000);
    let read = soon(
        format!(
            "{HEAD}{TRAILER}[[item]]\ntag=\"{}\"\npart=\"{}\"\n{} = 1\n",
            long("a"),
            long("b"),
            long("c")
        ),
        format!("{STOCK}[[part]]\nname=\"{}\"\nkind=\"module\"\n", long("d")),
    );
    assert_eq!(read.codes(), ["too-long", "too-long", "too-long", "unknown-key"]);
    for name in ["tag", "zone", "part", "kind"] {
        let name = format!("{name} = \"{}\"\n", "x".repeat(10_000));
        let read = soon(with(&format!("[[item]]\n{name}at={{front=\"1in\"}}\n")), STOCK.to_owned());
        assert!(read.codes().contains(&"too-long"), "{:?}", read.codes());
    }
}

#[test]
fn very_many_keys_words_and_empty_tables() {
    let keys = fill(&with("[people]\n"), |count| format!("k{count}=1\n")).0;
    let empty = format!("item = [{}]\n{}", "{},".repeat(300_000), with(""));
    let words = format!("{}lamps = [{}]\n", with(""), "\"tial\",".repeat(140_000));
    let named = format!("{}fill = {{{}}}\n", with("[[state]]\nname=\"s\"\nuse=\"road\"\n"), {
        (0..60_000).fold(String::new(), |named, count| named + &format!("t{count}=\"1%\","))
    });
    let states = fill(&with(""), |_| "[[state]]\n".to_owned()).0;
    for spec in [keys, empty, words, named] {
        let read = soon(spec, STOCK.to_owned());
        assert_eq!(read.codes().last(), Some(&"too-many-problems"));
    }
    let read = soon(states, STOCK.to_owned());
    assert_eq!(read.codes().iter().filter(|code| **code == "too-many").count(), 1);
    assert_eq!(
        read.codes().iter().filter(|code| **code == "missing-value").count(),
        200,
        "name and use of each"
    );
    let parts = fill("", |_| "[[part]]\n".to_owned()).0;
    assert!(soon(with(""), parts).codes().contains(&"too-many-problems"));
}

#[test]
fn a_chain_and_a_loop_of_very_many_stock_parts() {
    let chain = |first: &str, step: usize| {
        fill(first, |count| {
            format!("[[part]]\nname=\"p{:06}\"\npart=\"p{:06}\"\n", count + step, count + 1 - step)
        })
        .0
    };
    let first = "[[part]]\nname=\"p000000\"\nkind=\"module\"\n";
    let (down, up) = (chain(first, 1), chain("", 0));
    let spec = format!("{HEAD}[trailer]\nnose = {{ shape = \"flat\" }}\n");
    assert_eq!(soon(spec.clone(), down).codes(), ["stock-loop"]);
    assert_eq!(soon(spec.clone(), up.clone()).codes(), ["unknown-part"]);
    let last = up.rfind("part=\"").unwrap();
    let looped = format!("{}part=\"p000000\"\n", up.get(..last).unwrap());
    let read = soon(spec, looped);
    assert_eq!(read.codes(), ["stock-loop"]);
    assert!(read.problems[0].message.len() < 400);
}

#[test]
fn a_long_text_in_stock_is_not_multiplied() {
    let stock = format!("[[part]]\nname=\"a\"\nkind=\"module\"\nnote=\"{}\"\n", "x".repeat(900_000));
    let (spec, _) = fill(&format!("{HEAD}[trailer]\nnose={{shape=\"flat\"}}\n"), |count| {
        format!("[[item]]\ntag=\"{count}\"\npart=\"a\"\nat={{front=\"1in\"}}\n")
    });
    let read = soon(spec, stock);
    assert_eq!(read.codes()[..2], ["too-long", "refused-part"]);
}

#[test]
fn a_mebibyte_of_broken_lines() {
    for line in
        ["=\n", "[a\n", "[[a\n", "a = [\n", "\"\n", "a = \n", "a=1\n", "{\n", "[[item]\n[x]\n", "\u{0}\n"]
    {
        let spec = line.repeat(MAX_BYTES / line.len());
        let read = soon(spec, String::new());
        assert!(!read.problems.is_empty() && read.build.is_none(), "{line:?}");
    }
    let noise: String =
        (0..MAX_BYTES).map(|at| char::from(b' ' + u8::try_from(at * 7919 % 95).unwrap())).collect();
    assert!(soon(noise, String::new()).build.is_none());
}

#[test]
fn very_long_chains_of_lines_and_circuits() {
    let chain = |table: &str, first: &str| {
        let link = |at: usize| {
            let from = if at == 0 { first.to_owned() } else { format!("n{}", at - 1) };
            format!("[[{table}]]\nname = \"n{at}\"\nfrom = \"{from}\"\n")
        };
        (0..4_000).map(link).collect::<String>()
    };
    let gas = chain("gas.line", "regulator");
    let electric = chain("electric.circuit", "bank");
    for (spec, code) in [(gas, "line-loop"), (electric, "circuit-loop")] {
        let read = load(&format!("{HEAD}[trailer]\npart = \"box\"\n{spec}"), STOCK);
        let codes = read.codes();
        assert!(
            !codes.is_empty() && codes.iter().all(|found| *found == code || *found == "too-many"),
            "{codes:?}"
        );
    }
}
