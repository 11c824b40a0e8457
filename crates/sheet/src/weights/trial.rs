//! Sheets of the demo shop's builds, as they are and changed, under the built-in rulebook.

use std::sync::OnceLock;

use pintle_calc::Known;
use pintle_calc::case::Case;
use pintle_finding::{Grade, Inspection};
use pintle_quantity::Units;
use pintle_report::Look;
use pintle_report::weights::{Band, Limit, Terms};
use pintle_rulebook::{Detail, Judge, Rulebook, Settings, builtin_packs, day, trial_bases};
use pintle_source::Sources;
use pintle_spec::{Missing, Stock, read_build, read_stock};

use crate::Sheet;

struct Shop {
    sources: Sources,
    rulebook: Rulebook,
    stock: Stock,
}

fn shop() -> &'static Shop {
    static SHOP: OnceLock<Shop> = OnceLock::new();
    SHOP.get_or_init(|| {
        let (mut sources, mut problems) = (Sources::new(), Vec::new());
        let rulebook =
            Rulebook::assemble(&mut sources, &Settings::default(), &builtin_packs(), &mut problems);
        let parts = trial_bases().into_iter().filter(|(name, _)| name.contains("/stock/"));
        let parts: Vec<_> = parts.map(|(name, bytes)| sources.add_bytes(&name, &bytes).unwrap()).collect();
        let stock = read_stock(&sources, &parts, &mut problems);
        assert_eq!(problems, []);
        Shop { sources, rulebook, stock }
    })
}

/// The text of a demo build.
pub(crate) fn demo(name: &str) -> String {
    let bases = trial_bases();
    let found = bases.iter().find(|(path, _)| path.ends_with(&format!("/builds/{name}.toml")));
    String::from_utf8(found.unwrap_or_else(|| panic!("no build {name}")).1.clone()).unwrap()
}

fn band(rulebook: &Rulebook) -> Known<Band> {
    let limit = |id: &str, name: &str| {
        let limits = rulebook.rule(id).map(|bound| bound.limits.as_slice()).unwrap_or_default();
        let limit = limits.iter().find(|limit| limit.name == name);
        limit
            .map(|limit| Limit { rule: id.to_owned(), share: limit.value })
            .ok_or_else(|| Missing::new("a limit", None, "report this"))
    };
    Ok(Band { least: limit("towing/light-tongue", "least")?, most: limit("towing/heavy-tongue", "most")? })
}

/// What is made of the sheet of a spec.
pub(crate) fn of<T>(spec: &str, make: impl FnOnce(&Sheet<'_>) -> T) -> T {
    with(spec, |_| {}, make)
}

/// The same with something changed about what was found.
pub(crate) fn with<T>(
    spec: &str,
    change: impl FnOnce(&mut Inspection),
    make: impl FnOnce(&Sheet<'_>) -> T,
) -> T {
    let shop = shop();
    let (mut sources, mut problems) = (shop.sources.clone(), Vec::new());
    let id = sources.add("builds/trial.toml", spec);
    let build =
        read_build(&sources, id, &shop.stock, &mut problems).unwrap_or_else(|| panic!("{problems:#?}"));
    let on = day("2026-06-01").unwrap();
    let mut inspection =
        Judge::new(&shop.rulebook).inspect_on(on, build.clone(), &sources, Detail::Everything);
    change(&mut inspection);
    let band = band(&shop.rulebook);
    let look = Look { units: Units::AsWritten, ..Look::default() };
    make(&Sheet {
        build: &build,
        inspection: &inspection,
        rulebook: None,
        in_force: &crate::in_force::InForce::default(),
        sources: &sources,
        case: Case { build: &build, assumptions: &shop.rulebook.assumptions, places: &shop.rulebook.places },
        terms: Terms { look, tolerances: &shop.rulebook.tolerances, band: &band },
        shop: None,
        hold: Grade::Major,
        rules: shop.rulebook.rules.len(),
        day: on,
    })
}

/// What stands in a page, with its markup taken out and white space drawn together.
pub(crate) fn read(page: &str) -> String {
    let mut text = String::new();
    let mut within = true;
    for letter in page.chars() {
        match letter {
            '<' => within = false,
            '>' => {
                within = true;
                text.push(' ');
            }
            letter if within => text.push(letter),
            _ => {}
        }
    }
    let text = text.replace("&lt;", "<").replace("&gt;", ">").replace("&amp;", "&");
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}
