"""Specs for `drawing.py`: what they say of places and sizes, read from the words of the spec format; those of the demo shop,
and more by chance."""

import tomllib

import weigh_random
from drawn import MM
from weigh_random import Border, Stock, si

TABLES = ("item", "tank", "locker", "bulkhead", "berth", "vent", "opening", "load")


# ---- what a spec says --------------------------------------------------------------------------------------------

class Build(weigh_random.Build):
    """A build with openings, in the tool's order of parts."""

    def __init__(self, spec, stock):
        super().__init__(spec, stock)
        for stated in spec.get("opening", []):
            self.parts[stated["tag"]] = stock.full(stated)
            self.list_of[stated["tag"]] = "opening"
        self.order = [stated["tag"] for table in TABLES for stated in spec.get(table, [])]
        self.stock = stock

    def part(self, tag):
        return self.loads[tag] if tag in self.loads else self.parts[tag]

    def table(self, tag):
        return "load" if tag in self.loads else self.list_of[tag]

    def zone(self, tag):
        return self.part(tag).get("zone", "inside")

    def root(self, tag):
        zone = self.zone(tag)
        while self.host(zone):
            zone = self.zone(self.host(zone))
        return zone

    def through(self, tag):
        return self.table(tag) in ("vent", "opening")

    def whole(self, tag, stated):
        """What is stated, with a size on every axis; and the sizes that are not known. An opening is flush with its wall."""
        load = self.table(tag) == "load"
        across = {"front wall": "length", "rear door": "length", "left wall": "width", "right wall": "width",
                  "roof": "height", "floor": "height"}.get(self.zone(tag))
        unknown = [size for size in ("length", "width", "height") if size not in stated and not load]
        if self.table(tag) == "opening" and across in unknown:
            unknown.remove(across)
            stated = {**stated, across: "0 in"}
        return {**stated, **{size: "1 in" for size in unknown}}, unknown

    def thing(self, tag):
        if tag not in self.placed:
            stated, unknown = self.whole(tag, self.parts[tag])
            thing = self.put(stated)
            for axis, size in enumerate(("length", "width", "height")):
                if size in unknown:
                    thing.near[axis] = thing.far[axis] = thing.centre[axis] = None
            self.placed[tag] = thing
        return self.placed[tag]

    def fitted_of(self, tag):
        return [] if self.list_of[tag] == "opening" and "mass" not in self.parts[tag] else super().fitted_of(tag)

    def box(self, tag, folded=False):
        """Near and far by axis in millimetres; an axis that is not known is none."""
        stated = dict(self.part(tag))
        if folded and "folds" in stated:
            stated |= {key: stated["folds"][key] for key in ("at", "length", "width", "height") if key in stated["folds"]}
        stated, unknown = self.whole(tag, stated)
        thing = self.put(stated, load=self.table(tag) == "load")
        ends = []
        for axis, size in enumerate(("length", "width", "height")):
            known = thing.near[axis] is not None and size not in unknown
            ends.append((thing.near[axis] * MM, thing.far[axis] * MM) if known else None)
        return ends

    def hour(self, tag, hour):
        """Whether a part that folds is folded."""
        bed = self.table(tag) == "berth"
        if hour == "road":
            return True
        if hour == "day":
            return bed
        night = self.part(tag).get("folds", {}).get("night")
        return night == "folded" if night else not bed

    def folds(self):
        return any("folds" in self.part(tag) for tag in self.order)


# ---- drawing specs by chance -------------------------------------------------------------------------------------

def more(draw, spec, stock):
    """Adds what `weigh_random` does not draw."""
    inch = lambda low, high: f"{draw.uniform(low, high):.2f} in"  # noqa: E731
    trailer = spec["trailer"]
    trailer["tire"] = {"radius": inch(10, 15)} if draw.maybe(0.9) else {}
    trailer["coupler"] = {**trailer.get("coupler", {}), "ball": draw.choice(("1 7/8 in", "2 in", "50 mm")), "height": inch(15, 20)}
    if draw.maybe(0.4):
        trailer["wheel_box"] = {"length": inch(24, 40), "width": inch(4, 9), "height": inch(6, 11)}
    if draw.maybe(0.6):
        trailer["bows"] = {"first": inch(0, 12), "spacing": inch(16, 24)}
    build = Build(spec, stock)
    for table in ("item", "locker"):
        for stated in spec.get(table, []):
            kind = build.kind(stated["tag"])
            if kind == "tent" and draw.maybe(0.9):
                stated |= {"opens": draw.choice(("left", "right", "front", "rear", "up")), "open_reach": inch(10, 60), "open_height": inch(40, 60)}
            if kind in ("module", "locker") and draw.maybe(0.7):
                stated["swings"] = [swing(draw, inch) for _ in range(draw.randint(1, 3))]
            if kind == "rack" and draw.maybe(0.7):
                stated["feet_at"] = [{"front": inch(0, 6)}, {"front": inch(20, 40)}]
    for table, kinds in (("item", ("module",)), ("berth", ("berth",))):
        for stated in spec.get(table, []):
            if build.kind(stated["tag"]) in kinds and stated.get("at") and draw.maybe(0.25):
                folds = {"at": dict(stated["at"]), "hinge": draw.choice(("front", "rear", "left", "right")), "way": draw.choice(("up", "down"))}
                folds[draw.choice(("length", "width", "height"))] = inch(4, 12)
                if draw.maybe(0.4):
                    folds["night"] = draw.choice(("in use", "folded"))
                stated["folds"] = folds
    for number in range(draw.randint(0, 5)):
        zone = draw.choice(("left wall", "right wall", "right wall", "rear door", "front wall", "roof"))
        long_way = zone in ("left wall", "right wall")
        wide = draw.uniform(12, 40)
        stated = {"tag": f"way-{number}", "zone": zone, "sort": draw.choice(("door", "window", "hatch", "barn doors"))}
        if zone == "roof":
            stated |= {"sort": "hatch", "length": inch(14, 24), "width": inch(14, 24), "swings": "up", "at": {"front": inch(4, 40)}}
        else:
            stated["length" if long_way else "width"] = f"{wide:.2f} in"
            stated["height"] = inch(14, 50)
            if draw.maybe(0.3):
                stated["width" if long_way else "length"] = inch(1, 3)
            stated["at"] = {"floor": inch(0, 20)} | ({"front": inch(0, 40)} if long_way else {"centre": f"{draw.uniform(-10, 10):.2f} in"})
            way = draw.choice(("out", "out", "in", "up", "down", "slides", "lifts off"))
            stated["swings"] = way
            if way in ("out", "in"):
                stated["hinge"] = draw.choice((("front", "rear") if long_way else ("left", "right")) + ("top", "bottom"))
        spec.setdefault("opening", []).append(stated)
    return spec


def swing(draw, inch):
    kind = draw.choice(("door", "drawer", "lid"))
    stated = {"name": f"{kind} {draw.randint(1, 99)}", "kind": kind}
    if kind == "lid":
        stated |= {"side": "top", "hinge": draw.choice(("front", "rear", "left", "right"))}
    else:
        stated["side"] = draw.choice(("front", "rear", "left", "right"))
        if kind == "drawer":
            stated["reach"] = inch(6, 20)
        else:
            upright = ("left", "right") if stated["side"] in ("front", "rear") else ("front", "rear")
            stated["hinge"] = draw.choice((*upright, "top", "bottom"))
        if draw.maybe(0.5):
            stated |= {"floor": inch(0, 3), "height": inch(2, 8)}
    if draw.maybe(0.5):
        stated |= {"start": inch(0, 3), "width": inch(3, 8)}
    if kind != "drawer" and draw.maybe(0.3):
        stated["reach"] = inch(4, 12)
    return stated


def drawn_by_chance(folder, count, seed):
    """A shop as `weigh_random` writes one, with more in its specs."""
    draw = weigh_random.Draw(seed)
    for inner in ("stock", "builds"):
        (folder / inner).mkdir()
    (folder / "pintle.toml").write_text('stock = ["stock"]\n')
    parts = weigh_random.draw_stock(draw)
    (folder / "stock" / "parts.toml").write_text("\n".join(weigh_random.table(draw, "[[part]]", part) for part in parts), encoding="utf-8")
    stock, found = Stock(parts), []
    while len(found) < count:
        try:
            spec = more(draw, weigh_random.Drawn(draw, stock, len(found)).spec, stock)
        except Border:
            continue
        tables = [weigh_random.table(draw, f"[{name}]", spec[name]) for name in ("build", "trailer", "people", "tow", "water") if name in spec]
        for name in (*TABLES, "either", "state"):
            tables += [weigh_random.table(draw, f"[[{name}]]", stated) for stated in spec.get(name, [])]
        path = folder / "builds" / f"x{len(found):04}.toml"
        path.write_text("\n".join(tables), encoding="utf-8")
        found.append((path, Build(spec, stock)))
    return found


def of_the_demo(folder):
    parts = []
    for path in sorted((folder / "stock").glob("*.toml")):
        parts += tomllib.loads(path.read_text(encoding="utf-8")).get("part", [])
    stock = Stock(parts)
    return [(path, Build(tomllib.loads(path.read_text(encoding="utf-8")), stock)) for path in sorted((folder / "builds").glob("*.toml"))]
