"""Works out again how parts are held in a stop, and compares with `pintle figures --of anchor`.

    python3 tests/oracles/anchor.py [--count 300] [--seed 118] [--pintle PATH] [--self-test]

Written from docs/src/calculation/anchor.md and docs/src/spec-format.md alone. Units are those of `pint`. Tipping is the place where
the resultant of weight and pull meets the floor; the pulls of a group of anchors are the solution of a system of linear
equations (one of moments, the others that a stiff foot turns as a whole), not a closed formula. Tables are typed anew.
"""

import math

import numpy
import pint

import figures
from figures import Expect

UNITS = pint.UnitRegistry()
LB = UNITS.Quantity(1, "pound").to("kilogram").magnitude
IN = UNITS.Quantity(1, "inch").to("meter").magnitude
FT = 12 * IN
LBF = UNITS.Quantity(1, "pound_force").to("newton").magnitude
KSI = UNITS.Quantity(1000, "psi").to("pascal").magnitude
G = UNITS.Quantity(1, "standard_gravity").to("meter/second**2").magnitude
WATER = 8.34 * LB / UNITS.Quantity(1, "gallon").to("meter**3").magnitude

# Pull by way: against the breaking load, against the working load limit.
PULLS = {"ahead": (0.8, 0.435), "aft": (0.5, 0.5), "aside": (0.5, 0.25)}
FRICTION, TIPPING_ASIDE, WORKING, SHEAR, CLAMP, NUT = 0.3, 0.6, 1 / 3, 0.6, 0.75, 0.2
LIMIT = 1e-9  # inches beyond the edge that are none

# Inches, threads to the inch.
THREADS = {"1/4-20": (1 / 4, 20), "5/16-18": (5 / 16, 18), "3/8-16": (3 / 8, 16), "1/2-13": (1 / 2, 13), "3/8-24": (3 / 8, 24), "1-8": (1, 8)}
METRIC = {"M6": (6, 1.0), "M8": (8, 1.25), "M10": (10, 1.5), "M12": (12, 1.75), "M10x1.25": (10, 1.25), "M20": (20, 2.5)}
STRAPS = [
    ('sort = "webbing", size = "1 3/4 in"', 1750), ('sort = "webbing", size = "2 in"', 2000), ('sort = "webbing", size = "4 in"', 4000),
    ('sort = "chain", size = "1/4 in", grade = "70"', 3150), ('sort = "chain", size = "5/16 in"', 1900),
    ('sort = "chain", size = "3/8 in", grade = "100"', 8800), ('sort = "rope", size = "3/8 in"', 400),
    ('sort = "rope", size = "1/2 in", made_of = "polyester"', 960), ('sort = "rope", size = "5/8 in", made_of = "nylon"', 935),
    ('sort = "steel strap", size = "1 1/4 in"', 1190), ('sort = "steel strap", size = "1 1/4 in", thickness = "0.057 in"', 1925),
    ('sort = "wire rope", size = "5/16 in"', 2100),
]


def grade_of(chance, size):
    """Grade, proof stress and tensile strength in Pa, for a thread that is made of it."""
    if size in METRIC:
        if chance.random() < 0.5:
            return "10.9", 830e6, 1040e6
        return ("8.8", 600e6, 830e6) if METRIC[size][0] > 16 else ("8.8", 580e6, 800e6)
    thick = THREADS[size][0]
    return chance.choice([
        ("2", (55 if thick <= 0.75 else 33) * KSI, (74 if thick <= 0.75 else 60) * KSI),
        ("5", 85 * KSI, 120 * KSI),
        ("8", 120 * KSI, 150 * KSI),
        ("A307", None, 60 * KSI),
    ])


def bolt_of(chance):
    """The text of a bolt and what is known of it."""
    size = chance.choice([*THREADS, *METRIC])
    grade, proof, tensile = grade_of(chance, size)
    if size in METRIC:
        d, p = (value / 1000 for value in METRIC[size])
        root = d - 0.9382 * p
    else:
        d, p = THREADS[size][0] * IN, IN / THREADS[size][1]
        root = d - 0.9743 * p
    stress = math.pi * root**2 / 4
    shank = chance.random() < 0.3
    count = chance.choice([None, 4, 8])
    text = f'size = "{size}", grade = "{grade}"'
    text += ', sheared = "shank"' if shank else ""
    text += f", count = {count}" if count else ""
    return text, {
        "d": d, "stress": stress, "sheared": math.pi * d**2 / 4 if shank else stress, "proof": proof, "tensile": tensile, "count": count,
    }


def rated(chance, least, most):
    """The text of a rating, and its breaking load and working load limit in pounds, None where one is not known."""
    breaking = chance.randint(least, most)
    which = chance.random()
    if which < 0.4:
        return f'breaking = "{breaking} lb"', (breaking, breaking * WORKING)
    working = max(1, breaking // chance.choice([3, 4, 5]))
    if which < 0.9:
        return f'breaking = "{breaking} lb", working = "{working} lb"', (breaking, working)
    return f'working = "{working} lb"', (None, working)


def rows_from_edge(size, spread, rows):
    return numpy.linspace((size - spread) / 2, (size + spread) / 2, rows)


def far_pull(moment, size, spread, rows, each):
    """Pull on each anchor of the far row: moments about the edge, and each row stretched as its distance says."""
    s = rows_from_edge(size, spread, rows)
    matrix, right = numpy.zeros((rows, rows)), numpy.zeros(rows)
    matrix[0], right[0] = each * s, moment
    for row in range(1, rows):
        matrix[row, row - 1], matrix[row, row] = s[row], -s[row - 1]
    return numpy.linalg.solve(matrix, right)[-1]


def tiedowns(length_ft, pounds, blocked):
    """Counted up ten feet at a time."""
    number, covered = 0, 0.0
    while covered < length_ft - 1e-9:
        number, covered = number + 1, covered + 10
    if blocked:
        return max(1, number)
    if length_ft > 10 + 1e-9:
        return number + 1
    return 1 if length_ft <= 5 + 1e-9 and pounds <= 1100 + 1e-9 else 2


class Part:
    """One part in the box, its text, and what must come of it."""

    def __init__(self, chance, tag, kind):
        self.chance, self.tag, self.kind = chance, tag, kind
        self.table = "tank" if kind == "tank" else "item"
        self.of = f"{self.table} `{tag}`"
        self.size = [chance.randint(8, 90), chance.randint(8, 60), chance.randint(6, 70)]
        self.mass = chance.randint(5, 1300)
        self.place = [chance.randint(0, 40), chance.randint(0, 12)]
        self.outside = chance.random() < 0.2
        self.expect = {}
        lines = [f"[[{self.table}]]", f'tag = "{tag}"', f'mass = "{self.mass} lb"']
        if self.table == "item":
            lines.append(f'kind = "{kind}"')
        lines += [f'{name} = "{value} in"' for name, value in zip(("length", "width", "height"), self.size)]
        if self.outside:
            lines += ['zone = "roof"', f'at = {{ front = "{self.place[0]} in", left = "{self.place[1]} in" }}']
        else:
            lines.append(f'at = {{ front = "{self.place[0]} in", left = "{self.place[1]} in" }}')
        self.cg = [size / 2 for size in self.size]
        if chance.random() < 0.5:
            self.cg = [round(size * chance.uniform(0.2, 0.8), 2) for size in self.size]
            lines.append("cg = { " + ", ".join(f'{name} = "{value} in"' for name, value in zip(("front", "left", "floor"), self.cg)) + " }")
        # Bodies: pounds and place within the part.
        self.bodies = [(self.mass, self.cg)]
        if kind == "tank":
            gallons, most = chance.randint(2, 30), chance.choice([1.0, 0.5, 0.25])
            lines.append(f'capacity = "{gallons} gal"')
            if most < 1:
                lines.append(f'on_road = {{ least = "0 %", most = "{most:.0%}" }}')
            self.bodies.append((gallons * most * 8.34, [size / 2 for size in self.size]))
        self.lines = lines

    def keep(self, pounds, place):
        """Something kept in it, at a place within it."""
        self.bodies.append((pounds, place))

    def anchored(self):
        chance = self.chance
        anchors = []
        self.blocked = chance.random() < 0.3
        if self.blocked:
            anchors.append('blocked = ["ahead"]')
        self.hung = chance.random() < 0.1
        if self.hung:
            anchors.append("hung = true")
        self.mu = FRICTION
        if chance.random() < 0.4:
            self.mu = chance.randint(10, 90) / 100
            anchors.append(f'friction = "{self.mu * 100:.0f} %"')
        rows = (chance.randint(2, 3), chance.randint(2, 3))
        count = rows[0] * rows[1] * chance.randint(1, 2)
        self.links, self.pieces, self.caps = [], count, []
        self.bolt = None
        held_by = chance.choice(["bolt", "each", "both", "straps"])
        if held_by != "straps":
            anchors.append(f"count = {count}")
        if held_by in ("bolt", "both"):
            text, self.bolt = bolt_of(chance)
            anchors.append(f"bolt = {{ {text} }}")
        self.straps = []
        if held_by == "straps" or chance.random() < 0.1:
            for _ in range(chance.randint(1, 2)):
                text, pounds = chance.choice(STRAPS)
                number, runs = chance.randint(1, 3), chance.choice(["", "to part", "same side", "across"])
                breaking = None
                if chance.random() < 0.4:
                    pounds = chance.randint(200, 3000)
                    text += f', working = "{pounds} lb"'
                if chance.random() < 0.6:
                    breaking = 3 * pounds
                    text += f', breaking = "{breaking} lb"'
                text += f", count = {number}" + (f', runs = "{runs}"' if runs else "")
                tension = angle = None
                if runs == "across" and chance.random() < 0.7:
                    tension, angle = chance.randint(20, 400), chance.randint(20, 120)
                    text += f', tension = "{tension} lb", angle = "{angle} °"'
                self.straps.append({
                    "text": text, "working": pounds, "breaking": breaking, "count": number, "across": runs == "across",
                    "tension": tension, "angle": angle and math.radians(min(angle, 90)),
                })
            self.pieces = sum(strap["count"] for strap in self.straps)
        # With straps in one chain the rows must still come out even, or the pull of tipping cannot be told.
        if self.bolt:
            bolts = self.bolt["count"] or self.pieces
            one = self.bolt["sheared"] * SHEAR * self.bolt["tensile"] / LBF
            self.links.append(("bolts", bolts * one, bolts * one * WORKING))
        if held_by in ("each", "both", "straps"):
            text, (breaking, working) = rated(chance, 300, 9000)
            anchors.append(f"each = {{ {text} }}")
            self.add("fittings", self.pieces, breaking, working)
            self.caps.append(working)
        if self.straps:
            anchors.append("straps = [" + ", ".join(f"{{ {strap['text']} }}" for strap in self.straps) + "]")
            breaking = [strap["breaking"] for strap in self.straps]
            self.links.append((
                "straps",
                None if None in breaking else sum(b * s["count"] for b, s in zip(breaking, self.straps)),
                sum(s["working"] * s["count"] for s in self.straps),
            ))
        tracked = chance.random() < 0.4
        if tracked:
            text, (breaking, working) = rated(chance, 500, 6000)
            screws, (screw_breaking, screw_working) = rated(chance, 100, 1500)
            number = chance.randint(2, 20)
            anchors.append(f"track = {{ {text}, fasteners = {number}, fastener = {{ {screws} }} }}")
            self.add("track", self.pieces, breaking, working)
            self.add("fasteners of the track", number, screw_breaking, screw_working)
            self.caps.append(working)
        self.into = chance.choice(["frame", "posts", "bows", "plywood", "skin"])
        anchors.append(f'fixed_to = "{self.into}"')
        self.unsure = self.into in ("plywood", "skin") and not tracked
        if chance.random() < 0.5:
            text, (breaking, working) = rated(chance, 200, 5000)
            anchors.append(f"member = {{ {text} }}")
            self.add("what it is fixed to", self.pieces, breaking, working)
            self.caps.append(working)
            self.unsure = False
        self.rows, self.spread, self.ring = rows, None, None
        if chance.random() < 0.85:
            self.spread = [round(size * chance.uniform(0.3, 1.0), 2) for size in self.size[:2]]
            base = f'long = "{self.spread[0]} in", across = "{self.spread[1]} in"'
            if rows != (2, 2) or chance.random() < 0.5:
                base += f", rows_long = {rows[0]}, rows_across = {rows[1]}"
            if chance.random() < 0.15:
                self.ring = chance.randint(5, 60)
                base += f', height = "{self.ring} in"'
            anchors.append(f"base = {{ {base} }}")
        self.latch = None
        if chance.random() < 0.2:
            text, (breaking, working) = rated(chance, 50, 900)
            unfolds = chance.choice(["ahead", "aft", "left", "right"])
            pounds, cg, arm, number = chance.randint(10, 90), chance.randint(10, 40), chance.randint(10, 70), chance.randint(1, 3)
            self.latch = (unfolds, pounds, cg, arm, number, breaking, working)
            anchors.append(f'latch = {{ count = {number}, unfolds = "{unfolds}", mass = "{pounds} lb", cg = "{cg} in", arm = "{arm} in", {text} }}')
        self.kinds = {line.split(" = ")[0] for line in anchors}
        self.lines += [f"[{self.table}.anchors]", *anchors]

    def add(self, name, count, breaking, working):
        self.links.append((name, None if breaking is None else count * breaking, count * working))

    def set(self, key, value, within=1e-9, scale=None):
        self.expect[(key, self.of)] = Expect(value, within, scale)

    def finish(self):
        """Every figure of the part, in SI."""
        masses = numpy.array([pounds for pounds, _ in self.bodies], dtype=float)
        centre = masses @ numpy.array([place for _, place in self.bodies], dtype=float) / masses.sum()
        pounds = masses.sum()
        self.set("weight", pounds * LB)
        for way, pull in PULLS.items():
            for against, c in zip(("breaking", "working"), pull):
                self.set(f"pull_{way}_{against}", c * pounds * LBF)
            left = max(0.0, pull[0] - self.mu) * pounds
            self.set(f"slide_{way}", left * LBF, 1e-9, pounds * LBF)
        self.set("aggregate_needed", pounds / 2 * LBF)
        self.set("count", float(self.pieces))
        self.set("count_needed", float(tiedowns(self.size[0] / 12, pounds, self.blocked)))
        self.set("held_down_needed", pounds / 5 * LBF if self.outside else None)
        self.set("fixed_in_members", self.into in ("frame", "posts", "bows"))
        self.set("sheet_unrated", self.unsure)
        if self.kind == "cylinder":
            self.set("cylinder_hold_needed", 4 * pounds * LBF)
        totals = {}
        for at, against in ((1, "breaking"), (2, "working")):
            all_known = not self.unsure and all(link[at] is not None for link in self.links)
            totals[against] = min(link[at] for link in self.links) if all_known else None
            weakest = min(self.links, key=lambda link: link[at])[0] if all_known else None
            self.set(f"strength_{against}", totals[against] and totals[against] * LBF)
            self.set(f"weakest_{against}", weakest)
            self.set(f"anchor_strength_{against}", totals[against] and totals[against] / self.pieces * LBF)
        if totals["working"] is None:
            counted = None
        elif self.straps:
            counted = sum(s["count"] * min([s["working"], *self.caps]) * (1 if s["across"] else 0.5) for s in self.straps)
        else:
            counted = totals["working"] / 2
        self.set("aggregate", counted and counted * LBF)
        self.bolted()
        self.tipped(pounds, centre)
        self.drawn(pounds)
        under = self.floor if self.outside else 0
        self.set("above_floor", (under + self.cg[2]) * IN)
        words = [(self.bolt, "bolts"), ("each" in self.kinds, "fittings"), (self.straps, "straps"), ("track" in self.kinds, "track")]
        self.set("how_held", [word for there, word in words if there])
        if self.latch:
            unfolds, folded, cg, arm, number, breaking, working = self.latch
            way = unfolds if unfolds in PULLS else "aside"
            for against, c, holds in zip(("breaking", "working"), PULLS[way], (breaking, working)):
                # Moments about the hinge.
                self.set(f"latch_pull_{against}", c * folded * cg * LBF / arm)
                self.set(f"latch_strength_{against}", None if holds is None else number * holds * LBF)

    def drawn(self, pounds):
        """Straps over the top: each leg pulls down by its share of upright."""
        drawn = [strap for strap in self.straps if strap["tension"]]
        if not drawn:
            return
        down = sum(2 * s["count"] * s["tension"] * math.sin(s["angle"]) for s in drawn)
        self.set("pressed_down", self.mu * (pounds + down) * LBF)
        for way, safety in (("ahead", 1.25), ("aft", 1.1), ("aside", 1.1)):
            # So many straps that their friction makes up for what the part's own leaves, with the factor on top.
            lacking = max(0.0, (PULLS[way][0] - self.mu) * pounds)
            by_one = 2 * self.mu * drawn[0]["tension"] * math.sin(drawn[0]["angle"])
            self.set(f"lashings_{way}", safety * lacking / by_one, 1e-9, max(1.0, pounds / by_one))

    def bolted(self):
        if not self.bolt:
            return
        bolt = self.bolt
        self.set("stress_area", bolt["stress"])
        proof = bolt["proof"] and bolt["proof"] * bolt["stress"]
        self.set("proof_load", proof)
        self.set("clamp_load", proof and CLAMP * proof)
        self.set("torque", proof and NUT * bolt["d"] * CLAMP * proof)
        self.set("bolt_pull_strength", bolt["tensile"] * bolt["stress"])
        self.set("bolt_shear_strength", SHEAR * bolt["tensile"] * bolt["sheared"])

    def tipped(self, pounds, centre):
        edges = {"ahead": centre[0], "aft": self.size[0] - centre[0], "aside": min(centre[1], self.size[1] - centre[1])}
        high = centre[2]
        for way, edge in edges.items():
            if self.hung:
                keys = [f"steady_{way}", f"tips_{way}", f"tilt_pull_{way}", f"anchor_load_{way}_breaking", f"anchor_load_{way}_working"]
                if self.bolt:
                    keys += [f"bolt_used_{way}_breaking", f"bolt_used_{way}_working"]
                for key in keys:
                    self.set(key, None)
                continue
            self.set(f"steady_{way}", edge / high)
            hardest = TIPPING_ASIDE if way == "aside" else PULLS[way][0]
            # The resultant of weight and pull meets the floor this far beyond the edge.
            self.set(f"tips_{way}", bool(hardest * high - edge > LIMIT))
            axis = 1 if way == "aside" else 0
            for against, c in (("breaking", hardest), ("working", PULLS[way][1])):
                beyond = c * high - edge
                pull = 0.0 if beyond <= LIMIT else self.tilt(pounds * beyond, axis)
                shear = PULLS[way][0 if against == "breaking" else 1] * pounds / self.pieces
                near = pounds * LBF
                if against == "breaking":
                    self.set(f"tilt_pull_{way}", pull if pull is None else pull * LBF, 1e-9, near)
                load = None if pull is None else max(pull, shear) if self.ring and beyond > LIMIT else math.hypot(pull, shear)
                self.set(f"anchor_load_{way}_{against}", load and load * LBF)
                if self.bolt:
                    more = self.pieces / (self.bolt["count"] or self.pieces)
                    share = 1 if against == "breaking" else WORKING
                    holds = [share * self.bolt["tensile"] * area / LBF for area in (self.bolt["stress"], SHEAR * self.bolt["sheared"])]
                    used = None if pull is None else (pull * more / holds[0]) ** 2 + (shear * more / holds[1]) ** 2
                    self.set(f"bolt_used_{way}_{against}", used)

    def tilt(self, moment, axis):
        if self.spread is None:
            return None
        if self.ring:
            return moment / self.ring / self.pieces
        rows = self.rows[axis] if "rows_long" in " ".join(self.lines) else 2
        if self.pieces % rows:
            return None
        return far_pull(moment, self.size[axis], self.spread[axis], rows, self.pieces // rows)


HEAD = """[build]
number = "A-1"
title = "by chance"
stage = "design"

[trailer]
mass = "1500 lb"
ball_to_box = "36 in"
length = "200 in"
width = "90 in"
height = "{height} in"
wall = "1 in"
roof = "2 in"
floor_height = "20 in"
frame_height = "17 in"
nose = {{ shape = "flat" }}
"""


def draw(chance):
    height = chance.randint(60, 90)
    parts, kept = [], []
    for number in range(chance.randint(1, 3)):
        kind = chance.choice(["module", "equipment", "battery", "cylinder", "appliance", "tank"])
        part = Part(chance, f"p{number}", kind)
        part.floor = height + 2
        part.anchored()
        if chance.random() < 0.4 and not part.outside:
            pounds = chance.randint(1, 80)
            place = [chance.randint(0, size) for size in part.size]
            within = [place[0] + part.place[0], place[1] + part.place[1], place[2]]
            part.keep(pounds, place)
            kept.append(
                f'[[load]]\ntag = "k{number}"\nmass = "{pounds} lb"\nleast = "0 lb"\n'
                f'at = {{ front = "{within[0]} in", left = "{within[1]} in", floor = "{within[2]} in" }}\n'
                f'anchors = {{ held_by = "p{number}" }}\n'
            )
        parts.append(part)
    expect = {}
    for part in parts:
        part.finish()
        expect.update(part.expect)
    leaning = sum(sum(pounds for pounds, _ in part.bodies) for part in parts if part.blocked)
    if leaning:
        expect[("front_wall_needed", "the build")] = Expect((0.5 if height < 72 else 0.4) * leaning * LBF)
    text = HEAD.format(height=height) + "\n".join("\n".join(part.lines) + "\n" for part in parts) + "\n" + "\n".join(kept)
    return text, expect


if __name__ == "__main__":
    figures.main("anchor", draw, least=40)
