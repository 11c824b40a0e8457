"""Every road arrangement of a spec, one by one, and what follows from all of them.

Used by `weigh_random.py`. Nothing is searched cleverly: each set of parts that the words of the spec format let ride
together is written down, each tank and load is put at either of its ends, and the weights of all of that are compared.
Only where a tank that is part full lowers the centre of gravity is something solved: it is lowest when the water in
such a tank stands as high as the centre of gravity itself, which is found by halving an interval.
"""

import itertools
from fractions import Fraction

import numpy
import shapely

# More arrangements than these are not listed by the tool.
LISTED = 4096
# Sums of powers over all points, each by its number, agree to so much.
SAME_SUMS = 1e-12
# Metres above the ground between which every centre of gravity lies, and how often what is between is halved.
LOWEST, HIGHEST, HALVED = -4.0, 12.0, 58
# What each arrangement comes to: total mass, fitted mass, moments about ball, centreline and ground.
MASS, FITTED, X, Y, Z = range(5)
FIGURES = ("gross", "unloaded", "tongue", "tongue_share", "axles", "left", "right", "side", "side_share",
           "cg_x", "cg_y", "cg_z")
AXES = {"tongue": "x", "tongue_share": "x", "axles": "x", "cg_x": "x", "left": "xy", "right": "xy",
        "side_share": "xy", "side": "y", "cg_y": "y", "cg_z": "z"}


class Plan:
    """What may ride together on the road."""

    def __init__(self, build, exact):
        self.build, spec = build, build.spec
        self.stated = {**build.parts, **build.loads}
        self.host = {tag: build.host(stated.get("zone", "inside")) for tag, stated in self.stated.items()}
        self.needs = {tag: set(stated.get("needs", ())) for tag, stated in self.stated.items()}
        self.groups = [(set(group["of"]), group["none"]) for group in spec.get("either", [])]
        self.order = spec.get("water", {}).get("use_order", [])
        self.range = {tag: (exact(load["least"]), exact(load["mass"])) for tag, load in build.loads.items()}
        for tag in build.tags("tank"):
            road = build.parts[tag].get("on_road")
            self.range[tag] = (exact(road["least"]), exact(road["most"])) if road else (Fraction(0), Fraction(1))
        asked_for = set().union(*self.needs.values(), *(of for of, _ in self.groups))
        may_stay = [tag for tag in build.loads if self.range[tag][0] == 0]
        # A load that nothing else hangs on, with none of it aboard, is a load at home.
        self.plain = [tag for tag in may_stay if tag not in asked_for]
        self.loose = [tag for tag, part in build.parts.items() if part.get("removable")]
        self.loose += [tag for tag in may_stay if tag in asked_for]
        self.inward = []
        while len(self.inward) < len(self.stated):
            ready = [tag for tag in self.stated if tag not in self.inward
                     and (self.host[tag] is None or self.host[tag] in self.inward)]
            self.inward += ready

    def aboard(self, picked):
        """What is aboard when these of the loose ones are taken along: that, and what is fixed to what is aboard."""
        loose, aboard = set(self.loose), set()
        for tag in self.inward:
            if (tag in picked or tag not in loose) and self.host[tag] in (None, *aboard) and tag not in self.plain:
                aboard.add(tag)
        return aboard

    def may_ride(self, aboard):
        grouped = (len(of & aboard) for of, _ in self.groups)
        return all(self.needs[tag] <= aboard for tag in aboard) and all(
            number == 1 or number == 0 and none for number, (_, none) in zip(grouped, self.groups))

    def sets(self):
        """Every set of parts and loads that may be aboard together; plain loads where they can lie."""
        for picks in itertools.product((True, False), repeat=len(self.loose)):
            picked = {tag for tag, taken in zip(self.loose, picks) if taken}
            aboard = self.aboard(picked)
            if picked <= aboard and self.may_ride(aboard):
                plain = {tag for tag in self.plain if self.host[tag] in (None, *aboard) and self.needs[tag] <= aboard}
                yield aboard | plain

    def allows(self, aboard, amounts):
        """Whether so much of each may be aboard: a set without loads of which nothing is there, and amounts of tanks
        and loads; what differs by rounding is let pass."""
        near = 1e-9
        fixed = {tag for tag in self.stated if tag not in self.loose and tag not in self.plain}
        held = all(self.host[tag] in (None, *aboard) and self.needs[tag] <= aboard for tag in aboard)
        left = all(self.host[tag] not in (None, *aboard) for tag in fixed - aboard)
        ranges = all(float(self.range[tag][0]) - near <= amount <= float(self.range[tag][1]) + near
                     for tag, amount in amounts.items())
        tanks = [tag for tag in self.order if tag in aboard]
        begun = (amounts[later] < float(self.range[later][1]) - near for later in tanks)
        spent = [amounts[tag] <= float(self.range[tag][0]) + near for tag in tanks]
        unspent = [not all(spent[:at]) for at in range(len(tanks))]
        ordered = not any(is_begun and before for is_begun, before in zip(begun, unspent))
        return held and left and self.may_ride(aboard) and ranges and ordered


class Arrangements:
    """All road arrangements of a build, for each set of loads of the road states' own."""

    def __init__(self, build, exact, water):
        self.build, self.exact, self.water = build, exact, float(exact(water))
        self.plan = Plan(build, exact)
        self.road = [state for state in build.spec["state"] if state["use"] == "road"]
        self.count, self.rows, self.lowest = 0, [], []
        self.unknown = {"mass": False, "x": False, "y": False, "z": False}
        if not self.road:
            return
        sets = list(self.plan.sets())
        self.bodies = {tag: self.body(tag) for tag in self.plan.stated}
        families = {}
        for state in self.road:
            families.setdefault(self.own_key(state), state)
        for state in families.values():
            own = [(float(self.exact(load["mass"])), build.put(load, load=True).centre, False)
                   for load in state.get("load", [])]
            pinned = {build.host(load.get("zone", "inside")) for load in state.get("load", [])} - {None}
            ours = [aboard for aboard in sets if pinned <= aboard]
            trailer = (build.trailer.mass, build.trailer.centre(), True)
            for aboard in ours:
                self.add(aboard, [trailer, *own])
        self.rows = numpy.vstack(self.rows) if self.rows else numpy.zeros((0, 5))

    def own_key(self, state):
        """Loads of a state's own, in whatever order."""
        loads = []
        for load in state.get("load", []):
            centre = self.build.put(load, load=True).centre
            loads.append((load["what"], float(self.exact(load["mass"])), load.get("zone", "inside"), str(centre)))
        return tuple(sorted(loads))

    def body(self, tag):
        """What a part adds by itself, as bodies; and of what varies, one body of it all."""
        build = self.build
        if tag in build.loads:
            return [], (float(self.plan.range[tag][1]), build.load(tag).centre, False)
        own = [(mass, centre, True) for mass, centre in build.fitted_of(tag)]
        if build.kind(tag) != "tank":
            return own, None
        tank = build.thing(tag)
        full = float(self.exact(build.parts[tag]["capacity"])) * self.water
        return own, (full, (tank.middle(0), tank.middle(1), tank.middle(2)), False)

    def sums(self, mass, centre, fitted):
        """A body as a row; notes what is not known of it."""
        if mass is None:
            self.unknown["mass"] = True
            return numpy.zeros(5)
        if mass > 0:
            for axis, where in zip("xyz", centre):
                self.unknown[axis] |= where is None
        x, y, z = (mass * (where or 0.0) for where in centre)
        return numpy.array([mass, mass if fitted else 0.0, x, y, z])

    def add(self, aboard, always):
        base = sum((self.sums(*body) for body in always), numpy.zeros(5))
        ends, ordered, tanks = [], [], []
        for tag in sorted(aboard):
            own, varied = self.bodies[tag]
            base = base + sum((self.sums(*body) for body in own), numpy.zeros(5))
            if varied is None:
                continue
            least, most = self.plan.range[tag]
            if tag in self.build.loads:
                one = self.sums(*varied) / (varied[0] or 1.0)
                ends.append([one * float(end) for end in dict.fromkeys((most, least))])
                continue
            tank = self.tank(tag, varied, most > 0)
            (ordered if tag in self.plan.order else tanks).append((tag, tank, float(least), float(most)))
        ordered.sort(key=lambda entry: self.plan.order.index(entry[0]))
        for _, tank, least, most in tanks:
            ends.append([tank(end) for end in dict.fromkeys((most, least))])
        corners = spread(base[None], ends + ([self.one_after_another(ordered)] if ordered else []))
        self.count += len(corners)
        self.rows.append(corners)
        # Where the centre of gravity is lowest, a tank may be part full: of those in order only one at a time.
        loads = spread(base[None], ends[:len(ends) - len(tanks)])
        for at in range(max(1, len(ordered))):
            rows, partly = loads, list(tanks)
            for number, (_, tank, least, most) in enumerate(ordered):
                if number == at:
                    partly.append(ordered[at])
                else:
                    rows = rows + tank(least if number < at else most)
            self.lowest.append(self.lowest_of(rows, partly))

    def tank(self, tag, varied, holds_any):
        """The water in a tank by how full it is: its surface stands so high in the tank, its centre half as high."""
        full, (x, y, _), _ = varied
        thing = self.build.thing(tag)
        if holds_any:
            self.sums(full, (x, y, thing.near[2]), False)

        def at(share):
            mass = full * share
            z = 0.0 if thing.near[2] is None else thing.near[2] + (thing.far[2] - thing.near[2]) * share / 2
            return numpy.array([mass, 0.0, mass * (x or 0.0), mass * (y or 0.0), mass * z])

        return at

    @staticmethod
    def one_after_another(ordered):
        """Each tank is emptied before the next is begun."""
        state = [most for *_, most in ordered]
        ways = [list(state)]
        for at, (_, _, least, most) in enumerate(ordered):
            if least < most:
                state[at] = least
                ways.append(list(state))
        return [sum((tank(share) for (_, tank, *_), share in zip(ordered, way)), numpy.zeros(5)) for way in ways]

    def lowest_of(self, rows, partly):
        """The lowest centre of gravity of rows to which tanks add that may be part full. With water up to the height h
        in each, as far as its range lets it, the centre of gravity lies above h or below; it is lowest where it lies
        at h."""
        tanks = []
        for tag, tank, least, most in partly:
            thing = self.build.thing(tag)
            if thing.near[2] is not None:
                tanks.append((tank(1.0)[MASS], thing.near[2], thing.far[2] - thing.near[2], least, most))
        low, high = numpy.full(len(rows), LOWEST), numpy.full(len(rows), HIGHEST)
        for _ in range(HALVED if tanks else 1):
            level = (low + high) / 2
            mass, moment = rows[:, MASS], rows[:, Z]
            for full, bottom, rise, least, most in tanks:
                share = numpy.minimum(numpy.maximum((level - bottom) / rise, least), most)
                mass = mass + full * share
                moment = moment + full * share * (bottom + rise * share / 2)
            centre = moment / mass
            above = centre > level
            low, high = numpy.where(above, level, low), numpy.where(above, high, level)
        return centre.min()

    def row(self, way):
        """An arrangement as the tool writes it: whether the spec allows it, and what it comes to."""
        build, plan, out = self.build, self.plan, set(way["out"])
        own = {state["name"]: state for state in self.road}[way["loads_of"]].get("load", [])
        pinned = {build.host(load.get("zone", "inside")) for load in own} - {None}
        loads = {load["tag"]: load["mass"]["si"] for load in way["load"]}
        amounts = {tank["tag"]: tank["share"]["si"] for tank in way["fill"]} | loads
        aboard = set(build.parts) - out | set(loads)
        kept = aboard - {tag for tag in plan.plain if not loads.get(tag)}
        sound = (set(amounts) - set(loads) == {tag for tag in build.tags("tank") if tag in aboard} and pinned <= aboard
                 and plan.allows(kept, {tag: amount for tag, amount in amounts.items() if tag in kept}))
        rows = [self.sums(build.trailer.mass, build.trailer.centre(), True)]
        rows += [self.sums(float(self.exact(load["mass"])), build.put(load, load=True).centre, False) for load in own]
        for tag in sorted(aboard):
            bodies, varied = self.bodies[tag]
            rows += [self.sums(*body) for body in bodies]
            if varied and tag in loads:
                rows.append(self.sums(loads[tag], varied[1], False))
            elif varied:
                rows.append(self.tank(tag, varied, False)(amounts.get(tag, 0.0)))
        return sound, sum(rows)

    def bodies_of(self, way):
        """Names, masses and places behind the ball of what is aboard in an arrangement."""
        build, road = self.build, {state["name"]: state for state in self.road}
        bodies = {name: (mass, centre[0]) for name, mass, centre in build.fitted(set(way["out"]))}
        for load in way["load"]:
            bodies[f"load `{load['tag']}`"] = load["mass"]["si"], build.load(load["tag"]).centre[0]
        for tank in way["fill"]:
            tag, share = tank["tag"], tank["share"]["si"]
            if share > 0:
                full = float(self.exact(build.parts[tag]["capacity"])) * self.water
                bodies[f"water in tank `{tag}`"] = full * share, build.thing(tag).middle(0)
        for load in road[way["loads_of"]].get("load", []):
            centre = build.put(load, load=True).centre
            bodies[f"load `{load['what']}`"] = float(self.exact(load["mass"])), centre[0]
        return bodies

    def figure(self, name, rows=None):
        t, rows = self.build.trailer, self.rows if rows is None else rows
        gross, axles, side = rows[:, MASS], rows[:, X] / t.axle, 2 * rows[:, Y] / t.track
        return {
            "gross": lambda: gross, "unloaded": lambda: rows[:, FITTED], "tongue": lambda: gross - axles,
            "tongue_share": lambda: (gross - axles) / gross, "axles": lambda: axles, "left": lambda: (axles - side) / 2,
            "right": lambda: (axles + side) / 2, "side": lambda: side, "side_share": lambda: side / axles,
            "cg_x": lambda: rows[:, X] / gross, "cg_y": lambda: rows[:, Y] / gross, "cg_z": lambda: rows[:, Z] / gross,
        }[name]()

    def known(self, name):
        lacking = self.unknown["mass"] or any(self.unknown[axis] for axis in AXES.get(name, ""))
        if lacking or not len(self.rows):
            return False
        return name != "side_share" or self.figure("axles").min() > 0

    def heaviest(self):
        return float(self.rows[:, MASS].max()) if len(self.rows) else 1.0

    def extremes(self):
        """Figure and end to value and scale; none where it is not known."""
        found = {}
        for name in FIGURES:
            if not self.known(name):
                found |= {(name, "least"): (None, None), (name, "most"): (None, None)}
                continue
            values = self.figure(name)
            scale = 1.0 if name.startswith("cg") or name.endswith("share") else self.heaviest()
            least = min(self.lowest) if name == "cg_z" else values.min()
            found |= {(name, "least"): (float(least), max(scale, abs(least)) if name.startswith("cg") else scale),
                      (name, "most"): (float(values.max()), scale)}
        return found

    def window(self, least, most):
        """Where the axle may stand: foremost and rearmost place, and how the axle lies to them."""
        if not self.known("cg_x"):
            return None
        centres, axle = self.figure("cg_x"), self.build.trailer.axle
        fore, aft = float(centres.max() / (1 - least)), float(centres.min() / (1 - most))
        if fore > aft:
            return fore, aft, "no window"
        return fore, aft, "too far ahead" if axle < fore else "too far back" if axle > aft else "within"

    def points(self):
        return numpy.column_stack([self.figure("gross"), self.figure("tongue")]) if self.known("tongue") else None

    def allowed(self, least, most):
        """The region that ratings and the band allow, and how many ratings are not given."""
        trailer, tow, wide = self.build.trailer.stated, self.build.tow, 1e5
        axle, coupler = trailer["axle"], trailer.get("coupler", {})
        value = lambda table, key: float(self.exact(table[key])) if key in table else None  # noqa: E731
        ratings = [(value(trailer, "gvwr"), (1, 0)), (value(coupler, "rating"), (1, 0)), (value(tow, "rating"), (1, 0)),
                   (value(coupler, "tongue_rating"), (0, 1)), (value(tow, "tongue_rating"), (0, 1)),
                   (value(axle, "gawr"), (1, -1))]
        region = shapely.box(0, -wide, wide, wide)
        bounds = [(rating * (axle["count"] if way == (1, -1) else 1), way)
                  for rating, way in ratings if rating is not None]
        for limit, (gross, tongue) in [*bounds, (0.0, (least, -1)), (0.0, (-most, 1))]:
            region = region.intersection(below(limit, gross, tongue, wide))
        return region, sum(rating is None for rating, _ in ratings)


def compare(all_of, told, steps, band, agree):
    """Holds what the tool says of all arrangements against them, sort by sort: what was compared, and how it differs,
    if it does."""
    build = all_of.build
    if not all_of.road:
        yield "no road state", None if "missing" in told else "the tool has arrangements where no state is for the road"
        return
    if "missing" in told:
        yield "arrangements", f"the tool misses {told['missing']}"
        return
    yield "count", differ(told["count"], all_of.count, 0.0)
    named = told["named"]
    unsaid = any("holds" not in build.parts[tag] and all_of.plan.range[tag][0] != all_of.plan.range[tag][1]
                 for tag in build.tags("tank"))
    if isinstance(named, dict):
        yield "named", None if unsaid else f"the tool misses {named['missing']}"
        named = []
    for range_ in told["extremes"]:
        for end in ("least", "most"):
            if "missing" not in range_[end]:
                name, where = range_["figure"], f"extremes / {range_['figure']} / {end}"
                yield from of_way(all_of, range_[end], {name: range_[end]["value"]}, where, agree)
    for number, way in enumerate(named):
        figures = {name: way[name] for name in ("gross", "tongue", "tongue_share")}
        yield from of_way(all_of, way, figures, "named", agree)
        if number == 0:
            yield "departure", departure(all_of, way)
    window = all_of.window(*band)
    if window:
        ends = told["axle_window"]
        yield "window stands", differ(ends["stands"], window[2])
        for end, share in (("foremost", band[0]), ("rearmost", band[1])):
            sound, row = all_of.row(ends[end])
            centre = row[X] / row[MASS] / (1 - share)
            yield f"window {end}", (None if sound else "none that the spec allows") or differ(
                ends[end]["behind_ball"]["si"], centre, agree * max(1.0, centre))
    yield from envelope(all_of, told["envelope"], told["extremes"], named, band, agree)
    yield from sensitivity(all_of, steps, named, agree)


def of_way(all_of, way, figures, where, agree):
    """An arrangement that the tool names is one that the spec allows, and comes to what the tool says."""
    sound, row = all_of.row(way)
    yield f"{where}: allowed", None if sound else f"`{way['arrangement']}` is none that the spec allows"
    for name, value in figures.items():
        if "si" in value and all_of.known(name):
            scale = 1.0 if name.startswith("cg") or name.endswith("share") else all_of.heaviest()
            off = differ(value["si"], float(all_of.figure(name, row[None])[0]), agree * scale)
            yield f"{where}: {name}", off and f"`{way['arrangement']}`: {off}"


def departure(all_of, way):
    """With everything aboard where nothing is chosen between: fresh water full, waste empty, loads at their most."""
    plan, build = all_of.plan, all_of.build
    if plan.groups or plan.order or any("holds" not in build.parts[tag] for tag in build.tags("tank")):
        return None
    least_most = {tank["tag"]: plan.range[tank["tag"]] for tank in way["fill"]}
    fills = all(tank["share"]["si"] == float(least_most[tank["tag"]][build.parts[tank["tag"]]["holds"] == "fresh"])
                for tank in way["fill"])
    loads = {load["tag"]: load["mass"]["si"] for load in way["load"]}
    full = all(abs(loads.get(tag, 0.0) - float(plan.range[tag][1])) < 1e-9 for tag in build.loads)
    return None if not way["out"] and fills and full else f"`{way['arrangement']}` is not everything aboard"


def envelope(all_of, told, ranges, named, band, agree):
    points = all_of.points()
    if points is None or "missing" in told:
        both = points is None and "missing" in told
        yield "envelope", None if both or not named else "only one of the two has an envelope"
        return
    heavy = all_of.heaviest()
    listed = told["points"] is not None
    yield "points listed", differ(listed, all_of.count <= LISTED)
    yield "points not listed", differ(told["not_listed"], None if listed else all_of.count)
    if listed:
        told_points = numpy.array(told["points"])
        off = "they are not as many" if len(told_points) != len(points) else None
        if not off:
            (ours, size), (theirs, other) = power_sums(points), power_sums(told_points)
            off = differ(other, size, agree * size)
            off = off or (None if numpy.abs(ours - theirs).max() <= SAME_SUMS else f"{ours} and {theirs}")
        yield "points", off
    ours = shapely.MultiPoint(points).convex_hull
    theirs = shapely.MultiPoint([corner(at) for at in told["hull"]])
    yield "hull", off_by(apart(ours, theirs.convex_hull), agree * heavy)
    # In order round it, each on its border.
    border = ours.boundary if ours.geom_type == "Polygon" else ours
    yield "hull's corners", off_by(max(shapely.distance(border, at) for at in theirs.geoms), agree * heavy)
    if len(told["hull"]) > 2:
        around = shapely.Polygon([corner(at) for at in told["hull"]])
        yield "hull's order", off_by(abs(around.area - ours.area), agree * heavy ** 2)
    region, lacking = all_of.allowed(*band)
    corners = [corner(at) for at in told["allowed"]["corners"]]
    theirs = shapely.Polygon(corners) if len(corners) > 2 else shapely.MultiPoint(corners)
    yield "allowed", off_by(apart(region, theirs), agree * 1e5)
    yield "allowed, framed", differ(told["allowed"]["framed"], False)
    yield "ratings not given", differ(len(told["ratings_not_given"]), lacking)
    both = [numpy.array([corner(way) for way in ways]) for ways in (named, told["named"])]
    same = both[0].shape == both[1].shape and (not named or numpy.abs(both[0] - both[1]).max() <= agree * heavy)
    yield "envelope's named", None if same else "they are not those named above"
    for extreme in told["extremes"]:
        way = next(range_ for range_ in ranges if range_["figure"] == extreme["figure"])[extreme["end"]]
        _, row = all_of.row(way)
        place = numpy.array([row[MASS], row[MASS] - row[X] / all_of.build.trailer.axle])
        near = numpy.abs(place - corner(extreme)).max() <= agree * heavy
        same = near and extreme["arrangement"] == way["arrangement"]
        yield "envelope's extremes", None if same else f"not that of the {extreme['end']} {extreme['figure']} above"


def corner(at):
    return at["gross"]["si"], at["tongue"]["si"]


def sensitivity(all_of, told, named, agree):
    """What small changes do to the tongue weight of the first arrangement by name."""
    if not named or not all_of.known("tongue"):
        return
    way, axle = named[0], all_of.build.trailer.axle
    _, row = all_of.row(way)
    step, more = told["place_step"]["si"], told["mass_step"]["si"]
    # Statics: the ball carries W - W·x / L, which changes by W·x / L² for each length that the axle is set back.
    yield "sensitivity of the axle", differ(told["axle"]["tongue"]["si"], row[X] / axle ** 2 * step, agree * row[MASS])
    things = {thing["body"]: thing for thing in told["things"]}
    bodies = all_of.bodies_of(way)
    yield "sensitivity of all", None if set(bodies) <= set(things) else f"not of {set(bodies) - set(things)}"
    for name in set(bodies) & set(things):
        mass, x = bodies[name]
        heavier, aft = (things[name][key]["si"] for key in ("mass", "place"))
        yield "sensitivity of masses", differ(heavier, more * (1 - x / axle), agree * more)
        yield "sensitivity of places", differ(aft, -mass * step / axle, agree * max(mass, 1.0))


def differ(told, wanted, within=None):
    if within is None or told is None or wanted is None:
        same = told == wanted
    else:
        same = abs(told - wanted) <= within
    return None if same else f"the oracle has {wanted!r}, the tool {told!r}"


def off_by(distance, within):
    return None if distance <= within else f"they are {distance:.3e} apart"


def spread(rows, ends):
    """Rows with each of several things at each of its ends."""
    for options in ends:
        rows = numpy.vstack([rows + option for option in options])
    return rows


def below(limit, gross, tongue, wide):
    """The half of the plane where gross · g + tongue · t is no more than a limit, as a large square."""
    size = float(numpy.hypot(gross, tongue))
    out, along = numpy.array([gross, tongue]) / size, numpy.array([-tongue, gross]) / size
    on = out * limit / size
    along, back = 4 * wide * along, 4 * wide * out
    return shapely.Polygon([on + along, on - along, on - along - back, on + along - back])


def power_sums(points):
    """What stays the same when points are put into another order, and nothing else: sums of powers, for weights of the
    size that they have."""
    points = numpy.asarray(points, dtype=float)
    size = numpy.abs(points).max() or 1.0
    g, t = (points / size).T
    return numpy.array([(g ** a * t ** b).sum() for a in range(4) for b in range(4 - a)]) / len(points), size


def apart(one, other):
    """How far two convex shapes differ at most."""
    return shapely.hausdorff_distance(one, other)


def undrawn(every, band):
    """What chance has left out of all the builds together."""
    road = [all_of for all_of in every if all_of.road]
    windows = {window[2] for window in (all_of.window(*band) for all_of in road) if window}
    partly = [all_of for all_of in road
              if all_of.known("cg_z") and min(all_of.lowest) < all_of.figure("cg_z").min() - 1e-6]
    drawn = {
        "no road state": len(road) < len(every),
        "more arrangements than are listed": any(all_of.count > LISTED for all_of in road),
        "several sets of loads of states' own": any(
            len({all_of.own_key(state) for state in all_of.road}) > 1 for all_of in road),
        "needs": any(any(all_of.plan.needs.values()) for all_of in road),
        "a group of which one must ride": any(not none for all_of in road for _, none in all_of.plan.groups),
        "a group of which none need ride": any(none for all_of in road for _, none in all_of.plan.groups),
        "tanks in order": any(all_of.plan.order for all_of in road),
        "loads that may stay, on their own": any(all_of.plan.plain for all_of in road),
        "loads that may stay, and that others hang on": any(
            set(all_of.plan.loose) & set(all_of.build.loads) for all_of in road),
        "loads of which some rides": any(
            all_of.plan.range[tag][0] > 0 for all_of in road for tag in all_of.build.loads),
        "a tank part full for the lowest centre of gravity": partly,
        "weights that are not known": any(all_of.unknown["mass"] for all_of in road),
        "heights that are not known": any(all_of.unknown["z"] for all_of in road),
    }
    lacking = [what for what, is_so in drawn.items() if not is_so]
    stands = ("within", "too far ahead", "too far back", "no window")
    return lacking + [f"a window with the axle {what}" for what in stands if what not in windows]


def off(node, key, by):
    node[key] += by


def stay_home(told, steps, build, by):
    fixed = next(tag for tag, part in build.parts.items() if not part.get("removable") and build.kind(tag) != "tank"
                 and build.host(part.get("zone", "inside")) is None)
    told["extremes"][0]["least"]["out"].append(fixed)


def other_fill(told, steps, build, by):
    share = told["extremes"][2]["most"]["fill"][0]["share"]
    off(share, "si", -1e-3 if share["si"] > 0.5 else 1e-3)


def begun_too_early(told, steps, build, by):
    order, fill = build.spec["water"]["use_order"], told["named"][0]["fill"]
    tanks = {tank["tag"]: tank["share"] for tank in fill}
    tanks[order[0]]["si"], tanks[order[-1]]["si"] = 1.0, 0.0


def wrong_stands(told, steps, build, by):
    told["axle_window"]["stands"] = "within" if told["axle_window"]["stands"] != "within" else "too far back"


def swap_ends(told, steps, build, by):
    fore, aft = told["axle_window"]["foremost"], told["axle_window"]["rearmost"]
    assert_differ(fore, aft)
    for key in ("out", "fill", "load", "loads_of"):
        fore[key], aft[key] = aft[key], fore[key]


def assert_differ(fore, aft):
    if all(fore[key] == aft[key] for key in ("out", "fill", "load", "loads_of")):
        raise LookupError("one arrangement for both")


def turn_hull(told, steps, build, by):
    hull = told["envelope"]["hull"]
    hull[1], hull[3] = hull[3], hull[1]


def cut_hull(told, steps, build, by):
    if len(told["envelope"]["hull"]) < 4:
        raise LookupError("no corner too many")
    told["envelope"]["hull"].pop(1)


# What must be noticed when it is said: ways to change the tool's answer.
FALSEHOODS = {
    "one arrangement too many": lambda told, steps, build, by: off(told, "count", 1),
    "a fixed part at home": stay_home,
    "another fill": other_fill,
    "a tank begun too early": begun_too_early,
    "an extreme of other loads": lambda told, steps, build, by: off(
        next(load for load in told["extremes"][0]["most"]["load"] if load["mass"]["si"])["mass"], "si", by),
    "a named weight": lambda told, steps, build, by: off(told["named"][0]["gross"], "si", by * 1e3),
    "a named share": lambda told, steps, build, by: off(told["named"][-1]["tongue_share"], "si", by),
    "no name": lambda told, steps, build, by: (told["named"][0], told.update(named={"missing": "x"})),
    "an axle that stands elsewhere": wrong_stands,
    "the window's ends taken for each other": swap_ends,
    "a point moved": lambda told, steps, build, by: off(told["envelope"]["points"][0], 1, by * 1e3),
    "a point left out": lambda told, steps, build, by: told["envelope"]["points"].pop(1),
    "points that are not listed": lambda told, steps, build, by: (
        told["envelope"]["points"][0], told["envelope"].update(points=None)),
    "how many are not listed": lambda told, steps, build, by: off(told["envelope"], "not_listed", 1),
    "a corner of the hull moved in": lambda told, steps, build, by: off(
        told["envelope"]["hull"][0]["gross"], "si", by * 1e3),
    "a corner of the hull left out": cut_hull,
    "a hull in another order": turn_hull,
    "a corner of what is allowed moved": lambda told, steps, build, by: off(
        told["envelope"]["allowed"]["corners"][0]["tongue"], "si", by * 1e5),
    "a corner of what is allowed left out": lambda told, steps, build, by: told["envelope"]["allowed"]["corners"].pop(),
    "a region cut off": lambda told, steps, build, by: told["envelope"]["allowed"].update(framed=True),
    "a rating given": lambda told, steps, build, by: told["envelope"]["ratings_not_given"].pop(),
    "an envelope without a name": lambda told, steps, build, by: told["envelope"]["named"].pop(),
    "an envelope's extreme moved": lambda told, steps, build, by: off(
        told["envelope"]["extremes"][3]["gross"], "si", by * 1e4),
    "what the axle does": lambda told, steps, build, by: off(steps["axle"]["tongue"], "si", by * 1e3),
    "what weight does": lambda told, steps, build, by: off(steps["things"][0]["mass"], "si", by * 1e1),
    "what a place does": lambda told, steps, build, by: off(steps["things"][0]["place"], "si", by * 1e3),
    "a thing that is left out": lambda told, steps, build, by: steps["things"].pop(1),
    "arrangements that are missing": lambda told, steps, build, by: (told["count"], told.clear(),
                                                                     told.update(missing="x")),
}
