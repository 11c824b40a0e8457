//! x
#[test]
fn probe() {
    let rows: &[&str] = &[
        "[[part]]\nname = \"a\"\nkind = \"module\"\npart = \"a\"\n",
        "[[part]]\nname = \"a\"\npart = \"b\"\n[[part]]\nname = \"b\"\npart = \"c\"\n[[part]]\nname = \"c\"\npart = \"a\"\nmass=\"5 in\"\n[[part]]\nname = \"d\"\npart = \"a\"\n",
        "[[part]]\nname = \"a\"\nkind = \"module\"\ntag = \"x\"\nat = { front = \"1 in\" }\n[[part]]\nname = \"a\"\nkind = \"rack\"\nfeeet = 3\n",
        "[[part]]\nname = \"a\"\nkind = \"module\"\n[[part]]\nname = \"b\"\nkind = \"rack\"\npart = \"a\"\n[[part]]\nname = \"c\"\npart = \"q\"\n[[part]]\nname=\"d\"\nkind=\"modul\"\nmass=\"1 in\"\n",
        "[[part]]\nkind = \"module\"\n[[part]]\nname = 5\nkind = \"module\"\n[[part]]\nname = \"\"\nkind = 7\n[[part]]\nname = \"x\"\n[[part]]\nnmae = \"y\"\nkind = \"module\"\n[[part]]\nname = \"z\"\nkidn = \"module\"\n",
        "[part]\nname = \"a\"\nmass = \"1 in\"\nkind = \"module\"\n[build]\nnumber = 1\n",
        "part = [1, 2]\n",
        "part = 3\n",
        "[[part]]\nname = \"a\"\nkind = \"module\"\nmass = 5 lb\nlength = \"5 lb\"\n[[part]\nname = \"b\"\n",
        "[[part]]\nname = \"t\"\nkind = \"trailer\"\nnose = { shpae = \"flat\" }\n",
    ];
    for stock in rows {
        let read = super::bench::load(
            &super::bench::with(
                "[[item]]\ntag=\"x\"\npart=\"a\"\nat={front=\"1 in\",left=\"1 in\"}\n[[item]]\ntag=\"y\"\npart=\"c\"\nat={front=\"1 in\",left=\"1 in\"}\n",
            ),
            stock,
        );
        println!("----\n{stock}");
        for (c, m, h, u, l) in read.said() {
            println!("  ({c:?}, {m:?}, {h:?}, {u:?}, {l}),");
        }
        read.problems.iter().for_each(super::bench::worded);
    }
}
