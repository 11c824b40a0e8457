"""Works out again what scale tickets say of the sum of a trailer's parts, with numpy and scipy, and compares with `pintle figures`.

    python3 tests/oracles/scale.py [--count N] [--seed N] [--self-test] [--pintle PATH]

The one weight that explains the tickets comes from `numpy.linalg.lstsq`, the change of each part from `scipy.optimize`; how
sure a difference, that weight and its place are, from draws by chance of every written value (JCGM 101:2008).
"""

import datetime
import math

import numpy as np
from scipy import optimize

import figures
from figures import Expect

IN, LB = 0.0254, 0.45359237
DRAWS = 40_000
# Ten times the error of sampling a spread from so many, and what first order leaves out at a tenth of a value.
BY_CHANCE = 0.04
ROWS = {"gross": (1, 0, 0), "tongue": (1, -1, 0), "axles": (0, 1, 0), "left": (0, 0.5, -0.5), "right": (0, 0.5, 0.5)}


class Sure(Expect):
    """A value, and its expanded uncertainty to a share."""

    def __init__(self, value, expanded, within=1e-9, scale=None, by_chance=BY_CHANCE):
        super().__init__(value, within, scale)
        self.expanded, self.by_chance = expanded, by_chance

    def off(self, entry):
        if "uncertainty" not in entry:
            return math.inf
        apart = abs(entry["uncertainty"] / self.expanded - 1)
        return max(super().off(entry), 0.0 if apart <= self.by_chance else math.inf)


class Value:
    """A written value with its ±: as it is, and drawn."""

    def __init__(self, generator, value, half, unit):
        self.text = f'"{value} {unit} ± {half} {unit}"'
        factor = {"lb": LB, "in": IN}[unit]
        self.si, self.half = value * factor, half * factor
        self.drawn = generator.normal(self.si, self.half / 2, DRAWS)


def draw(chance):
    while True:
        text, wanted = draw_one(chance)
        if wanted is not None:
            return text, wanted


def measures(mass, x, y, axle, track):
    """What rests where, of rows of bodies."""
    gross, on_axles, side = mass.sum(0), (mass * x).sum(0) / axle, 2 * (mass * y).sum(0) / track
    return {"gross": gross, "tongue": gross - on_axles, "axles": on_axles,
            "left": (on_axles - side) / 2, "right": (on_axles + side) / 2}


def solved(seen, names):
    """Weighted least squares over the readings of these names; the unknowns as columns, what is left, the rows used."""
    used = [one for one in seen if one["of"] in names]
    size = 3 if "left" in names else 2 if "axles" in names else 1
    rows = np.array([ROWS[one["of"]][:size] for one in used], float).reshape(len(used), size)
    u = np.array([one["u"] for one in used])
    if len(used) < size or np.linalg.matrix_rank(rows) < size:
        return None
    apart = np.array([one["read"].drawn - one["sum"] for one in used])
    nominal = np.array([one["read"].si - one["sum"] for one in used])
    both = np.column_stack([nominal, apart]) / u[:, None]
    unknowns = np.linalg.lstsq(rows / u[:, None], both, rcond=None)[0]
    left = (((nominal - rows @ unknowns[:, 0]) / u) ** 2).sum()
    return unknowns, left


def draw_one(chance):
    generator = np.random.default_rng(chance.randrange(2**32))
    inch = lambda low, high: round(chance.uniform(low, high), 2)
    written = lambda low, high, half, unit: Value(generator, inch(low, high), half, unit)
    to_box, wall = written(30, 55, 0.25, "in"), written(1, 1.5, 0.05, "in")
    axle, track = written(105, 125, 0.25, "in"), written(65, 90, 0.25, "in")
    bare, cg, middle = written(900, 1500, chance.choice([5, 60]), "lb"), written(90, 104, 1, "in"), written(-1, 1, 0.5, "in")
    basis = chance.choice(["weighed", "maker", "guessed"])
    lines = ['[build]', 'number = "T"', 'title = "drawn by chance"', 'stage = "delivery"', '[trailer]', f'mass = {bare.text}',
             f'mass_basis = "{basis}"', f'ball_to_box = {to_box.text}', 'length = "144 in"', 'width = "70 in"',
             'height = "75 in"', f'wall = {wall.text}', 'roof = "2 in"', 'floor_height = "20 in"', 'frame_height = "17 in"',
             'nose = { shape = "flat" }', f'cg = {{ ball = {cg.text}, centre = {middle.text}, ground = "30 in" }}',
             f'axle = {{ ball = {axle.text}, count = 1, track = {track.text} }}']
    ones = np.ones(DRAWS)
    # Name, mass, place: each with the value first and the draws after it.
    both = lambda value: np.concatenate([[value.si], value.drawn])
    bodies = [("the empty trailer", both(bare), both(cg), both(middle), basis != "weighed", bare.half)]
    for number in range(chance.randrange(2, 7)):
        mass = written(20, 220, chance.choice([2, 8, 20]), "lb")
        length, front, centre = written(10, 50, 0.2, "in"), written(0, 90, 0.5, "in"), written(-18, 18, 0.5, "in")
        basis = chance.choice(["weighed", "maker", "computed", "guessed", None])
        lines += ['[[item]]', f'tag = "i{number}"', 'kind = "module"', f'mass = {mass.text}', f'length = {length.text}',
                  'width = "12 in"', 'height = "12 in"', f'at = {{ front = {front.text}, centre = {centre.text} }}']
        lines += [f'mass_basis = "{basis}"'] if basis else []
        x = both(to_box) + both(wall) + both(front) + both(length) / 2
        bodies.append((f"item `i{number}`", both(mass), x, both(centre), basis != "weighed", mass.half))
    mass, x, y = (np.array([body[at] for body in bodies]) for at in (1, 2, 3))
    sums = measures(mass, x, y, both(axle), both(track))
    # What the scale sees is something else: one part heavier, or something that nobody drew.
    real, where_x, where_y = mass[:, 0].copy(), x[:, 0].copy(), y[:, 0].copy()
    sort = chance.choice(["part", "hidden", "nothing", "both"])
    if sort in ("part", "both"):
        real[chance.randrange(len(real))] += chance.uniform(-30, 90) * LB
    if sort in ("hidden", "both"):
        real, where_x, where_y = (np.append(old, new) for old, new in
                                  ((real, chance.uniform(20, 120) * LB), (where_x, chance.uniform(1.5, 4.5)),
                                   (where_y, chance.uniform(-0.7, 0.7))))
    truth = measures(real[:, None], where_x[:, None], where_y[:, None], axle.si, track.si)
    lines += ['[record]', 'delivered = "2026-05-04"']
    wanted, seen, tickets = {("has_ticket", "state `road`"): Expect(True)}, [], []
    for number in range(chance.choice([1, 1, 2, 3])):
        step, own = chance.choice([2, 5, 10, 20]), chance.choice([None, 1, 2])
        by = chance.choice([None, None, "read", "difference"])
        ticket, name = {}, f"ticket {number + 1}, state `road`"
        day = datetime.date(2026, 5, 4) - datetime.timedelta(days=chance.randrange(0, 80))
        lines += ['[[record.ticket]]', 'state = "road"', f'date = "{day}"', f'resolution = "{step} lb"']
        lines += [f'tongue_resolution = "{own} lb"'] * bool(own) + [f'tongue_by = "{by}"'] * bool(by)
        wanted["ticket_age", name] = Expect((datetime.date(2026, 5, 4) - day).days * 86400.0, 1e-9, 86400.0)
        kept = chance.choice([["gross", "tongue", "axles"], ["gross", "tongue"], ["tongue", "axles"], ["gross", "axles"],
                              list(ROWS), ["tongue", "left", "right"], ["gross", "axles", "left", "right"], ["gross"],
                              ["tongue", "axles", "left"]])
        for of in kept:
            shown = own or step if of == "tongue" else step
            value = round(truth[of].item() / LB / shown) * shown
            if value <= 0:
                return "", None
            twice, half = 2 * shown / math.sqrt(12), shown / 2
            if of == "tongue" and by == "difference":
                twice, half = twice * math.sqrt(2), float(shown)
            if chance.random() < 0.2:
                half = twice = float(chance.choice([1, 4]))
                lines.append(f'{of} = "{value} lb ± {half} lb"')
            else:
                lines.append(f'{of} = "{value} lb"')
            read = Value(generator, value, twice, "lb")
            ticket[of] = (read, half * LB)
            seen.append({"of": of, "read": read, "u": read.half / 2, "most": half * LB, "sum": sums[of][0]})
            apart = read.drawn - sums[of][1:]
            expanded = 2 * apart.std()
            wanted[f"{of}_residual", name] = Sure(read.si - sums[of][0], expanded, 1e-9, sums["gross"][0])
            over = abs(read.si - sums[of][0]) / expanded
            wanted[f"{of}_residual_over_spread", name] = Expect(over, BY_CHANCE * over + 1e-9, 1.0)
        tickets.append((name, ticket, by))
    for name, ticket, by in tickets:
        as_weighed(wanted, name, ticket, by, sums)
    lines += ['[[state]]', 'name = "road"', 'use = "road"']
    if not explained(wanted, seen, bodies, axle, track):
        return "", None
    unweighed = sum(body[1][0] for body in bodies if body[4])
    wanted["unweighed_mass", "state `road`"] = Expect(unweighed, 1e-9, sums["gross"][0])
    return "\n".join(lines) + "\n", wanted


def as_weighed(wanted, name, ticket, by, sums):
    """Read, or from two other readings; and how far off that can be."""
    read = {of: (value.si, most) for of, (value, most) in ticket.items()}
    add = lambda one, other, sign=1: (one[0] + sign * other[0], one[1] + other[1])
    axles_read = read.get("axles") or (add(read["left"], read["right"]) if {"left", "right"} <= set(read) else None)
    tongue, gross = read.get("tongue"), read.get("gross")
    whole = gross or (add(tongue, axles_read) if tongue and axles_read else None)
    ball = tongue or (add(gross, axles_read, -1) if gross and axles_read else None)
    axles = axles_read or (add(gross, tongue, -1) if gross and tongue else None)
    scale = sums["gross"][0]
    exact = lambda value, scale=scale: Expect(value, 1e-9, scale)
    wanted["weighed_gross", name] = exact(whole and whole[0])
    wanted["weighed_tongue", name] = exact(ball and ball[0])
    wanted["weighed_axles", name] = exact(axles and axles[0])
    sides = {}
    for of, other in (("left", "right"), ("right", "left")):
        side = read.get(of) or (add(read["axles"], read[other], -1) if "axles" in read and other in read else None)
        sides[of] = side and side[0]
        wanted[f"weighed_{of}", name] = exact(sides[of])
    known = sides["left"] is not None and sides["right"] is not None
    share = abs(sides["right"] - sides["left"]) / (sides["right"] + sides["left"]) if known else None
    wanted["weighed_side_share", name] = exact(share, 1.0)
    both = whole and ball
    wanted["weighed_tongue_share", name] = exact(ball[0] / whole[0] if both else None, 1.0)
    wanted["tongue_spread", name] = exact(ball and ball[1])
    wanted["tongue_share_spread", name] = exact(ball[1] / whole[0] if both else None, 1.0)
    wanted["weight_drift", name] = exact(whole and whole[0] - scale)
    planned = sums["tongue"][0] / scale
    wanted["tongue_share_drift", name] = exact(ball[0] / whole[0] - planned if both else None, 1.0)
    for keys, parts, total in (("", ("tongue", "axles"), "gross"), ("sides_", ("left", "right"), "axles")):
        judged = {*parts, total} <= set(read) and not (keys == "" and by == "difference")
        out = sum(read[part][0] for part in parts) - read[total][0] if judged else None
        wanted[f"{keys}out_of_balance", name] = exact(out)
        slack = sum(read[of][1] for of in (*parts, total)) if judged else None
        wanted[f"{keys}in_balance", name] = Expect(bool(abs(out) <= slack * (1 + 1e-9)) if judged else None)


def explained(wanted, seen, bodies, axle, track):
    """One weight that would explain it all, and each part's mass by itself; false where rounding would decide."""
    build = "the build"
    apart = np.array([one["read"].si - one["sum"] for one in seen])
    u, most = (np.array([one[key] for one in seen]) for key in ("u", "most"))
    before = ((apart / u) ** 2).sum()
    for names in (list(ROWS), ["gross", "tongue", "axles"], ["gross"]):
        found = None if names == list(ROWS) and not any(one["of"] in ("left", "right") for one in seen) else solved(seen, names)
        if found is not None:
            break
    if found is None:
        for key in ("unaccounted_mass", "unaccounted_behind_ball", "unaccounted_right_of_centre", "chi_square_before"):
            wanted[key, build] = Expect(None)
    else:
        unknowns, left = found
        mass, expanded = unknowns[0, 0], 2 * unknowns[0, 1:].std()
        if abs(abs(mass) / expanded - 1) < 0.05:
            return False
        wanted["unaccounted_mass", build] = Sure(mass, expanded, 1e-9, max(abs(mass), 1.0))
        wanted["chi_square_before", build] = Expect(before, 1e-8, max(before, 1.0))
        wanted["chi_square_after", build] = Expect(left, 1e-7, max(before, 1.0))
        for at, key, by in ((1, "unaccounted_behind_ball", axle), (2, "unaccounted_right_of_centre", track)):
            if len(unknowns) <= at or abs(mass) <= expanded:
                wanted[key, build] = Expect(None)
                continue
            half = 0.5 if at == 2 else 1.0
            place = half * by.si * unknowns[at, 0] / mass
            drawn = half * by.drawn * unknowns[at, 1:] / unknowns[0, 1:]
            # A quotient is bent where what it is divided by is itself in doubt.
            sure = abs(mass) > 12 * expanded
            wanted[key, build] = (Sure(place, 2 * drawn.std(), 1e-8, 1.0) if sure else Expect(place, 1e-8, 1.0))
    if any(abs(abs(gap) - limit) < 1e-6 for gap, limit in zip(apart, most)):
        return False
    if (np.abs(apart) <= most).all():
        wanted["suspects", build] = Expect(None)
        return True
    suspects = []
    for name, mass, x, y, unweighed, half in bodies:
        if not unweighed:
            continue
        part = measures(mass[:1, None], x[:1, None], y[:1, None], axle.si, track.si)
        amounts = np.array([part[one["of"]].item() for one in seen])
        off = lambda change: (((apart - change * amounts) / u) ** 2).sum()
        best = optimize.least_squares(lambda change: (apart - change * amounts) / u, [0.0], xtol=1e-15, ftol=1e-15, gtol=1e-15)
        change = best.x[0]
        if abs(off(change) / before - 0.5) < 1e-6:
            return False
        if off(change) <= 0.5 * before:
            spreads = abs(change) * mass[0] / half
            suspects.append((off(change) + (2 * spreads) ** 2, name, change * mass[0], off(change), spreads))
    suspects.sort()
    if any(abs(one[0] - other[0]) < 1e-6 * one[0] for one, other in zip(suspects, suspects[1:])):
        return False
    for _, name, change, left, spreads in suspects[:10]:
        wanted["mass_change", name] = Expect(change, 1e-7, max(abs(change), 1.0))
        wanted["mass_change_chi_square", name] = Expect(left, 1e-6, max(before, 1.0))
        wanted["mass_change_over_spread", name] = Expect(spreads, 1e-7, max(spreads, 1.0))
    return True


if __name__ == "__main__":
    figures.main("scale", draw, count=200, least=25.0)
