//! Keys, tables, words and names that are not known.

use super::bench::{HEAD, STOCK, TRAILER, says, says_of};
#[test]
fn probe() {
    let rows = [
        "[frame]\na = 1\n",
        "[people]\ncuont = 2\n",
        "[tow]\nratng = \"5000 lb\"\n",
        "[[item]]\ntag = \"g\"\npart = \"galley\"\nat = { front = \"1 in\", left = \"2 in\" }\ncapacity = \"3 gal\"\n",
        "[[item]]\ntag = \"g\"\npart = \"galley\"\nat = { frnt = \"1 in\", left = \"2 in\" }\nzebra = \"3 gal\"\n",
        "[[item]]\ntag = \"g\"\npart = \"galey\"\nat = { front = \"1 in\", left = \"2 in\" }\ncapacity = \"3 gal\"\n",
        "[[item]]\ntag = \"g\"\npart = \"box\"\nat = { front = \"1 in\", left = \"2 in\" }\n",
        "[[item]]\ntag = \"g\"\nkind = \"tent\"\npart = \"galley\"\nat = { front = \"1 in\", left = \"2 in\" }\n",
        "[[item]]\ntag = \"g\"\nkind = \"tnet\"\nat = { front = \"1 in\", left = \"2 in\" }\n",
        "[[tank]]\ntag = \"g\"\nkind = \"rack\"\nat = { front = \"1 in\", left = \"2 in\" }\n",
        "[[item]]\ntga = \"g\"\nkind = \"tent\"\nat = { front = \"1 in\", left = \"2 in\" }\nremovable=true\n[[state]]\nname=\"s\"\nuse=\"road\"\nout=[\"g\"]\n",
        "[[item]]\nkind = \"tent\"\nat = { front = \"1 in\", left = \"2 in\" }\n",
        "[[item]]\ntag=\"g\"\nat = { front = \"1 in\", left = \"2 in\" }\n",
        "[[item]]\ntag=\"g\"\nkind=\"module\"\nanchors = { kind = \"bolt\", cuont = 4 }\nat = { front = \"1 in\", left = \"2 in\" }\n",
        "[[state]]\nname=\"s\"\nuse=\"raod\"\nfil = {}\n",
        "[[state]]\nname=\"s\"\nuse=\"road\"\nload = [{ what=\"x\", mass=\"1 lb\", att={} }]\n",
        "[[state]]\nname=\"s\"\nuse=\"road\"\nload = [5]\n",
        "[[state]]\nname=\"s\"\nuse=\"road\"\nload = 5\nout = [\"a\", \"a\", 7]\nfill = { x = \"1 gal\", y = \"101 %\", z = 5 }\npeople=[{ berth = \"q\", count = 1 }]\n",
        "[item]\ntag=\"g\"\npart=\"galley\"\n[state]\nname=\"s\"\nuse=\"road\"\nout=[\"g\"]\n",
        "[[item]]\ntag=\"a\"\nkind=\"alarm\"\nat={front=\"1 in\", left=\"1 in\"}\nsenses=[\"smok\"]\n",
        "[[item]]\ntag=\"a\"\nkind=\"alarm\"\nzone=\"a\"\nat={front=\"1 in\", left=\"1 in\"}\n",
        "[[item]]\ntag=\"a\"\nkind=\"alarm\"\nzone=\"rof\"\nat={front=\"1 in\", left=\"1 in\"}\n",
        "[[item]]\ntag=\"a\"\nkind=\"alarm\"\nzone=\"rack\"\nat={front=\"1 in\", left=\"1 in\"}\n",
        "[[locker]]\ntag=\"a\"\nzone=\"b\"\nat={front=\"1 in\", left=\"1 in\"}\n[[locker]]\ntag=\"b\"\nzone=\"a\"\nat={front=\"1 in\", left=\"1 in\"}\n[[locker]]\ntag=\"c\"\nzone=\"a\"\nat={front=\"1 in\", ball=\"1 in\"}\n",
        "[[locker]]\ntag=\"roof\"\nat={front=\"1 in\", rear=\"1 in\", left=\"1 in\",axle=\"5 in\", gap=\"1 in\"}\n",
        "[[item]]\ntag=\"a\"\nkind=\"alarm\"\nzone=5\nat=\"x\"\nremovable=\"yes\"\nmass=150\nlength=\"3 lb\"\nwidth=\"-3 in\"\nheight=\"0 in\"\n[[state]]\nname=\"s\"\nuse=\"road\"\nout=[\"a\"]\n",
    ];
    for row in rows {
        let read = super::bench::load(&super::bench::with(row), STOCK);
        println!("----\n{row}");
        for (c, m, h, u, l) in read.said() {
            println!("  ({c:?}, {m:?}, {h:?}, {u:?}, {}),", l - 6);
        }
        read.problems.iter().for_each(super::bench::worded);
    }
    let _ = (says, says_of, HEAD, TRAILER);
}
