"""Draws every value of random build specs within its ± many times over, and compares the spread of the weights with
the uncertainty that `pintle weigh` states.

    python3 tests/oracles/uncertainty_monte_carlo.py [--count 16] [--seed 41] [--draws 200000] [--pintle PATH]
    python3 tests/oracles/uncertainty_monte_carlo.py --self-test

Specs, stock and the reading of places and masses are those of `weigh_random.py`; here each written value is a random
number instead, drawn from a normal distribution with half its ± as standard deviation (JCGM 101:2008, propagation of
distributions), and a value that is used in several places is drawn once. Nothing is differentiated on paper. For each
state's gross weight, tongue weight, tongue share and axle load two things are compared:

- the standard deviation over all draws with half the stated expanded uncertainty: within five times the error of
  sampling where every ± is a tenth of itself, so that the formula is as good as straight; and with the whole of each ±,
  within a twentieth more (`CURVED`), which says how far first order may be trusted;
- every value moved by itself a thousandth of its ± up and down: the root of the sum of squares and the plain sum of
  what that does, with the stated expanded uncertainty and worst case, to a millionth.

Exits 1 where they differ, where the tool states no uncertainty of a figure that it states, where fewer figures were
compared than there should be, where a sort of ± was never drawn, and where the tool fails. `--self-test` falsifies the
answer and the drawing, and exits 1 if that goes unnoticed.
"""

import argparse
import collections
import copy
import pathlib
import re
import sys
import tempfile
import tomllib

import numpy

import weigh_random as weigh

BATCH = 20_000
# What a figure may spread otherwise than its tangent: a tongue share is a quotient, and masses are guessed to a quarter.
CURVED = 0.05
SMALL = 0.1
AGREE = 1e-6
STEP = 1e-3
FIGURES = ("gross", "tongue", "tongue_share", "axles")
FIGURES_A_SPEC = 6
ALL_SORTS_FROM = 16
TABLE = pathlib.Path(__file__).resolve().parents[2] / "rules" / "tolerances.toml"
BASES = ("weighed", "maker", "computed", "guessed")
OWN = """[[tolerance]]
of = "guessed"
value = "20 %"
least = "2 lb"
reason = "invented by chance"

[[tolerance]]
of = "centre"
value = "40 mm"
reason = "invented by chance"

[[tolerance]]
of = "computed"
value = "6 lb"
reason = "invented by chance"
"""
TRAILER = ("ball_to_box", "length", "width", "height", "wall", "roof", "floor_height", "frame_height")
SIZES = ("length", "width", "height", "floor")


# ---- how sure a value is -----------------------------------------------------------------------------------------


class Table:
    """The ± of what states none: of each name a share, and a width or least width."""

    def __init__(self, *texts):
        self.rows = {}
        for text in texts:
            for row in tomllib.loads(text).get("tolerance", []):
                self.rows[row["of"]] = row["value"], row.get("least")

    def half_width(self, text, footing):
        value = weigh.exact(text)
        stated = re.split(r"±|\+/-|\+-", text)[1:]
        if stated:
            half = stated[0].strip()
            # Per cent are a share of the value, but points of a share.
            return weigh.exact(half) * (abs(value) if half.endswith("%") and footing != "fill" else 1)
        if footing == "exact" or footing == "fill" and value in (0, 1):
            return 0
        row, least = self.rows[footing]
        of_value = footing in (*BASES, "person", "capacity") and row.endswith("%")
        if footing in (*BASES, "person") and value == 0:
            return 0
        return max(weigh.exact(row) * abs(value), weigh.exact(least) if least else 0) if of_value else weigh.exact(row)


class Value(str):
    """A quantity as written, which knows which one it is and how sure it is."""

    def __new__(cls, text, place, footing, table):
        value = super().__new__(cls, text)
        value.place, value.footing = (place, footing), footing
        value.stated = bool(re.search(r"±|\+/-|\+-", text))
        value.nominal, value.half = float(weigh.exact(text)), float(table.half_width(text, footing))
        return value


class Text(str):
    """A text with the place where it is written."""

    def __new__(cls, text, place):
        made = super().__new__(cls, text)
        made.place = place
        return made


def placed(node, place):
    if isinstance(node, dict):
        return {key: placed(inner, (*place, key)) for key, inner in node.items()}
    if isinstance(node, list):
        return [placed(inner, (*place, at)) for at, inner in enumerate(node)]
    return Text(node, place) if isinstance(node, str) else node


class Stock(weigh.Stock):
    """Parts laid over each other, the basis of a mass going with the mass; then each value with its ±."""

    def __init__(self, parts, table):
        super().__init__(parts)
        self.table = table

    def laid(self, stated):
        own = {key: value for key, value in stated.items() if key not in ("part", "name")}
        if "part" not in stated:
            return own
        lower = self.laid(self.parts[stated["part"]])
        if "mass" in own:
            lower = {key: value for key, value in lower.items() if key != "mass_basis"}
        return weigh.laid_over(own, lower)

    def full(self, stated):
        record = self.laid(stated)
        return self.trailer(record) if "ball_to_box" in record else self.part(record)

    def value(self, text, footing):
        return Value(text, text.place, footing, self.table)

    def all_of(self, record, footings):
        done = dict(record)
        for key, footing in footings.items():
            if isinstance(done.get(key), dict):
                inner = footing if isinstance(footing, dict) else dict.fromkeys(done[key], footing)
                done[key] = self.all_of(done[key], inner)
            elif key in done:
                done[key] = self.value(done[key], footing)
        return done

    def part(self, record):
        return self.all_of(record, {
            "mass": record.get("mass_basis", "guessed"), "bedding": "guessed", "at": "place", "cg": "centre",
            "capacity": "capacity", **dict.fromkeys(SIZES, "place"),
        })

    def trailer(self, record):
        basis = record.get("mass_basis", "guessed")
        return self.all_of(record, {
            "mass": basis, "tongue": basis, "cg": "centre", **dict.fromkeys(TRAILER, "trailer"),
            "axle": {"ball": "axle", "track": "axle"}, "nose": {"depth": "trailer", "front_width": "trailer"},
        })


# ---- weighing with random numbers --------------------------------------------------------------------------------


class Sample:
    """What `weigh_random` asks for an SI value: an array of draws for a value with a ±."""

    def __init__(self, draw, apart=False):
        self.draw, self.apart, self.held = draw, apart, {}

    def __call__(self, text):
        if not isinstance(text, Value) or text.half == 0:
            return float(weigh.exact(text))
        key = len(self.held) if self.apart else text.place
        if key not in self.held:
            self.held[key] = self.draw(text)
        return self.held[key]


class Build(weigh.Build):
    """Weights with arrays for numbers."""

    def __init__(self, spec, stock):
        spec = dict(spec)
        spec["people"] = {"mass": stock.value(spec["people"]["mass"], "person")}
        spec["state"] = [self.with_values(state, stock) for state in spec["state"]]
        super().__init__(spec, stock)

    @staticmethod
    def with_values(state, stock):
        fill = {tag: stock.value(text, "fill") for tag, text in state["fill"].items()}
        return {**state, "fill": fill, "load": [stock.part(load) for load in state.get("load", [])]}

    def cargo(self, state):
        """As in `weigh_random`, of which a tank that is stated empty with a ± is no empty one."""
        out, si = self.gone(state), weigh.si
        for tag in self.tags("tank"):
            if tag in out:
                continue
            fill = state["fill"].get(tag)
            if fill is None:
                yield f"water in {tag}", None, (None, None, None)
            elif fill.nominal > 0 or fill.half > 0:
                tank, share = self.thing(tag), si(fill)
                height = tank.near[2] + (tank.far[2] - tank.near[2]) * share / 2
                water = si(self.parts[tag]["capacity"]) * share * si(weigh.WATER)
                yield f"water in {tag}", water, (tank.middle(0), tank.middle(1), height)
        for load in state.get("load", []):
            yield load["what"], si(load["mass"]), self.put(load, load=True).centre
        for aboard in state.get("people", []):
            bed = self.thing(aboard["berth"])
            yield "people", si(self.spec["people"]["mass"]) * aboard["count"], tuple(map(bed.middle, range(3)))

    def weighed(self, state):
        """Gross weight, tongue weight, tongue share, axle load; nothing where a mass is not known."""
        bodies = [*self.fitted(self.gone(state)), *self.cargo(state)]
        if any(mass is None for _, mass, _ in bodies):
            return {}
        gross = sum(mass for _, mass, _ in bodies)
        axles = sum(mass * place[0] for _, mass, place in bodies) / self.trailer.axle
        return {"gross": gross, "tongue": gross - axles, "tongue_share": 1 - axles / gross, "axles": axles}

    def all_weighed(self):
        return {
            (state["name"], name): value
            for state in self.spec["state"] for name, value in self.weighed(state).items()
        }


def with_numbers(spec, stock, draw, apart=False):
    """Every figure of a spec with random numbers for what is written in it, and the numbers."""
    sample = Sample(draw, apart)
    weigh.si, plain = sample, weigh.si
    try:
        return Build(spec, stock).all_weighed(), sample.held
    finally:
        weigh.si = plain


class Wanted:
    """What the uncertainty of each figure of a spec should be."""

    def __init__(self, spec, stock, draws, seed, apart=False):
        values = {}

        def nominal(value):
            values.setdefault(value.place, value)
            return value.nominal

        self.nominal, _ = with_numbers(spec, stock, nominal)
        self.values = list(values.values())
        self.one_by_one(spec, stock)
        random = numpy.random.default_rng(seed)
        self.deviation = {size: self.spread(spec, stock, draws, random, size, apart) for size in (SMALL, 1.0)}

    def one_by_one(self, spec, stock):
        number = {value.place: at for at, value in enumerate(self.values)}

        def moved(value):
            array = numpy.full(2 * len(self.values), value.nominal)
            array[2 * number[value.place]] += STEP * value.half
            array[2 * number[value.place] + 1] -= STEP * value.half
            return array

        figures, _ = with_numbers(spec, stock, moved)
        self.expanded, self.worst = {}, {}
        for path, figure in figures.items():
            up, down = numpy.broadcast_to(figure, 2 * len(self.values)).reshape(-1, 2).T
            effects = numpy.abs(up - down) / (2 * STEP)
            self.expanded[path], self.worst[path] = float(numpy.sqrt((effects**2).sum())), float(effects.sum())

    def spread(self, spec, stock, draws, random, size, apart):
        """The standard deviation of each figure with a part of each ±, for the whole of it."""
        total, squares = collections.Counter(), collections.Counter()
        for _ in range(draws // BATCH):
            figures, _ = with_numbers(
                spec, stock, lambda value: random.normal(value.nominal, size * value.half / 2, BATCH), apart)
            for path, figure in figures.items():
                off = numpy.broadcast_to(figure, BATCH) - self.nominal[path]
                total[path] += off.sum()
                squares[path] += (off**2).sum()
        count = draws // BATCH * BATCH
        return {
            path: float(numpy.sqrt((squares[path] - total[path]**2 / count) / (count - 1))) / size
            for path in self.nominal
        }


# ---- a shop ------------------------------------------------------------------------------------------------------


def with_basis(draw, record):
    if "mass" in record and draw.maybe(0.7) or draw.maybe(0.1):
        record["mass_basis"] = draw.choice(BASES)
    return record


def write_shop(folder, count, seed):
    draw = weigh.Draw(seed)
    said = "# Invented by chance to try out arithmetic; no such shop, part or trailer exists.\n\n"
    for inner in ("stock", "builds"):
        (folder / inner).mkdir(parents=True, exist_ok=True)
    (folder / "pintle.toml").write_text(said + 'stock = ["stock"]\n\n' + OWN, encoding="utf-8")
    parts = [with_basis(draw, part) for part in weigh.draw_stock(draw)]
    text = said + "\n".join(weigh.table(draw, "[[part]]", part) for part in parts)
    (folder / "stock" / "all.toml").write_text(text, encoding="utf-8")
    stock = weigh.Stock(parts)
    number = 0
    while number < count:
        try:
            spec = weigh.Drawn(draw, stock, number, ties=False).spec
        except weigh.Border:
            continue
        with_basis(draw, spec["trailer"])
        tables = [weigh.table(draw, f"[{name}]", spec[name]) for name in ("build", "trailer", "people")]
        for name in weigh.LISTS:
            tables += [weigh.table(draw, f"[[{name}]]", with_basis(draw, part)) for part in spec.get(name, [])]
        for state in spec["state"]:
            for load in state["load"]:
                with_basis(draw, load)
            tables.append(weigh.table(draw, "[[state]]", state))
        (folder / "builds" / f"u{number:04}.toml").write_text(said + "\n".join(tables), encoding="utf-8")
        number += 1


def read_shop(folder, draws, seed, apart=False):
    read = lambda file: placed(tomllib.loads(file.read_text(encoding="utf-8")), (file.name,))  # noqa: E731
    table = Table(TABLE.read_text(encoding="utf-8"), (folder / "pintle.toml").read_text(encoding="utf-8"))
    stock = Stock(read(folder / "stock" / "all.toml")["part"], table)
    files = sorted((folder / "builds").glob("*.toml"))
    return {file.name: Wanted(read(file), stock, draws, [seed, at], apart) for at, file in enumerate(files)}


# ---- comparing ---------------------------------------------------------------------------------------------------


def answered(answer):
    """Figures of the tool's answer: by spec and state and name."""
    return {
        (name, state["name"], figure): state[figure]
        for name, spec in weigh.by_spec(answer).items() for state in spec["states"] for figure in FIGURES
    }


class Comparison:
    def __init__(self, wanted, answer, draws):
        self.differences, self.figures, self.most_off = [], 0, 0.0
        self.most_spread = {SMALL: 0.0, 1.0: 0.0}
        sampling = 5 / (2 * (draws // BATCH * BATCH)) ** 0.5
        found = answered(answer)
        for name, spec in wanted.items():
            for (state, figure), value in spec.nominal.items():
                path = (name, state, figure)
                self.compare(path, found.pop(path, {}), value, spec, sampling)
        for path, figure in found.items():
            if "si" in figure:
                self.differences.append(f"{' / '.join(path)}: the tool has it, the oracle has not")

    def compare(self, path, found, value, spec, sampling):
        shown = " / ".join(path)
        if "si" not in found or abs(found["si"] - value) > 1e-9 * max(abs(value), 500.0):
            self.differences.append(f"{shown}: {value}, not {found}")
        elif "uncertainty" not in found:
            self.differences.append(f"{shown}: the tool does not say how sure it is")
        else:
            self.figures += 1
            stated, key = found["uncertainty"], path[1:]
            for name, wanted in (("expanded", spec.expanded[key]), ("worst", spec.worst[key])):
                off = abs(stated[name] / wanted - 1)
                self.most_off = max(self.most_off, off)
                if off > AGREE:
                    self.differences.append(f"{shown}: {name} {stated[name]}, one by one {wanted}")
            for size, curved in ((SMALL, 0.0), (1.0, CURVED)):
                drawn = spec.deviation[size][key]
                spread = abs(drawn / (stated["expanded"] / 2) - 1)
                self.most_spread[size] = max(self.most_spread[size], spread)
                if spread > sampling + curved:
                    self.differences.append(
                        f"{shown}: half of {stated['expanded']} stated, spread by {drawn} when drawn, ± times {size}")

    def summary(self):
        small, whole = self.most_spread[SMALL], self.most_spread[1.0]
        return (f"{self.figures} uncertainties compared, {len(self.differences)} differences; one by one within "
                f"{self.most_off:.1e}; spread of draws within {small:.2%} for a tenth of each ±, {whole:.2%} for the whole")


def undrawn(wanted):
    values = [value for spec in wanted.values() for value in spec.values]
    kinds = {*BASES, "person", "fill", "capacity", "place", "centre", "axle", "trailer"}
    lacking = [f"a ± of {kind} by default" for kind in kinds - {v.footing for v in values if not v.stated}]
    return lacking if any(value.stated for value in values) else [*lacking, "a stated ±"]


def self_test(wanted, folder, answer, chosen):
    """What must be noticed: falsehoods about single figures, and values that are not drawn as they are used."""
    passed, tried = [], 0

    def must_differ(what, wanted, answer):
        nonlocal tried
        tried += 1
        if not Comparison(wanted, answer, chosen.draws).differences:
            passed.append(what)

    def falsified(figure, change):
        other = copy.deepcopy(answer)
        for spec in other["specs"]:
            for state in spec["states"]:
                if "uncertainty" in state[figure]:
                    change(state[figure])
                    return other
        raise SystemExit(f"no {figure} with an uncertainty to falsify")

    def times(name, factor):
        def change(figure):
            figure["uncertainty"][name] *= factor
        return change

    def swapped(figure):
        stated = figure["uncertainty"]
        stated["expanded"], stated["worst"] = stated["worst"], stated["expanded"]

    for figure in FIGURES:
        must_differ(f"{figure}: expanded a little more", wanted, falsified(figure, times("expanded", 1 + 3e-6)))
        must_differ(f"{figure}: worst a little less", wanted, falsified(figure, times("worst", 1 - 3e-6)))
        must_differ(f"{figure}: the one for the other", wanted, falsified(figure, swapped))
        must_differ(f"{figure}: none", wanted, falsified(figure, lambda figure: figure.pop("uncertainty")))
        must_differ(f"{figure}: no figure", wanted, falsified(figure, lambda figure: figure.pop("si")))
    # The draws by themselves: a ± read as one standard deviation, and each use of a value drawn anew.
    by_draws = {}
    for name, spec in wanted.items():
        by_draws[name] = copy.copy(spec)
        by_draws[name].deviation = {
            size: {path: 2 * spread for path, spread in of_size.items()} for size, of_size in spec.deviation.items()
        }
    must_differ("a coverage factor of one", by_draws, answer)
    must_differ("a value drawn anew for each use", read_shop(folder, chosen.draws, chosen.seed, apart=True), answer)
    return passed, tried


def main():
    options = argparse.ArgumentParser(description="compares the uncertainty of weights with the spread of draws")
    options.add_argument("--count", type=int, default=16)
    options.add_argument("--seed", type=int, default=41)
    options.add_argument("--draws", type=int, default=200_000)
    options.add_argument("--pintle", help="the binary; target/debug/pintle, then target/release/pintle")
    options.add_argument("--keep", type=pathlib.Path, help="write the shop into this new folder and leave it there")
    options.add_argument("--self-test", action="store_true", help="falsify the answer; exit 1 if that goes unnoticed")
    chosen = options.parse_args()
    if chosen.count < 1 or chosen.draws < BATCH:
        options.error(f"--count must be at least 1 and --draws at least {BATCH}")
    pintle = weigh.find_pintle(chosen.pintle)
    with tempfile.TemporaryDirectory(prefix="pintle-unsure-") as temporary:
        folder = chosen.keep or pathlib.Path(temporary)
        if chosen.keep:
            chosen.keep.mkdir(parents=True)
        write_shop(folder, chosen.count, chosen.seed)
        wanted = read_shop(folder, chosen.draws, chosen.seed)
        answer = weigh.run(pintle, folder)
        if chosen.self_test:
            passed, tried = self_test(wanted, folder, answer, chosen)
            for falsehood in passed:
                print(f"not noticed: {falsehood}")
            print(f"{tried} falsehoods tried, {len(passed)} not noticed")
            sys.exit(1 if passed else 0)
    found = Comparison(wanted, answer, chosen.draws)
    for difference in found.differences[:60]:
        print(difference)
    print(found.summary())
    least = FIGURES_A_SPEC * chosen.count
    enough = found.figures >= least
    if not enough:
        print(f"too little was compared: at least {least} uncertainties were asked for")
    lacking = undrawn(wanted) if chosen.count >= ALL_SORTS_FROM else []
    if lacking:
        print("never drawn: " + ", ".join(sorted(lacking)))
    sys.exit(0 if enough and not lacking and not found.differences else 1)


if __name__ == "__main__":
    main()
