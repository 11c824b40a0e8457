//! The extremes over all arrangements against trying every arrangement: `cargo bench -p pintle --bench arrange`.
//!
//! For 4 to 20 removable parts, some of which need others and two of which exclude each other. Prints the time of the
//! least and most share of tongue weight by the search, by a bare loop over all combinations that only adds masses and
//! moments, and, where they are few, by weighing each as a state, as ratios to the search. Ratios of one run can be
//! compared between machines; seconds cannot. The three agree, or the bench says so. Nothing is asserted.

#![expect(clippy::print_stdout, reason = "a bench prints what it measured")]
#![expect(clippy::disallowed_methods, reason = "a bench reads the clock")]

use std::fmt::Write as _;
use std::hint::black_box;
use std::time::{Duration, Instant};

use pintle_calc::arrange::{Arrangements, End, Extremum};
use pintle_calc::weights::Weights;
use pintle_source::Sources;
use pintle_spec::{Build, State, Stock, read_build};

/// More removable parts than these are not weighed state by state.
const MOST_WEIGHED: u32 = 12;

/// How often each is timed, at least.
const ROUNDS: u32 = 5;

type Whatever<T> = Result<T, Box<dyn std::error::Error>>;

fn main() -> Whatever<()> {
    println!("least and most share of tongue weight, as ratios to the search");
    println!("parts   arrangements      search   adding up all   weighing all   the three agree");
    for parts in [4, 8, 12, 16, 20] {
        let build = build(parts)?;
        let (search, found) = timed(|| searched(&build))?;
        let (adding, added) = timed(|| added_up(&build, parts))?;
        let weighing = if parts <= MOST_WEIGHED { Some(timed(|| weighed(&build, parts))?) } else { None };
        let ratio = |time: Duration| time.as_secs_f64() / search.as_secs_f64();
        let apart = |(least, most): (f64, f64)| (least - found.0).abs().max((most - found.1).abs());
        let agree = apart(added).max(weighing.map_or(0.0, |(_, found)| apart(found))) < 1e-9;
        println!(
            "{parts:>5} {:>14.0} {:>8.1} µs {:>13.2} × {:>14} {:>12}",
            count(&build)?,
            search.as_secs_f64() * 1e6,
            ratio(adding),
            weighing.map_or_else(|| "–".to_owned(), |(time, _)| format!("{:.1} ×", ratio(time))),
            if agree { "yes" } else { "NO" }
        );
    }
    Ok(())
}

/// A build with so many removable parts: every fourth needs the one before, and the last two exclude each other.
fn build(parts: u32) -> Whatever<Build> {
    let mut text = String::from(
        "[build]\nnumber = \"B-1\"\ntitle = \"an invented trailer for a bench\"\nstage = \"design\"\n\
         [trailer]\nmass = \"1000 lb\"\ncg = { ball = \"70 in\", centre = \"0 in\", ground = \"30 in\" }\nball_to_box = \"30 in\"\n\
         length = \"144 in\"\nwidth = \"60 in\"\nheight = \"70 in\"\nwall = \"1 in\"\nroof = \"1 in\"\nfloor_height = \"20 in\"\n\
         frame_height = \"17 in\"\nnose = { shape = \"flat\" }\naxle = { ball = \"78 in\", count = 1, track = \"70 in\" }\n",
    );
    for part in 0..parts {
        let needs = if part % 4 == 3 { format!("needs = [\"p{}\"]\n", part - 1) } else { String::new() };
        writeln!(
            text,
            "[[item]]\ntag = \"p{part}\"\nkind = \"module\"\nremovable = true\nmass = \"{} lb\"\nlength = \"10 in\"\n\
             width = \"10 in\"\nheight = \"10 in\"\nat = {{ front = \"{} in\", centre = \"0 in\" }}\n{needs}",
            20 + part * 37 % 90,
            part * 53 % 130
        )?;
    }
    writeln!(
        text,
        "[[either]]\nname = \"last\"\nof = [\"p{}\", \"p{}\"]\nnone = true\n[[state]]\nname = \"road\"\nuse = \"road\"\nout = [\"p{}\"]",
        parts - 2,
        parts - 3,
        parts - 3
    )?;
    let mut sources = Sources::new();
    let source = sources.add("bench.toml", text.as_str());
    let mut problems = Vec::new();
    read_build(&sources, source, &Stock::default(), &mut problems)
        .ok_or_else(|| format!("{problems:#?}").into())
}

fn count(build: &Build) -> Whatever<f64> {
    let arrangements = Arrangements::of(build).map_err(|missing| missing.what)?;
    Ok(arrangements.count().map_err(|missing| missing.what)?)
}

/// The share of tongue weight of a state.
fn share(build: &Build, state: &State) -> Whatever<f64> {
    let share = Weights::of(build, state).tongue_share();
    Ok(share.map_err(|missing| missing.what)?.quantity.si())
}

fn searched(build: &Build) -> Whatever<(f64, f64)> {
    let arrangements = Arrangements::of(build).map_err(|missing| missing.what)?;
    let find = |end: End| -> Whatever<f64> {
        let state = arrangements.extreme(Extremum::TongueShare, end).map_err(|missing| missing.what)?;
        share(build, &state)
    };
    Ok((find(End::Least)?, find(End::Most)?))
}

/// Whether the parts of a mask may be aboard together.
fn may_ride(mask: u32, parts: u32) -> bool {
    let has = |part: u32| mask >> part & 1 == 1;
    (0..parts).all(|part| part % 4 != 3 || !has(part) || has(part - 1)) && !(has(parts - 2) && has(parts - 3))
}

fn ends(shares: impl Iterator<Item = f64>) -> (f64, f64) {
    shares
        .fold((f64::INFINITY, f64::NEG_INFINITY), |(least, most), share| (least.min(share), most.max(share)))
}

fn added_up(build: &Build, parts: u32) -> Whatever<(f64, f64)> {
    let weights = Weights::as_built(build);
    let place =
        |body: &pintle_calc::weights::Body| body.x.as_ref().map(|x| x.metres).map_err(|x| x.what.clone());
    let bodies = weights.bodies.iter().map(|body| Ok((body.kilograms, body.kilograms * place(body)?)));
    let bodies = bodies.collect::<Whatever<Vec<(f64, f64)>>>()?;
    let (trailer, items) = bodies.split_first().ok_or("no trailer")?;
    let axle = 78.0 * 0.0254;
    let shares = (0..1_u32 << parts).filter(|mask| may_ride(*mask, parts)).map(|mask| {
        let aboard = items.iter().enumerate().filter(|(at, _)| mask >> at & 1 == 1);
        let (mass, moment) = aboard.fold(*trailer, |sum, (_, item)| (sum.0 + item.0, sum.1 + item.1));
        1.0 - moment / (mass * axle)
    });
    Ok(ends(shares))
}

fn weighed(build: &Build, parts: u32) -> Whatever<(f64, f64)> {
    let mut state = build.states.first().ok_or("no state")?.clone();
    let mut shares = Vec::new();
    for mask in (0..1_u32 << parts).filter(|mask| may_ride(*mask, parts)) {
        state.out = (0..build.items.len()).filter(|at| mask >> at & 1 == 0).collect();
        shares.push(share(build, &state)?);
    }
    Ok(ends(shares.into_iter()))
}

/// The median time of some rounds, and what came out.
fn timed<T>(mut run: impl FnMut() -> Whatever<T>) -> Whatever<(Duration, T)> {
    let mut found = black_box(run()?);
    let mut times = Vec::new();
    for _ in 0..ROUNDS {
        let begun = Instant::now();
        found = black_box(run()?);
        times.push(begun.elapsed());
    }
    times.sort();
    Ok((times.get(times.len() / 2).copied().ok_or("no rounds")?, found))
}
