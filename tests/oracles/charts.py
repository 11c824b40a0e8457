#!/usr/bin/env python3
"""Reads the charts of `pintle sheet` back from its drawings and works them out again.

    python3 tests/oracles/charts.py [--pintle PATH] [--self-test | --both]

For every demo build: each point of the envelope is read from the drawing over the figures along its axes and held against
all road arrangements written down one by one (`arranged.py`), within what a tenth of the drawing's unit is; whether it is
drawn as allowed or not against the region that `shapely` makes of the ratings and the band; the carbon dioxide of a night
against scipy's integration of the balance, air and vents taken from the spec by the readers of `weigh_random.py` and
`air.py`; the bank hour by hour against a loop over the spec's own values, with the sun that `pvlib` gives (`electric.py`).
Nothing of the tool's code is used, and no figure of it: only what it has drawn.

`--self-test` falsifies the drawings, a sort at a time, and exits 1 if any falsehood passes.
"""

import argparse
import functools
import html.parser
import math
import pathlib
import re
import subprocess
import sys
import tomllib
from types import SimpleNamespace

import numpy
import scipy.spatial
import shapely

import air
import arranged
import electric
import weigh_random

ROOT = pathlib.Path(__file__).resolve().parents[2]
SHOP = ROOT / "specs"
PPM = 1e6
WATT_HOUR = 3600.0
# How far a dot may lie from its place, in the drawing's unit: places are written to a tenth.
DOT = 0.11
# The same of a point of a line, which is written to a hundredth; the figures along an axis lie at tenths.
LINE = 0.12
BTU_H = 1055.05585262 / 3600
UNITS = {"%": 0.01, "W": 1.0, "h": 3600.0, "min": 60.0, "Ah": 3600.0, "V": 1.0, "A": 1.0, "d": 86400.0, "°": math.pi / 180,
         "Btu/h": BTU_H}


def value(text):
    """A quantity with one of a few units, in SI; its tolerance is read past."""
    number, unit = text.split("±")[0].strip().split(" ", 1)
    return float(number.replace(",", "")) * UNITS[unit.strip()]


# ---- what is drawn -----------------------------------------------------------------------------------------------

class Drawings(html.parser.HTMLParser):
    """The drawings of a page by what their ids begin with: marks of both axes, dots, crosses and lines."""

    def __init__(self, page):
        super().__init__()
        self.all, self.now, self.tick, self.words = {}, None, None, None
        self.feed(page)

    def handle_starttag(self, tag, attributes):
        of = dict(attributes)
        if tag == "svg" and of.get("class") == "chart":
            named = (of.get("aria-labelledby") or "").removesuffix("-told").split("-title")[0]
            self.now = self.all.setdefault(named, dict(across=[], upright=[], within=[], outside=[], lines={}, marks=[]))
        if self.now is None:
            return
        if tag == "g" and (of.get("class") or "").startswith("tick "):
            self.tick = [of["class"].split()[1], None, ""]
        elif tag == "line" and self.tick:
            self.tick[1] = float(of["x1"] if self.tick[0] == "across" else of["y1"])
        elif tag == "line" and of.get("class") == "mark":
            self.now["marks"].append(float(of["y1"]))
        elif tag == "text" and self.tick:
            self.words = True
        elif tag == "path" and of.get("class") in ("within", "outside"):
            off = 0.0 if of["class"] == "within" else 3.0
            for x, y in re.findall(r"M(-?[\d.]+) (-?[\d.]+)", of["d"]):
                self.now[of["class"]].append((float(x) + off, float(y) + off))
        elif tag == "polyline" and of.get("class") == "curve":
            points = [tuple(map(float, pair.split(","))) for pair in of["points"].split()]
            self.now["lines"][of["data-line"]] = points

    def handle_data(self, data):
        if self.words and self.tick:
            self.tick[2] += data

    def handle_endtag(self, tag):
        if tag == "text" and self.tick and self.words:
            axis, at, figure = self.tick
            self.now[axis].append((float(figure.strip().replace(",", "")), at))
            self.tick, self.words = None, None
        elif tag == "svg":
            self.now = None


def scale(ticks):
    """From values to places on the drawing, by the first and the last figure of an axis; every figure must lie on it."""
    (first, begins), (last, ends) = ticks[0], ticks[-1]
    return lambda of: begins + (of - first) / (last - first) * (ends - begins)


def crooked(drawing, axis):
    """How far a figure of an axis lies from where it should."""
    place = scale(drawing[axis])
    return max(abs(place(figure) - at) for figure, at in drawing[axis])


# ---- what should be ----------------------------------------------------------------------------------------------

class Demo:
    """A demo build with the readers of the other oracles."""

    def __init__(self, file, stock, assumed):
        self.file, self.name = file, file.stem
        self.spec = tomllib.loads(file.read_text(encoding="utf-8"))
        self.stock, self.build = stock, weigh_random.Build(self.spec, stock)
        self.assumed = assumed
        self.parts = {tag: part for tag, part in self.build.parts.items()}

    def of_kind(self, kind):
        return [part for tag, part in self.parts.items() if self.build.kind(tag) == kind]

    # -- the envelope --

    @functools.cache
    def envelope(self):
        """Gross and tongue weight of every road arrangement, and whether it is allowed; none where a mass is missing."""
        exact = weigh_random.exact
        all_of = arranged.Arrangements(self.build, exact, weigh_random.WATER)
        points = all_of.points()
        if points is None:
            return None
        return numpy.array(points), all_of

    # -- the bank --

    @functools.cache
    def bank(self):
        """What the bank holds at the end of each hour, without sun and in each month; none where there is no battery."""
        batteries, written = self.of_kind("battery"), self.spec.get("electric")
        if not batteries or written is None:
            return None
        tied = written.get("bank", {})
        if tied:
            batteries = [self.parts[tag] for tag in tied["batteries"]]
        series = tied.get("series", 1)
        volts = value(batteries[0]["voltage"]) * series
        charge = min(value(one["capacity"]) for one in batteries) * (len(batteries) // series)
        lithium = batteries[0]["chemistry"] == "lithium iron phosphate"
        of = self.assumed["electric"]
        kept = of["charged_lithium" if lithium else "charged_lead"]
        usable = of["usable_lithium" if lithium else "usable_flooded"]
        full = volts * charge
        used, idle = [0.0] * 24, {}
        for use in written.get("use", []):
            through = self.parts.get(use.get("through"))
            own = value(use["power"]) if "power" in use else value(use["current"]) * volts
            share = value(through.get("efficiency", "85 %")) if through else 1.0
            power = own * use.get("count", 1) * (value(use["duty"]) if "duty" in use else 1.0) / share
            hours = value(use["hours"]) / 3600
            for hour in range(24):
                if "from_hour" in use:
                    on = min(max(hours - (hour - use["from_hour"]) % 24, 0.0), 1.0)
                else:
                    on = hours / 24
                used[hour] += power * on * 3600
                if through:
                    key = (use["through"], hour)
                    idle[key] = max(idle.get(key, 0.0), on)
        for (tag, hour), on in idle.items():
            used[hour] += value(self.parts[tag]["idle"]) * on * 3600
        suns = {"without sun": [0.0] * 24}
        panels = [part for part in self.of_kind("solar")]
        for month in written.get("months", []) if panels else []:
            latitude = value(written["latitude"]) / UNITS["°"]
            hours, _ = electric.sun_by_hour(latitude, electric.day_of(electric.MONTHS.index(month) + 1))
            ground = (0.25 + 0.50 * of["sunshine"]) * hours / 1000 / 3600
            hot = of["panel_temperature"] - 273.15
            watts = sum(value(panel["power"]) * (1 - value(panel.get("power_fall", "0.47 %")) * (hot - 25)) for panel in panels)
            controllers = [part for part in self.of_kind("charger") if part.get("sort") == "solar"]
            passed = value(controllers[0]["efficiency"]) if controllers and "efficiency" in controllers[0] else of["charger_efficiency"]
            suns[month] = list(watts * ground * 3600 * (1 - of["solar_losses"]) * passed)
        days = written.get("days", round(of["away"] / 86400))
        begins = round(of["arrival"] / 3600)
        courses = {}
        for name, sun in suns.items():
            now, course = full, [full]
            for hour in range(days * 24):
                over = sun[(begins + hour) % 24] - used[(begins + hour) % 24]
                now = min(max(now + (over * kept if over > 0 else over), 0.0), full)
                course.append(now)
            courses[name] = course
        turned = lambda hours: [hours[(begins + hour) % 24] for hour in range(days * 24)]  # noqa: E731
        return SimpleNamespace(full=full, floor=full * (1 - usable), courses=courses, used=turned(used),
                               suns={name: turned(sun) for name, sun in suns.items()})

    # -- the night --

    @functools.cache
    def nights(self):
        """Of each camp state somebody sleeps in: the share through the night, with vents as they are and shut."""
        build, trailer, assume = self.build, self.build.trailer, self.assumed["air"]
        inside = {tag for tag in build.tags("berth") if build.host(build.parts[tag].get("zone", "inside")) is None}
        top = max((build.thing(tag).far[2] - trailer.floor for tag in inside), default=None)
        height = trailer.ceiling - trailer.floor
        vents = []
        for tag in build.tags("vent"):
            part = build.parts[tag]
            zone = part.get("zone", "inside")
            if "exhaust_of" in part or part.get("leads") == "inside" or part["closable"]:
                continue
            if zone not in ("inside", "roof", "front wall", "rear door", "left wall", "right wall", "floor"):
                continue
            area = weigh_random.si(part["area"])
            if zone == "roof":
                sort, middle = "roof", height
            elif zone == "floor":
                sort, middle = "low", 0.0
            else:
                thing = build.thing(tag)
                under, over = thing.near[2] - trailer.floor, thing.far[2] - trailer.floor
                middle = (under + over) / 2
                high = under >= (top + 0.3 if top is not None else height / 2)
                sort = "low" if under <= 0.1 else "high" if high else "between"
            vents.append(dict(area=area, sort=sort, middle=middle, inward=False))
        volume = build.plan_area() * height
        for tag in build.tags("module"):
            part = build.parts[tag]
            if build.host(part.get("zone", "inside")) is None and part.get("zone", "inside") == "inside":
                volume -= math.prod(weigh_random.si(part[side]) for side in ("length", "width", "height"))
        burners = [dict(input=value(part["input"]), fuel=part.get("fuel", "propane"))
                   for part in self.of_kind("appliance") if part.get("used") == "inside" and part.get("flue") == "flueless"]
        room = SimpleNamespace(vents=vents, assume=assume, flueless=burners, volume=volume)
        draught = air.draught(room, "mild_night")
        nights = []
        for number, state in enumerate(state for state in self.spec.get("state", []) if state["use"] == "camp"):
            asleep = sum(lying["count"] for lying in state.get("people", []) if lying["berth"] in inside)
            if not asleep:
                continue
            each = 0.000484 * assume["basal_rate"] * 86_400 / 1e6 * assume["asleep"] / 1000 * assume["inside"] / 273.15
            given, outside = each * asleep, assume["outdoor_co2"]
            start = outside
            if burners:
                start, _ = air.follow(outside, outside, given + air.fumes(room)[0], draught, volume, assume["cooking"])
            def follow(flow, start=start, given=given):
                return functools.cache(lambda seconds: air.follow(start, outside, given, flow, volume, seconds)[0])
            nights.append(SimpleNamespace(id=f"night-{number + 1}", vented=follow(draught), shut=follow(0.0),
                                          draught=draught, length=assume["night"], smoked=bool(burners)))
        return nights


def assumptions(spec):
    """The rulebook's assumptions under those of the spec."""
    of = {}
    for topic, read in (("air", air.si), ("electric", electric.number)):
        with open(ROOT / "rules" / "assumptions" / f"{topic}.toml", "rb") as file:
            of[topic] = {row["of"]: read(row["value"]) for row in tomllib.load(file)["assumption"]}
        for key, text in spec.get("assume", {}).get(topic, {}).items():
            of[topic][key] = read(text.split("±")[0].strip())
    of["air"]["heating_value"] = air.DEFAULTS["heating_value"]
    return of


# ---- the comparison ----------------------------------------------------------------------------------------------

def compare(demo, drawings, band):
    """What is off, as (sort, words); and of each sort, how many were compared."""
    off, counts = [], {}

    def hold(sort, difference, most, words):
        counts[sort] = counts.get(sort, 0) + 1
        if not difference <= most:
            off.append((sort, f"{demo.name}: {words}: off by {difference:.3g}, may be {most:.3g}"))

    for name, drawing in drawings.items():
        for axis in ("across", "upright"):
            if len(drawing[axis]) < 2:
                return [("axis", f"{demo.name}: the {axis} axis of {name} has no two figures")], counts
            hold("axis", crooked(drawing, axis), LINE, f"the {axis} axis of {name}")
    envelope(demo, drawings.get("envelope"), band, hold)
    power(demo, drawings, hold)
    breath(demo, drawings, hold)
    return off, counts


def envelope(demo, drawing, band, hold):
    found = demo.envelope()
    if found is None or drawing is None:
        hold("envelope drawn", 0 if (found is None) == (drawing is None) else 1, 0, "only one of the two has an envelope")
        return
    points, all_of = found
    metric = demo.build.trailer.stated["mass"].split("±")[0].strip().endswith("kg")
    unit = 1.0 if metric else 0.45359237
    places = numpy.column_stack([scale(drawing["across"])(points[:, 0] / unit), scale(drawing["upright"])(points[:, 1] / unit)])
    within, outside = (numpy.array(drawing[key]).reshape(-1, 2) for key in ("within", "outside"))
    drawn = numpy.vstack([within, outside])
    hold("number of points", abs(len(drawn) - len(points)), 0, f"{len(points)} arrangements, {len(drawn)} drawn")
    if not len(drawn):
        return
    for sort, one, other in (("points", places, drawn), ("points back", drawn, places)):
        apart, _ = scipy.spatial.cKDTree(other).query(one)
        hold(sort, apart.max(), DOT * math.sqrt(2), "a point without a partner")
    region, _ = all_of.allowed(*band)
    border = region.boundary
    near = 1e-6 * max(points[:, 0].max(), 1.0)
    allowed = numpy.array([region.covers(shapely.Point(point)) for point in points])
    edge = numpy.array([border.distance(shapely.Point(point)) < near for point in points])
    certain = allowed[~edge]
    counted = (len(within) - certain.sum(), len(outside) - (~certain).sum())
    hold("allowed", max(-min(counted), 0) + abs(sum(counted) - edge.sum()), 0, f"{certain.sum()} allowed, {len(within)} drawn so")
    # Each dot lies where something allowed lies, each cross where something is not.
    for sort, drawn, of in (("dots", within, allowed | edge), ("crosses", outside, ~allowed | edge)):
        if len(drawn) and of.any():
            apart, _ = scipy.spatial.cKDTree(places[of]).query(drawn)
            hold(sort, apart.max(), DOT * math.sqrt(2), f"one of the {sort} lies elsewhere")


def read(drawing, points):
    """Points of a line in the values of its axes, and what the drawing's unit is worth upright."""
    inverse = lambda ticks: lambda at: (ticks[0][0] + (at - ticks[0][1]) / (ticks[-1][1] - ticks[0][1])  # noqa: E731
                                        * (ticks[-1][0] - ticks[0][0]))
    across, upright = inverse(drawing["across"]), inverse(drawing["upright"])
    values = [(across(x), upright(y)) for x, y in points]
    return values, abs(upright(1.0) - upright(0.0)), abs(across(1.0) - across(0.0))


def power(demo, drawings, hold):
    bank = demo.bank()
    drawing, flow = drawings.get("bank"), drawings.get("flow")
    if bank is None or drawing is None or flow is None:
        hold("bank drawn", len({bank is None, drawing is None, flow is None}) - 1, 0, "only one of the two has a bank")
        return
    months = [name for name in bank.courses if name != "without sun"]
    main = min(months, key=lambda name: min(bank.courses[name]), default="without sun")
    wanted = {"held": bank.courses[main]} | ({"dark": bank.courses["without sun"]} if months else {})
    hold("lines of the bank", len(set(wanted) ^ set(drawing["lines"])), 0, f"lines {sorted(drawing['lines'])}")
    for key, course in wanted.items():
        values, unit, step = read(drawing, drawing["lines"].get(key, []))
        hold(f"hours {key}", abs(len(values) - len(course)), 0, f"{len(values)} hours of {key}")
        for hour, ((x, y), held) in enumerate(zip(values, course)):
            # The sun of an hour by steps of five seconds: some 1e-5 of it, and of all hours before.
            hold(f"bank {key}", abs(y - held / WATT_HOUR), LINE * unit + 1e-4 * bank.full / WATT_HOUR, f"{key} after {hour} h")
            hold(f"time {key}", abs(x - hour), LINE * step, f"{key} after {hour} h")
    for name, level in (("full", bank.full), ("floor", bank.floor)):
        place = scale(drawing["upright"])(level / WATT_HOUR)
        hold("marks of the bank", min((abs(place - at) for at in drawing["marks"]), default=math.inf), 0.15, name)
    wanted = {"used": bank.used} | ({"sun": bank.suns[main]} if months else {})
    hold("lines of the flow", len(set(wanted) ^ set(flow["lines"])), 0, f"lines {sorted(flow['lines'])}")
    for key, hours in wanted.items():
        values, unit, step = read(flow, flow["lines"].get(key, []))
        hold(f"hours {key}", abs(len(values) - 2 * len(hours)), 0, f"{len(values) / 2} hours of {key}")
        for at, (x, y) in enumerate(values[:2 * len(hours)]):
            hold(f"flow {key}", abs(y - hours[at // 2] / WATT_HOUR), LINE * unit + 1e-3, f"{key} in hour {at // 2 + 1}")
            hold(f"time {key}", abs(x - (at + 1) // 2), LINE * step, f"{key} in hour {at // 2 + 1}")


def breath(demo, drawings, hold):
    nights = demo.nights()
    drawn = {name for name in drawings if name.startswith("night-")}
    hold("nights drawn", len(drawn ^ {night.id for night in nights}), 0, f"nights {sorted(drawn)}")
    for night in nights:
        drawing = drawings.get(night.id)
        if drawing is None:
            continue
        wanted = {"vented": night.vented, "shut": night.shut} if night.draught > 0 else {"shut": night.shut}
        hold("lines of the night", len(set(wanted) ^ set(drawing["lines"])), 0, f"lines {sorted(drawing['lines'])}")
        for key, course in wanted.items():
            values, unit, step = read(drawing, drawing["lines"].get(key, []))
            hold(f"length {key}", abs(values[-1][0] * 3600 - night.length) if values else math.inf, 60.0, f"{key} ends elsewhere")
            for x, y in values[::6] + values[-1:]:
                share = course(max(x, 0.0) * 3600) * PPM
                # Along the time axis a place may be off as well: what that makes of a steep line is allowed too. Of a burner's
                # fumes the two sides have molar weights of their own.
                slope = abs(course(max(x, 0.0) * 3600 + 60) * PPM - share) * LINE * step * 60
                near = LINE * unit + slope + (1e-3 if night.smoked else 1e-5) * share
                hold(f"night {key}", abs(y - share), near, f"{key} after {x:.2f} h")


# ---- falsehoods --------------------------------------------------------------------------------------------------

def shift(points, by, from_=0):
    return [(x, y + by if at >= from_ else y) for at, (x, y) in enumerate(points)]


def falsehoods(drawings):
    """For each sort of thing that is drawn, the drawings with one of it wrong: (what, drawings)."""
    def changed(name, **own):
        return drawings | {name: drawings[name] | own}
    for name, drawing in drawings.items():
        for axis in ("across", "upright"):
            if len(drawing[axis]) > 2:
                (figure, at), *rest = drawing[axis][1:]
                wrong = [drawing[axis][0], (figure, at + 2.0), *rest]
                yield f"a figure of the {axis} axis moved, {name}", changed(name, **{axis: wrong})
                double = [(2 * figure, at) for figure, at in drawing[axis]]
                yield f"the {axis} axis in another unit, {name}", changed(name, **{axis: double})
        for key, points in drawing["lines"].items():
            shifted = {**drawing["lines"], key: shift(points, -2.0, len(points) // 2)}
            yield f"half a line {key} higher, {name}", changed(name, lines=shifted)
            less = {**drawing["lines"], key: points[:-13]}
            yield f"a line {key} cut short, {name}", changed(name, lines=less)
            none = {other: line for other, line in drawing["lines"].items() if other != key}
            yield f"no line {key}, {name}", changed(name, lines=none)
        for key in ("within", "outside"):
            if drawing[key]:
                yield f"one of {key} left out", changed(name, **{key: drawing[key][1:]})
                (x, y), *rest = drawing[key]
                yield f"one of {key} moved", changed(name, **{key: [(x + 1.0, y), *rest]})
        if drawing["within"]:
            moved = dict(within=drawing["within"][1:], outside=[*drawing["outside"], drawing["within"][0]])
            yield "a dot drawn as a cross", changed(name, **moved)
        if drawing["outside"]:
            moved = dict(outside=drawing["outside"][1:], within=[*drawing["within"], drawing["outside"][0]])
            yield "a cross drawn as a dot", changed(name, **moved)
        if drawing["marks"] and name == "bank":
            yield "a mark of the bank moved", changed(name, marks=[at + 2.0 for at in drawing["marks"]])
        yield f"no drawing {name}", {other: own for other, own in drawings.items() if other != name}


# ---- all of it ---------------------------------------------------------------------------------------------------

def band_in_force():
    """The band of tongue shares: the rules' own, with what the demo shop restates."""
    limit = lambda rule, name: tomllib.loads((ROOT / "rules" / f"{rule}.toml").read_text())["limit"][name]["value"]  # noqa: E731
    least, most = limit("towing/light-tongue", "least"), limit("towing/heavy-tongue", "most")
    for file in (SHOP / "company/pintle.toml", SHOP / "pintle.toml"):
        for restated in tomllib.loads(file.read_text()).get("limit", []):
            least = restated["value"] if restated["rule"] == "towing/light-tongue" else least
            most = restated["value"] if restated["rule"] == "towing/heavy-tongue" else most
    return value(least), value(most)


def drawn(pintle, file):
    done = subprocess.run([str(pintle), "sheet", str(file), "-o", "-"], capture_output=True, text=True, check=False)
    if done.returncode != 0:
        sys.exit(f"charts: `pintle sheet {file}` ended with {done.returncode}:\n{done.stderr[:2000]}")
    return Drawings(done.stdout).all


def main():
    parser = argparse.ArgumentParser(description="Reads charts of sheets back and works them out again.")
    parser.add_argument("--pintle", type=pathlib.Path, default=pathlib.Path("target/debug/pintle"))
    parser.add_argument("--self-test", action="store_true", help="only try whether falsehoods are noticed")
    parser.add_argument("--both", action="store_true", help="compare, then the self-test, on one run of the tool")
    call = parser.parse_args()
    parts = []
    for file in sorted((SHOP / "stock").glob("*.toml")):
        parts += tomllib.loads(file.read_text(encoding="utf-8"))["part"]
    stock, band = weigh_random.Stock(parts), band_in_force()
    failed, total, tried, passed = False, {}, 0, []
    sorts = set()
    for file in sorted((SHOP / "builds").glob("*.toml")):
        if file.name.endswith(".pintle.toml"):
            continue
        demo = Demo(file, stock, assumptions(tomllib.loads(file.read_text(encoding="utf-8"))))
        drawings = drawn(call.pintle.resolve(), file)
        if not call.self_test:
            off, counts = compare(demo, drawings, band)
            for sort, count in counts.items():
                total[sort] = total.get(sort, 0) + count
            for _, words in off[:5]:
                print(words)
            failed = failed or bool(off)
        if call.self_test or call.both:
            for what, wrong in falsehoods(drawings):
                tried += 1
                sorts.add(what)
                if not compare(demo, wrong, band)[0]:
                    passed.append(f"{demo.name}: {what}")
    if not call.self_test:
        for sort in sorted(total):
            print(f"  charts/{sort}: {total[sort]} compared")
        print(f"charts: {sum(total.values())} compared, {'some differ' if failed else 'none differ'}")
        needed = {"points", "crosses", "bank held", "bank dark", "flow sun", "night vented", "night shut"}
        if lacking := needed - set(total):
            print(f"charts: nothing was compared of {sorted(lacking)}")
            failed = True
    if call.self_test or call.both:
        print("\n".join(passed))
        print(f"charts: {tried} falsehoods of {len(sorts)} sorts, {len(passed)} passed unnoticed")
        failed = failed or bool(passed) or not tried
    sys.exit(1 if failed else 0)


if __name__ == "__main__":
    main()
