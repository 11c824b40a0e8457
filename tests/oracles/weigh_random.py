"""Weighs random build specs with arithmetic of its own and compares with `pintle weigh`.

    python3 tests/oracles/weigh_random.py [--count 300] [--seed 118] [--pintle PATH] [--keep DIR]
    python3 tests/oracles/weigh_random.py --self-test

Writes a stock list and build specs, all of it invented by chance, into a temporary folder; reads them back with
`tomllib`; and works out from the written definitions of the spec format what each state weighs. Nothing of the
tool's code is used: units come from `pint` on exact fractions, sums from `numpy`, outlines from `shapely`.

Of all road arrangements, written down one by one (`arranged.py`), the extremes of every figure, the axle window, the
envelope and what the ratings allow of it are compared too; and each arrangement that the tool names is held against
the words of the format, and weighed.

Exits 1 where a figure differs by more than 1e-9 of its scale, where one of the two has a figure that the other has
not, where fewer specs or figures were compared than there should be, where chance left out a zone, a gap, a shape or
a sort of figure, and where the tool fails.
`--self-test` (of no fewer specs than 200) falsifies the tool's answer, one figure of each sort by 1e-6 of its scale,
then by leaving out a figure, a body, a state and a spec; it exits 1 if any falsehood passes.
"""

import argparse
import collections
import copy
import json
import math
import pathlib
import random
import re
import subprocess
import sys
import tempfile
import tomllib
from fractions import Fraction

import numpy
import pint
import shapely

import arranged

AGREE = 1e-9
FALSEHOOD = 1e-6
WATER = "8.34 lb/gal"
# Fewer figures than this for a spec on average would mean that the generator or the comparison lost its matter.
FIGURES_A_SPEC = 60
# From so many specs on, every zone, gap, shape and sort of figure must have been drawn.
ALL_SORTS_FROM = 200
# Corners of the polygon that stands for half an ellipse where a locker cuts it. The chords of n equal steps lose
# (pi/n)^2/6 of its area: 4e-11 of it.
ARC = 200_000
# The shop's band of tongue shares, in per cent: wide enough that some axles lie in their window, and some do not.
BAND = ("3.5", "32.75")
BORDER = 1e-4  # metres within which a yes or no (high, low, on the floor, inside) is left to nobody


class Border(Exception):
    """A drawn spec stands on a border between yes and no; draw another."""


# ---- texts to SI -------------------------------------------------------------------------------------------------

REGISTRY = pint.UnitRegistry(non_int_type=Fraction)
SPELLINGS = {
    "inch": ["in", "inch", "inches", '"', "″", "''"], "foot": ["ft", "foot", "feet", "'", "′"],
    "yard": ["yd", "yards"], "millimeter": ["mm"], "centimeter": ["cm"], "meter": ["m"],
    "pound": ["lb", "lbs", "#", "pounds"], "ounce": ["oz"], "short_ton": ["ton"],
    "gram": ["g"], "kilogram": ["kg"], "metric_ton": ["t"],
    "gallon": ["gal", "gallons"], "quart": ["qt"], "pint": ["pt"], "fluid_ounce": ["fl oz"],
    "liter": ["L", "l", "litres"], "milliliter": ["mL"], "meter**3": ["m³"], "inch**3": ["in³", "cu in"],
    "foot**3": ["ft³"], "inch**2": ["in²", "sq in"], "foot**2": ["ft²", "sq ft"], "centimeter**2": ["cm²"],
    "millimeter**2": ["mm²"], "meter**2": ["m²"], "percent": ["%"], "pound/gallon": ["lb/gal"],
}
FACTORS = {
    spelling: REGISTRY.Quantity(Fraction(1), unit).to_base_units().magnitude
    for unit, spellings in SPELLINGS.items() for spelling in spellings
}
VULGAR = {"½": "1/2", "¼": "1/4", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8"}
PART = re.compile(r"\s*-?\s*(?P<whole>\d[\d,]*(?:\.\d+)?)??(?:[\s-]*(?P<above>\d+)/(?P<below>\d+))?"
                  r"\s*(?P<unit>[^\d\s.+±−-][^\d+±−-]*)")


def exact(text):
    """The SI value of a quantity as written, as a fraction; its tolerance is read past."""
    value = re.split(r"±|\+/-|\+-", text)[0].strip()
    for sign, plain in {"^2": "²", "^3": "³", **{sign: " " + text for sign, text in VULGAR.items()}}.items():
        value = value.replace(sign, plain)
    negative = value[:1] in "-−"
    value = value.lstrip("+-−")
    total, at = Fraction(0), 0
    while at < len(value):
        part = PART.match(value, at)
        if not part or not (part["whole"] or part["above"]):
            raise ValueError(f"cannot read `{text}` from `{value[at:]}`")
        number = Fraction(part["whole"].replace(",", "")) if part["whole"] else Fraction(0)
        if part["above"]:
            number += Fraction(int(part["above"]), int(part["below"]))
        total += number * FACTORS[part["unit"].strip()]
        at = part.end()
    return -total if negative else total


def si(text):
    return float(exact(text))


# ---- what a spec says --------------------------------------------------------------------------------------------

LISTS = ("item", "tank", "locker", "bulkhead", "berth", "vent")


def laid_over(upper, lower):
    """What is stated above, and what is stated below where nothing is above it; tables within tables likewise."""
    both = dict(lower)
    for key, value in upper.items():
        under = lower.get(key)
        both[key] = laid_over(value, under) if isinstance(value, dict) and isinstance(under, dict) else value
    return both


class Stock:
    def __init__(self, parts):
        self.parts = {part["name"]: part for part in parts}

    def full(self, stated):
        """A table with the fields of the stock part that it names."""
        own = {key: value for key, value in stated.items() if key not in ("part", "name")}
        return laid_over(own, self.full(self.parts[stated["part"]])) if "part" in stated else own


class Trailer:
    """Surfaces in metres: x behind the ball, y right of the centreline, z above the ground."""

    def __init__(self, stated):
        self.stated = stated
        m = lambda key: si(stated[key])  # noqa: E731
        self.shape = stated["nose"]["shape"]
        self.length, self.width, self.wall = m("length"), m("width"), m("wall")
        self.depth = 0.0 if self.shape == "flat" else si(stated["nose"]["depth"])
        self.blunt = {"flat": self.width, "round": 0.0}.get(self.shape, si(stated["nose"].get("front_width", "0 in")))
        self.nose = {"out": m("ball_to_box"), "in": m("ball_to_box") + self.wall}
        begins = self.nose["in"] + self.depth
        # The outside of a pointed nose meets the sides where the inside does.
        self.square = {"in": begins, "out": self.nose["out"] if self.shape == "flat" else begins}
        self.rear = {"in": begins + self.length, "out": begins + self.length + self.wall}
        self.half = {"in": self.width / 2, "out": self.width / 2 + self.wall}
        self.floor = m("floor_height")
        self.ceiling = self.floor + m("height")
        self.skin = self.ceiling + m("roof")
        self.frame = m("frame_height")
        self.axle, self.track = si(stated["axle"]["ball"]), si(stated["axle"]["track"])
        self.mass, self.gvwr = m("mass"), m("gvwr")

    def centre(self):
        """Of the empty trailer; its distance behind the ball follows from the tongue weight when not stated: what
        the ball carries times the axle's distance is the mass times its own distance ahead of the axle."""
        cg = self.stated["cg"]
        behind = si(cg["ball"]) if "ball" in cg else self.axle - self.axle * si(self.stated["tongue"]) / self.mass
        return behind, si(cg["centre"]), si(cg["ground"])

    def outline(self, side, fine=ARC):
        """The plan as a polygon; a round nose by chords."""
        nose, square, rear, half = (getattr(self, name)[side] for name in ("nose", "square", "rear", "half"))
        if self.shape == "round":
            turn = numpy.linspace(-math.pi / 2, math.pi / 2, fine + 1)
            front = numpy.column_stack([square - (square - nose) * numpy.cos(turn), half * numpy.sin(turn)])
        elif self.shape == "wedge":
            # Outside, the blunt front is wider in the proportion in which the box is.
            front_half = self.blunt / 2 * half / self.half["in"]
            front = numpy.array([(square, -half), (nose, -front_half), (nose, front_half), (square, half)])
        else:
            front = numpy.array([(nose, -half), (nose, half)])
        return shapely.Polygon(numpy.vstack([front, [(rear, half), (rear, -half)]]))

    def plan_area(self):
        """Without lockers. The round nose by the exact area of half an ellipse, not by its polygon."""
        if self.shape == "round":
            return self.width * self.length + math.pi / 4 * self.width * self.depth
        return self.outline("in").area

    def front_of_roof(self, y):
        """x of the outside of the front at a distance from the centreline."""
        half, nose, square = self.half["out"], self.nose["out"], self.square["out"]
        if self.shape == "round" and abs(half - abs(y)) < 1e-9:
            raise Border("where a round nose runs along the side, rounding alone moves its front by ten nanometres")
        if abs(y) >= half:
            return square
        if self.shape == "round":
            return square - (square - nose) * math.sqrt(1 - (y / half) ** 2)
        across = shapely.LineString([(nose - 1, y), (self.rear["out"] + 1, y)])
        return self.outline("out").intersection(across).bounds[0]


class Thing:
    """A part or a load in its place. `near` and `far` by axis; a coordinate that is not known is None."""

    def __init__(self, near, far, centre):
        self.near, self.far, self.centre = near, far, centre

    def plan(self):
        return shapely.box(self.near[0], self.near[1], self.far[0], self.far[1])

    def middle(self, axis):
        return (self.near[axis] + self.far[axis]) / 2


NEAR, MIDDLE, FAR = 0.0, 0.5, 1.0  # which point of the thing a gap reaches, as a share of its size


class Build:
    def __init__(self, spec, stock):
        self.spec = spec
        self.trailer = Trailer(stock.full(spec["trailer"]))
        self.parts, self.list_of = {}, {}
        for table in LISTS:
            for stated in spec.get(table, []):
                self.parts[stated["tag"]] = stock.full(stated)
                self.list_of[stated["tag"]] = table
        self.loads = {stated["tag"]: stock.full(stated) for stated in spec.get("load", [])}
        self.tow = stock.full(spec.get("tow", {}))
        self.placed = {}
        self.used, self.offered = set(), set()

    def kind(self, tag):
        return self.parts[tag].get("kind", self.list_of[tag])

    def tags(self, kind):
        return [tag for tag in self.parts if self.kind(tag) == kind]

    def host(self, zone):
        """The tag of the rack, locker or tent that a zone is; none for a zone of the trailer."""
        racks = self.tags("rack")
        if zone == "rack" and len(racks) == 1:
            return racks[0]
        return zone if zone in self.parts else None

    def gaps(self, zone):
        """For each axis: the gaps a zone takes, each with the point of the thing that it reaches, the surface it is
        measured from and the direction; and where the thing is when no gap is given."""
        t = self.trailer
        along = lambda side: {  # noqa: E731
            "front": (NEAR, t.square[side], 1), "nose": (NEAR, t.nose[side], 1), "rear": (FAR, t.rear[side], -1),
            "ball": (NEAR, 0.0, 1), "axle": (MIDDLE, t.axle, 1),
        }
        across = lambda side: {  # noqa: E731
            "left": (NEAR, -t.half[side], 1), "right": (FAR, t.half[side], -1), "centre": (MIDDLE, 0.0, 1),
        }
        upright = {"floor": (NEAR, t.floor, 1), "ceiling": (FAR, t.ceiling, -1), "ground": (NEAR, 0.0, 1)}
        ground = {"ground": (NEAR, 0.0, 1)}
        centred = (MIDDLE, 0.0)
        on = lambda surface: ({"gap": (NEAR, surface, 1)}, (NEAR, surface))  # noqa: E731
        host = self.host(zone)
        if host is None:
            return {
                "inside": [(along("in"), None), (across("in"), None), (upright, (NEAR, t.floor))],
                "tongue": [
                    ({"ball": (NEAR, 0.0, 1), "box": (FAR, t.nose["out"], -1)}, None),
                    ({"centre": (MIDDLE, 0.0, 1)}, centred),
                    ({"frame": (NEAR, t.frame, 1), **ground}, (NEAR, t.frame)),
                ],
                "roof": [(along("out"), None), (across("out"), centred), on(t.skin)],
                "front wall": [
                    ({"gap": (FAR, t.nose["out"], -1)}, (FAR, t.nose["out"])), (across("out"), centred),
                    (upright, None),
                ],
                "rear door": [on(t.rear["out"]), (across("out"), centred), (upright, None)],
                "left wall": [(along("in"), None), ({}, (MIDDLE, -t.half["in"])), (upright, None)],
                "right wall": [(along("in"), None), ({}, (MIDDLE, t.half["in"])), (upright, None)],
                "floor": [(along("in"), None), (across("in"), None), on(t.floor)],
                "underside": [(along("out"), None), (across("out"), centred), (ground, None)],
            }[zone]
        h = self.thing(host)
        if self.kind(host) == "tent":
            mattress = h.near[2] + si(self.parts[host]["floor"])
            surfaces = (("front", h.near[0]), ("left", h.near[1]), ("floor", mattress))
            return [({key: (NEAR, surface, 1)}, (NEAR, surface)) for key, surface in surfaces]
        x = {"front": (NEAR, h.near[0], 1), "rear": (FAR, h.far[0], -1)}
        y = {"left": (NEAR, h.near[1], 1), "right": (FAR, h.far[1], -1), "centre": (MIDDLE, h.middle(1), 1)}
        if self.kind(host) == "rack":
            return [(x, None), (y, (MIDDLE, h.middle(1))), on(h.far[2])]
        inner = {"floor": (NEAR, h.near[2], 1), "ceiling": (FAR, h.far[2], -1)}
        return [(x, None), (y, None), (inner, (NEAR, h.near[2]))]

    def put(self, stated, load=False):
        at, cg = stated.get("at", {}), stated.get("cg", {})
        near, far, centre = [], [], []
        zone = stated.get("zone", "inside")
        sort = self.kind(self.host(zone)) if self.host(zone) else zone
        axes = zip(self.gaps(zone), ("length", "width", "height"), ("front", "left", "floor"))
        for axis, ((gaps, otherwise), size, within) in enumerate(axes):
            size = si(stated[size]) if not load or size in stated else 0.0
            keys = [key for key in at if key in gaps]
            self.offered |= {(sort, key) for key in gaps}
            self.used |= {(sort, key) for key in keys}
            if keys:
                [key] = keys
                point, surface, direction = gaps[key]
                place = surface + direction * si(at[key])
            elif otherwise and not (load and axis == 2):
                point, place = otherwise
            else:
                point, place = NEAR, None
            begins = None if place is None else place - point * size
            near.append(begins)
            far.append(None if begins is None else begins + size)
            inner = si(cg[within]) if within in cg and not load else size / 2
            centre.append(None if begins is None else begins + inner)
        return Thing(near, far, centre)

    def thing(self, tag):
        if tag not in self.placed:
            self.placed[tag] = self.put(self.parts[tag])
        return self.placed[tag]

    def load(self, tag):
        """A `[[load]]` in its place."""
        if tag not in self.placed:
            self.placed[tag] = self.put(self.loads[tag], load=True)
        return self.placed[tag]

    # -- weights --

    def gone(self, state):
        """What is left at home, with what stands on it or in it."""
        out = set(state.get("out", []))
        while more := {tag for tag, part in self.parts.items() if self.host(part.get("zone", "inside")) in out} - out:
            out |= more
        return out

    def fitted(self, out=()):
        """What is fitted: name, mass, centre of gravity. A berth or a vent may go without a mass; of anything else,
        and of the bedding of a tent, a mass that is not stated is not known."""
        t = self.trailer
        yield "the empty trailer", t.mass, t.centre()
        for tag in self.parts:
            if tag not in out:
                names = (f"{self.list_of[tag]} `{tag}`", f"bedding in {self.list_of[tag]} `{tag}`")
                yield from ((name, *body) for name, body in zip(names, self.fitted_of(tag)))

    def fitted_of(self, tag):
        """A part as mass and centre of gravity, and the bedding kept in it likewise."""
        part, centre = self.parts[tag], self.thing(tag).centre
        bodies = []
        if "mass" in part or self.kind(tag) not in ("berth", "vent"):
            bodies.append((si(part["mass"]) if "mass" in part else None, centre))
        if self.kind(tag) == "tent":
            bodies.append((si(part["bedding"]) if "bedding" in part else None, centre))
        return bodies

    def cargo(self, state):
        out = self.gone(state)
        for tag in self.tags("tank"):
            if tag in out:
                continue
            share = exact(state["fill"][tag]) if tag in state["fill"] else None
            if share is None:
                yield f"water in tank `{tag}`", None, (None, None, None)
            elif share > 0 or "±" in state["fill"][tag]:
                # Empty give or take something is a body too, without weight.
                tank = self.thing(tag)
                depth = (tank.far[2] - tank.near[2]) * float(share)
                centre = tank.middle(0), tank.middle(1), tank.near[2] + depth / 2
                yield f"water in tank `{tag}`", float(exact(self.parts[tag]["capacity"]) * share * exact(WATER)), centre
        for tag, mass in state.get("carry", {}).items():
            yield f"load `{tag}`", si(mass), self.load(tag).centre
        for load in state.get("load", []):
            yield f"load `{load['what']}`", si(load["mass"]), self.put(load, load=True).centre
        for aboard in state.get("people", []):
            count, berth = aboard["count"], aboard["berth"]
            if count:
                who = "one person" if count == 1 else f"{count} people"
                mass, bed = si(self.spec["people"]["mass"]) * count, self.thing(berth)
                # In the middle of the berth, wherever the mattress itself has its centre of gravity.
                yield f"{who} in berth `{berth}`", mass, tuple(map(bed.middle, range(3)))

    def weigh(self, state):
        """Figures of a state: path to value and scale. A part of a sum is judged against the sum: a tongue weight or
        a side's load is a small difference of large moments, so its scale is the gross weight. Lengths, which are
        differences of places some metres off, have a scale of a metre at least."""
        t = self.trailer
        fitted, cargo = list(self.fitted(self.gone(state))), list(self.cargo(state))
        bodies = [body for body in fitted + cargo if body[1] is not None]
        figures = {}
        for name, kilograms, place in bodies:
            figures["moments", name, "mass"] = kilograms, kilograms
            for axis, where in zip("xyz", place):
                figures["moments", name, axis] = where, length_scale(where)
            moment = None if place[0] is None else kilograms * place[0]
            figures["moments", name, "moment"] = moment, kilograms * length_scale(place[0])
        if len(bodies) < len(fitted) + len(cargo):
            # A mass is not known: no weight of this state can be worked out.
            names = ("gross", "unloaded", "cargo_left", "axles", "tongue", "tongue_share", "left", "right")
            unknown = [(name,) for name in names] + [("cg", axis) for axis in "xyz"]
            return figures | dict.fromkeys(unknown, (None, None))
        mass = numpy.array([body[1] for body in bodies])
        places = [[body[2][axis] for body in bodies] for axis in range(3)]
        gross, unloaded = float(mass.sum()), sum(body[1] for body in fitted)
        moments = [None if None in place else float(mass @ numpy.array(place)) for place in places]
        axles = None if moments[0] is None else moments[0] / t.axle
        known = axles is not None and moments[1] is not None
        swing = moments[1] / t.track if known else None
        figures |= {
            ("gross",): (gross, gross), ("unloaded",): (unloaded, gross), ("cargo_left",): (t.gvwr - gross, gross),
            ("axles",): (axles, gross), ("tongue",): (axles if axles is None else gross - axles, gross),
            ("tongue_share",): (axles if axles is None else (gross - axles) / gross, 1.0),
            ("left",): (axles / 2 - swing if known else None, gross),
            ("right",): (axles / 2 + swing if known else None, gross),
        }
        for axis, moment in zip("xyz", moments):
            centre = None if moment is None else moment / gross
            figures["cg", axis] = centre, length_scale(centre)
        return figures

    # -- geometry --

    def reaches_inside(self, tag):
        """Whether a box shares room with the inside. Touching is not sharing; what is as thin as that is redrawn."""
        t, box = self.trailer, self.thing(tag)
        x = min(box.far[0], t.rear["in"]) - max(box.near[0], t.nose["in"])
        y = min(box.far[1], t.half["in"]) - max(box.near[1], -t.half["in"])
        z = min(box.far[2], t.ceiling) - max(box.near[2], t.floor)
        clear = 0.005
        if min(x, y, z) <= 0:
            if min(x, y, z) > -clear:
                raise Border(f"{tag} all but reaches inside")
            return False
        shared = t.outline("in", 2000).intersection(box.plan())
        if min(x, y, z) < clear or shared.is_empty or shared.buffer(-clear / 2).is_empty:
            raise Border(f"{tag} hardly reaches inside")
        return True

    def plan_area(self):
        """Lockers that stand on the floor (within an inch), open only to the outside and are sealed to the inside
        are no living space."""
        t, taken = self.trailer, []
        for tag in self.tags("locker"):
            part = self.parts[tag]
            if part["opens"] == "outside" and part["sealed"] and self.reaches_inside(tag):
                if decide(0.0254 - (self.thing(tag).near[2] - t.floor)):
                    taken.append(self.thing(tag).plan())
        if not taken:
            return t.plan_area()
        return t.plan_area() - shapely.intersection(shapely.union_all(taken), t.outline("in")).area

    def vents(self):
        """Free areas of vents of the box that lead outside and cannot be shut."""
        t, areas = self.trailer, {"roof": [], "high_wall": [], "low": []}
        tops = [self.thing(tag).far[2] for tag in self.tags("berth") if self.reaches_inside(tag)]
        for tag in self.tags("vent"):
            part, zone = self.parts[tag], self.parts[tag].get("zone", "inside")
            if part["closable"] or part.get("leads", "outside") == "inside" or self.host(zone):
                continue
            under = self.thing(tag).near[2]
            if zone == "roof":
                areas["roof"].append(part["area"])
            elif zone == "floor" or decide(0.100 - (under - t.floor)):
                areas["low"].append(part["area"])
            elif decide(under - max(tops) - 0.300 if tops else under - (t.floor + t.ceiling) / 2):
                areas["high_wall"].append(part["area"])
        return {name: float(sum(map(exact, texts), Fraction(0))) for name, texts in areas.items()}

    def on_top(self, part):
        zone = part.get("zone", "inside")
        host = self.host(zone)
        if host is None:
            return zone == "roof"
        return self.kind(host) == "rack" or self.kind(host) == "locker" and self.on_top(self.parts[host])

    def geometry(self):
        t = self.trailer
        tops = [t.skin] + [self.thing(tag).far[2] for tag in self.parts if self.on_top(self.parts[tag])]
        # A load without a height may reach to anywhere.
        tops += [self.load(tag).far[2] if "height" in load else None
                 for tag, load in self.loads.items() if self.on_top(load)]
        figures = {("plan_area",): (self.plan_area(), 1.0), ("inside_length",): (t.length + t.depth, 1.0),
                   ("overall_height",): (None if None in tops else max(tops), 1.0)}
        for name, area in self.vents().items():
            figures["vents", name] = area, max(area, 1e-6)
        for tag in self.tags("tent"):
            box, host = self.thing(tag), self.host(self.parts[tag]["zone"])
            left, right = box.near[1], box.far[1]
            beyond = {
                "ahead": max(t.front_of_roof(left), t.front_of_roof(right)) - box.near[0],
                "aside": max(-t.half["out"] - left, right - t.half["out"]), "behind": box.far[0] - t.rear["out"],
            }
            for side, length in beyond.items():
                figures["tents", tag, "beyond_roof", side] = length, length_scale(length)
            sides = dict.fromkeys(("front", "left", "rear", "right"))
            if host:
                over, on = box.plan().bounds, self.thing(host).plan().bounds
                sides = dict(zip(sides, (on[0] - over[0], on[1] - over[1], over[2] - on[2], over[3] - on[3])))
            for side, length in sides.items():
                figures["tents", tag, "overhang", side] = length, length_scale(length)
        for tag in self.tags("rack"):
            lying = [on for on, part in self.parts.items() if self.host(part.get("zone", "inside")) == tag]
            gap = min((self.thing(on).near[2] for on in lying), default=t.skin) - t.skin
            roof = self.parts[tag]["zone"]
            while self.host(roof):
                roof = self.parts[self.host(roof)]["zone"]
            stands = self.thing(tag).far[2] - t.skin if roof == "roof" else None
            figures["racks", tag, "stands"] = stands, 1.0
            figures["racks", tag, "air_gap"] = gap if lying and roof == "roof" else None, 1.0
        return figures

    def figures(self):
        masses = [mass for _, mass, _ in self.fitted()]
        unloaded = None if None in masses else sum(masses)
        capacity = None if None in masses else self.trailer.gvwr - unloaded
        every = {("as_built", "unloaded"): (unloaded, unloaded), ("as_built", "cargo_capacity"): (capacity, unloaded)}
        every |= {("geometry", *path): figure for path, figure in self.geometry().items()}
        for state in self.spec["state"]:
            for path, figure in self.weigh(state).items():
                every["states", state["name"], *path] = figure
        self.arrangements = arranged.Arrangements(self, exact, WATER)
        for (figure, end), value in self.arrangements.extremes().items():
            every["arrangements", "extremes", figure, end, "value"] = value
        band = self.band()
        window = self.arrangements.window(*band)
        fore, aft, _ = window or (None, None, None)
        places = {"foremost": fore, "rearmost": aft}
        every |= {("arrangements", "axle_window", name, "behind_ball"): (place, length_scale(place))
                  for name, place in places.items()}
        every["arrangements", "axle_window", "length"] = (None if window is None else aft - fore), length_scale(fore)
        every["arrangements", "axle_window", "axle"] = (None if window is None else self.trailer.axle), 1.0
        return every

    @staticmethod
    def band():
        return tuple(float(exact(f"{limit} %")) for limit in BAND)


def decide(margin):
    if abs(margin) < BORDER:
        raise Border("on the line")
    return margin > 0


def length_scale(length):
    return 1.0 if length is None else max(1.0, abs(length))


# ---- drawing specs -----------------------------------------------------------------------------------------------

INCH, POUND = 0.0254, float(exact("1 lb"))
# Inches fore and aft, across and upright; pounds.
SIZES = {
    "module": ((12, 72), (12, 40), (12, 60), (20, 250)), "equipment": ((4, 40), (4, 24), (2, 20), (1, 60)),
    "rack": ((40, 100), (48, 72), (2, 24), (30, 110)), "tent": ((44, 100), (40, 64), (8, 16), (80, 180)),
    "ladder": ((30, 80), (12, 20), (3, 6), (12, 35)), "cylinder": ((8, 13), (8, 13), (12, 24), (15, 60)),
    "appliance": ((8, 20), (8, 24), (4, 30), (8, 70)), "battery": ((6, 14), (6, 9), (6, 10), (12, 70)),
    "alarm": ((1, 3), (2, 6), (2, 4), (0.3, 1)), "tank": ((10, 30), (10, 30), (6, 14), (3, 25)),
    "locker": ((12, 36), (12, 30), (10, 26), (10, 60)), "bulkhead": ((0.5, 1.5), (40, 80), (50, 80), (30, 80)),
    "berth": ((60, 80), (24, 60), (3, 8), (8, 40)), "vent": ((2, 14), (1, 14), (1, 6), (0.5, 9)),
}
ITEM_KINDS = ("module", "equipment", "ladder", "cylinder", "appliance", "battery", "alarm")


class Draw(random.Random):
    def maybe(self, share):
        return self.random() < share

    def whole_and_sixteenths(self, number):
        below = self.choice((1, 1, 2, 4, 8, 16))
        above = max(1, round(number * below))
        whole, rest = divmod(above, below)
        if not rest:
            return f"{whole:,}" if self.maybe(0.7) else str(whole)
        fraction = Fraction(rest, below)
        vulgar = [sign for sign, text in VULGAR.items() if Fraction(text) == fraction]
        text = vulgar[0] if vulgar and self.maybe(0.2) else f"{rest}/{below}"
        if not whole:
            return text
        return f"{whole}{self.choice(' -') if text not in VULGAR else self.choice(('', ' '))}{text}"

    def decimal(self, number, places):
        return f"{max(number, 10.0 ** -places):,.{places}f}"

    def spaced(self, number, units):
        unit = self.choice(units)
        return f"{number}{self.choice(('', ' ', ' ')) if unit not in ('inches', 'feet') else ' '}{unit}"

    def tolerance(self, text, units):
        if self.maybe(0.15):
            half = self.choice((f"{self.choice(('1', '1/2', '2', '0.25'))} {self.choice(units)}", "1 %", "0.5%"))
            return f"{text} {self.choice(('±', '+/-'))} {half}"
        return text

    def length(self, inches, signed=True):
        size = abs(inches)
        feet, over = divmod(size, 12)
        sorts = ["in", "in", "in", "decimal", "mm", "cm", "m"] + ["ft in", "ft in", "marks"] * (feet >= 1)
        sort = self.choice(sorts)
        if sort == "in":
            text = self.spaced(self.whole_and_sixteenths(size), ("in", "in", "inches", '"', "''"))
        elif sort == "decimal":
            text = self.spaced(self.decimal(size, self.choice((1, 2, 3))), ("in", "inch"))
        elif sort == "mm":
            text = self.spaced(self.decimal(size * 25.4, self.choice((0, 0, 1))), ("mm",))
        elif sort == "cm":
            text = self.spaced(self.decimal(size * 2.54, self.choice((1, 2))), ("cm",))
        elif sort == "m":
            text = self.spaced(self.decimal(size * 0.0254, 3), ("m",))
        elif sort == "marks":
            last = self.whole_and_sixteenths(over) + self.choice(('"', "''"))
            text = f"{int(feet)}'{self.choice(('', ' ', '-'))}{last}"
        elif feet >= 3 and self.maybe(0.2):
            text = f"{int(feet // 3)} yd {int(feet % 3)} ft {self.whole_and_sixteenths(over)} in"
        else:
            text = f"{int(feet)} {self.choice(('ft', 'feet'))} {self.whole_and_sixteenths(over)} in"
        text = self.tolerance(text, ("in", "mm"))
        return (self.choice(("-", "-", "−")) + text) if signed and inches < 0 else text

    def gap(self, metres):
        """A gap; a thing is often hard against a surface."""
        return "0 in" if abs(metres) < INCH / 4 else self.length(metres / INCH)

    def mass(self, pounds):
        sort = self.choice(("lb", "lb", "decimal", "lb oz", "kg", "kg", "g", "t"))
        if sort == "lb":
            text = self.spaced(self.whole_and_sixteenths(pounds), ("lb", "lb", "lbs", "#"))
        elif sort == "decimal":
            text = self.spaced(self.decimal(pounds, self.choice((1, 2))), ("lb", "pounds"))
        elif sort == "lb oz":
            ounces = round(pounds * 16)
            text = f"{ounces // 16:,} lb {ounces % 16} oz"
        elif sort == "kg":
            text = self.spaced(self.decimal(pounds * POUND, self.choice((0, 1, 2))), ("kg",))
        elif sort == "g" and pounds < 60:
            text = self.spaced(self.decimal(pounds * POUND * 1000, 0), ("g",))
        elif sort == "t" and pounds > 400:
            factor, unit = self.choice(((POUND / 1000, "t"), (1 / 2000, "ton")))
            text = self.spaced(self.decimal(pounds * factor, 3), (unit,))
        else:
            text = self.spaced(self.decimal(pounds, 0), ("lb",))
        return self.tolerance(text, ("lb", "kg"))

    def volume(self, gallons):
        return self.choice((
            lambda: self.spaced(self.whole_and_sixteenths(gallons), ("gal", "gallons")),
            lambda: self.spaced(self.decimal(gallons * 3.785, 1), ("L", "l", "litres")),
            lambda: f"{int(gallons)} gal {self.randint(1, 3)} qt",
            lambda: self.spaced(self.decimal(gallons * 0.003785, 4), ("m³",)),
            lambda: self.spaced(self.decimal(gallons * 231, 0), ("in³", "cu in")),
            lambda: self.spaced(self.decimal(gallons * 3785, 0), ("mL",)),
            lambda: self.spaced(self.decimal(gallons * 128, 0), ("fl oz",)),
            lambda: self.spaced(self.decimal(gallons * 8, 1), ("pt",)),
            lambda: self.spaced(self.decimal(gallons * 0.13368, 4), ("ft³", "ft^3")),
        ))()

    def area(self, square_inches):
        return self.choice((
            lambda: self.spaced(self.whole_and_sixteenths(square_inches), ("in²", "sq in")),
            lambda: self.spaced(self.decimal(square_inches * 6.4516, 1), ("cm²", "cm^2")),
            lambda: self.spaced(self.decimal(square_inches * 645.16, 0), ("mm²",)),
            lambda: self.spaced(self.decimal(square_inches * 6.4516e-4, 5), ("m²",)),
            lambda: self.spaced(self.decimal(square_inches / 144, 4), ("ft²", "sq ft")),
        ))()

    def share(self):
        drawn = str(self.randint(1, 99)), f"{self.random() * 100:.2f}"
        number = self.choice(("0", "100", "50", "37.5", "12 1/2", *drawn))
        return self.spaced(number, ("%",)) + (" ± 5 %" if self.maybe(0.1) else "")

    # -- parts --

    def fields(self, kind):
        low_high = SIZES[kind]
        drawn = dict(zip(("length", "width", "height"), (self.length(self.uniform(*size)) for size in low_high)))
        if kind not in ("vent", "berth") or self.maybe(0.6):
            drawn["mass"] = self.mass(self.uniform(*low_high[3]))
        if self.maybe(0.3):
            drawn["cg"] = self.within(drawn)
        if kind == "tent":
            drawn["floor"] = self.length(self.uniform(1, 3))
            if self.maybe(0.95):
                drawn["bedding"] = "0 lb" if self.maybe(0.1) else self.mass(self.uniform(5, 25))
        if kind == "tank":
            drawn["capacity"] = self.volume(self.uniform(3, 40))
            if self.maybe(0.97):
                drawn["holds"] = self.choice(("fresh", "grey", "black"))
            if self.maybe(0.3):
                least, most = self.choice(("0 %", "10 %", "12.5%")), self.choice(("50 %", "87 1/2 %", "100 %"))
                drawn["on_road"] = {"least": least, "most": most}
        if kind == "locker":
            drawn |= {"opens": self.choice(("outside", "outside", "inside")), "sealed": self.maybe(0.7)}
        if kind == "vent":
            drawn |= {"area": self.area(self.uniform(8, 120)), "closable": self.maybe(0.2)}
            if self.maybe(0.3):
                drawn["leads"] = self.choice(("inside", "outside", "outside"))
        return drawn

    def within(self, part):
        sizes = {"front": "length", "left": "width", "floor": "height"}
        chosen = self.sample(sorted(sizes), self.randint(1, 3))
        return {key: self.gap(si(part[sizes[key]]) * self.uniform(-0.05, 1.0)) for key in chosen}

    def restated(self, kind, part):
        """Some of a part's fields once more, with other values."""
        fresh = self.fields(kind)
        keys = self.sample(sorted(fresh), self.randint(1, min(3, len(fresh))))
        return {key: self.within(laid_over(fresh, part)) if key == "cg" else fresh[key] for key in keys}

    def trailer(self):
        length, width = self.uniform(60, 200), self.uniform(45, 85)
        to_box, depth, wall = self.uniform(28, 60), self.uniform(8, 36), self.uniform(0.75, 3)
        nose = {"shape": self.choice(("flat", "round", "wedge"))}
        if nose["shape"] != "flat":
            nose["depth"] = self.length(depth)
        if nose["shape"] == "wedge" and self.maybe(0.75):
            nose["front_width"] = "0 in" if self.maybe(0.15) else self.length(self.uniform(4, width * 0.8))
        axle, mass = to_box + depth + self.uniform(0.5, 0.62) * length, self.uniform(700, 3000)
        drawn = {
            "mass": self.mass(mass), "gvwr": self.mass(self.uniform(2000, 10000)), "ball_to_box": self.length(to_box),
            "length": self.length(length), "width": self.length(width), "height": self.length(self.uniform(56, 84)),
            "wall": self.length(wall), "roof": self.length(self.uniform(1, 4)),
            "floor_height": self.length(self.uniform(17, 26)), "frame_height": self.length(self.uniform(13, 22)),
            "nose": nose, "axle": {"ball": self.length(axle), "track": self.length(width + self.uniform(8, 16))},
            "cg": {"centre": self.gap(self.gauss(0, 0.8) * INCH), "ground": self.length(self.uniform(24, 40))},
        }
        drawn["axle"] |= self.choice(({"count": 1}, {"count": 2, "spread": "33 in", "suspension": "equalised"}))
        if self.maybe(0.7):
            drawn["axle"]["gawr"] = self.mass(self.uniform(1500, 4000))
        rated = {"rating": self.mass(self.uniform(2000, 8000)), "tongue_rating": self.mass(self.uniform(100, 800))}
        if self.maybe(0.7):
            drawn["coupler"] = dict(self.sample(sorted(rated.items()), self.randint(1, 2)))
        if self.maybe(0.5):
            drawn["tongue"] = self.mass(mass * self.uniform(0.06, 0.2))
        else:
            drawn["cg"]["ball"] = self.length(axle * self.uniform(0.82, 0.96))
        return drawn

    def restated_trailer(self, base):
        fresh = self.trailer()
        drawn = {key: fresh[key] for key in self.sample(("mass", "gvwr", "roof", "wall", "height", "cg", "length"), 2)}
        if self.maybe(0.3):
            drawn["tongue"] = self.mass(self.uniform(60, 200))
        if self.maybe(0.3):
            # What is left of a wedge stays stated under a round or flat nose, and means nothing there.
            drawn["nose"] = self.choice(({"depth": self.length(self.uniform(8, 36))}, {"shape": "flat"}))
        # A centre of gravity is stated once: by its place, or by the tongue weight.
        if "ball" in base["cg"]:
            drawn.pop("tongue", None)
        else:
            drawn.get("cg", {}).pop("ball", None)
        return drawn


def draw_stock(draw):
    parts = []
    for kind in ("trailer", *SIZES):
        fresh = draw.trailer if kind == "trailer" else lambda kind=kind: draw.fields(kind)
        named = []
        for number in range(24 if kind == "trailer" else 6):
            part = {"name": f"{kind}-{number}", "kind": kind, **fresh()}
            if named and draw.maybe(0.4):
                base = draw.choice(named)
                under = Stock(parts).full(base)
                changes = draw.restated_trailer(under) if kind == "trailer" else draw.restated(kind, under)
                part = {"name": f"{kind}-{number}", "part": base["name"], **changes}
            elif kind not in ("trailer", "vent") and draw.maybe(0.2):
                part["removable"] = True
            named.append(part)
            parts.append(part)
    return parts


class Drawn:
    """A spec in the making: a build that grows, so that places can be drawn where something is. With `ties` it has
    loads that may ride along, and parts that hang on each other."""

    def __init__(self, draw, stock, number, ties=True):
        self.draw, self.stock, self.count = draw, stock, collections.Counter()
        names = [name for name in stock.parts if name.startswith("trailer-")]
        trailer = draw.trailer() if draw.maybe(0.3) else {"part": draw.choice(names)}
        if "part" in trailer and draw.maybe(0.4):
            trailer |= draw.restated_trailer(stock.full(trailer))
        self.spec = {
            "build": {"number": f"X-{number}", "title": "invented by chance", "stage": "design"}, "trailer": trailer,
            "people": {"mass": draw.mass(draw.uniform(120, 230))},
        }
        if draw.maybe(0.6):
            rated = {"rating": draw.mass(draw.uniform(2000, 8000)), "tongue_rating": draw.mass(draw.uniform(100, 800))}
            self.spec["tow"] = dict(draw.sample(sorted(rated.items()), draw.randint(1, 2)))
        self.grown()
        self.fit_all()
        for table in LISTS:
            draw.shuffle(self.spec.get(table, []))
        self.grown()
        self.few_loose()
        if ties:
            self.ties()
        self.grown()
        plan = arranged.Plan(self.build, exact)
        sets = list(plan.sets())
        if not sets or set(plan.stated) - set().union(*sets):
            raise Border("something can never ride, or nothing can")
        self.spec["state"] = [self.state(number, plan, sets) for number in range(draw.randint(1, 4))]

    def grown(self):
        self.build = Build(self.spec, self.stock)

    def at(self, zone, sizes, load=False):
        """Gaps for a thing of given size, from one of the surfaces that the zone measures from, so that it comes to
        lie somewhere sensible, with some left out where the format says what is meant."""
        draw, t = self.draw, self.build.trailer
        host = self.build.host(zone)
        ends = [(t.nose["in"], t.rear["in"]), (-t.half["in"], t.half["in"]), (t.floor, t.ceiling)]
        if zone == "tongue":
            ends[0], ends[2] = (0.1, t.nose["out"] - 0.01), (t.frame, t.frame + 0.6)
        if zone == "underside":
            ends[2] = (0.2, t.floor - 0.03)
        if zone in ("roof", "rear door", "front wall"):
            ends[0] = (t.nose["out"], t.rear["out"])
        if host:
            box = self.build.thing(host)
            ends = list(zip(box.near, box.far))
        at = {}
        for axis, ((gaps, otherwise), (low, high), size) in enumerate(zip(self.build.gaps(zone), ends, sizes)):
            on_surface = set(gaps) == {"gap"}
            if not gaps or otherwise and not (load and axis == 2) and draw.maybe(0.5):
                continue
            key = draw.choice(sorted(gaps))
            point, surface, direction = gaps[key]
            begins = draw.choice((low, high - size, draw.uniform(low, max(low, high - size))))
            if host and self.build.kind(host) == "rack" and axis < 2:
                begins += draw.uniform(-0.15, 0.15)
            if zone == "tongue" and axis == 0 or zone == "underside" and axis == 2:
                begins = min(begins, high - size - 0.01)
            gap = direction * (begins + point * size - surface)
            at[key] = draw.gap(draw.choice((0.0, draw.uniform(0.0, 0.08))) if on_surface else gap)
        return at

    def fit(self, table, kind, zone):
        draw = self.draw
        self.count[kind] += 1
        tag = f"{kind}{draw.choice(('-', '_'))}{self.count[kind]}"
        stated = {"tag": tag}
        if draw.maybe(0.75):
            stated["part"] = draw.choice([name for name in self.stock.parts if name.startswith(f"{kind}-")])
            if draw.maybe(0.35):
                stated |= draw.restated(kind, self.stock.full(stated))
        else:
            stated |= draw.fields(kind)
            if table == "item":
                stated["kind"] = kind
            if draw.maybe(0.01):
                stated.pop("mass", None)
        if zone != "inside" or draw.maybe(0.1):
            only_rack = len(self.build.tags("rack")) == 1 and self.build.host(zone) == self.build.tags("rack")[0]
            stated["zone"] = "rack" if only_rack and kind != "rack" and self.racks_fitted and draw.maybe(0.5) else zone
        full = self.stock.full(stated)
        stated["at"] = self.at(zone, [si(full[key]) for key in ("length", "width", "height")])
        if not stated["at"]:
            if self.build.host(zone) and self.build.kind(zone) == "tent" or zone in ("rear door", "front wall"):
                del stated["at"]
            else:
                keys = self.build.gaps(zone)[0][0]
                stated["at"] = {draw.choice(sorted(keys)): draw.gap(draw.uniform(0.0, 0.2))}
        if draw.maybe(0.3):
            stated["removable"] = draw.maybe(0.8)
        self.spec.setdefault(table, []).append(stated)
        self.grown()
        return tag

    def fit_all(self):
        draw, fit = self.draw, self.fit
        self.racks_fitted = False
        racks = [fit("item", "rack", "roof") for _ in range(draw.choice((0, 1, 1, 1, 2)))]
        if racks and draw.maybe(0.1):
            racks.append(fit("item", "rack", racks[0]))
        if draw.maybe(0.1):
            fit("item", "rack", "rear door")
        self.racks_fitted = True
        tents = [fit("item", "tent", draw.choice((*racks, *racks, "roof"))) for _ in range(draw.choice((0, 1, 1, 2)))]
        spots = ("inside", "inside", "inside", "tongue", "roof", "underside", "rear door", "front wall", *racks)
        lockers = [fit("locker", "locker", draw.choice(spots)) for _ in range(draw.randint(0, 3))]
        anywhere = (*spots, *lockers, *racks, "inside", "inside")
        for _ in range(draw.randint(0, 3)):
            fit("tank", "tank", draw.choice(anywhere))
        for _ in range(draw.choice((0, 0, 1))):
            fit("bulkhead", "bulkhead", "inside")
        for _ in range(draw.randint(0, 3)):
            fit("berth", "berth", "inside")
        for tent in tents:
            if draw.maybe(0.6):
                fit("berth", "berth", tent)
            if draw.maybe(0.3):
                fit("item", draw.choice(ITEM_KINDS), tent)
        for _ in range(draw.randint(0, 7)):
            fit("vent", "vent", draw.choice(("roof", "left wall", "right wall", "left wall", "right wall", "floor",
                                             "front wall", "rear door", *lockers)))
        for _ in range(draw.randint(2, 9)):
            fit("item", draw.choice(ITEM_KINDS), draw.choice((*anywhere, "left wall", "right wall", "floor")))

    def few_loose(self):
        """What can be taken out, and no more of it than can be written down in every arrangement."""
        removable = [part for table in LISTS for part in self.spec.get(table, [])
                     if self.stock.full(part).get("removable")]
        for part in removable[self.draw.randint(4, 8):]:
            part["removable"] = False
        self.grown()

    def ties(self):
        """What may ride along, what needs what, of what only one rides, and the order of tanks."""
        draw = self.draw
        for number in range(draw.choice((0, 1, 2, 3, 4, 5))):
            self.spec.setdefault("load", []).append(self.loose_load(number))
        self.grown()
        build = self.build
        fixed = lambda tag: tag is None or not build.parts[tag].get("removable") and fixed(  # noqa: E731
            build.host(build.parts[tag].get("zone", "inside")))
        for load in self.spec.get("load", []):
            # What always rides stays behind with what carries it, and only then.
            if draw.maybe(0.5) and not fixed(build.host(load.get("zone", "inside"))):
                load["least"] = "0 lb"
        self.grown()
        build = self.build
        host = {tag: build.host(part.get("zone", "inside")) for tag, part in {**build.parts, **build.loads}.items()}
        optional = [tag for tag, load in build.loads.items() if exact(load["least"]) == 0]
        choices = [tag for tag, part in build.parts.items() if part.get("removable")] + optional
        stays = lambda tag: tag not in choices and (host[tag] is None or stays(host[tag]))  # noqa: E731
        lists = [*(self.spec.get(table, []) for table in LISTS), self.spec.get("load", [])]
        for stated in (stated for tables in lists for stated in tables):
            tag = stated["tag"]
            named = [other for other in host if other != tag and not stays(other)]
            if named and (tag in build.loads or not stays(tag)) and draw.maybe(0.12):
                stated["needs"] = draw.sample(named, min(len(named), draw.choice((1, 1, 2))))
        draw.shuffle(choices)
        for number in range(draw.choice((0, 0, 0, 1, 1, 2))):
            of = [choices.pop() for _ in range(min(len(choices), draw.randint(2, 3)))]
            if len(of) > 1:
                group = {"name": f"group {number}", "of": of, "none": draw.maybe(0.6)}
                self.spec.setdefault("either", []).append(group)
        needs = {stated["tag"]: stated.get("needs", []) for tables in lists for stated in tables}
        for tag in host:
            brings, open_ = set(), [tag]
            while open_:
                one = open_.pop()
                more = [*needs[one], *([host[one]] if host[one] else [])]
                if tag in more:
                    raise Border("parts that need themselves")
                open_ += [other for other in more if other not in brings]
                brings |= set(more)
            for group in self.spec.get("either", []):
                if len(set(group["of"]) & (brings | {tag})) > 1:
                    raise Border("a part that brings two of a group")
        tanks = build.tags("tank")
        if len(tanks) > 1 and draw.maybe(0.4):
            self.spec["water"] = {"use_order": draw.sample(tanks, draw.randint(2, len(tanks)))}

    def loose_load(self, number):
        draw = self.draw
        load = self.own_load(number, ())
        load["tag"] = f"{draw.choice(('bags', 'boat', 'food'))}-{number}"
        del load["what"]
        if exact(load["mass"]) == 0:
            load["mass"] = "1 lb"  # a load that is never more than nothing is for no part to need
        load["least"] = "0 lb" if draw.maybe(0.6) else draw.mass(draw.uniform(1, 60))
        if exact(load["least"]) > exact(load["mass"]):
            load["least"] = load["mass"]
        if not load["at"]:
            zone = load.get("zone", "inside")
            for gaps, _ in self.build.gaps(zone):
                if gaps and not load["at"]:
                    load["at"] = {draw.choice(sorted(gaps)): draw.gap(draw.uniform(0.0, 0.2))}
        if draw.maybe(0.5):
            load["used_up"] = draw.maybe(0.5)
        return load

    def own_load(self, number, gone):
        draw, build = self.draw, self.build
        load = {"what": f"{draw.choice(('bags', 'food', 'tools', 'water in cans', 'a boat'))} {number}",
                "mass": "0 lb" if draw.maybe(0.03) else draw.mass(draw.uniform(2, 300))}
        hosts = [tag for kind in ("rack", "locker", "tent") for tag in build.tags(kind) if tag not in gone]
        zone = draw.choice(("inside",) * 6 + ("tongue", "roof", "underside", "rear door", "front wall", *hosts))
        if zone != "inside" or draw.maybe(0.1):
            load["zone"] = zone
        for size in ("length", "width", "height"):
            if draw.maybe(0.35):
                load[size] = draw.length(draw.uniform(4, 30))
        load["at"] = self.at(zone, [si(load.get(size, "0 in")) for size in ("length", "width", "height")], load=True)
        if draw.maybe(0.03) and load["mass"] != "0 lb":
            # Its height is then not known, and with it that of the centre of gravity.
            fore_and_aft, across = (gaps for gaps, _ in build.gaps(zone)[:2])
            load["at"] = {key: gap for key, gap in load["at"].items() if key in fore_and_aft or key in across}
        return load

    def state(self, number, plan, sets):
        draw, build = self.draw, self.build
        use = draw.choice(("road", "road", "camp"))
        state = {"name": f"{draw.choice(('outward', 'homeward', 'parked', 'half empty'))} {number}", "use": use}
        aboard = draw.choice(sets)
        removable = [tag for tag, part in build.parts.items() if part.get("removable")]
        # What goes with its host may be named as well.
        out = [tag for tag in removable if tag not in aboard
               and (plan.host[tag] in (None, *aboard) or draw.maybe(0.5))]
        if out or draw.maybe(0.1):
            state["out"] = out
        # What is left at home, with all that stands on it or in it, is neither filled nor loaded nor slept in.
        gone = build.gone(state)
        tanks = [tag for tag in build.tags("tank") if tag not in gone]
        state["fill"] = {tag: draw.share() for tag in tanks}
        if use == "road":
            state["fill"] |= self.road_fill([tag for tag in build.tags("tank") if tag not in gone], plan)
        if state["fill"] and draw.maybe(0.02):
            state["fill"].popitem()
        carry = {}
        for tag, load in build.loads.items():
            least, most = (float(end) for end in plan.range[tag])
            # What others hang on is named, be it with none of it.
            if tag in aboard and (least > 0 or tag not in plan.plain or draw.maybe(0.7)):
                between = f"{draw.uniform(least, most) / POUND:.4f} lb"
                if not least <= si(between) <= most:
                    between = load["mass"]
                carry[tag] = draw.choice((load["least"] if least else load["mass"], load["mass"], between))
        state["carry"] = carry
        state["load"] = [self.own_load(number, gone) for number in range(draw.choice((0, 0, 0, 1, 2, 4)))]
        berths = [tag for tag in build.tags("berth") if tag not in gone]
        if use == "camp":
            chosen = draw.sample(berths, draw.randint(0, len(berths)))
            state["people"] = [{"berth": tag, "count": draw.choice((0, 1, 1, 2, 2, 3))} for tag in chosen]
        return state

    def road_fill(self, tanks, plan):
        """How full tanks are that say how full they may be on the road, or that are emptied in order."""
        draw, fills = self.draw, {}
        ends = {}
        for tag in tanks:
            road = self.build.parts[tag].get("on_road")
            ends[tag] = (road["least"], road["most"]) if road else ("0 %", "100 %")
            if road:
                between = draw.uniform(*(float(end) for end in plan.range[tag])) * 100
                fills[tag] = draw.choice((*ends[tag], f"{between:.3f} %"))
        order = [tag for tag in plan.order if tag in tanks]
        emptied = draw.randint(0, len(order))
        for number, tag in enumerate(order):
            if number != emptied:
                fills[tag] = ends[tag][number > emptied]
        return fills


# ---- TOML --------------------------------------------------------------------------------------------------------

def written(draw, value):
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, int):
        return str(value)
    if isinstance(value, str):
        if "'" in value:
            if draw.maybe(0.5) and "''" not in value and not value.endswith("'"):
                return f"'''{value}'''"
            return json.dumps(value, ensure_ascii=False)
        return f"'{value}'" if '"' in value else json.dumps(value, ensure_ascii=False)
    if isinstance(value, dict):
        return "{ " + ", ".join(f"{key} = {written(draw, inner)}" for key, inner in value.items()) + " }"
    return "[" + ", ".join(written(draw, inner) for inner in value) + "]"


def table(draw, header, fields):
    lines = [header]
    for key, value in fields.items():
        if isinstance(value, dict) and value and draw.maybe(0.3):
            lines += [f"{key}.{inner} = {written(draw, stated)}" for inner, stated in value.items()]
        else:
            lines.append(f"{key} = {written(draw, value)}")
    return "\n".join(lines) + "\n"


def write_shop(folder, count, seed):
    """A rulebook, a stock list and so many specs."""
    draw = Draw(seed)
    said = "# Invented by chance to try out arithmetic; no such shop, part or trailer exists.\n\n"
    for inner in ("stock", "builds"):
        (folder / inner).mkdir(parents=True, exist_ok=True)
    limits = zip(("light", "heavy"), ("least", "most"), BAND)
    text = said + 'stock = ["stock"]\n' + "".join(
        f'\n[[limit]]\nrule = "towing/{rule}-tongue"\nlimit = "{limit}"\nvalue = "{value} %"\nreason = "invented"\n'
        for rule, limit, value in limits)
    (folder / "pintle.toml").write_text(text, encoding="utf-8")
    parts = draw_stock(draw)
    for half, name in ((parts[::2], "even"), (parts[1::2], "odd")):
        text = said + "\n".join(table(draw, "[[part]]", part) for part in half)
        (folder / "stock" / f"{name}.toml").write_text(text, encoding="utf-8")
    stock, redrawn = Stock(parts), 0
    number = 0
    while number < count:
        try:
            spec = Drawn(draw, stock, number).spec
            Build(spec, stock).geometry()
        except Border:
            redrawn += 1
            if redrawn > 3 * count + 100:
                raise SystemExit("the generator draws nothing but border cases") from None
            continue
        tables = [table(draw, f"[{name}]", spec[name]) for name in ("build", "trailer", "people", "tow", "water")
                  if name in spec]
        for name in (*LISTS, "load", "either", "state"):
            tables += [table(draw, f"[[{name}]]", stated) for stated in spec.get(name, [])]
        (folder / "builds" / f"x{number:04}.toml").write_text(said + "\n".join(tables), encoding="utf-8")
        number += 1


class Wanted(dict):
    """The figures of a build, by path; and the build, for what is not a figure."""

    def __init__(self, build):
        super().__init__(build.figures())
        self.build = build


def read_shop(folder):
    """Figures of every spec, by file name, from the files as they stand."""
    parts = []
    for file in sorted((folder / "stock").glob("*.toml")):
        parts += tomllib.loads(file.read_text(encoding="utf-8"))["part"]
    stock = Stock(parts)
    wanted, builds = {}, []
    for file in sorted((folder / "builds").glob("*.toml")):
        builds.append(Build(tomllib.loads(file.read_text(encoding="utf-8")), stock))
        wanted[file.name] = Wanted(builds[-1])
    return wanted, undrawn(builds, wanted)


def undrawn(builds, wanted):
    """What chance has left out of all the specs together, so that nothing was compared for it."""
    trailers = [build.trailer for build in builds]
    sorts = {sort_of(path) for figures in wanted.values() for path, (value, _) in figures.items() if value is not None}
    offered, used = (set().union(*(getattr(build, name) for build in builds)) for name in ("offered", "used"))
    zones = {"inside", "tongue", "roof", "front wall", "rear door", "left wall", "right wall", "floor", "underside",
             "rack", "locker", "tent"}
    lacking = [f"the figure {' / '.join(sort)}" for sort in EVERY_SORT - sorts]
    lacking += [f"the zone {zone}" for zone in zones - {zone for zone, _ in used}]
    lacking += [f"the gap {key} in the zone {zone}" for zone, key in offered - used]
    drawn = {
        "a flat nose": lambda t: t.shape == "flat", "a round nose": lambda t: t.shape == "round",
        "a wedge to an edge": lambda t: t.shape == "wedge" and t.blunt == 0,
        "a blunt wedge": lambda t: t.shape == "wedge" and t.blunt > 0,
        "a centre of gravity stated": lambda t: "ball" in t.stated["cg"],
        "a centre of gravity from the tongue": lambda t: "ball" not in t.stated["cg"],
        "two axles": lambda t: t.stated["axle"]["count"] == 2,
    }
    lacking += [what for what, is_so in drawn.items() if not any(map(is_so, trailers))]
    lacking += arranged.undrawn([build.arrangements for build in builds], Build.band())
    for shape in ("flat", "round", "wedge"):
        cut = [b for b in builds if b.trailer.shape == shape and b.plan_area() < b.trailer.plan_area() - 1e-3]
        if not cut:
            lacking.append(f"a sealed locker on the floor behind a {shape} nose")
    return sorted(lacking)


# ---- comparing ---------------------------------------------------------------------------------------------------

def run(pintle, folder):
    call = [pintle, "weigh", str(folder), "--format", "json"]
    done = subprocess.run(call, capture_output=True, encoding="utf-8", check=False)
    try:
        answer = json.loads(done.stdout)
    except json.JSONDecodeError as error:
        told = done.stderr.strip() or done.stdout.strip()
        raise SystemExit(f"{pintle} weigh gave no JSON (exit {done.returncode}): {error}\n{told[:4000]}") from None
    if done.returncode != 0:
        raise SystemExit(f"{pintle} weigh failed (exit {done.returncode})\n{done.stderr.strip()[:4000]}")
    if (answer.get("format"), answer.get("version")) != ("pintle-weights", 1):
        raise SystemExit(f"not the format this was written for: {answer.get('format')} {answer.get('version')}")
    return answer


NAMED = {"states": "name", "moments": "body", "tents": "tag", "racks": "tag", "extremes": "figure"}


def flat(node, path=()):
    """Every figure of the tool's answer for a spec, by path: a number, or words where it is missing."""
    if isinstance(node, dict) and ("si" in node or "missing" in node):
        yield path, node
    elif isinstance(node, dict):
        for key, inner in node.items():
            yield from flat(inner, (*path, key))
    elif isinstance(node, list) and path and path[-1] in NAMED and "envelope" not in path:
        for inner in node:
            yield from flat(inner, (*path, inner[NAMED[path[-1]]]))


def by_spec(answer):
    return {pathlib.PurePath(spec["spec"].replace("\\", "/")).name: spec for spec in answer["specs"]}


EVERY_SORT = {
    ("as_built", "unloaded"), ("as_built", "cargo_capacity"), ("geometry", "plan_area"), ("geometry", "inside_length"),
    ("geometry", "overall_height"), ("geometry", "racks", "stands"), ("geometry", "racks", "air_gap"),
    *(("geometry", "tents", "overhang", side) for side in ("front", "rear", "left", "right")),
    *(("geometry", "tents", "beyond_roof", side) for side in ("ahead", "aside", "behind")),
    *(("geometry", "vents", sort) for sort in ("roof", "high_wall", "low")),
    *(("states", sort) for sort in ("gross", "unloaded", "cargo_left", "tongue", "tongue_share", "axles")),
    ("states", "left"), ("states", "right"),
    *(("states", "cg", axis) for axis in "xyz"),
    *(("states", "moments", column) for column in ("mass", "x", "y", "z", "moment")),
    *(("arrangements", "extremes", figure, end, "value") for figure in arranged.FIGURES for end in ("least", "most")),
    ("arrangements", "axle_window", "foremost", "behind_ball"), ("arrangements", "axle_window", "axle"),
    ("arrangements", "axle_window", "rearmost", "behind_ball"), ("arrangements", "axle_window", "length"),
}


class Comparison:
    def __init__(self, wanted, answer):
        self.differences, self.specs, self.states, self.figures, self.missing = [], 0, 0, 0, 0
        self.worst, self.worst_at = 0.0, "nowhere"
        self.checks = collections.Counter()
        told = by_spec(answer)
        if len(told) != len(answer["specs"]):
            self.differences.append("the tool names a spec twice")
        for name in sorted(told.keys() | wanted.keys()):
            if name not in told or name not in wanted:
                self.differences.append(f"{name}: only {'the tool' if name in told else 'the oracle'} weighed it")
                continue
            self.spec(name, wanted[name], told[name])

    def spec(self, name, wanted, told):
        self.specs += 1
        told_figures = {}
        for path, node in flat(told):
            if path in told_figures:
                self.differences.append(f"{name}: {' / '.join(path)}: told twice")
            told_figures[path] = node
        self.states += len({path[1] for path in wanted if path[0] == "states"})
        ours = {path[:4] for path in wanted if "moments" in path} | {path[:2] for path in wanted if path[0] == "states"}
        for path in told_figures:
            for part in (path[:4] if "moments" in path else None, path[:2] if path[0] == "states" else None):
                if part and part not in ours:
                    ours.add(part)
                    self.differences.append(f"{name}: {' / '.join(part)}: only the tool has it")
        for path, (value, scale) in wanted.items():
            self.figure(f"{name}: {' / '.join(path)}", value, scale, told_figures.get(path))
        try:
            build = wanted.build
            said = told["arrangements"], told["sensitivity"]
            for sort, off in arranged.compare(build.arrangements, *said, build.band(), AGREE):
                self.checks[sort.split(":")[0]] += 1
                if off:
                    self.differences.append(f"{name}: arrangements / {sort}: {off}")
        except (KeyError, TypeError) as error:
            self.differences.append(f"{name}: arrangements: not as they should be written: {error!r}")

    def figure(self, where, value, scale, node):
        told = None if node is None else node.get("si")
        if value is None:
            self.missing += 1
            if told is not None:
                self.differences.append(f"{where}: the tool says {told!r} where nothing follows from the spec")
        elif told is None:
            words = "no such figure" if node is None else f"missing {node.get('missing')}"
            self.differences.append(f"{where}: the oracle has {value!r}, the tool {words}")
        else:
            self.figures += 1
            off = abs(told - value) / scale if scale else abs(told - value)
            if not off <= AGREE:
                words = f"the tool {told!r}: {off:.2e} of {scale:.6g} off"
                self.differences.append(f"{where}: the oracle has {value!r}, {words}")
            if off > self.worst:
                self.worst, self.worst_at = off, where

    def summary(self):
        return (f"{self.specs} specs, {self.states} states, {self.figures} figures compared, "
                f"{sum(self.checks.values())} checks of arrangements, "
                f"worst relative difference {self.worst:.2e}")


def sort_of(path):
    """A figure's sort: its path without the names in it."""
    return tuple(step for at, step in enumerate(path) if at == 0 or path[at - 1] not in NAMED or "extremes" in path)


def self_test(wanted, answer):
    """Falsifies the answer in every way that must be noticed; the falsehoods that passed. Specs that differ as they
    are would hide a falsehood, and are left to the check itself."""
    few, passed, sorts = by_spec(copy.deepcopy(answer)), [], {}
    wanted = {name: figures for name, figures in wanted.items()
              if name in few and not Comparison({name: figures}, {"specs": [few[name]]}).differences}
    for name, figures in wanted.items():
        for path, (value, scale) in figures.items():
            if value is not None and scale:
                sorts.setdefault(sort_of(path), []).append((name, path, scale))
    passed += [f"{' / '.join(sort)}, which no sound spec has" for sort in EVERY_SORT - sorts.keys()]
    for sort, places in sorted(sorts.items()):
        name, path, scale = places[len(places) // 2]
        node = dict(flat(few[name]))[path]
        true, node["si"] = node["si"], node["si"] + FALSEHOOD * scale
        changed = Comparison({name: wanted[name]}, {"specs": [few[name]]})
        node["si"] = true
        if not any(" / ".join(path) + ":" in difference for difference in changed.differences):
            passed.append(f"{' / '.join(sort)} of {name} changed by {FALSEHOOD:g} of its scale")
    name = next(iter(wanted), None)
    falsify = {
        "a spec left out": lambda spec, specs: specs.clear(),
        "a state left out": lambda spec, specs: spec["states"].pop(),
        "a body left out": lambda spec, specs: spec["states"][0]["moments"].pop(),
        "a body too many": lambda spec, specs: spec["states"][0]["moments"].append(
            {"body": "load `nothing`", "mass": {"si": 0.0}}),
        "a figure said to be missing": lambda spec, specs: spec["states"][0].update(gross={"missing": "x"}),
        "a figure that is no number": lambda spec, specs: spec["states"][0].update(gross={"si": math.nan}),
    }
    for what, change in falsify.items():
        specs = [copy.deepcopy(few[name])] if name else []
        if name:
            change(specs[0], specs)
        if not name or not Comparison({name: wanted[name]}, {"specs": specs}).differences:
            passed.append(what)
    for what, change in arranged.FALSEHOODS.items():
        for name, figures in wanted.items():
            spec = copy.deepcopy(few[name])
            try:
                change(spec["arrangements"], spec["sensitivity"], figures.build, FALSEHOOD)
            except (LookupError, TypeError, AttributeError):
                continue  # this one has nothing of the sort
            if not Comparison({name: figures}, {"specs": [spec]}).differences:
                passed.append(f"{what}, in {name}")
            break
        else:
            passed.append(f"{what}, which no sound spec has")
    return passed, len(sorts) + len(falsify) + len(arranged.FALSEHOODS)


def find_pintle(stated):
    root = pathlib.Path(__file__).resolve().parents[2]
    built = [root / "target" / sort / "pintle" for sort in ("debug", "release")]
    candidates = [pathlib.Path(stated)] if stated else built
    for candidate in candidates:
        if candidate.is_file():
            return str(candidate.resolve())
    raise SystemExit("no pintle at " + " or ".join(map(str, candidates)) + "; build it, or give --pintle")


def main():
    options = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    options.add_argument("--count", type=int, default=300, help="how many specs")
    options.add_argument("--seed", type=int, default=118)
    options.add_argument("--pintle", help="the binary; target/debug/pintle, then target/release/pintle")
    options.add_argument("--keep", type=pathlib.Path, help="write the shop into this new folder and leave it there")
    options.add_argument("--self-test", action="store_true", help="falsify the answer; exit 1 if that goes unnoticed")
    chosen = options.parse_args()
    if chosen.count < 1:
        options.error("--count must be at least 1")
    pintle = find_pintle(chosen.pintle)
    with tempfile.TemporaryDirectory(prefix="pintle-weigh-") as temporary:
        folder = chosen.keep or pathlib.Path(temporary)
        if chosen.keep:
            chosen.keep.mkdir(parents=True)
        write_shop(folder, chosen.count, chosen.seed)
        wanted, lacking = read_shop(folder)
        answer = run(pintle, folder)
    if chosen.self_test:
        passed, tried = self_test(wanted, answer)
        for falsehood in passed:
            print(f"not noticed: {falsehood}")
        print(f"{tried} falsehoods tried, {len(passed)} not noticed")
        sys.exit(1 if passed else 0)
    found = Comparison(wanted, answer)
    for difference in found.differences[:60]:
        print(difference)
    if len(found.differences) > 60:
        print(f"and {len(found.differences) - 60} more")
    print(f"{found.missing} figures follow from no spec on either side; the worst difference is in {found.worst_at}")
    print(found.summary())
    least = FIGURES_A_SPEC * chosen.count
    enough = found.specs == chosen.count and found.figures >= least
    if not enough:
        print(f"too little was compared: {chosen.count} specs and at least {least} figures were asked for")
    if chosen.count >= ALL_SORTS_FROM and lacking:
        enough = False
        print("never drawn: " + ", ".join(lacking))
    sys.exit(0 if enough and not found.differences else 1)


if __name__ == "__main__":
    main()
