"""Works out yaw inertia, damping and critical speeds again, with numpy and scipy, and compares with `pintle figures`.

    python3 tests/oracles/sway.py [--count N] [--seed N] [--self-test] [--pintle PATH]

Bodies are numpy rows; the model is the whole state matrix, six by six, from M, C and K as docs/src/calculation/sway.md
states them, with its two zero roots divided out of the characteristic polynomial; speeds are bracketed on a grid of their own and closed by `scipy.optimize.brentq`.
"""

import math

import numpy as np
from scipy import optimize

import figures
from figures import Expect

IN, LB = 0.0254, 0.45359237
GALLON = 231 * IN**3
WATER = 8.34 * LB / GALLON
G = 9.80665
TOP = 90.0

ASSUMED = {
    "speed": (65, "mph", 1609.344 / 3600),
    "front_share": (55, "%", 0.01),
    "dynamic_index": (100, "%", 0.01),
    "front_coefficient": (8.5, "/rad", 1),
    "rear_coefficient": (10.5, "/rad", 1),
    "trailer_coefficient": (4.5, "/rad", 1),
    "empty_inertia": (100, "%", 0.01),
}


def roots(train, u):
    """The four roots that are not zero by nature."""
    d, e = train["d"], train["e"]
    axles = [((1, train["a"], 0), (0, 1, 0), train["cf"]), ((1, -train["b"], 0), (0, 1, 0), train["cr"])]
    axles += [((1, -d, -l), (0, 0, 1), c) for l, c in train["axles"]]
    vehicle, trailer = np.array([1, 0, 0]), np.array([1, -d, -e])
    mass = train["m"] * np.outer(vehicle, vehicle) + train["mt"] * np.outer(trailer, trailer)
    mass = mass + np.diag([0, train["i"], train["it"]])
    damping, stiffness = np.zeros((3, 3)), np.zeros((3, 3))
    for j, heading, c in axles:
        damping += c / u * np.outer(j, j)
        stiffness -= c * np.outer(j, heading)
    state = np.block([[np.zeros((3, 3)), np.eye(3)],
                      [-np.linalg.solve(mass, stiffness), -np.linalg.solve(mass, damping)]])
    # Shifting the road, and turning it, changes nothing: the last two coefficients of the characteristic polynomial are
    # zero. Without them it is one of the fourth degree, and no root of it need be told from a zero.
    return np.roots(np.poly(state)[:5])


def yaw_mode(found):
    swinging = [root for root in found if root.imag > 1e-9]
    return min(swinging, key=lambda root: -root.real / abs(root)) if swinging else None


def growth(found, swinging):
    """The largest real part of the roots that swing, or of those that do not."""
    return max((root.real for root in found if (abs(root.imag) > 1e-9) == swinging), default=-math.inf)


def lack(found):
    """How much less than 0.05 the yaw mode is damped."""
    mode = yaw_mode(found)
    return -math.inf if mode is None else 0.05 + mode.real / abs(mode)


GRID = np.concatenate([np.arange(1.0, TOP, 0.37), [TOP]])


def lowest(train, on_grid, of):
    """The lowest speed at which something reaches zero, if it does up to TOP; and whether that hangs by a hair."""
    values = [of(found) for found in on_grid]
    finite = [value for value in values if math.isfinite(value)]
    # A near miss of zero could be a crossing for one of the two programs alone.
    doubtful = bool(finite) and -2e-3 < max(finite) < 0
    if values[0] >= 0:
        return None, True
    for below, above, low, high in zip(GRID, GRID[1:], values, values[1:]):
        if low < 0 <= high:
            if not math.isfinite(low):
                return None, True
            return optimize.brentq(lambda u: of(roots(train, u)), below, above, xtol=1e-13, rtol=1e-14), False
    return None, doubtful


def draw(chance):
    while True:
        text, wanted = draw_one(chance)
        if wanted is not None:
            return text, wanted


def draw_one(chance):
    inch = lambda low, high: round(chance.uniform(low, high), 2)
    length, width, wall = inch(100, 190), inch(55, 80), chance.choice([1, 1.5])
    to_box, axle = inch(30, 60), 0
    rear = to_box + wall + length + wall
    axle = round(to_box + length * chance.uniform(0.45, 0.68), 2)
    track, cg, mass = inch(60, 95), round(axle * chance.uniform(0.8, 1.0), 2), inch(800, 2600)
    height = inch(25, 40)
    lines = ['[build]', 'number = "T"', 'title = "drawn by chance"', 'stage = "design"', '[trailer]',
             f'mass = "{mass} lb"', f'ball_to_box = "{to_box} in"', f'length = "{length} in"', f'width = "{width} in"',
             'height = "75 in"', f'wall = "{wall} in"', 'roof = "2 in"', 'floor_height = "20 in"', 'frame_height = "17 in"',
             'nose = { shape = "flat" }', f'cg = {{ ball = "{cg} in", centre = "0 in", ground = "{height} in" }}']
    empty = mass * LB / 12 * ((rear - to_box) ** 2 + (width + 2 * wall) ** 2) * IN * IN
    assumed = {key: value * unit for key, (value, _, unit) in ASSUMED.items()}
    restated = []
    for key, (value, unit, factor) in ASSUMED.items():
        if chance.random() < 0.5:
            value = round(value * chance.uniform(0.7, 1.5), 3)
            value = min(value, 80) if key == "front_share" else value
            restated.append(f'{key} = "{value} {unit}"')
            assumed[key] = value * factor
    empty *= assumed["empty_inertia"]
    if chance.random() < 0.3:
        empty = round(chance.uniform(300, 3000), 1)
        lines.append(f'yaw_inertia = "{empty} kg·m²"')
    count = chance.choice([1, 1, 2, 3])
    group, spread, stated = f'axle = {{ ball = "{axle} in", count = {count}, track = "{track} in"', 0.0, None
    if count > 1:
        spread = inch(28, 40)
        group += f', spread = "{spread} in", suspension = "equalised"'
    if chance.random() < 0.3:
        stated = round(chance.uniform(20000, 120000), 1)
        group += f', stiffness = "{stated} N/rad"'
    lines.append(group + " }")
    # Mass, x, y, z of the middle and length and width, in kg and m; the first is the empty trailer.
    rows = [(mass * LB, cg * IN, 0.0, height * IN, None, None)]
    more, fills, carried = [], [], []
    for number in range(chance.randrange(0, 6)):
        l, b, h, m = inch(5, 60), inch(5, 30), inch(5, 40), inch(5, 250)
        front, centre = inch(0, length - 60), inch(-15, 15)
        more += ['[[item]]', f'tag = "i{number}"', 'kind = "module"', f'mass = "{m} lb"', f'length = "{l} in"',
                 f'width = "{b} in"', f'height = "{h} in"', f'at = {{ front = "{front} in", centre = "{centre} in" }}']
        x = to_box + wall + front + l / 2
        rows.append((m * LB, x * IN, centre * IN, (20 + h / 2) * IN, l * IN, b * IN))
    for number in range(chance.randrange(0, 3)):
        l, b, h, m, gallons = inch(10, 30), inch(8, 20), inch(6, 14), inch(3, 20), inch(3, 30)
        front, centre, fill = inch(0, length - 60), inch(-15, 15), chance.choice([0, 12.5, 40, 75, 100])
        more += ['[[tank]]', f'tag = "t{number}"', f'mass = "{m} lb"', f'capacity = "{gallons} gal"', f'length = "{l} in"',
                 f'width = "{b} in"', f'height = "{h} in"', f'at = {{ front = "{front} in", centre = "{centre} in" }}']
        fills.append(f't{number} = "{fill} %"')
        x = to_box + wall + front + l / 2
        rows.append((m * LB, x * IN, centre * IN, (20 + h / 2) * IN, l * IN, b * IN))
        water = gallons * GALLON * fill / 100 * WATER
        if water > 0:
            rows.append((water, x * IN, centre * IN, (20 + h * fill / 200) * IN, l * IN, b * IN))
    for number in range(chance.randrange(0, 3)):
        most, front, centre, up = inch(10, 200), inch(0, length), inch(-15, 15), inch(0, 60)
        now = round(most * chance.choice([0.3, 1.0]), 3)
        more += ['[[load]]', f'tag = "l{number}"', f'mass = "{most} lb"', 'least = "0 lb"',
                 f'at = {{ front = "{front} in", centre = "{centre} in", floor = "{up} in" }}']
        carried.append(f'l{number} = "{now} lb"')
        rows.append((now * LB, (to_box + wall + front) * IN, centre * IN, (20 + up) * IN, 0.0, 0.0))
    tow, wheelbase, over = inch(3000, 8000), inch(95, 165), inch(25, 60)
    lines += ['[tow]', f'mass = "{tow} lb"', f'wheelbase = "{wheelbase} in"', f'overhang = "{over} in"']
    share = assumed["front_share"]
    if chance.random() < 0.5:
        front, rest = inch(1500, 4500), inch(1400, 4000)
        lines += [f'front_axle = "{front} lb"', f'rear_axle = "{rest} lb"']
        share = front / (front + rest)
    m, a, b = tow * LB, wheelbase * (1 - share) * IN, wheelbase * share * IN
    inertia = assumed["dynamic_index"] * m * a * b
    if chance.random() < 0.3:
        inertia = round(chance.uniform(2500, 12000), 1)
        lines.append(f'yaw_inertia = "{inertia} kg·m²"')
    cf, cr = assumed["front_coefficient"] * share * m * G, assumed["rear_coefficient"] * (1 - share) * m * G
    if chance.random() < 0.3:
        cf = round(chance.uniform(40000, 160000), 1)
        lines.append(f'front_stiffness = "{cf} N/rad"')
    if chance.random() < 0.3:
        cr = round(chance.uniform(40000, 160000), 1)
        lines.append(f'rear_stiffness = "{cr} N/rad"')
    lines += more
    state = ['[[state]]', 'name = "road"', 'use = "road"']
    state += [f'fill = {{ {", ".join(fills)} }}'] * bool(fills) + [f'carry = {{ {", ".join(carried)} }}'] * bool(carried)
    lines += state
    if restated:
        lines += ["[assume.sway]"] + restated

    w = np.array([row[0] for row in rows])
    x, y, z = (np.array([row[at] for row in rows]) for at in (1, 2, 3))
    own = np.array([empty] + [row[0] / 12 * (row[4] ** 2 + row[5] ** 2) for row in rows[1:]])
    mt, e, across = w.sum(), np.average(x, weights=w), np.average(y, weights=w)
    it = (own + w * ((x - e) ** 2 + (y - across) ** 2)).sum()
    l = axle * IN
    moved = np.concatenate([x[:1], np.full(len(x) - 1, l)])
    together = np.average(moved, weights=w)
    at_axle = (own + w * ((moved - together) ** 2 + (y - across) ** 2)).sum()
    stiffness = stated * count if stated else assumed["trailer_coefficient"] * mt * e / l * G
    places = [l + spread * IN * (k - (count - 1) / 2) for k in range(count)]
    train = {"m": m, "i": inertia, "a": a, "b": b, "d": b + over * IN, "cf": cf, "cr": cr, "mt": mt, "it": it, "e": e,
             "axles": [(place, stiffness / count) for place in places]}
    road, vehicle = "state `road`", "the tow vehicle"
    wanted = {
        ("vehicle_front", vehicle): Expect(a), ("vehicle_rear", vehicle): Expect(b),
        ("vehicle_ball", vehicle): Expect(train["d"]), ("vehicle_inertia", vehicle): Expect(inertia),
        ("vehicle_front_stiffness", vehicle): Expect(cf), ("vehicle_rear_stiffness", vehicle): Expect(cr),
        ("yaw_inertia", road): Expect(it), ("yaw_inertia_at_ball", road): Expect(it + mt * e * e),
        ("yaw_radius", road): Expect(math.sqrt(it / mt)), ("heavy_ends", road): Expect(it / at_axle),
        ("stability_factor", road): Expect(track * IN / 2 / np.average(z, weights=w)),
        ("stiffness", road): Expect(stiffness),
    }
    spring = sum(c * place for place, c in train["axles"])
    brake = sum(c * place * place for place, c in train["axles"])
    closed = brake / (2 * 100 / 3.6 * math.sqrt(spring * (it + mt * e * e)))
    wanted["damping_heavy_vehicle", road] = Expect(closed)
    for key, u in (("80_km_h", 80 / 3.6), ("100_km_h", 100 / 3.6), ("towing_speed", assumed["speed"])):
        found = roots(train, u)
        mode = yaw_mode(found)
        # Within rounding of a double root, or of standing still, no definition says which way it goes.
        if any(abs(root.real) < 1e-4 for root in found) or any(1e-9 < abs(root.imag) < 1e-2 for root in found):
            return "", None
        wanted[f"damping_at_{key}", road] = Expect(None if mode is None else float(-mode.real / abs(mode)), 1e-8, 1.0)
        wanted[f"frequency_at_{key}", road] = Expect(None if mode is None else float(abs(mode) / math.tau), 1e-8)
        wanted[f"settles_at_{key}", road] = Expect(bool((found.real < 0).all()))
    on_grid = [roots(train, u) for u in GRID]
    snaking, in_doubt = lowest(train, on_grid, lambda found: growth(found, True))
    divergence, doubt = lowest(train, on_grid, lambda found: growth(found, False))
    slow, doubted = lowest(train, on_grid, lack)
    if in_doubt or doubt or doubted:
        return "", None
    kinds = [(speed, kind) for speed, kind in ((snaking, "snaking"), (divergence, "divergence")) if speed is not None]
    critical = min(kinds, default=(None, None))
    wanted["critical_speed", road] = Expect(critical[0], 1e-8)
    wanted["critical_kind", road] = Expect(critical[1])
    wanted["zero_damping_speed", road] = Expect(snaking, 1e-8)
    wanted["divergence_speed", road] = Expect(divergence, 1e-8)
    wanted["slow_damping_speed", road] = Expect(slow, 1e-8)
    return "\n".join(lines) + "\n", wanted


if __name__ == "__main__":
    figures.main("sway", draw, count=200, least=25.0)
