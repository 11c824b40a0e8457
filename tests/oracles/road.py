"""Works out again what the road asks of a trailer, and compares with `pintle figures --of road`.

Sizes, lamps, brakes, labels and tires of random specs, over random places. Quantities are exact fractions; the places are
read with `tomllib` from the same data files as the tool's; the table of lamps, the thresholds of labels and the geometry
are written down here from `docs/src/calculation/road.md` and the texts that it names.
"""

import itertools
import math
import pathlib
import tomllib
from fractions import Fraction as F

from figures import Expect, main

IN, LB, GAL = F("0.0254"), F("0.45359237"), 231 * F("0.0254") ** 3
UNITS = {
    "in": IN, "ft": 12 * IN, "mm": F("0.001"), "m": F(1), "lb": LB, "kg": F(1), "gal": GAL, "L": F("0.001"), "%": F("0.01"),
    "min": F(60), "h": F(3600), "wk": F(604800), "mph": 5280 * 12 * IN / 3600, "km/h": F(1000, 3600), "A": F(1), "Ah": F(3600),
}


def si(text):
    """A quantity of a place's file, or one that was drawn: parts such as `13 ft 6 in` add up."""
    words = text.replace(",", "").split()
    return sum(F(number) * UNITS[unit] for number, unit in zip(words[::2], words[1::2]))


PLACES = {
    path.stem: tomllib.loads(path.read_text())
    for path in sorted((pathlib.Path(__file__).resolve().parents[2] / "rules" / "places").glob("*.toml"))
}


def held(name, what, key=None):
    """What a place holds, or the place that it lies within."""
    place = PLACES[name]
    if what == "figure" and key in place.get("figure", {}):
        return si(place["figure"][key]["value"])
    if what != "figure" and place.get(what):
        return place[what]
    return held(place["within"], what, key) if "within" in place else None


# 49 CFR 571.108 Table I-b: name, number, number under 30 in of width, colours, least and greatest height, needed if.
ALWAYS, NOT_SHORT, LONG, WIDE = "always", "not short", "long", "wide"
LAMPS = [
    ("tail", 2, 1, ["red"], 15, 72, ALWAYS),
    ("stop", 2, 1, ["red"], 15, 72, ALWAYS),
    ("turn", 2, 2, ["red", "amber"], 15, 83, ALWAYS),
    ("plate", 1, 1, ["white"], None, None, ALWAYS),
    ("rear reflex", 2, 1, ["red"], 15, 60, ALWAYS),
    ("front side marker", 2, 2, ["amber"], 15, None, NOT_SHORT),
    ("front side reflex", 2, 2, ["amber"], 15, 60, NOT_SHORT),
    ("rear side marker", 2, 2, ["red"], 15, None, ALWAYS),
    ("rear side reflex", 2, 2, ["red"], 15, 60, ALWAYS),
    ("middle side marker", 2, 2, ["amber"], 15, None, LONG),
    ("middle side reflex", 2, 2, ["amber"], 15, 60, LONG),
    ("front clearance", 2, 2, ["amber"], None, None, WIDE),
    ("rear clearance", 2, 2, ["red"], None, None, WIDE),
    ("rear identification", 3, 3, ["red"], None, None, WIDE),
]


def asked_for(width, length):
    """The rows that a trailer of this size needs; a wide one's rear side markers are at most 60 in up."""
    size = {ALWAYS: True, NOT_SHORT: length >= 72 * IN, LONG: length >= 360 * IN, WIDE: width >= 80 * IN}
    for name, count, narrow, colours, low, high, needed in LAMPS:
        if size[needed]:
            if name == "rear side marker" and size[WIDE]:
                high = 60
            yield name, (narrow if width < 30 * IN else count), colours, low, high


class Drawn:
    """One spec: what was drawn, in SI, and its text."""

    def __init__(self, chance):
        self.chance, self.lines, self.trailer, self.tow, self.record, self.items, self.head = chance, [], {}, {}, {}, [], {}
        self.metric = chance.random() < 0.3

    def length(self, low, high, step=0.25):
        """A length in inches, written in either system: its text and its size."""
        inches = round(self.chance.uniform(low, high) / step) * step
        text = f"{inches * 25.4:.4f} mm" if self.metric else f"{inches} in"
        return text, si(text)

    def mass(self, low, high):
        pounds = self.chance.randint(low, high)
        text = f"{pounds * 0.45359237:.5f} kg" if self.metric else f"{pounds} lb"
        return text, si(text)

    def maybe(self, likely=0.9):
        return self.chance.random() < likely


def sized(spec, zone):
    """A part outside or inside, with its box: text of its place, and (near, far) along each axis."""
    t, c = spec.where, spec.chance
    (lt, l), (wt, w), (ht, h) = spec.length(4, 40), spec.length(4, 90), spec.length(4, 50)
    size = f'length = "{lt}"\nwidth = "{wt}"\nheight = "{ht}"\n'
    if zone == "inside":
        (bt, b), (ct, y), (gt, g) = spec.length(60, 150), spec.length(-20, 20), spec.length(20, 60)
        return size + f'at = {{ ball = "{bt}", centre = "{ct}", ground = "{gt}" }}\n', (b, b + l), (y - w / 2, y + w / 2), (g, g + h)
    if zone == "rear door":
        (pt, p), (ct, y), (gt, g) = spec.length(0, 6), spec.length(-20, 20), spec.length(12, 90)
        x = t["rear"] + p
        return size + f'zone = "rear door"\nat = {{ gap = "{pt}", centre = "{ct}", ground = "{gt}" }}\n', (x, x + l), (y - w / 2, y + w / 2), (g, g + h)
    if zone == "tongue":
        (bt, b), (ct, y), (gt, g) = spec.length(6, 30), spec.length(-6, 6), spec.length(12, 30)
        return size + f'zone = "tongue"\nat = {{ ball = "{bt}", centre = "{ct}", ground = "{gt}" }}\n', (b, b + l), (y - w / 2, y + w / 2), (g, g + h)
    if zone == "underside":
        (bt, b), (gt, g) = spec.length(60, 200), spec.length(6, 20)
        return size + f'zone = "underside"\nat = {{ ball = "{bt}", ground = "{gt}" }}\n', (b, b + l), (-w / 2, w / 2), (g, g + h)
    assert zone == "roof"
    (bt, b), (pt, p) = spec.length(40, 160), spec.length(-6, 6)
    z = t["skin"] + p
    return size + f'zone = "roof"\nat = {{ ball = "{bt}", gap = "{pt}" }}\n', (b, b + l), (-w / 2, w / 2), (z, z + h)


def draw_trailer(spec):
    """`[trailer]`, some of whose fields may be left out."""
    t, lines, c = spec.trailer, [], spec.chance

    def put(name, drawn, likely=1.0):
        text, value = drawn
        if spec.maybe(likely):
            lines.append(f'{name} = "{text}"')
            t[name] = value
        else:
            t[name] = None

    put("ball_to_box", spec.length(20, 60)), put("length", spec.length(70, 200)), put("width", spec.length(40, 90))
    put("height", spec.length(50, 84)), put("wall", spec.length(1, 2)), put("roof", spec.length(1, 3))
    put("floor_height", spec.length(15, 26)), put("frame_height", spec.length(14, 20))
    # At a threshold to the pound, with nothing aboard, now and then.
    spec.bare = c.random() < 0.12
    weight = c.choice([("1500 lb", 1500 * LB), ("3000 lb", 3000 * LB), ("4500 lb", 4500 * LB), ("4501 lb", 4501 * LB)])
    put("mass", weight if spec.bare else spec.mass(600, 3200)), put("gvwr", c.choice([spec.mass(1500, 8000), spec.mass(9000, 14000), ("10000 lb", 10000 * LB)]))
    wide = c.choice([spec.length(60, 104), ("80 in", 80 * IN), ("2032 mm", 80 * IN), ("79.9 in", F("79.9") * IN), spec.length(24, 34)])
    put("overall_width", wide, 0.95)
    put("overall_length", c.choice([spec.length(60, 400), ("6 ft", 72 * IN), ("30 ft", 360 * IN)]), 0.7)
    for name, likely in [("ground_clearance", 0.9), ("rear_clearance", 0.9)]:
        put(name, spec.length(8, 22), likely)
    put("label_gvwr", spec.mass(1500, 8000), 0.3), put("rated_cargo", spec.mass(200, 2000), 0.3)
    put("tongue_least", spec.mass(100, 400), 0.4), put("added_label", spec.mass(50, 900), 0.3)
    shape = c.choice(["flat", "round", "wedge"])
    depth_text, depth = spec.length(6, 24)
    lines.append('nose = { shape = "flat" }' if shape == "flat" else f'nose = {{ shape = "{shape}", depth = "{depth_text}" }}')
    depth = F(0) if shape == "flat" else depth
    inside = t["ball_to_box"] + t["wall"] + depth
    t["square"] = t["ball_to_box"] if shape == "flat" else inside
    t["rear"] = inside + t["length"] + t["wall"]
    t["side"] = t["width"] / 2 + t["wall"]
    t["skin"] = t["floor_height"] + t["height"] + t["roof"]
    spec.where = t
    (bt, b), (ct, y), (gt, g) = spec.length(80, 120), spec.length(-4, 4), spec.length(26, 40)
    lines.append(f'cg = {{ ball = "{bt}", centre = "{ct}", ground = "{gt}" }}')
    t["cg"] = (b, y)
    t["axles"] = c.choice([1, 1, 2, 3])
    (at, a), (kt, k), (st, s), (rt, r) = spec.length(122, 150), spec.length(60, 90), spec.length(30, 36), spec.mass(2000, 7000)
    lines.append(f'axle = {{ ball = "{at}", count = {t["axles"]}, spread = "{st}", gawr = "{rt}", track = "{kt}", suspension = "equalised" }}')
    t.update(axle=a, track=k, spread=s, gawr=r)
    draw_tires(spec, lines)
    draw_brakes(spec, lines)
    draw_lamps(spec, lines)
    t["jack"] = None
    if spec.maybe(0.5):
        (xt, x), (jt, top) = spec.length(6, 30), spec.length(24, 44)
        lines.append(f'jack = {{ ball = "{xt}", top = "{jt}" }}')
        t["jack"] = (x, top)
    return "[trailer]\n" + "\n".join(lines) + "\n"


def draw_tires(spec, lines):
    t, c = spec.trailer, spec.chance
    text, rating = spec.mass(900, 4000)
    made_for = c.choice(["trailers", "trailers", "passenger cars"])
    tire = {"rating": f'"{text}"', "made_for": f'"{made_for}"', "count": str(2 * t["axles"])}
    t["tire"] = {"rating": rating / (F("1.1") if made_for == "passenger cars" else 1), "made_for": made_for}
    for name, (text, value) in {
        "radius": spec.length(11, 15), "speed": (w := f"{c.randint(55, 90)} mph", si(w)), "age": (w := f"{c.randint(0, 500)} wk", si(w))
    }.items():
        t["tire"][name] = None
        if spec.maybe(0.8):
            tire[name], t["tire"][name] = f'"{text}"', value
    t["tire"]["alike"] = c.choice([None, True, False])
    if t["tire"]["alike"] is not None:
        tire["alike"] = str(t["tire"]["alike"]).lower()
    lines.append("tire = { " + ", ".join(f"{name} = {value}" for name, value in tire.items()) + " }")


def draw_brakes(spec, lines):
    t, c = spec.trailer, spec.chance
    t["brakes"] = None
    if not spec.maybe(0.95):
        return
    brakes = {"kind": c.choice(["none", "electric", "electric", "surge"])}
    words = [f'kind = "{brakes["kind"]}"']
    for name, value, likely in [("axles", c.randint(0, t["axles"]), 0.95), ("magnets", c.randint(1, 8), 0.3)]:
        brakes[name] = value if spec.maybe(likely) else None
        words += [f"{name} = {value}"] if brakes[name] is not None else []
    brakes["breakaway"] = c.choice([True, True, False, None])
    words += [f"breakaway = {str(brakes['breakaway']).lower()}"] if brakes["breakaway"] is not None else []
    brakes["battery"] = None
    if spec.maybe(0.8):
        text = f"{c.randint(1, 12)} Ah"
        words.append(f'battery = "{text}"')
        brakes["battery"] = si(text)
    t["brakes"] = brakes
    lines.append("brakes = { " + ", ".join(words) + " }")


def draw_lamps(spec, lines):
    """Some lamps by name only, some in tables of their own, some left out."""
    t, c = spec.trailer, spec.chance
    t["lamps"], t["lamp"] = None, []
    full = c.random() < 0.5
    if spec.maybe(0.7) and not full:
        t["lamps"] = [row[0] for row in LAMPS if spec.maybe(0.8)]
        lines.append("lamps = [" + ", ".join(f'"{name}"' for name in t["lamps"]) + "]")
    tables = []
    for name, count, _, colours, low, high, _ in LAMPS:
        if not spec.maybe(0.97 if full else 0.3):
            continue
        lamp = {"name": name}
        words = [f'name = "{name}"']
        likely = 1.0 if full else 0.7
        lamp["count"] = c.choice([count] * 8 + [1]) if spec.maybe(likely) else None
        words += [f"count = {lamp['count']}"] if lamp["count"] else []
        lamp["colour"] = c.choice([colours[0]] * 8 + ["red", "amber", "white"]) if spec.maybe(likely) else None
        words += [f'colour = "{lamp["colour"]}"'] if lamp["colour"] else []
        for field, drawn in [("height", spec.length(14 if c.random() < 0.1 else (low or 60), (high or 80) + (1 if c.random() < 0.1 else 0))),
                             ("centre", spec.length(6, 36)), ("ball", spec.length(40, 160)), ("apart", spec.length(5.75, 12.25))]:
            lamp[field] = None
            if spec.maybe(likely):
                words.append(f'{field} = "{drawn[0]}"')
                lamp[field] = drawn[1]
        tables.append("{ " + ", ".join(words) + " }")
        t["lamp"].append(lamp)
    if tables:
        lines.append("lamp = [" + ", ".join(tables) + "]")


def draw_parts(spec):
    """Parts and loads, each with its mass, its box and whether it may stay at home."""
    c, out = spec.chance, []
    if spec.bare:
        return ""
    zones = ["inside", "inside", "rear door", "tongue", "underside", "roof"]
    for number in range(c.randint(0, 6)):
        zone = c.choice(zones)
        (mt, m), removable = spec.mass(5, 250), c.random() < 0.3
        place, x, y, z = sized(spec, zone)
        tag = f"part{number}"
        out.append(f'[[item]]\ntag = "{tag}"\nkind = "equipment"\nmass = "{mt}"\nremovable = {str(removable).lower()}\n{place}')
        spec.items.append(dict(tag=tag, called=f"item `{tag}`", table="item", zone=zone, mass=m, least=F(0) if removable else m, x=x, y=y, z=z, fitted=True))
    if spec.maybe(0.3):
        place, x, y, z = sized(spec, "roof")
        (mt, m), (rt, r), side = spec.mass(80, 160), spec.length(20, 60), c.choice(["left", "right", "front", "rear", "up"])
        out.append(f'[[item]]\ntag = "tent"\nkind = "tent"\nmass = "{mt}"\nbedding = "0 lb"\nopens = "{side}"\nopen_reach = "{rt}"\n{place}')
        spec.items.append(dict(tag="tent", called="item `tent`", table="item", zone="roof", mass=m, least=m, x=x, y=y, z=z, fitted=True, opens=side, reach=r))
    if spec.maybe(0.5):
        (mt, m), (vt, v) = spec.mass(5, 30), (w := f"{c.randint(2, 40)} gal", si(w))
        (bt, b), (ct, y) = spec.length(60, 150), spec.length(-10, 10)
        holds = c.choice(["fresh", "fresh", "grey"])
        out.append(f'[[tank]]\ntag = "tank"\nholds = "{holds}"\ncapacity = "{vt}"\nmass = "{mt}"\nlength = "10 in"\nwidth = "10 in"\n'
                   f'height = "10 in"\nat = {{ ball = "{bt}", centre = "{ct}", floor = "0 in" }}\n')
        x, across = (b, b + 10 * IN), (y - 5 * IN, y + 5 * IN)
        spec.items.append(dict(tag="tank", called="tank `tank`", table="tank", zone="inside", mass=m, least=m, x=x, y=across, z=(F(0), F(0)), fitted=True, holds=holds, capacity=v))
        # Its water: none to all of it, at 8.34 lb/gal as weights reckon it.
        spec.items.append(dict(tag="water", called="water", table="water", zone="inside", mass=v * F("8.34") * LB / GAL, least=F(0), x=x, y=across, z=(F(0), F(0)), fitted=False))
    for number in range(c.randint(0, 2)):
        zone = c.choice(["inside", "inside", "rear door", "roof"])
        (mt, m) = spec.mass(5, 400)
        place, x, y, z = sized(spec, zone)
        tag = f"load{number}"
        out.append(f'[[load]]\ntag = "{tag}"\nmass = "{mt}"\nleast = "0 lb"\n{place}')
        spec.items.append(dict(tag=tag, called=f"load `{tag}`", table="load", zone=zone, mass=m, least=F(0), x=x, y=y, z=z, fitted=False))
    if spec.maybe(0.5):
        out.append('[[berth]]\ntag = "bed"\npeople = 2\nmass = "0 lb"\nat = { ball = "90 in", centre = "0 in" }\n')
        spec.head["berth"] = True
    return "".join(out)


def draw_head(spec):
    c, head, lines = spec.chance, spec.head, []
    head["places"] = c.sample(sorted(PLACES), c.choice([0, 1, 1, 2, 3]))
    if head["places"]:
        lines.append("places = [" + ", ".join(f'"{name}"' for name in head["places"]) + "]")
    head["sale"] = c.choice(["new", "new", "used", None])
    head["registered"] = c.choice(["camp trailer", "other trailer", None, None])
    for name in ("sale", "registered"):
        lines += [f'{name} = "{head[name]}"'] if head[name] else []
    names = ["cooking", "refrigeration", "self-contained toilet", "heating or air conditioning", "potable water with faucet and sink", "separate power or propane"]
    head["facilities"] = c.sample(names, c.randint(2, 6)) if spec.maybe(0.9) else None
    if head["facilities"] is not None:
        lines.append("facilities = [" + ", ".join(f'"{name}"' for name in head["facilities"]) + "]")
    head["cargo_first"] = c.choice([False, False, True, None])
    lines += [f"cargo_first = {str(head['cargo_first']).lower()}"] if head["cargo_first"] is not None else []
    return lines


def draw_rest(spec):
    c, out = spec.chance, ""
    spec.tow = None
    if spec.maybe(0.85):
        spec.tow, out = {}, "[tow]\n"
        for name, drawn in [("mass", spec.mass(3000, 9000)), ("tailgate", spec.length(-6, 24)), ("tailgate_height", spec.length(20, 40))]:
            spec.tow[name] = None
            if spec.maybe(0.85):
                out += f'{name} = "{drawn[0]}"\n'
                spec.tow[name] = drawn[1]
    spec.record = None
    if spec.maybe(0.6):
        text = f"{c.randint(5, 40)} min"
        out += f'[record]\nbreakaway_hold = "{text}"\n'
        spec.record = si(text)
    return out


def arrangements(spec):
    """Every corner of what may ride: (whole, moment about the ball, moment about the centreline)."""
    t = spec.trailer
    fixed = [(t["mass"], t["cg"][0], t["cg"][1])]
    free = []
    for part in spec.items:
        x, y = sum(part["x"]) / 2, sum(part["y"]) / 2
        (fixed if part["least"] == part["mass"] else free).append((part["mass"], x, y))
    base = [sum(m for m, _, _ in fixed), sum(m * x for m, x, _ in fixed), sum(m * y for m, _, y in fixed)]
    for picked in itertools.product([False, True], repeat=len(free)):
        more = [part for part, there in zip(free, picked) if there]
        yield (base[0] + sum(m for m, _, _ in more), base[1] + sum(m * x for m, x, _ in more), base[2] + sum(m * y for m, _, y in more))


def loads_of(spec, whole):
    """Gross, tongue, axle load, left and right wheels."""
    w, moment, side = whole
    axles = moment / spec.trailer["axle"]
    apart = 2 * side / spec.trailer["track"]
    return w, w - axles, axles, (axles - apart) / 2, (axles + apart) / 2


def lowest_first(needs):
    return sorted(needs, key=lambda need: si(need.get("more_than") or need.get("at_least") or "0 lb"))


def draw(chance):
    spec = Drawn(chance)
    head = draw_head(spec)
    trailer = draw_trailer(spec)
    parts = draw_parts(spec)
    rest = draw_rest(spec)
    movable = [part["tag"] for part in spec.items if part["table"] == "item" and part["least"] != part["mass"]]
    gone = [tag for tag in movable if chance.random() < 0.5]
    carried = [part for part in spec.items if part["table"] == "load" and chance.random() < 0.7]
    fill = chance.choice(["0 %", "50 %", "100 %"])
    camp_only = [part["tag"] for part in spec.items if part["table"] in ("item", "load") and chance.random() < 0.15]
    if camp_only:
        head.append("camp_only = [" + ", ".join(f'"{tag}"' for tag in camp_only) + "]")
    state = '[[state]]\nname = "away"\nuse = "road"\n'
    state += "out = [" + ", ".join(f'"{tag}"' for tag in gone) + "]\n" if gone else ""
    if any(part["table"] == "tank" for part in spec.items):
        state += f'fill = {{ tank = "{fill}" }}\n'
    if carried:
        state += "carry = { " + ", ".join(f'{part["tag"]} = "{float(part["mass"] / 2 / LB):.9f} lb"' for part in carried) + " }\n"
    text = '[build]\nnumber = "R-1"\ntitle = "drawn by chance"\nstage = "design"\n' + "\n".join(head) + "\n" + trailer + rest + parts + state
    spec.state = state_weight(spec, gone, carried, fill)
    aboard = []
    for tag in camp_only:
        table = next(part["table"] for part in spec.items if part["tag"] == tag)
        if (table == "load" and tag in [part["tag"] for part in carried]) or (table == "item" and tag not in gone):
            aboard.append(f"`{tag}` in state `away`")
    wanted = {("camp_only_aboard", "the build"): Expect(aboard)}
    for part in (sizes, lamps, brakes, tires, labels):
        part(spec, wanted)
    return text, wanted


def state_weight(spec, gone, carried, fill):
    t = spec.trailer
    bodies = [(t["mass"], *t["cg"])]
    for part in spec.items:
        m, x, y = part["mass"], sum(part["x"]) / 2, sum(part["y"]) / 2
        if part["table"] == "load":
            # Half of it, as it was written down to nine places.
            m = F(f'{float(m / 2 / LB):.9f}') * LB if part in carried else F(0)
        elif part["table"] == "water":
            m *= si(fill)
        elif part["tag"] in gone:
            m = F(0)
        bodies.append((m, x, y))
    return loads_of(spec, (sum(m for m, _, _ in bodies), sum(m * x for m, x, _ in bodies), sum(m * y for m, _, y in bodies)))


BUILD = "the build"


def per_place(spec, wanted, key, work):
    """One expectation for each place; where none is stated, that the figure is not known."""
    if not spec.head["places"]:
        wanted[key, BUILD] = Expect(None)
    for name in spec.head["places"]:
        wanted[key, f"place `{name}`"] = work(name)


def left(limit, value, scale=None):
    """What is left of a limit; not known where either is."""
    if limit is None or value is None:
        return Expect(None)
    return Expect(float(limit - value), 1e-9, float(scale or max(abs(limit), abs(value))))


def known(value, scale=None):
    return Expect(None) if value is None else Expect(float(value), 1e-9, None if scale is None else float(scale))


def outside(spec, zones):
    return [part for part in spec.items if part["zone"] in zones and part["table"] in ("item", "load")]


def sizes(spec, wanted):
    t = spec.trailer
    width = t["overall_width"]
    on_roof = [part["z"][1] for part in outside(spec, ["roof"])]
    height = max([t["skin"], *on_roof])
    hung = [part["x"][1] for part in outside(spec, ["rear door"]) if part["table"] == "item"]
    length = t["overall_length"] or max([t["rear"], *hung])
    overhang = max([t["rear"], *hung]) - t["axle"]
    behind = max([F(0)] + [part["x"][1] - t["rear"] for part in outside(spec, ["rear door", "roof"])])
    aside = None if width is None else max([F(0)] + [abs(edge) - width / 2 for part in outside(spec, ["rear door", "roof"]) for edge in part["y"]])
    t["known_length"] = length
    for key, value in [("overall_width", width), ("overall_height", height), ("overall_length", length), ("rear_overhang", overhang), ("load_behind", behind), ("load_aside", aside)]:
        wanted[key, BUILD] = known(value, 1)
    for key, field, value in [("width_margin", "most_width", width), ("height_margin", "most_height", height), ("length_margin", "most_length", length),
                              ("overhang_margin", "most_overhang", overhang), ("behind_margin", "unmarked_behind", behind), ("aside_margin", "unmarked_aside", aside)]:
        per_place(spec, wanted, key, lambda name, field=field, value=value: left(held(name, "figure", field), value, 1))
    low = outside(spec, ["underside", "rear door", "tongue"])
    clearance = t["ground_clearance"]
    wanted["ground_clearance", BUILD] = known(clearance if clearance is None else min([clearance, *(part["z"][0] for part in low)]), 1)
    angle = None
    if t["rear_clearance"] is not None and t["tire"]["radius"] is not None:
        wheel = t["axle"] + t["spread"] * (t["axles"] - 1) / 2
        corners = [(t["rear"] - wheel, t["rear_clearance"])] + [(part["x"][1] - wheel, part["z"][0]) for part in low if part["x"][1] > wheel]
        r = t["tire"]["radius"]
        # What is within the tire, seen from the side, touches no ramp before the tire does.
        angle = min((tangent(float(d), float(z), float(r)) for d, z in corners if d > 0 and d * d + (z - r) ** 2 > r * r), default=None)
    wanted["departure_angle", BUILD] = Expect(None) if angle is None else Expect(angle, 1e-9, 1.0)


def tangent(d, z, r):
    """The angle from the ground of the line through (d, z) that touches the circle of radius r round (0, r) behind and below, by
    halving: its distance from the middle grows from none to r."""
    def away(angle):
        return math.cos(angle) * (r - z) + math.sin(angle) * d
    # A line at angle a through the point passes the middle at a distance of cos(a)·(r − z) + sin(a)·d, which rises to its
    # greatest at atan2(d, r − z); it touches where that is r.
    low, high = 0.0, math.atan2(d, r - z)
    for _ in range(200):
        middle = (low + high) / 2
        low, high = (middle, high) if away(middle) < r else (low, middle)
    return low


def lamps(spec, wanted):
    t = spec.trailer
    width, length = t["overall_width"], t["known_length"]
    listed = t["lamps"]
    nothing = listed is None and not t["lamp"]
    rows = None if width is None else list(asked_for(width, length))
    of = {name: [lamp for lamp in t["lamp"] if lamp["name"] == name] for name, *_ in LAMPS}
    # Where there is a list it says what is fitted, and the tables only where.
    there = {name: bool(of[name]) if listed is None else name in listed for name in of}
    of = {name: tables if there[name] else [] for name, tables in of.items()}

    def line(row):
        name, count, colours, low, high = row
        band = f", {low} to {high} in up" if low and high else f", {low} in up or more" if low else ""
        return f"{count} {name}, {' or '.join(colours)}{band}"

    def missing():
        return [row[0] for row in rows if not there[row[0]]]

    def too_few():
        found = []
        for name, count, *_ in rows:
            if there[name]:
                if not of[name] or any(lamp["count"] is None for lamp in of[name]):
                    return None
                have = sum(lamp["count"] for lamp in of[name])
                found += [f"{have} {name} of {count}"] if have < count else []
        return found

    def colour():
        found = []
        for name, _, colours, *_ in rows:
            if there[name] and not of[name] or any(lamp["colour"] is None for lamp in of[name]):
                return None
            found += [f"{name} is {lamp['colour']}, not {' or '.join(colours)}" for lamp in of[name] if lamp["colour"] not in colours]
        return found

    def misplaced():
        found = []
        for name, _, _, low, high in rows:
            row = name == "rear identification"
            if there[name] and not of[name] and (low or high or row):
                return None
            for lamp in of[name]:
                if low or high:
                    if lamp["height"] is None:
                        return None
                    found += [f"{name} below {low} in"] if low and lamp["height"] < low * IN else []
                    found += [f"{name} above {high} in"] if high and lamp["height"] > high * IN else []
                if row:
                    if lamp["apart"] is None:
                        return None
                    found += [f"{name} not 6 to 12 in apart"] if not 6 * IN <= lamp["apart"] <= 12 * IN else []
        return found

    def of_us(name, work):
        if held(name, "lamps") is None or rows is None:
            return Expect(None)
        return Expect(work())

    per_place(spec, wanted, "lamps_required", lambda name: of_us(name, lambda: [line(row) for row in rows]))
    for key, work in [("lamps_missing", missing), ("lamps_too_few", too_few), ("lamps_wrong_colour", colour), ("lamps_misplaced", misplaced),
                      ("lamps_hidden", lambda: hidden(spec, rows, of, there, False)), ("lamps_hidden_parked", lambda: hidden(spec, rows, of, there, True))]:
        per_place(spec, wanted, key, lambda name, work=work: Expect(None) if nothing else of_us(name, work))
    per_place(spec, wanted, "tape_needed", lambda name: of_us(name, lambda: width >= 80 * IN and t["gvwr"] > 10000 * LB))
    wanted["plate_lamp", BUILD] = Expect(None if nothing or rows is None else there["plate"])


def hidden(spec, rows, of, there, parked):
    """What stands before each lamp, seen straight: boxes against the places where the lamps are, or may be."""
    t = spec.trailer
    boxes = []
    for part in outside(spec, ["rear door", "tongue", "underside", "roof"]):
        (x0, x1), (y0, y1), z, called = part["x"], part["y"], part["z"], part["called"]
        if parked and part["table"] == "load":
            continue
        if parked and "opens" in part:
            called, side, reach = f"the open {called}", part["opens"], part["reach"]
            x0, x1 = x0 - reach * (side == "front"), x1 + reach * (side == "rear")
            y0, y1 = y0 - reach * (side == "left"), y1 + reach * (side == "right")
        boxes.append((called, (x0, x1), (y0, y1), z))
    found = []
    for name, count, _, low, high in rows:
        if not there[name]:
            continue
        faces = ["front"] if name == "front clearance" else ["left", "right"] if "side" in name else ["rear"]
        for lamp, face in itertools.product(of[name] or [{}], faces):
            for called, x, y, z in boxes:
                before = {"rear": x[1] > t["rear"], "front": x[0] < t["square"], "left": y[0] < -t["side"], "right": y[1] > t["side"]}[face]
                if not before:
                    continue
                top = t["skin"] if high is None else min(t["skin"], high * IN)
                up = [(lamp["height"],) * 2] if lamp.get("height") is not None else [((low or 0) * IN, top)]
                if face in ("left", "right"):
                    seen, along = x, [(lamp["ball"],) * 2] if lamp.get("ball") is not None else [(t["ball_to_box"], t["rear"])]
                else:
                    half, at = t["overall_width"] / 2, lamp.get("centre")
                    seen, along = y, [(-half, half)] if at is None else [(at, at), (-at, -at)] + [(F(0), F(0))] * (count == 3)
                # Each lamp is somewhere in a rectangle; a point is one without size.
                answers = set()
                for (a, b), (c, d) in itertools.product(along, up):
                    def within(low, high, box):
                        if low == high:
                            return box[0] < low < box[1]
                        if box[1] <= low or box[0] >= high:
                            return False
                        return True if box[0] <= low and box[1] >= high else None
                    sides = within(a, b, seen), within(c, d, z)
                    answers.add(False if False in sides else None if None in sides else True)
                if True in answers:
                    entry = f"{name} behind {called}"
                    found += [entry] if entry not in found else []
                elif None in answers:
                    return None
    return found


def brakes(spec, wanted):
    t, head = spec.trailer, spec.head
    berth = head.get("berth", False)
    sort = head["registered"] or ("camp trailer" if berth else "other trailer")
    wanted["sort", BUILD] = Expect(sort if head["registered"] else sort + (", inferred from its berths" if berth else ", inferred as it has no berth"))
    all_loads = [loads_of(spec, whole) for whole in arrangements(spec)]
    gross, axles = max(one[0] for one in all_loads), max(one[2] for one in all_loads)
    tongue, share = min(one[1] for one in all_loads), min(one[1] / one[0] for one in all_loads)
    weight = {"gross weight": gross, "rating": t["gvwr"], "axle load": axles}

    def needs(name, of=sort):
        return lowest_first([need for need in held(name, "brakes") if need.get("sort", of) == of])

    def limit(need):
        text = need.get("more_than") or need.get("at_least")
        return None if text is None else si(text)

    def due(name):
        reached = None
        for need in needs(name):
            if limit(need) is None:
                return "unknown"
            heavy = weight[need["by"]]
            if heavy > limit(need) or ("at_least" in need and heavy == limit(need)):
                reached = need
        return reached

    def lacking(name):
        need, own = due(name), t["brakes"]
        if need == "unknown":
            return None
        if need is None:
            return []
        if own is None:
            return None
        if own["kind"] == "none":
            return ["brakes"] + (["a breakaway switch"] if need.get("breakaway") else [])
        if own["axles"] is None:
            return None
        found = []
        if "wheels" not in need and own["axles"] < t["axles"]:
            return None
        if need.get("wheels") == "all wheels" and own["axles"] < t["axles"]:
            found.append(f"brakes on all {t['axles']} axles")
        elif "wheels" in need and own["axles"] == 0:
            found.append("brakes on one axle")
        asked, has = need.get("breakaway"), own["breakaway"]
        if asked is False or has is True:
            return found
        if asked is None or has is None:
            return None
        return found + ["a breakaway switch"]

    per_place(spec, wanted, "brake_threshold", lambda name: known(limit(needs(name)[0])))
    per_place(spec, wanted, "brake_margin", lambda name: left(limit(needs(name)[0]), weight.get(needs(name)[0]["by"])))
    per_place(spec, wanted, "brakes_needed", lambda name: Expect(None if due(name) == "unknown" else due(name) is not None))
    per_place(spec, wanted, "brakes_lacking", lambda name: Expect(lacking(name)))

    def lowered(name):
        other, camp = limit(needs(name, "other trailer")[0]), limit(needs(name, "camp trailer")[0])
        return Expect(None) if other is None or camp is None or other == camp else known(other - camp)

    per_place(spec, wanted, "threshold_lowered", lowered)
    part = None
    if spec.tow is not None and spec.tow["mass"] is not None:
        part = spec.state[2] / (spec.tow["mass"] + spec.state[1])
    wanted["axle_share", "state `away`"] = known(part)
    per_place(spec, wanted, "axle_share_margin", lambda name: left(held(name, "figure", "most_axle_share"), part, 1))

    def by_share(name):
        most = held(name, "figure", "most_axle_share")
        return Expect(None if most is None or part is None else gross <= 3000 * LB and part <= most)

    per_place(spec, wanted, "unbraked_by_share", by_share)
    breakaway(spec, wanted)
    per_place(spec, wanted, "tongue_share_margin", lambda name: left(share, held(name, "figure", "least_tongue_share"), 1))
    per_place(spec, wanted, "tongue_weight_margin", lambda name: left(tongue, held(name, "figure", "least_tongue"), gross))
    clearance(spec, wanted)


def breakaway(spec, wanted):
    t, own = spec.trailer, spec.trailer["brakes"]
    count = None if own is None else 0 if own["kind"] == "none" else own["axles"]
    wanted["braked_axles", BUILD] = Expect(None if count is None else f"{count} of {t['axles']}")
    wanted["every_axle_braked", BUILD] = Expect(None if count is None else count >= t["axles"])
    if own is None or own["kind"] == "none":
        return
    longest = None
    if spec.head["places"]:
        holds = [held(name, "figure", "breakaway_hold") for name in spec.head["places"]]
        longest = max([one for one in holds if one is not None], default=si("15 min"))
    magnets = own["magnets"] or (None if own["axles"] is None else 2 * own["axles"])
    charge = None
    if own["kind"] == "electric" and magnets is not None and longest is not None:
        charge = magnets * si("3 A") * longest
    wanted["breakaway_charge", BUILD] = known(charge, 1)
    wanted["breakaway_charge_margin", BUILD] = Expect(None) if charge is None else left(own["battery"], charge)
    wanted["breakaway_hold_margin", BUILD] = left(spec.record, longest)


def clearance(spec, wanted):
    t, tow = spec.trailer, spec.tow
    if tow is None or tow["tailgate"] is None and tow["tailgate_height"] is None:
        return
    things = [(part["called"], part["x"][0], max(abs(part["y"][0]), abs(part["y"][1])), part["z"][1]) for part in outside(spec, ["tongue"])]
    if t["jack"]:
        things.append(("the jack", t["jack"][0], F(0), t["jack"][1]))
    for called, x, off, top in things:
        value = None
        if tow["tailgate_height"] is not None and top > tow["tailgate_height"] and tow["tailgate"] is not None:
            # The corner turned by 60 degrees, as a complex number.
            turned = complex(float(x), float(off)) * complex(0.5, math.sqrt(0.75))
            value = turned.real - float(tow["tailgate"])
        wanted["tongue_clearance", called] = Expect(None) if value is None else Expect(value, 1e-9, 1.0)


def tires(spec, wanted):
    t, tire = spec.trailer, spec.trailer["tire"]
    wanted["tire_sum_margin", BUILD] = left(2 * tire["rating"], t["gawr"])
    # Of each axle one tire a side, and the axles of a group share evenly.
    heaviest = max(max(one[3], one[4]) for one in map(lambda whole: loads_of(spec, whole), arrangements(spec)))
    for key, of, load in [("tire_reserve", "state `away`", max(spec.state[3], spec.state[4])), ("least_tire_reserve", BUILD, heaviest)]:
        wanted[key, of] = known(1 - load / t["axles"] / tire["rating"], 1)
    wanted["tire_age", BUILD] = known(tire["age"], 1)
    wanted["tires_alike", BUILD] = Expect(tire["alike"])
    speed = None
    if spec.head["places"]:
        speed = max(held(name, "figure", "most_speed") or si("65 mph") for name in spec.head["places"])
    rated = tire["speed"] or (si("65 mph") if tire["made_for"] == "trailers" else None)
    wanted["tire_speed_margin", BUILD] = left(rated, speed)


def nearest(number):
    """To the nearest whole one, halves away from nothing."""
    return math.copysign(math.floor(abs(number) + F(1, 2)), number)


def labels(spec, wanted):
    t, head = spec.trailer, spec.head
    unloaded = t["mass"] + sum(part["mass"] for part in spec.items if part["fitted"])
    added, gvwr = unloaded - t["mass"], t["gvwr"]
    cargo = gvwr - unloaded
    wanted["unloaded_weight", BUILD] = known(unloaded)
    wanted["cargo_capacity", BUILD] = left(gvwr, unloaded)
    kilograms = nearest(cargo)
    wanted["label_cargo_kilograms", BUILD] = Expect(kilograms, 1e-9, max(1.0, abs(kilograms)))
    wanted["label_cargo_pounds", BUILD] = Expect(nearest(F(kilograms) / LB) * float(LB), 1e-9, max(1.0, abs(kilograms)))
    water = sum(part["capacity"] for part in spec.items if part.get("holds") == "fresh")
    wanted["label_water_kilograms", BUILD] = known(water * 1000, 1)
    wanted["label_water_pounds", BUILD] = known(water * F("8.3") * LB / GAL, 1)
    wanted["added_weight", BUILD] = known(added, unloaded)
    free = min(gvwr * F("0.015"), 100 * LB) if gvwr <= 10000 * LB else 100 * LB
    wanted["added_threshold", BUILD] = known(free)
    wanted["added_margin", BUILD] = known(free + (t["added_label"] or 0) - added, unloaded)
    least = t["tongue_least"]
    if least is None:
        least = min(loads_of(spec, whole)[1] for whole in arrangements(spec))
    wanted["axle_sum_margin", BUILD] = known(t["axles"] * t["gawr"] + least - gvwr, gvwr)
    if t["rated_cargo"] is not None:
        wanted["gvwr_floor_margin", BUILD] = known(gvwr - unloaded - t["rated_cargo"], gvwr)
    if t["label_gvwr"] is not None:
        wanted["gvwr_change", BUILD] = left(gvwr, t["label_gvwr"])
    standard = "49 CFR 571.110" if gvwr <= 10000 * LB else "49 CFR 571.120"
    wanted["standard", BUILD] = Expect(standard)
    enough = None if head["facilities"] is None else len(head["facilities"]) >= 4
    camper = False if enough is False else None if enough is None or head["cargo_first"] is None else not head["cargo_first"]
    wanted["recreational", BUILD] = Expect(camper)
    duties = None
    if head["sale"] == "new" and camper is not None:
        duties = [f"{standard}: tire placard with the cargo weight"]
        duties += [f"{standard}: cargo capacity label for a recreational vehicle trailer"] if camper else []
        duties += [f"{standard}: label corrected for {float(added / LB):.0f} lb added"] if added > free else []
        duties += ["49 CFR 567.7: alterer's label"] if added > 0 else []
    wanted["label_duties", BUILD] = Expect(duties)


if __name__ == "__main__":
    main("road", draw, least=60.0)
