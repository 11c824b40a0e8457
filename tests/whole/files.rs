//! Files that are not as they should be: each gets a clear message, and none is passed over in silence.

use crate::tool::{demo_shop, edit, pintle_in};

#[test]
fn what_cannot_be_read_is_said() {
    let shop = demo_shop();
    std::fs::write(shop.path().join("builds/a-latin.toml"), b"[build]\nnumber = \"caf\xe9\"\n").unwrap();
    std::fs::write(shop.path().join("builds/b-large.toml"), vec![b'#'; (1 << 20) + 1]).unwrap();
    std::fs::write(shop.path().join("builds/c-empty.toml"), b"").unwrap();
    let ran = pintle_in(shop.path(), &["inspect", "--format", "plain", "builds"]);
    assert_eq!(ran.code, 2);
    let line = |file: &str| {
        ran.out.lines().find(|line| line.contains(file)).unwrap_or_else(|| panic!("{file} is not said"))
    };
    assert!(line("a-latin").contains("is not UTF-8 text: line 2"), "{}", line("a-latin"));
    assert!(
        line("b-large").contains("1048577 bytes long; a file may have at most 1048576 bytes"),
        "{}",
        line("b-large")
    );
    assert!(line("c-empty").contains("not a build spec"), "{}", line("c-empty"));
    // The sound ones are still judged.
    assert!(ran.out.contains("looked at 15 specs"), "{}", ran.out);
}

#[test]
fn a_folder_without_specs_is_not_a_pass() {
    let folder = tempfile::tempdir().unwrap();
    let ran = pintle_in(folder.path(), &["inspect"]);
    assert_eq!(ran.code, 2);
    assert!(ran.out.contains("no spec is found"), "{}", ran.out);
}

#[cfg(unix)]
#[test]
fn a_stock_folder_that_leads_out_of_the_repository_is_refused() {
    let elsewhere = tempfile::tempdir().unwrap();
    let shop = demo_shop();
    std::fs::rename(shop.path().join("stock"), elsewhere.path().join("stock")).unwrap();
    std::os::unix::fs::symlink(elsewhere.path().join("stock"), shop.path().join("stock")).unwrap();
    let ran = pintle_in(shop.path(), &["inspect", "--format", "plain", "builds/sound-5x8-round.toml"]);
    assert_eq!(ran.code, 2);
    assert!(ran.out.contains("the stock folder `stock` leads out of the repository"), "{}", ran.out);
}

#[cfg(unix)]
#[test]
fn a_stock_file_that_leads_out_of_its_folder_is_refused() {
    let elsewhere = tempfile::tempdir().unwrap();
    let shop = demo_shop();
    std::fs::rename(shop.path().join("stock/gas.toml"), elsewhere.path().join("gas.toml")).unwrap();
    std::os::unix::fs::symlink(elsewhere.path().join("gas.toml"), shop.path().join("stock/gas.toml"))
        .unwrap();
    let ran = pintle_in(shop.path(), &["inspect", "--format", "plain", "builds/sound-5x8-round.toml"]);
    assert_eq!(ran.code, 2);
    assert!(ran.out.contains("the stock file `stock/gas.toml` leads out of its folder"), "{}", ran.out);
}

#[test]
fn a_stock_folder_named_outside_the_repository_is_refused() {
    let above = tempfile::tempdir().unwrap();
    let shop = above.path().join("shop");
    std::fs::create_dir_all(above.path().join("stock")).unwrap();
    std::fs::create_dir_all(&shop).unwrap();
    std::fs::write(shop.join("pintle.toml"), "stock = [\"../stock\"]\n").unwrap();
    std::fs::write(shop.join("a.toml"), "[build]\n").unwrap();
    let ran = pintle_in(&shop, &["inspect", "--format", "plain", "a.toml"]);
    assert_eq!(ran.code, 2);
    assert!(
        ran.out.contains("pintle.toml:1:10: the stock folder `./../stock` leads out of the repository")
            || ran.out.contains("leads out of the repository"),
        "{}",
        ran.out
    );
}

/// A tired builder's mistakes, all in one file, all said in one go.
#[test]
fn several_mistakes_are_said_at_once() {
    let shop = demo_shop();
    let spec = "builds/sound-5x8-round.toml";
    edit(shop.path(), spec, "stage  = \"design\"", "stage  = \"desing\"");
    edit(
        shop.path(),
        spec,
        "part = \"box-5x8-round\"",
        "part = \"box-5x8-round\"\ngvrw = \"2000 lb\"\nmass = \"400 furlong\"",
    );
    edit(shop.path(), spec, "zone = \"tongue\"", "zone = \"tounge\"");
    let ran = pintle_in(shop.path(), &["inspect", "--format", "plain", spec]);
    assert_eq!(ran.code, 2);
    for told in [
        "did you mean `design`",
        "did you mean `gvwr`",
        "`furlong` is not a known unit",
        "did you mean `tongue`",
    ] {
        assert!(ran.out.contains(told), "`{told}` is not in\n{}", ran.out);
    }
}
