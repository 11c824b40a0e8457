"""Reads the drawings of `pintle sheet` back and holds them against outlines worked out with `shapely`.

    python3 tests/oracles/drawing.py [--count 30] [--seed 118] [--pintle PATH] [--specs DIR] [--both | --self-test]

Specs are those of the demo shop, and some drawn by chance (by `weigh_random.py`, which also works places, outlines and
centres of gravity out from the words of the spec format), with openings, doors, drawers, lids, folding parts, tents that
open, wheels and feet added by `drawn_specs.py`. One unit of a drawing is one millimetre of the trailer: every shape is turned
back into a polygon (`drawn.py`; an arc by the formulas that SVG gives for its centre, written down from memory) and compared with
the one that `shapely` gives: bounds, area, and how far the two outlines are apart, to 0.2 mm, since the page holds tenths.
Which parts are in which view stands here as the captions say it. Each dimension's text is held against the length of its
line; the free floor and the ways over it by `drawn_floor.py`.

Exits 1 where anything differs, is missing or is there and should not be, and where some sort of shape was never compared.
`--self-test` moves one shape of each sort by 2 mm, and takes one away; it exits 1 if any of it passes.
"""

import argparse
import collections
import copy
import math
import pathlib
import re
import subprocess
import sys
import tempfile
import tomllib

import numpy
import shapely

from drawn import MM, drawings
from drawn_floor import Floor
from drawn_specs import drawn_by_chance, of_the_demo
from weigh_random import si

NEAR = 0.2  # millimetres
FALSEHOOD = 2.0
ASSUMED = pathlib.Path(__file__).resolve().parents[2] / "rules" / "assumptions" / "space.toml"
# A dimension is told to a sixteenth of an inch, or to the digits that its author gave.
TOLD = 0.0017


# ---- what swings -------------------------------------------------------------------------------------------------

def quarter(at, into, radius):
    turn = numpy.linspace(0, math.pi / 2, 1500)
    arc = [(at[0] + into[0] * radius * math.cos(t), at[1] + into[1] * radius * math.sin(t)) for t in turn]
    return shapely.Polygon([at, *arc])


class Swung:
    """What a leaf or drawer takes up: a box, or a quarter of a circle about a hinge along an axis, in mm."""

    def __init__(self, box, axis=None, at=None, into=None, radius=None):
        self.box, self.axis, self.at, self.into, self.radius = box, axis, at, into, radius

    @classmethod
    def turned(cls, axis, at, into, radius, along):
        others = [other for other in range(3) if other != axis]
        box = [None] * 3
        box[axis] = along
        for other, place, way in zip(others, at, into):
            box[other] = tuple(sorted((place, place + way * radius)))
        return cls(box, axis, at, into, radius)


def leaf(facing, plane, outward, hinge, face, upright, reach=None):
    """A leaf in a face that looks along x (facing 0) or y (1): hung on an upright edge, or on its top or bottom."""
    low, high = face
    bottom, top = upright
    if hinge in ("top", "bottom"):
        edge, turn = (top, -1) if hinge == "top" else (bottom, 1)
        return Swung.turned(1 - facing, (plane, edge), (outward, turn), reach or top - bottom, face)
    first = hinge in (("left",) if facing == 0 else ("front",))
    edge, turn = (low, 1) if first else (high, -1)
    at, into = ((plane, edge), (outward, turn)) if facing == 0 else ((edge, plane), (turn, outward))
    return Swung.turned(2, at, into, reach or high - low, upright)


def swings_of_part(build, tag):
    found = []
    for stated in build.part(tag).get("swings", []):
        box = build.box(tag)
        m = lambda key: si(stated[key]) * MM if key in stated else None  # noqa: E731
        side, reach = stated["side"], m("reach")
        if side == "top":
            across, along = (0, 1) if stated["hinge"] in ("front", "rear") else (1, 0)
            near = box[along][0] + (m("start") or 0.0)
            far = near + m("width") if "width" in stated else box[along][1]
            first = stated["hinge"] in ("front", "left")
            edge, turn = (box[across][0], 1) if first else (box[across][1], -1)
            radius = reach or box[across][1] - box[across][0]
            found.append(Swung.turned(along, (edge, box[2][1]), (turn, 1), radius, (near, far)))
            continue
        facing = 0 if side in ("front", "rear") else 1
        outward = -1 if side in ("front", "left") else 1
        plane = box[facing][0 if outward < 0 else 1]
        low = box[1 - facing][0] + (m("start") or 0.0)
        high = low + m("width") if "width" in stated else box[1 - facing][1]
        bottom = box[2][0] + (m("floor") or 0.0)
        top = bottom + m("height") if "height" in stated else box[2][1]
        if stated["kind"] == "drawer":
            out = tuple(sorted((plane, plane + outward * reach)))
            room = [out, (low, high), (bottom, top)] if facing == 0 else [(low, high), out, (bottom, top)]
            found.append(Swung(room))
        else:
            found.append(leaf(facing, plane, outward, stated["hinge"], (low, high), (bottom, top), reach))
    return found


def swings_of_opening(build, tag):
    part, zone, t = build.part(tag), build.zone(tag), build.trailer
    way = part.get("swings")
    if way in (None, "slides", "lifts off") or zone in ("roof", "floor"):
        return []
    box = build.box(tag)
    side = "in" if way == "in" else "out"
    facing, plane, out = {
        "rear door": (0, t.rear[side], 1), "front wall": (0, t.nose[side], -1),
        "left wall": (1, -t.half[side], -1), "right wall": (1, t.half[side], 1),
    }[zone]
    plane, outward = plane * MM, -out if way == "in" else out
    face, upright = box[1 - facing], box[2]
    if part.get("sort") == "barn doors":
        middle = sum(face) / 2
        pair = [(face[0], middle), (middle, face[1])]
        first = ("left", "right") if facing == 0 else ("front", "rear")
        return [leaf(facing, plane, outward, hinge, half, upright) for hinge, half in zip(first, pair)]
    hinge = {"up": "top", "down": "bottom"}.get(way) or part["hinge"]
    return [leaf(facing, plane, outward, hinge, face, upright)]


# ---- what must be drawn ------------------------------------------------------------------------------------------

class View:
    """Which axis of the trailer runs to the right on paper and which upwards, and in which sense."""

    def __init__(self, right, up, sense=1):
        self.right, self.up, self.sense = right, up, sense
        self.along = 3 - right - up

    def place(self, right, up):
        return (self.sense * right, -up)

    def rect(self, box):
        if box[self.right] is None or box[self.up] is None:
            return None
        (left, right), (low, high) = box[self.right], box[self.up]
        corners = [self.place(left, low), self.place(right, high)]
        xs, ys = sorted(x for x, _ in corners), sorted(y for _, y in corners)
        if xs[0] == xs[1] and ys[0] == ys[1]:
            return shapely.Point(corners[0])
        if xs[0] == xs[1] or ys[0] == ys[1]:
            return shapely.LineString(corners)
        return shapely.box(xs[0], ys[0], xs[1], ys[1])

    def swung(self, swung):
        if swung.axis != self.along or swung.axis is None:
            return self.rect(swung.box)
        one, two = quarter(swung.at, swung.into, swung.radius).exterior.coords.xy
        # The two axes in the order x, y, z are right and up in every view.
        return shapely.Polygon([self.place(x, y) for x, y in zip(one, two)])


def opened(build, tag):
    part, box = build.part(tag), build.box(tag)
    if "opens" not in part or "open_reach" not in part:
        return None
    reach = si(part["open_reach"]) * MM
    x, y = box[0], box[1]
    side = part["opens"]
    if side == "left" and y:
        y = (y[0] - reach, y[1])
    if side == "right" and y:
        y = (y[0], y[1] + reach)
    if side == "front" and x:
        x = (x[0] - reach, x[1])
    if side == "rear" and x:
        x = (x[0], x[1] + reach)
    z = box[2] and "open_height" in part and (box[2][0], box[2][0] + si(part["open_height"]) * MM)
    return [x, y, z or None]


def expected(build):
    """For each view: (what, part or state or none) to a list of shapes."""
    t = build.trailer
    views = {}
    doors = collections.Counter(build.zone(tag) for tag in build.order if build.table(tag) == "opening")
    from_right = doors["right wall"] > doors["left wall"]
    side = View(0, 2, -1 if from_right else 1)
    far = "left wall" if from_right else "right wall"
    index = {tag: number for number, tag in enumerate(build.order)}

    def view(name, looked, wanted, hour, sweeps):
        shapes = collections.defaultdict(list)
        for tag in filter(wanted, build.order):
            body = looked.rect(build.box(tag, folded=build.hour(tag, hour)))
            if body is None:
                continue
            shapes["body", index[tag]].append(body)
        for tag in filter(wanted, build.order):
            if ("body", index[tag]) not in shapes:
                continue
            if build.table(tag) not in ("load",) and build.kind(tag) == "tent" and name in ("side", "roof", "end"):
                box = opened(build, tag)
                shape = looked.rect(box) if box else None
                if shape is not None:
                    shapes["open", index[tag]].append(shape)
            for swung in sweeps(tag):
                shapes["swing", index[tag]].append(looked.swung(swung))
        views[name] = shapes
        return shapes

    def of(tag):
        if build.table(tag) == "opening":
            return swings_of_opening(build, tag)
        return [] if build.table(tag) == "load" else swings_of_part(build, tag)

    elevation = view(
        "side", side, lambda tag: not (build.through(tag) and build.zone(tag) == far), "road",
        lambda tag: [swung for swung in of(tag) if swung.axis == 1],
    )
    in_plan = lambda tag: build.root(tag) != "roof" or build.through(tag) and build.zone(tag) == "roof"  # noqa: E731
    above = View(0, 1)
    hours = [("plan-day", "day"), ("plan-night", "night")] if build.folds() else [("plan", "night")]
    plans = [view(name, above, in_plan, hour, of) for name, hour in hours]
    roof = view("roof", above, lambda tag: build.root(tag) == "roof", "road", lambda tag: [])
    aside = ("left wall", "right wall")
    behind = View(1, 2)
    end = view(
        "end", behind, lambda tag: build.root(tag) in ("rear door", "roof", "underside", *aside), "road",
        lambda tag: [swung for swung in (of(tag) if build.table(tag) == "opening" and build.zone(tag) in aside else [])
                     if swung.axis in (0, 2)],
    )

    # The trailer itself.
    floor, ceiling, skin = t.floor * MM, t.ceiling * MM, t.skin * MM
    x = {where: (t.nose[where] * MM, t.rear[where] * MM) for where in ("in", "out")}
    y = {where: (-t.half[where] * MM, t.half[where] * MM) for where in ("in", "out")}
    elevation["box", None] = [side.rect([x["out"], None, (floor, skin)])]
    elevation["room", None] = [side.rect([x["in"], None, (floor, ceiling)])]
    square = t.square["out"] * MM
    elevation["nose", None] = [side.rect([(square, square), None, (floor, skin)])]
    frame = t.frame * MM
    elevation["tongue", None] = [side.rect([(0.0, x["out"][0]), None, (frame, frame)])]
    end["box", None] = [behind.rect([None, y["out"], (floor, skin)])]
    end["room", None] = [behind.rect([None, y["in"], (floor, ceiling)])]
    outlines = {}
    for what, where in (("box", "out"), ("room", "in")):
        outline = t.outline(where, 4000)
        outlines[where] = shapely.Polygon([above.place(px * MM, py * MM) for px, py in outline.exterior.coords])
    for plan in plans:
        plan["box", None], plan["room", None] = [outlines["out"]], [outlines["in"]]
        plan["tongue", None] = [above.rect([(0.0, x["out"][0]), (0.0, 0.0), None])]
    roof["box", None] = [outlines["out"]]
    stated = t.stated
    group, tire, coupler = stated["axle"], stated.get("tire", {}), stated.get("coupler", {})
    count = group.get("count", 1)
    spread = si(group["spread"]) * MM if count > 1 else 0.0
    axles = [t.axle * MM + (number - (count - 1) / 2) * spread for number in range(count)]
    if "radius" in tire:
        radius = si(tire["radius"]) * MM
        elevation["wheel", None] = [shapely.Point(side.place(at, radius)).buffer(radius, quad_segs=400) for at in axles]
        elevation["axle", None] = [shapely.Point(side.place(at, radius)).buffer(25.0, quad_segs=400) for at in axles]
        track = t.track * MM / 2
        end["wheel", None] = [behind.rect([None, (at, at), (0.0, 2 * radius)]) for at in (-track, track)]
        end["axle", None] = [behind.rect([None, (-track, track), (radius, radius)])]
    else:
        elevation["axle", None] = [side.rect([(at, at), None, (0.0, 300.0)]) for at in axles]
    for plan in plans:
        plan["axle", None] = [above.rect([(at, at), y["out"], None]) for at in axles]
        if "wheel_box" in stated:
            length, width = (si(stated["wheel_box"][key]) * MM for key in ("length", "width"))
            middle = t.axle * MM + si(stated["wheel_box"].get("axle", "0 in")) * MM
            along = (middle - length / 2, middle + length / 2)
            plan["wheel box", None] = [above.rect([along, across, None]) for across in
                                       ((y["in"][0], y["in"][0] + width), (y["in"][1] - width, y["in"][1]))]
    if "ball" in coupler:
        ball = si(coupler["ball"]) * MM / 2
        height = si(coupler.get("height", stated["frame_height"])) * MM
        elevation["ball", None] = [shapely.Point(side.place(0.0, height)).buffer(ball, quad_segs=400)]
        for plan in plans:
            plan["ball", None] = [shapely.Point(0, 0).buffer(ball, quad_segs=400)]
    bows = stated.get("bows", {})
    if "first" in bows and "spacing" in bows:
        half = (si(bows["span"]) / 2 if "span" in bows else t.half["out"]) * MM
        first, spacing = t.square["in"] + si(bows["first"]), si(bows["spacing"])
        places = [first + number * spacing for number in range(bows.get("count", 200))]
        if "count" not in bows:
            places = [place for place in places if place <= t.rear["in"] + 1e-9]
        roof["bow", None] = [above.rect([(at * MM, at * MM), (-half, half), None]) for at in places]
    for tag in build.order:
        part = build.part(tag)
        if build.table(tag) == "load" or build.kind(tag) != "rack" or build.root(tag) != "roof" or not build.box(tag)[0]:
            continue
        rows = [si(row["front"]) for row in part.get("feet_at", [])]
        if not rows and {"foot_first", "foot_spacing", "feet"} <= set(part):
            rows = [si(part["foot_first"]) + row * si(part["foot_spacing"]) for row in range(part["feet"] // 2)]
        box = build.box(tag)
        gauge = si(part.get("foot_gauge", part["width"])) * MM
        for row in rows:
            for sign in (-1, 1):
                at = above.place(box[0][0] + row * MM, sum(box[1]) / 2 + sign * gauge / 2)
                roof["foot", index[tag]].append(shapely.Point(at))
    for number, state in enumerate(build.spec.get("state", [])):
        if state["use"] != "road":
            continue
        figures = build.weigh({"fill": {}, **state})
        cg = [figures["cg", axis][0] for axis in "xyz"]
        for shapes, looked in ((elevation, side), (end, behind)):
            if cg[looked.right] is not None and cg[2] is not None:
                at = looked.place(cg[looked.right] * MM, cg[2] * MM)
                shapes["centre of gravity", number].append(shapely.Point(at))
    return views


# ---- the comparison of shapes ------------------------------------------------------------------------------------

# What is not held against anything, or (the floor) by `drawn_floor.py`; `space.py` has the widths of ways over it.
ELSEWHERE = {"free", "route", "route middle", "ground", "scale", "ladder"}


def apart(one, other):
    """How far two shapes are apart at most, in mm; infinite where they are of two sorts."""
    if one.geom_type != other.geom_type:
        # A part thinner than a twentieth of a millimetre is drawn as a line.
        if not {one.geom_type, other.geom_type} <= {"Polygon", "LineString"}:
            return math.inf
    edges = [shape.exterior if shape.geom_type == "Polygon" else shape for shape in (one, other)]
    bounds = max(abs(a - b) for a, b in zip(one.bounds, other.bounds))
    longer = max(edges[0].length, edges[1].length, 1.0)
    area = abs(one.area - other.area) / longer
    return max(bounds, area, shapely.hausdorff_distance(*edges, densify=0.05 if max(len(e.coords) for e in edges) < 50 else None))


def compare(wanted, floor, found, counts=None, first=None):
    """The number of shapes that differ, are missing, or should not be there."""
    wrong = 0

    def tell(text):
        nonlocal wrong
        wrong += 1
        if first is not None and len(first) < 12:
            first.append(text)

    if set(wanted) != set(found):
        tell(f"drawings {sorted(found)} in place of {sorted(wanted)}")
    for view in sorted(set(wanted) & set(found)):
        shapes, dimensions, ways = found[view]
        if view in ("plan", "plan-night"):
            told, looked = floor.wrong(shapes, ways)
            for text in told:
                tell(f"{view}: {text}")
            if counts is not None and looked:
                counts[view, "free", "Polygon"] += 1
                counts[view, "route", "LineString"] += looked - 1
        for key in sorted(set(wanted[view]) | set(shapes), key=str):
            want, have = list(wanted[view].get(key, [])), list(shapes.get(key, []))
            if key not in wanted[view] and key[0] in ELSEWHERE:
                continue
            if len(want) != len(have):
                tell(f"{view} {key}: {len(have)} shapes in place of {len(want)}")
                continue
            for shape in want:
                off = [apart(shape, other) for other in have]
                best = min(range(len(have)), key=off.__getitem__)
                if counts is not None:
                    counts[view, key[0], shape.geom_type] += 1
                if not off[best] <= NEAR:
                    tell(f"{view} {key}: {off[best]:.3f} mm off: {have[best].bounds} in place of {shape.bounds}")
                have.pop(best)
        for text, length in dimensions:
            told = re.search(r"-?\d.*?(?= short$|$)", text)
            if counts is not None:
                counts[view, "dimension", "LineString"] += 1
            if not told or abs(abs(si(told.group(0))) - length) > TOLD + 0.0005 * length:
                tell(f"{view}: a dimension of {length:.4f} m says `{text}`")
    return wrong


def page(pintle, path):
    done = subprocess.run([str(pintle), "sheet", str(path), "-o", "-"], capture_output=True, text=True, check=False)
    if "<svg" not in done.stdout:
        sys.exit(f"{path.name}: no sheet with a drawing:\n{done.stderr[:3000]}")
    return done.stdout


# ---- the comparison ----------------------------------------------------------------------------------------------

def falsehoods(found):
    """For each sort of shape in each view, the drawings with one shape moved by 2 mm, and with one left out."""
    sorts = {}
    for number, views in enumerate(found):
        for view, (shapes, dimensions, _) in views.items():
            for key, held in shapes.items():
                if held and key[0] not in ("route", "route middle", "ground", "scale", "ladder"):
                    sorts.setdefault((view, key[0]), (number, key))
            if dimensions:
                sorts.setdefault((view, "dimension"), (number, None))
            if found[number][view][2]:
                sorts.setdefault((view, "route"), (number, None))
    for (view, what), (number, key) in sorted(sorts.items()):
        changed = copy.copy(found[number])
        shapes, dimensions, ways = changed[view]
        if what == "route":
            # A way may lie anywhere where there is room: one that is off by a third of its width is not.
            line, width = ways[0]
            for turn in range(4):
                by = [width / 3 * way for way in ((1, 0), (-1, 0), (0, 1), (0, -1))[turn]]
                changed = {**found[number], view: (shapes, dimensions, [(shapely.affinity.translate(line, *by), width), *ways[1:]])}
                yield view, f"{what} moved", number, changed
            continue
        if key is None:
            text, length = dimensions[0]
            changed[view] = (shapes, [(text, length + 2 * FALSEHOOD / MM), *dimensions[1:]], ways)
            yield view, f"{what} made longer", number, changed
            continue
        for says, held in (("moved", [shapely.affinity.translate(shapes[key][0], FALSEHOOD, 0.0), *shapes[key][1:]]),
                           ("left out", shapes[key][1:])):
            changed = dict(found[number])
            changed[view] = ({**shapes, key: held}, dimensions, ways)
            yield view, f"{what} {says}", number, changed


def self_test(wanted, floors, found):
    tried, passed = 0, []
    for view, what, number, changed in falsehoods(found):
        tried += 1
        before = compare(wanted[number], floors[number], found[number])
        if compare(wanted[number], floors[number], changed) <= before:
            passed.append(f"{view}: {what}")
    print(f"drawing: {tried} falsehoods, {len(passed)} passed unnoticed", *passed[:10], sep="\n  ")
    return 1 if passed or tried < 20 else 0


def main():
    parser = argparse.ArgumentParser(description=__doc__.split("\n", 1)[0])
    parser.add_argument("--count", type=int, default=30)
    parser.add_argument("--seed", type=int, default=118)
    parser.add_argument("--pintle", type=pathlib.Path, default=pathlib.Path("target/debug/pintle"))
    parser.add_argument("--specs", type=pathlib.Path, default=pathlib.Path("specs"))
    parser.add_argument("--self-test", action="store_true", help="only try whether falsehoods are noticed")
    parser.add_argument("--both", action="store_true", help="compare, then the self-test, on one run of the tool")
    call = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        specs = of_the_demo(call.specs) + drawn_by_chance(pathlib.Path(folder), call.count, call.seed)
        found = [drawings(page(call.pintle.resolve(), path)) for path, _ in specs]
    wanted = [expected(build) for _, build in specs]
    assumed = tomllib.loads(ASSUMED.read_text(encoding="utf-8"))["assumption"]
    assumed = {row["of"]: row["value"] for row in assumed}
    floors = [Floor(build, assumed) for _, build in specs]
    if call.self_test:
        sys.exit(self_test(wanted, floors, found))
    counts, wrong = collections.Counter(), 0
    for (path, _), want, floor, have in zip(specs, wanted, floors, found):
        first = []
        wrong += compare(want, floor, have, counts, first)
        for text in first:
            print(f"{path.name}: {text}")
    for (view, what, sort), count in sorted(counts.items()):
        print(f"  {view}, {what} ({sort}): {count} compared")
    seen = {(view.split("-")[0], what) for view, what, _ in counts}
    asked = {(view, what) for view, sorts in {
        "side": ("body", "open", "swing", "box", "room", "nose", "tongue", "wheel", "ball", "centre of gravity", "dimension"),
        "plan": ("body", "swing", "box", "room", "wheel box", "axle", "ball", "dimension", "free", "route"),
        "roof": ("body", "open", "box", "bow", "foot", "dimension"),
        "end": ("body", "open", "swing", "box", "room", "wheel", "axle", "centre of gravity", "dimension"),
    }.items() for what in sorts}
    if asked - seen:
        print("never compared:", sorted(asked - seen))
    print(f"drawing: {len(specs)} specs, {sum(counts.values())} shapes, {wrong} differ")
    failed = wrong or asked - seen
    if call.both:
        failed = self_test(wanted, floors, found) or failed
    sys.exit(1 if failed else 0)


if __name__ == "__main__":
    main()
