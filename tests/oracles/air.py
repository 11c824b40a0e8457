#!/usr/bin/env python3
"""Works the figures of air out again: scipy integrates the balances step by step, psychrolib knows about damp.

See tests/oracles/README.md.
"""

import math
import pathlib
import tomllib

import chemicals
import psychrolib
import scipy.constants
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

import figures
from figures import Expect
from gas import BTU_H, BTU_PER_LB, FT, IN, Spec, gap

psychrolib.SetUnitSystem(psychrolib.SI)
ATM = 101_325.0
RULES = pathlib.Path(__file__).parents[2] / "rules" / "assumptions"
UNITS = {"%": 0.01, "ppm": 1e-6, "W": 1.0, "h": 3600.0, "min": 60.0, "kg/h": 1 / 3600}

# EN 721, in cm²: up to m² of plan: roof, high in the wall, low.
OPEN = [(5, 75, None, 10), (10, 100, None, 15), (15, 125, None, 20), (20, 150, None, 30), (math.inf, 200, None, 50)]
SEALED = [(5, 15, 30, 5), (10, 15, 30, 5), (15, 20, 40, 5)]


def molar(formula):
    return chemicals.molecular_weight(chemicals.nested_formula_parser(formula)) / 1000


CO2_OF_PROPANE = 3 * molar("CO2") / molar("C3H8")
WATER_OF_PROPANE = 4 * molar("H2O") / molar("C3H8")


def si(text):
    number, unit = text.split(" ", 1)
    number = float(number.replace(",", ""))
    if unit == "°F":
        return (number + 459.67) / 1.8
    return number * (BTU_PER_LB if unit == "Btu/lb" else UNITS[unit])


def defaults():
    with open(RULES / "air.toml", "rb") as file:
        found = {row["of"]: si(row["value"]) for row in tomllib.load(file)["assumption"]}
    with open(RULES / "gas.toml", "rb") as file:
        heat = next(row["value"] for row in tomllib.load(file)["assumption"] if row["of"] == "heating_value")
    return found | {"heating_value": si(heat)}


DEFAULTS = defaults()


def restated(spec, chance):
    spec.assume = dict(DEFAULTS)
    written = {
        "screen": lambda: f"{chance.randint(30, 80)} %", "louvre": lambda: f"{chance.randint(25, 90)} %",
        "discharge": lambda: f"{chance.randint(55, 75)} %", "inside": lambda: f"{chance.randint(50, 75)} °F",
        "mild_night": lambda: f"{chance.randint(35, 80)} °F", "cold_night": lambda: f"{chance.randint(-20, 60)} °F",
        "night": lambda: f"{chance.randint(4, 12)} h", "basal_rate": lambda: f"{chance.randint(50, 100)} W",
        "asleep": lambda: f"{chance.randint(80, 120)} %", "outdoor_co2": lambda: f"{chance.randint(380, 600)} ppm",
        "outdoor_humidity": lambda: f"{chance.randint(20, 100)} %", "person_moisture": lambda: f"{chance.randint(20, 80) / 1000} kg/h",
        "cooking": lambda: f"{chance.randint(0, 60)} min", "steam": lambda: f"{chance.randint(0, 900) / 1000} kg/h",
        "surface": lambda: f"{chance.randint(10, 90)} %",
    }
    lines = ""
    for key, value in written.items():
        if chance.random() < 0.4:
            text = value()
            spec.assume[key] = si(text)
            lines += f'{key} = "{text}"\n'
    if lines:
        spec.parts.append("\n[assume.air]\n" + lines)


def room(spec, chance):
    """A box, sometimes large and with a round nose, and the modules in it."""
    box = {
        "ball_to_box": 40, "length": chance.randint(84, 300), "width": chance.randint(57, 96),
        "height": chance.choice(range(61, 85, 2)), "wall": 1.5, "roof": 2, "floor_height": 20, "frame_height": 17,
    }
    depth = chance.choice([0, 0, 12, 18])
    nose = f'shape = "round", depth = "{depth} in"' if depth else 'shape = "flat"'
    spec.box = {key: value * IN for key, value in box.items()}
    spec.head = "[build]\nnumber = \"A-1\"\ntitle = \"a draw\"\nstage = \"design\"\n\n[trailer]\n"
    spec.head += "".join(f'{key} = "{value} in"\n' for key, value in box.items()) + f"nose = {{ {nose} }}\n"
    spec.square = spec.box["ball_to_box"] + spec.box["wall"] + depth * IN
    spec.plan = (box["length"] * box["width"] + math.pi / 4 * box["width"] * depth) * IN**2
    spec.volume = spec.plan * spec.box["height"]
    spec.bulky = []
    for number in range(chance.randint(0, 3)):
        size = [chance.randint(15, 50), chance.randint(12, 24), chance.randint(12, 40)]
        front, left, removable = chance.randint(0, 30), chance.choice([0, 0.5, 2, 20]), chance.random() < 0.5
        spec.add("item", tag=f"module-{number}", kind="module", length=f"{size[0]} in", width=f"{size[1]} in", height=f"{size[2]} in",
                 mass="50 lb", removable=removable, at=f'{{ front = "{front} in", left = "{left} in" }}')
        spec.volume -= math.prod(size) * IN**3
        put(spec, f"item `module-{number}`", f"module-{number}", size, [front, left, 0], removable)


def put(spec, called, tag, size, place, removable=False):
    """A bulky part, by its place from where the sides begin, from the left wall, and above the floor."""
    low = [spec.square + place[0] * IN, -spec.box["width"] / 2 + place[1] * IN, spec.box["floor_height"] + place[2] * IN]
    at = [(start, start + side * IN) for start, side in zip(low, size)]
    spec.bulky.append(dict(called=called, tag=tag, at=at, left=place[1] * IN, removable=removable))


def berths(spec, chance):
    """A tent with a berth in it, and berths inside: how many inside, and the highest mattress's top above the floor."""
    spec.add("item", tag="tent", kind="tent", zone="roof", length="50 in", width="50 in", height="12 in", floor="3 in", bedding="0 lb",
             mass="100 lb", at='{ front = "10 in" }')
    spec.beds, spec.top = [], None
    for number in range(chance.randint(0, 2)):
        front, left, floor = chance.randint(0, 20), chance.choice([0, 10]), chance.choice([10, 16, 24])
        spec.parts.append("")
        spec.beds.append((f"bed-{number}", front, left, floor))
        spec.top = max(spec.top or 0.0, (floor + 5) * IN)


def add_berths(spec):
    """Berths stand behind items in the build, so they are written when all items are."""
    for tag, front, left, floor in spec.beds:
        spec.add("berth", tag=tag, length="75 in", width="28 in", height="5 in", at=f'{{ front = "{front} in", left = "{left} in", floor = "{floor} in" }}')
        put(spec, f"berth `{tag}`", tag, [75, 28, 5], [front, left, floor])
    spec.add("berth", tag="up", zone="tent", length="48 in", width="48 in", height="2 in")


def vents(spec, chance):
    spec.vents = []
    height = spec.box["height"]
    for number in range(chance.randint(0, 10)):
        zone = chance.choice(["roof", "left wall", "left wall", "right wall", "floor"])
        tag = f"vent-{number}"
        front, floor = chance.randint(0, 60), chance.choice([0, 1, 2, 3, chance.randint(5, round(height / IN) - 6)])
        fields = dict(tag=tag, zone=zone, length="10 in", width="1.5 in", height="4 in", closable=chance.random() < 0.15)
        if chance.random() < 0.15:
            fields["leads"] = "inside"
        square = chance.randint(1, 120)
        cover = chance.choice([None, "none", "screen", "louvre", "screen and louvre"])
        if cover is None:
            fields["area"] = f"{square} in²"
        else:
            fields |= dict(gross=f"{square} in²", cover=cover)
        share = {"screen": spec.assume["screen"], "louvre": spec.assume["louvre"],
                 "screen and louvre": spec.assume["screen"] * spec.assume["louvre"]}.get(cover, 1.0)
        if zone == "roof":
            fields["at"] = f'{{ front = "{front} in" }}'
        elif zone == "floor":
            fields["at"] = f'{{ front = "{front} in", centre = "0 in" }}'
        else:
            fields["at"] = f'{{ front = "{front} in", floor = "{floor} in" }}'
        spec.add("vent", **fields)
        middle = {"roof": height, "floor": 0.0}.get(zone, (floor + 2) * IN)
        under = floor * IN
        if zone == "roof":
            sort = "roof"
        elif zone == "floor" or under <= 0.1:
            sort = "low"
        elif under >= (spec.top + 0.3 if spec.top is not None else height / 2):
            sort = "high"
        else:
            sort = "between"
        if fields["closable"]:
            sort = "closable"
        spec.vents.append(dict(tag=tag, zone=zone, area=square * share * IN**2, sort=sort, middle=middle, front=front, floor=floor,
                               inward="leads" in fields))
    free = lambda *sorts: sum(vent["area"] for vent in spec.vents if vent["sort"] in sorts and not vent["inward"])
    for figure, sort in (("vents_roof", "roof"), ("vents_high_wall", "high"), ("vents_low", "low"), ("vents_between", "between"),
                         ("vents_closable", "closable")):
        spec.want(figure, "the build", free(sort), 1e-9, 1e-3)


def draught(spec, night):
    mean = {}
    for name, sorts in (("low", ("low",)), ("high", ("roof", "high"))):
        found = [vent for vent in spec.vents if vent["sort"] in sorts and not vent["inward"]]
        area = sum(vent["area"] for vent in found)
        if area == 0:
            return 0.0
        mean[name] = area, sum(vent["area"] * vent["middle"] for vent in found) / area
    (low, z_low), (high, z_high) = mean["low"], mean["high"]
    inside, outside = spec.assume["inside"], spec.assume[night]
    if inside <= outside or z_high <= z_low:
        return 0.0
    # The pressure in between is where both pass as much: found by bracketing, not by the formula of two in series.
    whole = scipy.constants.g * (z_high - z_low) * (inside - outside) / inside
    off = lambda share: low * math.sqrt(share) - high * math.sqrt(1 - share)
    share = brentq(off, 0.0, 1.0, xtol=1e-16, rtol=1e-14)
    return spec.assume["discharge"] * low * math.sqrt(2 * whole * share)


def appliances(spec, chance):
    spec.burners = []
    for number in range(chance.choice([0, 0, 1, 1, 2, 3])):
        btu = chance.randint(30, 200) * 100
        flue = chance.choice(["flueless", "open-flued", "room-sealed"])
        used = chance.choice(["inside", "outside"])
        fuel = "propane" if chance.random() < 0.9 else "alcohol"
        purpose = chance.choice([None, "cooking", "heating", "hot water"])
        spec.add("item", **({} if purpose is None else {"purpose": purpose}), tag=f"burner-{number}", kind="appliance", fuel=fuel, input=f"{btu} Btu/h", flue=flue, used=used, mass="10 lb",
                 length="10 in", width="9 in", height="12 in", at='{ front = "4 in", left = "30 in" }')
        spec.burners.append(dict(input=btu * BTU_H, flue=flue, inside=used == "inside", fuel=fuel, tag=f"burner-{number}", purpose=purpose))
    inside = [burner for burner in spec.burners if burner["inside"]]
    open_ones = [burner for burner in inside if burner["flue"] != "room-sealed"]
    spec.flueless = [burner for burner in inside if burner["flue"] == "flueless"]
    table = OPEN if open_ones else SEALED
    row = next((row for row in table if spec.plan <= row[0]), None)
    for place, figure in ((1, "vents_needed_roof"), (2, "vents_needed_high_wall"), (3, "vents_needed_low")):
        spec.want(figure, "the build", None if row is None or row[place] is None else row[place] * 1e-4)
    if spec.burners:
        power = sum(burner["input"] for burner in open_ones)
        for figure, btu in (("combustion_each", 4000), ("combustion_single", 3000), ("combustion_ducts", 2000)):
            spec.want(figure, "the build", power / (btu * BTU_H) * IN**2 if open_ones else None)
        spec.want("combustion_room", "the build", power / BTU_H / 1000 * 50 * FT**3 if open_ones else None)
        unsaid = any(burner["purpose"] is None for burner in open_ones)
        heaters = [f"item `{burner['tag']}`" for burner in open_ones if burner["purpose"] == "heating"]
        spec.want("open_heaters", "the build", None if unsaid else heaters)
        given = fumes(spec)
        spec.want("fumes", "the build", given[0] if given and spec.flueless else None, 1e-3)


def fumes(spec):
    """Carbon dioxide in m³/s and water in kg/s of flueless burners inside; none where a fuel is not propane."""
    if any(burner["fuel"] != "propane" for burner in spec.flueless):
        return None
    rate = sum(burner["input"] for burner in spec.flueless) / spec.assume["heating_value"]
    volume = scipy.constants.R * spec.assume["inside"] / ATM / molar("CO2")
    return rate * CO2_OF_PROPANE * volume, rate * WATER_OF_PROPANE


def follow(start, outside, source, flow, volume, seconds):
    """End and mean of a share, integrated step by step."""
    if seconds == 0:
        return start, start
    found = solve_ivp(lambda _, y: [(source - flow * (y[0] - outside)) / volume, y[0]], (0, seconds), [start, 0.0],
                      method="LSODA", rtol=1e-11, atol=1e-14)
    return found.y[0][-1], found.y[1][-1] / seconds


def celsius(kelvin):
    return kelvin - 273.15


def nights(spec, chance):
    names = [bed[0] for bed in spec.beds]
    for number in range(chance.randint(1, 3)):
        of = f"state `night-{number}`"
        people = {tag: chance.randint(0, 2) for tag in names}
        up = chance.randint(0, 2)
        out = [part["tag"] for part in spec.bulky if part["removable"] and chance.random() < 0.3]
        listed = [f'{{ berth = "{tag}", count = {count} }}' for tag, count in (people | {"up": up}).items()]
        spec.parts.append(f'\n[[state]]\nname = "night-{number}"\nuse = "camp"\npeople = [{", ".join(listed)}]\n'
                          + f'out = {out}\n'.replace("'", '"'))
        covered(spec, of, out)
        night(spec, of, sum(people.values()))


def covered(spec, of, out):
    told = []
    box = spec.box
    for vent in spec.vents:
        if vent["inward"]:
            continue
        if vent["zone"] == "roof":
            # The tent lies on the roof from 10 to 60 in behind where the sides begin outside, on the centreline.
            if vent["front"] < 60 and vent["front"] + 10 > 10 and spec.flat_front is not None:
                told.append(f"vent `{vent['tag']}` by item `tent`")
            continue
        for part in sorted(spec.bulky, key=lambda part: part["called"].startswith("berth")):
            if part["tag"] in out:
                continue
            x0 = spec.square + vent["front"] * IN
            z0 = box["floor_height"] + vent["floor"] * IN
            across = part["at"][0][0] < x0 + 10 * IN - 1e-6 and part["at"][0][1] > x0 + 1e-6
            upright = part["at"][2][0] < z0 + 4 * IN - 1e-6 and part["at"][2][1] > z0 + 1e-6
            if vent["zone"] == "left wall":
                hides = part["left"] < IN - 1e-9 and across and upright
            elif vent["zone"] == "right wall":
                hides = box["width"] / 2 - part["at"][1][1] < IN - 1e-9 and across and upright
            else:
                level = part["at"][2][0] - box["floor_height"] < IN - 1e-9
                beside = part["at"][1][0] < 0.75 * IN - 1e-6 and part["at"][1][1] > -0.75 * IN + 1e-6
                hides = level and across and beside
            if hides:
                told.append(f"vent `{vent['tag']}` by {part['called']}")
    spec.want("covered_vents", of, told)


def night(spec, of, count):
    keys = ["carbon_dioxide", "air_each", "co2_steady", "co2_morning", "co2_mean", "shut_time", "moisture", "dew_point", "humidity",
            "surface", "dew_margin"]
    if count == 0:
        for key in keys:
            spec.want(key, of, None)
        return
    assume = spec.assume
    mild, cold = draught(spec, "mild_night"), draught(spec, "cold_night")
    each = 0.000484 * assume["basal_rate"] * 86_400 / 1e6 * assume["asleep"] / 1000 * assume["inside"] / 273.15
    given = each * count
    spec.want("carbon_dioxide", of, given)
    spec.want("air_each", of, mild / count, 1e-9, 1e-3)
    out = assume["outdoor_co2"]
    spec.want("co2_steady", of, out + given / mild if mild > 0 else None)
    airless = spec.volume <= 0
    smoke = fumes(spec)
    loose = 1e-3 if spec.flueless else 1e-7
    cooking = assume["cooking"] if spec.flueless else 0
    if airless or smoke is None:
        for key in ("co2_morning", "co2_mean"):
            spec.want(key, of, None)
    else:
        start, _ = follow(out, out, given + smoke[0], mild, spec.volume, cooking)
        end, mean = follow(start, out, given, mild, spec.volume, assume["night"])
        spec.want("co2_morning", of, end, loose)
        spec.want("co2_mean", of, mean, loose)
    spec.want("shut_time", of, None if airless else (5000e-6 - out) * spec.volume / given)
    ts = assume["cold_night"] + assume["surface"] * (assume["inside"] - assume["cold_night"])
    spec.want("surface", of, ts)
    if smoke is None:
        for key in ("moisture", "dew_point", "humidity", "dew_margin"):
            spec.want(key, of, None)
        return
    asleep = assume["person_moisture"] * count
    pots = any(burner["purpose"] in (None, "cooking") for burner in spec.flueless)
    evening = asleep + smoke[1] + (assume["steam"] if pots else 0)
    spec.want("moisture", of, evening * cooking + asleep * assume["night"], loose)
    if airless:
        for key in ("dew_point", "humidity", "dew_margin"):
            spec.want(key, of, None)
        return
    outside = psychrolib.GetHumRatioFromVapPres(assume["outdoor_humidity"] * psychrolib.GetSatVapPres(celsius(assume["cold_night"])), ATM)
    dry = ATM / (287.042 * assume["inside"])
    w1, _ = follow(outside, outside, evening / dry, cold, spec.volume, cooking)
    w2, _ = follow(w1, outside, asleep / dry, cold, spec.volume, assume["night"])
    pressure = psychrolib.GetVapPresFromHumRatio(max(w1, w2), ATM)
    # A plain dew point: psychrolib will have none above the air's own temperature, so the air is taken as hot.
    dew = psychrolib.GetTDewPointFromVapPres(99.0, pressure) + 273.15
    spec.want("dew_point", of, dew, 0.005, 1.0)
    spec.want("dew_margin", of, ts - dew, 0.005, 1.0)
    inside = psychrolib.GetVapPresFromHumRatio(w2, ATM) / psychrolib.GetSatVapPres(celsius(assume["inside"]))
    spec.want("humidity", of, inside, loose, 1.0)


def exhausts(spec, chance):
    """An exhaust in the right wall: it is no vent, and it has a distance to the nearest one."""
    if not spec.burners or chance.random() < 0.5:
        return
    front, floor = chance.randint(0, 60), chance.randint(5, 40)
    spec.add("vent", tag="flue", zone="right wall", area="4 in²", closable=False, exhaust_of=spec.burners[0]["tag"], length="3 in",
             width="3 in", height="3 in", at=f'{{ front = "{front} in", floor = "{floor} in" }}')
    half, z = spec.box["width"] / 2, spec.box["floor_height"]
    x = spec.square + front * IN
    flue = [(x, x + 3 * IN), (half - 1.5 * IN, half + 1.5 * IN), (z + floor * IN, z + (floor + 3) * IN)]
    gaps = []
    for vent in spec.vents:
        if vent["inward"]:
            continue
        start = spec.square + vent["front"] * IN
        up = z + vent["floor"] * IN
        if vent["zone"] == "roof":
            start = spec.roof_front + vent["front"] * IN
            up = z + spec.box["height"] + spec.box["roof"]
        elif vent["zone"] == "floor":
            up = z
        y = {"left wall": -half, "right wall": half}.get(vent["zone"], 0.0)
        gaps.append(gap(flue, [(start, start + 10 * IN), (y - 0.75 * IN, y + 0.75 * IN), (up, up + 4 * IN)], (0, 1, 2)))
    spec.want("exhaust_gap", "vent `flue`", min(gaps, default=None), 1e-9, 1.0)


def batteries(spec, chance):
    """A battery, inside or in a box on the tongue with vents of its own."""
    place = chance.choice([None, "inside", "box"])
    if place is None:
        return
    flooded = chance.random() < 0.6
    spec.add("item", tag="bank", kind="battery", mass="50 lb", length="12 in", width="7 in", height="9 in",
             chemistry="flooded lead" if flooded else "gel", **({"zone": "box", "at": '{ front = "1 in", left = "1 in" }'} if place == "box"
                                                              else {"at": '{ front = "1 in", left = "25 in" }'}))
    spec.want("gassing_inside", "the build", ["item `bank`"] if flooded and place == "inside" else [])
    if place == "box":
        spec.add("locker", tag="box", zone="tongue", length="16 in", width="12 in", height="12 in", opens="outside", sealed=True,
                 at='{ ball = "10 in" }')
        low, high = chance.randint(0, 40) / 10, chance.randint(0, 40) / 10
        spec.add("vent", tag="box-low", zone="box", area=f"{low} in²", closable=False, height="1 in", at='{ floor = "0 in" }')
        spec.add("vent", tag="box-high", zone="box", area=f"{high} in²", closable=False, height="1 in", at='{ ceiling = "0 in" }')
        if flooded:
            of = "locker `box`"
            spec.want("battery_vents_low", of, low * IN**2, 1e-9, 1e-3)
            spec.want("battery_vents_high", of, high * IN**2, 1e-9, 1e-3)
            spec.want("battery_vents_needed", of, 1100e-6)


def draw(chance):
    spec = Spec(chance)
    restated(spec, chance)
    room(spec, chance)
    # A roof is measured from where the sides begin outside: of a flat nose, its front.
    flat = 'shape = "flat"' in spec.head
    spec.roof_front = spec.box["ball_to_box"] if flat else spec.square
    spec.flat_front = spec.roof_front
    berths(spec, chance)
    vents(spec, chance)
    appliances(spec, chance)
    exhausts(spec, chance)
    batteries(spec, chance)
    add_berths(spec)
    spec.want("inside_volume", "the build", spec.volume, 1e-9, 1.0)
    for figure, which in (("draught_mild", "mild_night"), ("draught_cold", "cold_night")):
        spec.want(figure, "the build", draught(spec, which), 1e-9, 1e-3)
    nights(spec, chance)
    return spec.text(), spec.wanted


if __name__ == "__main__":
    figures.main("air", draw, count=300, least=20.0)
