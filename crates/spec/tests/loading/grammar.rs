//! x
#[test]
fn probe() {
    let rows: &[(&str, &str)] = &[
        ("", ""),
        ("# nothing\n# here\n", ""),
        ("\n\n[[part]]\nname = \"x\"\n", ""),
        ("number = LR-118\n[[item\ntag = \"x\"\n", ""),
        (
            "[build]\nnumber = LR-118\ntitle = \"x\nstage = \"design\"\nstage = \"quote\"\n[trailer]\npart = \"box\"\ngvwr = 2990 lb\n[[item]\ntag = \"x\"\n[[item]]\ntag = \"y\"\npart = \"galley\"\nmass = \n[trailer]\nwall = \"1 in\"\n",
            super::bench::STOCK,
        ),
        ("\u{feff}[biuld]\nnumber = 1\n[trailer]\npart = \"box\"\n", super::bench::STOCK),
        (
            "\u{feff}[build]\r\nnumber = \"1\"\r\ntitle = \"1\"\r\nstage = \"desing\"\r\n[trailer]\r\npart = \"box\"\r\n",
            super::bench::STOCK,
        ),
        (
            "[build]\nnumber = \"1\"\ntitle = \"1\"\nstage = \"design\"\n[trailer]\npart = \"box\"\nwall='''7' 2-1/4z'''\nroof=\"7' 2\\\"z\"\nlength=\"\"\"\n7 ft 2 inz\"\"\"\nwidth='7 lbz'\nheight='''\r\n7 lbz'''\nfloor_height=\"nan lb\"\nframe_height=\"1e308 lb\"\nmass=nan\ngvwr=inf\ntongue=1e308\nadded_label=\"7½ zlb\"\naxle={count=-1}\ntire={count=99999999999}\nchains={count=99999999999999999999}\nbrakes={kind=\"none\",axles=1.5}\n",
            super::bench::STOCK,
        ),
        (
            "build = 5\ntrailer = [1]\ntow = \"x\"\npeople = { count = \"2\" }\nitem = 5\ntank = [5]\nstate = [\"x\"]\n",
            "",
        ),
        (
            "[build]\nnumber = \"\"\ntitle = \"a\\u001bb\"\nnote=\"a\\tb\\nc\"\nstage = 1979-05-27\nsale = \"used\"\n[trailer]\nnose={shape=\"flat\"}\nbrakes={}\n",
            "",
        ),
        ("x = [1, 2\n[build]\ny = 3\n[q]\nz=1\n", ""),
        (
            "[build]\nnumber = \"1\"\ntitle = \"1\"\nstage = \"design\"\nstage = \"design\"\n[trailer]\n[trailer]\nwall = \"1 in\"\nwall = \"1 in\"\n",
            "",
        ),
        ("hello world\n", ""),
        ("hello = world\n", ""),
        ("\u{0}\u{1}", ""),
        ("[build]\rnumber", ""),
        (&"[".repeat(10_000), ""),
        (&format!("a={}", "[".repeat(10_000)), ""),
        (&format!("a={}{}", "[".repeat(70), "]".repeat(70)), ""),
        (&format!("{}=1", vec!["a"; 10_000].join(".")), ""),
        (&"=\n".repeat(300), ""),
    ];
    for (spec, stock) in rows {
        let read = super::bench::load(spec, stock);
        println!("----\n{}", &spec[..spec.len().min(400)]);
        for (c, m, h, u, l) in read.said() {
            println!("  ({c:?}, {m:?}, {h:?}, {u:?}, {l}),");
        }
        read.problems.iter().for_each(super::bench::worded);
    }
}
