"""Works racks, roof bows, tents and ladders out again over random specs and compares with `pintle figures --of roof`.

    python3 tests/oracles/roof.py [--count 240] [--seed 118] [--pintle PATH]
    python3 tests/oracles/roof.py --self-test

Racks on several feet by the direct stiffness method (`numpy`), and every tenth of them besides by `indeterminatebeam`;
bows by stationary points of the cubic that each piece of a bent bar is; sections by the meshes of `sectionproperties`;
what the open tent covers and what swings into it by polygons of `shapely`.
"""

import math
import random
import sys

import numpy
import shapely
from indeterminatebeam import Beam, DistributedLoadV, PointLoadV, Support
from sectionproperties.analysis import Section
from sectionproperties.pre.geometry import Geometry

import figures
from figures import Expect

IN, LB, G = 0.0254, 0.45359237, 9.80665
PSI = LB * G / IN**2
LEAST = 0.02  # inches within which a yes or no is left to nobody
drawn = [0]


class Border(Exception):
    """A drawn spec stands on a border between yes and no; draw another."""


def over_supports(supports, patches, springs=None):
    """Reactions of a beam with E I = 1 by the direct stiffness method, on supports that do not yield, or on springs of a
    stiffness. Patches are (from, to, load)."""
    nodes = sorted(set(supports) | {end for patch in patches for end in patch[:2]})
    size = 2 * len(nodes)
    stiffness, load = numpy.zeros((size, size)), numpy.zeros(size)
    where = {x: number for number, x in enumerate(nodes)}
    for number, (a, b) in enumerate(zip(nodes, nodes[1:])):
        l, at = b - a, slice(2 * number, 2 * number + 4)
        stiffness[at, at] += numpy.array([
            [12, 6 * l, -12, 6 * l], [6 * l, 4 * l * l, -6 * l, 2 * l * l],
            [-12, -6 * l, 12, -6 * l], [6 * l, 2 * l * l, -6 * l, 4 * l * l]]) / l**3
        w = sum(p / (d - c) for c, d, p in patches if d > c and c <= a and b <= d)
        load[at] -= w * numpy.array([l / 2, l * l / 12, l / 2, -l * l / 12])
    for c, d, p in patches:
        if c == d:
            load[2 * where[c]] -= p
    held = [2 * where[s] for s in supports]
    if springs is not None:
        stiffness[held, held] += springs
        return [float(-springs * x) for x in numpy.linalg.solve(stiffness, load)[held]]
    free = [n for n in range(size) if n not in held]
    bent = numpy.zeros(size)
    bent[free] = numpy.linalg.solve(stiffness[numpy.ix_(free, free)], load[free])
    return [float((stiffness @ bent - load)[n]) for n in held]


def by_library(supports, patches):
    """The same by `indeterminatebeam`, on a beam that begins at nought."""
    start = min([*supports, *(patch[0] for patch in patches)]) - 0.1
    end = max([*supports, *(patch[1] for patch in patches)]) + 0.1
    beam = Beam(end - start, E=1e9, I=1e-3)
    for number, s in enumerate(supports):
        beam.add_supports(Support(s - start, (1 if number == 0 else 0, 1, 0)))
    for c, d, p in patches:
        beam.add_loads(PointLoadV(-p, c - start) if c == d else DistributedLoadV(-p / (d - c), (c - start, d - start)))
    beam.analyse()
    return [float(beam.get_reaction(s - start, "y")) for s in supports]


def two_posts(span, loads):
    """Greatest moment and greatest deflection times E I of a beam on two posts under points (at, load)."""
    right = sum(x * p for x, p in loads) / span
    left = sum(p for _, p in loads) - right
    places = sorted({0.0, span, *(x for x, _ in loads)})
    moment = lambda x: left * x - sum(p * (x - at) for at, p in loads if at < x)
    # y'' = -M: integrate the straight pieces; one constant makes the far end come to nought.
    pieces, slope, drop = [], 0.0, 0.0
    for a, b in zip(places, places[1:]):
        l, start, rise = b - a, moment(a), (moment(b) - moment(a)) / (b - a)
        cubic = numpy.array([-rise / 6, -start / 2, slope, drop])
        pieces.append((a, l, cubic))
        slope, drop = float(numpy.polyval(numpy.polyder(cubic), l)), float(numpy.polyval(cubic, l))
    tilt = -drop / span
    most = 0.0
    for a, l, cubic in pieces:
        whole = numpy.polyadd(cubic, [tilt, tilt * a])
        flat = [r.real for r in numpy.roots(numpy.polyder(whole)) if abs(r.imag) < 1e-12 and 0 <= r.real <= l]
        most = max([most, *(float(numpy.polyval(whole, x)) for x in [0.0, l, *flat])])
    return max(moment(x) for x in places), most


def section(shape, b, h, t, brim):
    """Second moment of area and section modulus; a round tube by its formula."""
    if shape == "round tube":
        inertia = math.pi / 64 * (h**4 - (h - 2 * t) ** 4)
        return inertia, inertia / (h / 2)
    box = shapely.box
    outline = {
        "rectangular tube": lambda: box(0, 0, b, h) - box(t, t, b - t, h - t),
        "angle": lambda: box(0, 0, b, t) | box(0, 0, t, h),
        "channel": lambda: box(0, 0, b, h) - box(t, t, b, h - t),
        "hat": lambda: (box(0, 0, b, h) - box(t, 0, b - t, h - t)) | box(-brim, 0, t, t) | box(b - t, 0, b + brim, t),
    }[shape]()
    geometry = Geometry(outline)
    geometry.create_mesh(h * h / 8)
    done = Section(geometry)
    done.calculate_geometric_properties()
    z = done.get_z()
    return done.get_ic()[0], min(z[0], z[1])


def feet_that_give_way():
    """How much more the greatest foot carries, at most, and in how many racks of a hundred any more, where feet give way
    alike, whatever their stiffness: even rows a unit apart, things half as long as the rack or longer."""
    chance, more = random.Random(118), []
    for _ in range(300):
        last = chance.randint(1, 4)
        supports = [float(row) for row in range(last + 1)]
        patches = [(0.0, float(last), chance.uniform(1, 3))]
        for _ in range(chance.randint(1, 2)):
            long = chance.randint(5 * last, 10 * last)
            start = chance.randint(-3, 10 * last - long + 3)
            patches.append((start / 10, (start + long) / 10, chance.uniform(1, 10)))
        rigid = max(over_supports(supports, patches))
        more.append(max(max(over_supports(supports, patches, 10.0 ** (power / 2))) for power in range(-8, 13)) / rigid)
    return max(more) - 1, 100 * sum(one > 1.001 for one in more) / len(more)


# ---- drawing -----------------------------------------------------------------------------------------------------

def quarters(chance, low, high):
    return chance.randint(int(low * 4), int(high * 4)) / 4


def inches(x):
    return f'"{x} in"'


def quarter_disc(hinge, start, radius):
    """A quarter of a circle, from an angle on, slightly small."""
    x, y = hinge
    arc = [(x + radius * math.cos(start + math.pi / 2 * k / 256), y + radius * math.sin(start + math.pi / 2 * k / 256))
           for k in range(257)]
    return shapely.Polygon([(x, y), *arc])


def yes(one, other, z_one, z_other):
    """Whether two prisms overlap; refuses to say close to a border."""
    rise = min(z_one[1], z_other[1]) - max(z_one[0], z_other[0])
    meets = one.intersection(other).area > 0
    if rise > 0 and (one.distance(other) < LEAST) != (one.buffer(-LEAST).distance(other) < LEAST / 2):
        raise Border
    if meets and abs(rise) < LEAST:
        raise Border
    return meets and rise > 0


def sweeps(opening, box):
    """The plan and heights of what an opening sweeps: a list of (polygon, (z, z))."""
    zone, along, z = opening["zone"], opening["along"], opening["z"]
    sort, swings, hinge = opening["sort"], opening["swings"], opening["hinge"]
    if sort == "barn doors":
        swings = "out"
    if sort == "ramp":
        swings = "down"
    if swings in ("in", "slides", "lifts off"):
        return []
    if zone == "roof":
        x, y = opening["x"], opening["y"]
        high = max(x[1] - x[0], y[1] - y[0])
        return [(shapely.box(x[0], y[0], x[1], y[1]), (box["skin"], box["skin"] + high))]
    at = {"left wall": -box["half"], "right wall": box["half"], "front wall": box["nose"], "rear door": box["rear"]}[zone]
    side, out = zone.endswith("wall") and zone != "front wall", -1 if zone in ("left wall", "front wall") else 1
    high = z[1] - z[0]

    def straight(by):
        ends = sorted((at, at + out * by))
        return shapely.box(along[0], ends[0], along[1], ends[1]) if side else shapely.box(ends[0], along[0], ends[1], along[1])

    def leaf(a, b, first):
        edge, radius = (a if first else b), b - a
        hung = (edge, at) if side else (at, edge)
        # The quadrant: along the wall from the hinge towards the other edge, and out.
        east = (first if side else out > 0)
        north = (out > 0 if side else first)
        start = {(True, True): 0, (False, True): math.pi / 2, (False, False): math.pi, (True, False): 1.5 * math.pi}[east, north]
        return quarter_disc(hung, start, radius)

    if sort == "barn doors":
        middle = sum(along) / 2
        return [(leaf(along[0], middle, True), z), (leaf(middle, along[1], False), z)]
    if swings == "up" or (swings == "out" and hinge == "top"):
        return [(straight(high), z)]
    if swings == "down" or hinge == "bottom":
        return [(straight(high), (max(z[0] - high, 0), z[1]))]
    return [(leaf(*along, hinge in ("front", "left")), z)]


def draw(chance):
    while True:
        try:
            return draw_one(chance)
        except Border:
            continue


def draw_one(chance):
    drawn[0] += 1
    q = lambda low, high: quarters(chance, low, high)
    text, want = [], {}
    # The trailer.
    nose = chance.choice(["flat", "wedge", "round"])
    ball_to_box, wall, length, width, height = q(30, 50), q(1, 2), q(96, 168), q(56, 80), q(60, 80)
    roof, floor_height, depth = q(1, 3), q(15, 24), 0 if nose == "flat" else q(8, 24)
    square = ball_to_box + wall + depth
    front = ball_to_box if nose == "flat" else square
    rear, half, skin = square + length + wall, width / 2 + wall, floor_height + height + roof
    floor, ceiling = floor_height, floor_height + height
    box = {"half": half, "rear": rear, "nose": ball_to_box, "skin": skin}
    first, spacing = q(0, 12), q(12, 30)
    few = chance.random() < 0.4
    count = chance.randint(2, 12)
    span_given = chance.random() < 0.7
    span = q(width, width + 2 * wall) if span_given else width + 2 * wall
    shape = chance.choice(["rectangular tube", "round tube", "angle", "channel", "hat"])
    b, h, t, brim = q(1, 3), q(1, 3), chance.choice([0.0625, 0.09375, 0.125]), q(0.5, 2)
    material = chance.choice(["steel", "aluminium"])
    shape_text = f'shape = "{shape}", height = {inches(h)}, wall = {inches(t)}'
    if shape != "round tube":
        shape_text += f", width = {inches(b)}"
    if shape == "hat":
        shape_text += f", brim = {inches(brim)}"
    nose_text = '{ shape = "flat" }' if nose == "flat" else f'{{ shape = "{nose}", depth = {inches(depth)} }}'
    assumed = {"bumps": chance.randint(120, 400), "steel_stiffness": chance.randint(27, 31) * 10**6,
               "steel_allowable": chance.randint(15_000, 30_000), "aluminium_stiffness": chance.randint(9, 11) * 10**6,
               "aluminium_allowable": chance.randint(6_000, 20_000), "ladder_strength": chance.randint(200, 500)}
    landing, person = q(10, 40), chance.randint(100, 260)
    text.append(f"""
[build]
number = "R-1"
title = "drawn by chance"
stage = "design"

[trailer]
ball_to_box = {inches(ball_to_box)}
length = {inches(length)}
width = {inches(width)}
height = {inches(height)}
wall = {inches(wall)}
roof = {inches(roof)}
floor_height = {inches(floor_height)}
frame_height = "16 in"
nose = {nose_text}

[trailer.bows]
first = {inches(first)}
spacing = {inches(spacing)}
{f"count = {count}" if few else ""}
{f"span = {inches(span)}" if span_given else ""}
material = "{material}"
section = {{ {shape_text} }}

[assume.roof]
bumps = "{assumed["bumps"]} %"
ladder_strength = "{assumed["ladder_strength"]} %"
landing = {inches(landing)}
""" + "".join(f'{key} = "{assumed[key]} psi"\n' for key in assumed if key.startswith(("steel", "alum"))) + f"""
[people]
mass = "{person} lb"
count = 2
""")
    # The rack and its feet.
    rack_long, rack_wide, rack_high, rack_mass = q(50, 110), q(40, width), q(2, 8), chance.randint(20, 120)
    rack_from = q(-6, 40)
    rack_x, rack_z = front + rack_from, skin
    rack_middle = q(-6, 6) if chance.random() < 0.5 else 0
    gauge = q(30, rack_wide) if chance.random() < 0.6 else rack_wide
    rows = chance.randint(2, 5)
    even = chance.random() < 0.5
    if even:
        foot_first, foot_spacing = q(0, 12), q(8, 30)
        offsets = [foot_first + k * foot_spacing for k in range(rows)]
        feet_text = f"feet = {2 * rows}\nfoot_first = {inches(foot_first)}\nfoot_spacing = {inches(foot_spacing)}"
    else:
        offsets = sorted({q(0, rack_long) for _ in range(rows)})
        if len(offsets) < 2 or min(b - a for a, b in zip(offsets, offsets[1:])) < 4:
            raise Border
        shuffled = offsets[:]
        chance.shuffle(shuffled)
        feet_text = "feet_at = [" + ", ".join(f"{{ front = {inches(o)} }}" for o in shuffled) + "]"
    on = chance.choice(["bows", "bows", "bows", "posts", "rails", "skin"])
    text.append(f"""
[[item]]
tag = "rack"
kind = "rack"
zone = "roof"
mass = "{rack_mass} lb"
length = {inches(rack_long)}
width = {inches(rack_wide)}
height = {inches(rack_high)}
feet_on = "{on}"
{feet_text}
{"" if gauge == rack_wide else f"foot_gauge = {inches(gauge)}"}
at = {{ front = {inches(rack_from)}, centre = {inches(rack_middle)} }}
""")
    # The tent.
    long, wide, high, mass, bedding = q(40, 96), q(40, 70), q(8, 16), chance.randint(60, 200), chance.randint(0, 30)
    tent_from, tent_middle, floor_up, open_high = q(-12, 30), q(-8, 8), q(0, 4), q(30, 60)
    side = chance.choice(["left", "right", "front", "rear", "up"])
    reach = 0 if side == "up" else q(10, 60)
    ladder = q(60, 140)
    ladder_on = chance.choice(["left", "right", "front", "rear"]) if side == "up" or chance.random() < 0.3 else None
    x, y, z = rack_x + tent_from, rack_middle + tent_middle, skin + rack_high
    shifted = chance.random() < 0.5
    cg = (q(long * 0.3, long * 0.7), q(wide * 0.3, wide * 0.7)) if shifted else (long / 2, wide / 2)
    people = chance.randint(0, 4)
    text.append(f"""
[[item]]
tag = "tent"
kind = "tent"
zone = "rack"
mass = "{mass} lb"
length = {inches(long)}
width = {inches(wide)}
height = {inches(high)}
bedding = "{bedding} lb"
floor = {inches(floor_up)}
opens = "{side}"
open_reach = {inches(reach)}
open_height = {inches(open_high)}
ladder = {inches(ladder)}
{f'ladder_side = "{ladder_on}"' if ladder_on else ""}
at = {{ front = {inches(tent_from)}, centre = {inches(tent_middle)} }}
{f"cg = {{ front = {inches(cg[0])}, left = {inches(cg[1])} }}" if shifted else ""}
""")
    stove = chance.random() < 0.5
    if stove:
        stove_x, stove_long, stove_wide, stove_high, stove_up = q(40, 200), q(10, 30), q(6, 20), q(4, 12), q(10, 100)
        stove_side = chance.choice([-1, 1])
        text.append(f"""
[[item]]
tag = "stove"
kind = "appliance"
mass = "9 lb"
zone = "{'left' if stove_side < 0 else 'right'} wall"
used = "outside"
length = {inches(stove_long)}
width = {inches(stove_wide)}
height = {inches(stove_high)}
at = {{ ball = {inches(stove_x)}, ground = {inches(stove_up)} }}
""")
    text.append(f'[[berth]]\ntag = "loft"\nzone = "tent"\npeople = {people}\n')
    # Openings.
    openings = []
    for number in range(chance.randint(0, 5)):
        zone = chance.choice(["left wall", "right wall", "rear door", "front wall", "roof"])
        sort = chance.choice(["door", "barn doors", "ramp", "window", "hatch"])
        if zone == "roof":
            sort = "hatch"
        swings = chance.choice(["out", "in", "up", "down", "slides", "lifts off"])
        ends = ["top", "bottom"] + (["left", "right"] if zone in ("rear door", "front wall") else ["front", "rear"])
        hinge = chance.choice(ends)
        one = {"zone": zone, "sort": sort, "swings": swings, "hinge": hinge, "tag": f"opening-{number}"}
        size, tall = q(14, 50), q(14, min(80, height + 20))
        fields = f'sort = "{sort}"\nswings = "{swings}"\nhinge = "{hinge}"\n'
        if zone == "roof":
            from_front, across, other = q(0, length - size), q(-20, 20), q(14, 30)
            one["x"], one["y"] = (front + from_front, front + from_front + size), (across - other / 2, across + other / 2)
            one["along"], one["lid"] = one["x"], q(0.25, 6)
            one["z"] = (skin, skin + one["lid"])
            fields += f"length = {inches(size)}\nwidth = {inches(other)}\nheight = {inches(one['lid'])}\nat = {{ front = {inches(from_front)}, centre = {inches(across)} }}\n"
            one["plan"] = shapely.box(one["x"][0], one["y"][0], one["x"][1], one["y"][1])
        elif zone in ("left wall", "right wall"):
            from_front, up = q(0, length), q(0, 40)
            one["along"] = (square + from_front, square + from_front + size)
            one["z"] = (floor + up, floor + up + tall)
            fields += f"length = {inches(size)}\nheight = {inches(tall)}\nat = {{ front = {inches(from_front)}, floor = {inches(up)} }}\n"
            at = -half if zone == "left wall" else half
            one["plan"] = shapely.LineString([(one["along"][0], at), (one["along"][1], at)])
        else:
            across, down = q(-20, 20), q(-30, 30)
            one["along"] = (across - size / 2, across + size / 2)
            one["z"] = (ceiling - down - tall, ceiling - down)
            fields += f"width = {inches(size)}\nheight = {inches(tall)}\nat = {{ centre = {inches(across)}, ceiling = {inches(down)} }}\n"
            at = ball_to_box if zone == "front wall" else rear
            one["plan"] = shapely.LineString([(at, one["along"][0]), (at, one["along"][1])])
        openings.append(one)
        text.append(f'[[opening]]\ntag = "{one["tag"]}"\nzone = "{zone}"\n{fields}')
    # A load on the rack: most of it on the road, some of it in camp.
    crate = chance.random() < 0.5
    loads = {"moving": [], "parked": []}
    if crate:
        most, camp = chance.randint(20, 120), chance.randint(0, 20)
        crate_long, crate_from, crate_right = (0, q(0, rack_long), q(0, 20)) if chance.random() < 0.4 else (q(6, 40), q(-4, 60), q(0, 20))
        crate_wide = 0 if crate_long == 0 else q(6, 20)
        size = "" if crate_long == 0 else f"length = {inches(crate_long)}\nwidth = {inches(crate_wide)}\nheight = \"9 in\"\n"
        text.append(f"""
[[load]]
tag = "crate"
mass = "{most} lb"
least = "0 lb"
zone = "rack"
{size}at = {{ front = {inches(crate_from)}, right = {inches(crate_right)}, gap = "0 in" }}

[[state]]
name = "camp"
use = "camp"
carry = {{ crate = "{camp} lb" }}
""")
        crate_x = rack_x + crate_from
        crate_y = rack_middle + rack_wide / 2 - crate_right - crate_wide / 2
        for case, load in (("moving", most), ("parked", camp)):
            if load > 0 or case == "moving":
                loads[case].append((crate_x, crate_x + crate_long, crate_y, load))
    # Loads on the rails: (from, to, y of the centre of gravity, pounds).
    stretch = min(cg[0], long - cg[0])
    tent_at = (x + cg[0] - stretch, x + cg[0] + stretch, y - wide / 2 + cg[1])
    for case in loads:
        loads[case].append((rack_x, rack_x + rack_long, rack_middle, rack_mass))
        loads[case].append((*tent_at, mass + bedding))
    loads["parked"].append((*tent_at, people * person))
    supports = [rack_x + o for o in offsets]
    feet = {}
    for case in loads:
        for name, sign in (("left", -1), ("right", 1)):
            patches = [(a, c, p * (0.5 + sign * (at - rack_middle) / gauge)) for a, c, at, p in loads[case]]
            feet[case, name] = over_supports(supports, patches)
            if drawn[0] % 10 == 0 and case == "parked" and name == "left":
                for one, other in zip(feet[case, name], by_library(supports, patches)):
                    if abs(one - other) > 1e-6 * sum(p for *_, p in loads[case]):
                        sys.exit(f"the oracle's two methods differ: {one} and {other}")
    scale = {case: sum(p for *_, p in loads[case]) * LB for case in loads}
    bumps = assumed["bumps"] / 100
    for row in range(len(offsets)):
        for name in ("left", "right"):
            for case in loads:
                of = f"foot {name} of row {row + 1} of item `rack`"
                want[f"foot_{case}", of] = Expect(feet[case, name][row] * LB, 1e-8, scale[case])
    most = {case: max(feet[case, "left"] + feet[case, "right"]) for case in loads}
    want["foot_moving_most", "item `rack`"] = Expect(most["moving"] * LB, 1e-8, scale["moving"])
    want["foot_bumps_most", "item `rack`"] = Expect(most["moving"] * LB * bumps, 1e-8, scale["moving"])
    want["foot_parked_most", "item `rack`"] = Expect(most["parked"] * LB, 1e-8, scale["parked"])
    least = min(feet["parked", "left"] + feet["parked", "right"])
    want["foot_parked_least", "item `rack`"] = Expect(least * LB, 1e-8, scale["parked"])
    on_rack = {case: sum(p for *_, p in loads[case]) - rack_mass for case in loads}
    for case in loads:
        want[f"rack_{case}", "item `rack`"] = Expect(on_rack[case] * LB)
        want[f"roof_{case}", "the build"] = Expect((on_rack[case] + rack_mass) * LB)
    want["rack_bumps", "item `rack`"] = Expect((on_rack["moving"] + rack_mass) * bumps * LB)
    if even:
        for case in loads:
            want[f"foot_even_{case}", "item `rack`"] = Expect((on_rack[case] + rack_mass) / (2 * rows) * LB)
    want["rack_stand", "item `rack`"] = Expect(rack_high * IN)
    want["air_gap", "item `rack`"] = Expect(rack_high * IN)
    # Bows.
    bows = [square + first + k * spacing for k in range(count if few else 200)]
    if not few:
        bows = [bow for bow in bows if bow <= square + length + 1e-9]
    near = []
    for s in supports:
        off = sorted((abs(s - bow), number) for number, bow in enumerate(bows))
        if len(off) > 1 and off[1][0] - off[0][0] < LEAST:
            raise Border
        near.append(off[0])
    lying = [number for number, _ in enumerate(near)]
    if on == "bows":
        for row in lying:
            want["foot_off_bow", f"row {row + 1} of item `rack`"] = Expect(near[row][0] * IN, 1e-9, IN)
        want["foot_off_bow_most", "item `rack`"] = Expect(max(near)[0] * IN, 1e-9, IN)
        inertia, modulus = section(shape, b, h, t, brim)
        want["bow_inertia", "the roof bows"] = Expect(inertia * IN**4, 1e-8)
        want["bow_modulus", "the roof bows"] = Expect(modulus * IN**3, 1e-8)
        want["bow_span", "the roof bows"] = Expect(span * IN)
        worst = {}
        places = [span / 2 + rack_middle + sign * gauge / 2 for sign in (-1, 1)]
        if min(abs(places[0]), abs(span - places[1])) < LEAST:
            raise Border
        stands = 0 <= places[0] and places[1] <= span
        for case, factor in (("parked", 1.0), ("bumps", bumps)):
            of_case = "parked" if case == "parked" else "moving"
            for bow in sorted({number for _, number in near}):
                rows_on = [row for row in lying if near[row][1] == bow]
                points = [(place, sum(max(feet[of_case, name][row], 0.0) for row in rows_on))
                          for place, name in zip(places, ("left", "right"))]
                if not stands:
                    continue
                moment, bend = two_posts(span, points)
                stress = moment / modulus * factor  # psi, of pounds of force and inches
                stiff, allowable = assumed[f"{material}_stiffness"], assumed[f"{material}_allowable"]
                sag = bend / (stiff * inertia) * factor
                of, load = f"roof bow {bow + 1}", sum(p for _, p in points) * factor
                want[f"bow_load_{case}", of] = Expect(load * LB, 1e-8, scale[of_case])
                want[f"bow_moment_{case}", of] = Expect(moment * factor * LB * G * IN, 1e-8, scale[of_case] * G * span * IN / 4)
                want[f"bow_stress_{case}", of] = Expect(stress * PSI, 1e-7, scale[of_case] / LB * span / 4 / modulus * PSI)
                want[f"bow_sag_{case}", of] = Expect(sag * IN, 1e-7, scale[of_case] / LB * span**3 / 48 / stiff / inertia * IN)
                held = worst.get(case, (0.0, 0.0))
                worst[case] = (max(held[0], stress), max(held[1], sag))
            if stands:
                want[f"bow_stress_{case}_most", "the roof bows"] = Expect(worst[case][0] * PSI, 1e-7)
                want[f"bow_stress_{case}_use", "the roof bows"] = Expect(worst[case][0] / allowable, 1e-7)
                want[f"bow_sag_{case}_share", "the roof bows"] = Expect(worst[case][1] / span, 1e-7)
            else:
                want[f"bow_stress_{case}_most", "the roof bows"] = Expect(None)
    else:
        want["foot_off_bow_most", "item `rack`"] = Expect(None)
        want["bow_stress_parked_most", "the roof bows"] = Expect(None)
    # The tent.
    ends = {"front": x, "rear": x + long, "left": y - wide / 2, "right": y + wide / 2}
    rack_ends = {"front": rack_x, "rear": rack_x + rack_long, "left": rack_middle - rack_wide / 2, "right": rack_middle + rack_wide / 2}
    overs = {name: (ends[name] - rack_ends[name]) * (-1 if name in ("front", "left") else 1) for name in ends}
    for name, over in overs.items():
        want[f"overhang_{name}", "item `tent`"] = Expect(over * IN, 1e-9, IN)
    want["overhang_most", "item `tent`"] = Expect(max(overs.values()) * IN, 1e-9, IN)
    want["overhang_share", "item `tent`"] = Expect(max(overs.values()) / long, 1e-9, 1.0)
    aside = max(-half - ends["left"], ends["right"] - half)
    want["aside_of_roof", "item `tent`"] = Expect(aside * IN, 1e-9, IN)
    want["behind_roof", "item `tent`"] = Expect((ends["rear"] - rear) * IN, 1e-9, IN)
    tops = [skin, z, z + high] + ([z + 9] if crate and crate_long else [])
    tops += [skin + one["lid"] for one in openings if one["zone"] == "roof"]
    if crate and not crate_long:
        want["height_closed", "the build"] = Expect(None)
        want["height_open", "the build"] = Expect(None)
    else:
        want["height_closed", "the build"] = Expect(max(tops) * IN)
        want["height_open", "the build"] = Expect(max([*tops, z + open_high]) * IN)
    up = z + floor_up
    want["floor_height", "item `tent`"] = Expect(up * IN)
    needed = up / math.sqrt(15 / 16)
    want["ladder_needed", "item `tent`"] = Expect(needed * IN)
    want["ladder_with_landing", "item `tent`"] = Expect((needed + landing) * IN)
    want["ladder_bears", "item `tent`"] = Expect(person * assumed["ladder_strength"] / 100 * LB)
    open_ends = dict(ends)
    if side != "up":
        open_ends[side] += reach * (-1 if side in ("front", "left") else 1)
    tent_plan = shapely.box(open_ends["front"], open_ends["left"], open_ends["rear"], open_ends["right"])
    tent_z = (z, z + open_high)
    stands_on = ladder_on or side
    foot = None
    if min(abs(ladder - up), abs(ladder - needed)) < LEAST:
        raise Border
    if ladder > up:
        angle = math.acos(0.25) if ladder >= needed else math.asin(up / ladder)
        out = up / math.tan(angle)
        want["ladder_angle", "item `tent`"] = Expect(angle)
        want["ladder_out", "item `tent`"] = Expect(out * IN)
        want["ladder_above_floor", "item `tent`"] = Expect((ladder - up / math.sin(angle)) * IN, 1e-9, ladder * IN)
        middle = ((open_ends["front"] + open_ends["rear"]) / 2, (open_ends["left"] + open_ends["right"]) / 2)
        sign = -1 if stands_on in ("front", "left") else 1
        foot = (open_ends[stands_on] + sign * out, middle[1]) if stands_on in ("front", "rear") else (middle[0], open_ends[stands_on] + sign * out)
        want["ladder_foot_behind", "item `tent`"] = Expect(foot[0] * IN, 1e-9, IN)
        want["ladder_foot_right", "item `tent`"] = Expect(foot[1] * IN, 1e-9, IN)
    else:
        for key in ("ladder_angle", "ladder_out", "ladder_above_floor", "ladder_foot_right", "swings_over_ladder"):
            want[key, "item `tent`"] = Expect(None)
    called = []
    if stove:
        plan = shapely.box(stove_x, stove_side * width / 2 - stove_wide / 2, stove_x + stove_long, stove_side * width / 2 + stove_wide / 2)
        if plan.intersects(tent_plan):
            called.append("item `stove`")
        want["stove_aside", "item `stove` by item `tent`"] = Expect(plan.distance(tent_plan) * IN, 1e-9, IN)
        want["stove_below", "item `stove` by item `tent`"] = Expect((z - stove_up - stove_high) * IN, 1e-9, IN)
        if plan.touches(tent_plan) or 0 < plan.distance(tent_plan) < LEAST or 0 < plan.intersection(tent_plan).area < 1:
            raise Border
    blocks, over_foot = [], []
    for one in openings:
        # Those that the tent hangs over: of a line in a wall, some length of it.
        shared = one["plan"].intersection(tent_plan)
        much = shared.length if one["zone"] != "roof" else math.sqrt(shared.area)
        if 0 < much < 4 * LEAST or 0 < one["plan"].distance(tent_plan) < LEAST or one["plan"].touches(tent_plan):
            raise Border
        edges = tent_plan.exterior.intersection(one["plan"])
        if edges.length > LEAST and one["zone"] != "roof":
            raise Border
        if much > 0:
            called.append(f"opening `{one['tag']}`")
        swept = sweeps(one, box)
        if any([yes(plan, tent_plan, heights, tent_z) for plan, heights in swept]):
            blocks.append(f"opening `{one['tag']}`")
        if foot:
            point = shapely.Point(foot)
            if any(abs(plan.exterior.distance(point)) < LEAST for plan, _ in swept):
                raise Border
            if any(plan.contains(point) for plan, _ in swept):
                over_foot.append(f"opening `{one['tag']}`")
    want["open_over", "item `tent`"] = Expect(called)
    want["open_blocks", "item `tent`"] = Expect(blocks)
    if foot:
        want["swings_over_ladder", "item `tent`"] = Expect(over_foot)
    want["covered_vents", "the build"] = Expect([])
    return "\n".join(text), want


if __name__ == "__main__":
    most, often = feet_that_give_way()
    print(f"roof: feet that give way raise the greatest foot load by {100 * most:.0f} % at most, in {often:.0f} of 100 racks")
    if most > 0.20 or often > 10:
        sys.exit("roof: docs/src/calculation/roof.md says otherwise")
    figures.main("roof", draw, count=240, least=30.0)
