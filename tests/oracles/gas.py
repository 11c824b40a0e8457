#!/usr/bin/env python3
"""Works the figures of gas out again: CoolProp for propane, fluids for Spitzglass, own arithmetic for the rest.

See tests/oracles/README.md.
"""

import math
import pathlib
import tomllib

import fluids.compressible
import pint
import scipy.optimize
from CoolProp.CoolProp import PropsSI

import figures
from figures import Expect

UREG = pint.UnitRegistry()
ATM = 101_325.0
G = 9.80665
BTU_PER_LB = 2326.0
LB = 0.45359237
IN = 0.0254
FT = 0.3048
BTU_H = BTU_PER_LB * LB / 3600.0
IN_H2O = UREG("1000 kg/m^3 * 9.80665 m/s^2 * 1 inch").to("Pa").magnitude
RULES = pathlib.Path(__file__).parents[2] / "rules" / "assumptions"

# What the 100 lb cylinder gives, from the same published table.
DEGREES = [0, 20, 40, 60, 70]
DRAW = {10: [28, 38, 49, 60, 66], 20: [36, 51, 68, 83, 92], 50: [64, 94, 125, 154, 167], 100: [113, 167, 214, 277, 300]}

INSIDES = {
    "3/8 in pipe": 0.493, "1/2 in pipe": 0.622, "3/4 in pipe": 0.824, "1 in pipe": 1.049,
    "3/8 in tube": 0.305, "1/2 in tube": 0.402, "5/8 in tube": 0.527, "3/4 in tube": 0.652,
}


def defaults():
    """The declared defaults, which are data, in SI."""
    with open(RULES / "gas.toml", "rb") as file:
        rows = tomllib.load(file)["assumption"]
    units = {"Btu/lb": BTU_PER_LB, "lb/ft³": LB / FT**3, "%": 0.01, "inH2O": IN_H2O}
    found = {}
    for row in rows:
        number, unit = row["value"].split(" ", 1)
        number = float(number.replace(",", ""))
        found[row["of"]] = (number + 459.67) / 1.8 if unit == "°F" else number * units[unit]
    return found


DEFAULTS = defaults()


def interpolate(x, xs, ys):
    for (x0, y0), (x1, y1) in zip(zip(xs, ys), list(zip(xs, ys))[1:]):
        if x0 <= x <= x1:
            return y0 + (y1 - y0) * (x - x0) / (x1 - x0)
    return None


def hundred(lb, fahrenheit):
    row = [interpolate(fahrenheit, DEGREES, DRAW[key]) for key in sorted(DRAW)]
    if None in row:
        return None
    found = interpolate(lb, sorted(DRAW), row)
    return None if found is None else found * 1000 * BTU_H


def nfpa_drop(q, length, bore):
    """Solved by bracketing, from the equation as it is printed, in its own units."""
    cfh, feet, inches = q * 3600 / FT**3, length / FT, bore / IN
    if cfh == 0:
        return 0.0
    off = lambda log: math.log(cfh**0.381 / (19.17 * (math.exp(log) / (1.2462 * feet)) ** 0.206)) - math.log(inches)
    return math.exp(scipy.optimize.brentq(off, -60, 60, xtol=1e-13)) * IN_H2O


def spitzglass_drop(q, length, bore, gravity):
    """The drop at which fluids' Spitzglass gives the flow. fluids goes by absolute pressures: it is told so at 60 °F."""
    if q == 0:
        return 0.0

    def flow(drop):
        found = fluids.compressible.Spitzglass_low(
            D=bore, P1=ATM + drop, P2=ATM, L=length, SG=gravity, Tavg=(60 + 459.67) / 1.8, Ts=(60 + 459.67) / 1.8, Ps=ATM, Zavg=1, E=1.0)
        return found

    return scipy.optimize.brentq(lambda drop: flow(drop) - q, 1e-12, 1e8, xtol=1e-14, rtol=1e-13)


class Spec:
    """A spec under way: its text, and what must come out."""

    def __init__(self, chance):
        self.chance, self.parts, self.wanted = chance, [], {}
        self.assume = dict(DEFAULTS)
        box = {
            "ball_to_box": chance.randint(36, 60), "length": chance.randint(84, 170), "width": chance.randint(57, 84),
            "height": chance.randint(60, 84), "wall": 1.5, "roof": 2, "floor_height": chance.randint(18, 24), "frame_height": 17,
        }
        self.box = {key: value * IN for key, value in box.items()}
        self.axle = box["ball_to_box"] + 0.6 * box["length"]
        self.head = "[build]\nnumber = \"G-1\"\ntitle = \"a draw\"\nstage = \"design\"\n\n[trailer]\n"
        self.head += "".join(f'{key} = "{value} in"\n' for key, value in box.items())
        self.head += f'nose = {{ shape = "flat" }}\naxle = {{ ball = "{self.axle} in", count = 1 }}\n'
        self.axle *= IN

    def add(self, table, **fields):
        text = f"\n[[{table}]]\n"
        for key, value in fields.items():
            if isinstance(value, bool):
                value = str(value).lower()
            elif isinstance(value, (int,)):
                value = str(value)
            elif not value.startswith(("{", "[")):
                value = f'"{value}"'
            text += f"{key} = {value}\n"
        self.parts.append(text)

    def want(self, figure, of, value, within=1e-9, scale=None):
        self.wanted[(figure, of)] = Expect(value, within, scale)

    def text(self):
        return self.head + "".join(self.parts)


def length(chance, inches):
    """A length in m, written in one unit or the other."""
    if chance.random() < 0.5:
        return inches * IN, f"{inches} in"
    millimetres = round(inches * 25.4)
    return millimetres / 1000, f"{millimetres} mm"


def gap(one, other, axes):
    total = 0.0
    for axis in axes:
        (low, high), (other_low, other_high) = one[axis], other[axis]
        total += max(0.0, other_low - high, low - other_high) ** 2
    return math.sqrt(total)


def restated(spec, chance):
    """Some of what is assumed, restated by the build."""
    written = {
        "coldest_use": lambda: (lambda f: ((f + 459.67) / 1.8, f"{f} °F"))(chance.randint(-30, 90)),
        "least_fill": lambda: (lambda p: (p / 100, f"{p} %"))(chance.randint(5, 100)),
        "lower_limit": lambda: (lambda p: (p / 1000, f"{p / 10} %"))(chance.randint(17, 22)),
        "alarm_share": lambda: (lambda p: (p / 100, f"{p} %"))(chance.randint(10, 25)),
        "drop": lambda: (lambda p: (p * IN_H2O / 10, f"{p / 10} inH2O"))(chance.randint(3, 9)),
        "heating_value": lambda: (lambda h: (h * BTU_PER_LB, f"{h} Btu/lb"))(chance.randint(21_000, 21_700)),
        "vapour_density": lambda: (lambda d: (d / 1000, f"{d / 1000} kg/m³"))(chance.randint(1700, 2000)),
    }
    lines = ""
    for key, draw in written.items():
        if chance.random() < 0.4:
            spec.assume[key], text = draw()
            lines += f'{key} = "{text}"\n'
    if lines:
        spec.parts.append("\n[assume.gas]\n" + lines)


def draw_of(assume, m, d):
    """The greatest lasting draw of a cylinder d wide, with CoolProp's density of the liquid."""
    t = assume["coldest_use"]
    fahrenheit = round(t * 1.8 - 459.67, 9)
    least = m * assume["least_fill"]
    if abs(m - 100 * LB) < 1e-9:
        return hundred(round(least / LB, 9), fahrenheit)
    full = hundred(100, fahrenheit)
    if full is None:
        return None
    rho = PropsSI("D", "T", t, "Q", 0, "Propane")
    area = lambda mass, width: math.pi * width**2 / 4 + 4 * mass / (rho * width)
    return full * area(least, d) / area(100 * LB, 14.5 * IN)


def cylinders(spec, chance):
    bodies = []
    # Beyond the table of properties, nothing is known.
    t = spec.assume["coldest_use"]
    locker = None
    if chance.random() < 0.4:
        locker = lockers(spec, chance)
    for number in range(chance.choice([1, 1, 2, 3])):
        tag = f"cylinder-{number}"
        of = f"item `{tag}`"
        butane = chance.random() < 0.1
        pounds = chance.choice([10, 20, 30, 40, 100])
        mass, gas, capacity = pounds * 2 * LB, pounds * LB, round(pounds / 0.42, 1) * LB
        restraint = chance.choice([None, chance.randint(50, 900)])
        width, width_text = length(chance, chance.randint(9, 15))
        height, height_text = length(chance, chance.randint(16, 30))
        fields = dict(tag=tag, kind="cylinder", mass=f"{pounds * 2} lb", mass_basis="maker", gas=f"{pounds} lb",
                      water_capacity=f"{round(pounds / 0.42, 1)} lb", fuel="butane" if butane else "propane", upright=True,
                      length=width_text, width=width_text, height=height_text)
        if restraint is not None:
            fields["restraint"] = f"{restraint} lb"
        if locker is not None and number == 0:
            fields |= dict(zone="box", at='{ front = "1 in", left = "1 in" }')
            low = [locker["at"][0][0] + IN, locker["at"][1][0] + IN, locker["at"][2][0]]
        else:
            ball = chance.randint(2, 12)
            centre = chance.randint(-10, 10)
            fields |= dict(zone="tongue", at=f'{{ ball = "{ball} in", centre = "{centre} in" }}')
            low = [ball * IN, centre * IN - width / 2, spec.box["frame_height"]]
        at = [(low[0], low[0] + width), (low[1], low[1] + width), (low[2], low[2] + height)]
        spec.add("item", **fields)
        bodies.append(dict(tag=tag, gas=gas, width=width, butane=butane, at=at, locker=locker if fields["zone"] == "box" else None))
        heat = spec.assume["heating_value"]
        fuel_only = (lambda value: None) if butane else (lambda value: value)
        spec.want("stored_energy", of, fuel_only(gas * heat))
        spec.want("filling_density", of, fuel_only(gas / capacity))
        spec.want("filling_legal", of, fuel_only(0.42))
        for figure, kelvin in (("liquid_share", (40 + 459.67) / 1.8), ("liquid_share_hot", 328.15)):
            rho = PropsSI("D", "T", kelvin, "Q", 0, "Propane")
            water = PropsSI("D", "T", (60 + 459.67) / 1.8, "P", ATM, "Water")
            spec.want(figure, of, fuel_only((gas / rho) / (capacity / water)), 2e-3)
        spec.want("pressure_cold", of, fuel_only(PropsSI("P", "T", t, "Q", 0, "Propane") - ATM), 1e-3, PropsSI("P", "T", t, "Q", 0, "Propane"))
        fluid = "n-Butane" if butane else "Propane"
        spec.want("boiling_margin", of, t - PropsSI("T", "P", ATM, "Q", 0, fluid), 1e-2, 1.0)
        spec.want("draw_cold", of, fuel_only(draw_of(spec.assume, gas, width)), 2e-3)
        for figure, times in (("restraint_needed", 4.0), ("restraint_stop", 0.8)):
            spec.want(figure, of, times * mass * G)
        spec.want("restraint_held", of, None if restraint is None else restraint * LB * G)
        spec.want("behind_axle", of, at[0][1] - spec.axle, 1e-9, 1.0)
        rear = spec.box["ball_to_box"] + spec.box["wall"] * 2 + spec.box["length"]
        spec.want("rear_gap", of, rear - at[0][1], 1e-9, 1.0)
    if locker is not None:
        wants_of_locker(spec, locker, bodies)
    return bodies


def lockers(spec, chance):
    size = [chance.randint(17, 30) * IN, chance.randint(17, 30) * IN, chance.randint(34, 40) * IN]
    low = [2 * IN, -size[1] / 2, spec.box["frame_height"]]
    opens, sealed = chance.choice(["outside", "outside", "inside"]), chance.random() < 0.7
    spec.add("locker", tag="box", zone="tongue", length=f"{size[0] / IN:.6f} in", width=f"{size[1] / IN:.6f} in",
             height=f"{size[2] / IN:.6f} in", opens=opens, sealed=sealed, at='{ ball = "2 in" }')
    vents = []
    for number in range(chance.randint(0, 4)):
        vent = dict(area=chance.randint(1, 60) / 10, up=chance.randint(0, 30), shut=chance.random() < 0.2,
                    inward=chance.random() < 0.2, tag=f"hole-{number}")
        spec.add("vent", tag=vent["tag"], zone="box", area=f"{vent['area']} in²", closable=vent["shut"], height="2 in",
                 leads="inside" if vent["inward"] else "outside", at=f'{{ floor = "{vent["up"]} in" }}')
        vents.append(vent)
    at = [(low[0], low[0] + size[0]), (low[1], low[1] + size[1]), (low[2], low[2] + size[2])]
    return dict(size=size, at=at, vents=vents, opens=opens, sealed=sealed)


def wants_of_locker(spec, locker, bodies):
    of = "locker `box`"
    middle = locker["size"][2] / IN / 2
    good = [vent for vent in locker["vents"] if not vent["shut"] and not vent["inward"]]
    low = [vent for vent in good if vent["up"] + 1 < middle - 1e-9]
    high = [vent for vent in good if vent not in low]
    area = lambda vents: sum(vent["area"] for vent in vents) * IN**2
    spec.want("vents_low", of, area(low))
    spec.want("vents_high", of, area(high))
    spec.want("vents_total", of, area(good))
    spec.want("low_gap", of, min(vent["up"] for vent in low) * IN if low else None, 1e-9, 1.0)
    spec.want("high_gap", of, locker["size"][2] - max(vent["up"] for vent in high) * IN if high else None, 1e-9, 1.0)
    floor = locker["size"][0] * locker["size"][1]
    spec.want("vents_needed", of, 0.02 * floor)
    spec.want("vents_needed_low_eu", of, max(0.02 * floor, 0.01))
    spec.want("vents_needed_each_eu", of, max(0.01 * floor, 0.005))
    held = [body for body in bodies if body["locker"] is not None]
    gas = None if any(body["butane"] for body in held) else sum(body["gas"] for body in held)
    spec.want("vents_needed_enclosure", of, None if gas is None else max(0.5 * gas / LB, 10) * IN**2)
    inward = [] if locker["opens"] == "outside" else ["its door"]
    inward += [] if locker["sealed"] else ["its walls, which are not sealed"]
    spec.want("leads_in", of, inward + [f"vent `{vent['tag']}`" for vent in locker["vents"] if vent["inward"]])


def surroundings(spec, chance, bodies):
    """Openings in the left wall and the front, and what could set gas alight on the tongue."""
    inside = spec.box["ball_to_box"] + spec.box["wall"]
    openings = []
    for number in range(chance.randint(0, 3)):
        front, floor = chance.randint(0, 60), chance.randint(0, 40)
        spec.add("vent", tag=f"opening-{number}", zone="left wall", area="10 in²", closable=chance.random() < 0.5, length="10 in",
                 width="1.5 in", height="6 in", at=f'{{ front = "{front} in", floor = "{floor} in" }}')
        x, y, z = inside + front * IN, -spec.box["width"] / 2, spec.box["floor_height"] + floor * IN
        openings.append([(x, x + 10 * IN), (y - 0.75 * IN, y + 0.75 * IN), (z, z + 6 * IN)])
    sparks, unsaid, boxed = [], False, []
    if bodies[0]["locker"] is not None and chance.random() < 0.5:
        spec.add("item", tag="boxed", kind="battery", zone="box", length="3 in", width="3 in", height="4 in", mass="20 lb",
                 at='{ rear = "0 in", right = "0 in" }')
        (_, rear), (_, right), (floor, _) = bodies[0]["locker"]["at"]
        boxed = [[(rear - 3 * IN, rear), (right - 3 * IN, right), (floor, floor + 4 * IN)]]
    for number in range(chance.randint(0, 2)):
        kind = chance.choice(["battery", "equipment", "equipment"])
        ball = chance.randint(14, 26)
        fields = dict(tag=f"spark-{number}", kind=kind, zone="tongue", length="8 in", width="7 in", height="7 in",
                      mass="20 lb", at=f'{{ ball = "{ball} in" }}')
        says = chance.random()
        if kind == "equipment" and says < 0.9:
            fields["sparks"] = says < 0.5
        spec.add("item", **fields)
        unsaid |= kind == "equipment" and says >= 0.9
        if kind == "battery" or says < 0.5:
            z = spec.box["frame_height"]
            sparks.append([(ball * IN, (ball + 8) * IN), (-3.5 * IN, 3.5 * IN), (z, z + 7 * IN)])
    for body in bodies:
        of = f"item `{body['tag']}`"
        below = [opening for opening in openings if opening[2][0] < body["at"][2][1] - 1e-9]
        spec.want("opening_gap", of, min((gap(body["at"], opening, (0, 1)) for opening in below), default=None), 1e-9, 1.0)
        if body["locker"] is not None:
            spec.want("ignition_gap", of, min((gap(body["at"], spark, (0, 1, 2)) for spark in boxed), default=None), 1e-9, 1.0)
            spec.want("ignition_beside", of, ["item `boxed`"] if boxed else [])
        else:
            near = None if unsaid else min((gap(body["at"], spark, (0, 1, 2)) for spark in sparks), default=None)
            spec.want("ignition_gap", of, near, 1e-9, 1.0)
            spec.want("ignition_beside", of, None)


def appliances(spec, chance):
    burners = []
    for number in range(chance.randint(0, 4)):
        propane = chance.random() < 0.85
        btu = chance.randint(30, 400) * 100
        minutes = None if chance.random() < 0.15 else chance.randint(0, 600)
        fields = dict(tag=f"burner-{number}", kind="appliance", fuel="propane" if propane else "diesel", input=f"{btu} Btu/h",
                      flue="room-sealed", used=chance.choice(["inside", "outside"]), mass="10 lb",
                      length="10 in", width="9 in", height="12 in",
                      at='{ front = "4 in", left = "0 in" }')
        if minutes is not None:
            fields["daily"] = f"{minutes} min"
        spec.add("item", **fields)
        burners.append(dict(tag=fields["tag"], propane=propane, input=btu * BTU_H, inside=fields["used"] == "inside",
                            daily=None if minutes is None else minutes * 60))
    return burners


def lines(spec, chance, burners):
    """A tree of lines: a trunk, and a branch to each appliance, sometimes by way of another line."""
    pressure = chance.choice([11, 11, 12.04])
    text = f'\n[gas]\nregulator = {{ stages = 2, pressure = "{pressure} inH2O" }}\n'
    runs = {"trunk": dict(before="regulator")}
    for number, burner in enumerate(burners):
        before = chance.choice(list(runs))
        runs[f"branch-{number}"] = dict(before=before, to=burner["tag"])
    for name, run in runs.items():
        kind = chance.choice(["hose", "pipe", "tube"])
        run["long"], long_text = length(chance, chance.randint(20, 240))
        run["fittings"], fittings_text = (0.0, None) if kind == "hose" else length(chance, chance.randint(0, 60))
        text += f'\n[[gas.line]]\nname = "{name}"\nfrom = "{run["before"]}"\nkind = "{kind}"\nlength = "{long_text}"\n'
        if fittings_text is not None:
            text += f'fittings = "{fittings_text}"\n'
        if "to" in run:
            text += f'to = ["{run["to"]}"]\n'
        if kind == "hose":
            run["bore"] = chance.randint(8, 16) / 32 * IN
            text += f'bore = "{run["bore"] / IN} in"\n'
        else:
            size = chance.choice([size for size in INSIDES if size.endswith(kind)])
            run["bore"] = INSIDES[size] * IN
            text += f'size = "{size}"\n'
        run["kind"] = kind
        run["runs"] = chance.sample(["outside", "inside", "under floor"], chance.randint(1, 2))
        run["sleeved"], run["concealed"], run["shutoff"] = (chance.random() < 0.5 for _ in range(3))
        text += f'runs = {run["runs"]}\n'.replace("'", '"')
        for flag in ("sleeved", "concealed", "shutoff"):
            text += f"{flag} = {str(run[flag]).lower()}\n"
    pigtail = chance.choice([None, ["outside"], ["outside", "inside"]])
    if pigtail is not None:
        text += f'\n[[gas.line]]\nname = "pigtail"\nfrom = "cylinder"\nkind = "hose"\nlength = "20 in"\nbore = "1/4 in"\n'
        text += f'runs = {pigtail}\nsleeved = true\nconcealed = false\nshutoff = true\n'.replace("'", '"')
    spec.parts.append(text)
    # Everything beyond a line, by walking each appliance's way back.
    way = {}
    for burner in burners:
        name = next(name for name, run in runs.items() if run.get("to") == burner["tag"])
        way[burner["tag"]] = []
        while name != "regulator":
            way[burner["tag"]].append(name)
            name = runs[name]["before"]
    gas = [burner for burner in burners if burner["propane"]]
    vapour = spec.assume["heating_value"] * spec.assume["vapour_density"]
    load = {name: sum(burner["input"] for burner in gas if name in way[burner["tag"]]) for name in runs}
    reckoned = {name: run["long"] + run["fittings"] for name, run in runs.items()}
    longest = max((sum(reckoned[name] for name in way[burner["tag"]]) for burner in gas), default=None)
    air = PropsSI("D", "T", (60 + 459.67) / 1.8, "P", ATM, "Air")
    for burner in gas:
        of = f"item `{burner['tag']}`"
        lost = sum(nfpa_drop(load[name] / vapour, reckoned[name], runs[name]["bore"]) for name in way[burner["tag"]])
        other = sum(spitzglass_drop(load[name] / vapour, reckoned[name], runs[name]["bore"], spec.assume["vapour_density"] / air)
                    for name in way[burner["tag"]])
        spec.want("pressure_drop", of, lost, 1e-8)
        spec.want("pressure_drop_spitzglass", of, other, 3e-3)
        spec.want("pressure_left", of, pressure * IN_H2O - lost, 1e-7, pressure * IN_H2O + lost)
        spec.want("shutoff", of, any(runs[name]["shutoff"] for name in way[burner["tag"]]))
    spec.want("supply_pressure", "the build", pressure * IN_H2O)
    spec.want("longest_run", "the build", longest)
    for name in runs:
        of = f"line `{name}`"
        spec.want("load", of, load[name], 1e-9, 1.0 if load[name] == 0 else None)
        for figure, kind in (("pipe_needed", "pipe"), ("tube_needed", "tube")):
            found = None
            if longest is not None:
                fit = [size for size in INSIDES if size.endswith(kind)
                       and nfpa_drop(load[name] / vapour, longest, INSIDES[size] * IN) <= spec.assume["drop"]]
                found = fit[0] if fit else None
            spec.want(figure, of, found)
    named = lambda so: [f"line `{name}`" for name, run in runs.items() if so(run)]
    inward = ["line `pigtail`"] if pigtail is not None and "inside" in pigtail else []
    spec.want("high_pressure_inside", "the build", inward)
    spec.want("hoses_inside", "the build", named(lambda run: run["kind"] == "hose" and "inside" in run["runs"]) + inward)
    if pigtail is not None:
        total = sum(burner["input"] for burner in gas)
        spec.want("load", "line `pigtail`", total, 1e-9, 1.0 if total == 0 else None)
        spec.want("pipe_needed", "line `pigtail`", None)
        spec.want("tube_needed", "line `pigtail`", None)
    spec.want("hoses_concealed", "the build", named(lambda run: run["kind"] == "hose" and run["concealed"]))
    spec.want("unsleeved", "the build", named(lambda run: len(run["runs"]) > 1 and not run["sleeved"]))


def system(spec, chance, bodies, burners, in_turn):
    """What the whole comes to."""
    of = "the build"
    gas = [burner for burner in burners if burner["propane"]]
    total = sum(burner["input"] for burner in gas)
    heat = spec.assume["heating_value"]
    spec.want("input", of, total, 1e-9, 1.0 if total == 0 else None)
    spec.want("gas_rate", of, total / heat, 1e-9, 1.0 if total == 0 else None)
    t = spec.assume["coldest_use"]
    boils = PropsSI("H", "T", t, "Q", 1, "Propane") - PropsSI("H", "T", t, "Q", 0, "Propane")
    spec.want("boiling_heat", of, total / heat * boils, 4e-3, 1.0 if total == 0 else None)
    held = None if any(body["butane"] for body in bodies) else sum(body["gas"] for body in bodies)
    spec.want("burn_time", of, None if held is None or total == 0 else held * heat / total)
    for body in bodies:
        spec.want("burn_time", f"item `{body['tag']}`", None if body["butane"] or total == 0 else body["gas"] * heat / total)
    daily = None if any(burner["daily"] is None for burner in gas) else sum(burner["input"] * burner["daily"] for burner in gas)
    spec.want("days", of, None if held is None or not daily else held * heat / daily * 86_400)
    draws = [None if body["butane"] else draw_of(spec.assume, body["gas"], body["width"]) for body in bodies]
    together = min if in_turn else sum
    spec.want("draw_cold", of, None if None in draws else together(draws), 2e-3)
    volume = spec.box["length"] * spec.box["width"] * spec.box["height"]
    leak = spec.assume["alarm_share"] * spec.assume["lower_limit"] * volume * spec.assume["vapour_density"]
    spec.want("leak_to_alarm", of, leak)
    inside = max((burner["input"] for burner in gas if burner["inside"]), default=None)
    spec.want("leak_time", of, None if inside is None else leak * heat / inside)


def leak_tests(spec, chance):
    of = "the build"
    tests = {"EN 1949": (15_000, 300, 300, 1000), "piping alone": (3 * LB * G / IN**2, 0, 600, 0),
             "with appliances": (6 / 16 * LB * G / IN**2, 0, 600, 0)}
    if chance.random() < 0.3:
        for figure in ("pressure", "least", "settled", "settle", "held", "time", "fell", "drop"):
            spec.want(f"leak_test_{figure}", of, None)
        return
    method = chance.choice(list(tests))
    pressure, settled, held, fell = chance.randint(50, 300), chance.randint(0, 9), chance.randint(1, 20), chance.randint(0, 20)
    spec.parts.append(f'\n[record.leak_test]\nmethod = "{method}"\npressure = "{pressure} mbar"\nsettled = "{settled} min"\n'
                      f'held = "{held} min"\ndrop = "{fell} mbar"\n')
    least, settle, hold, drop = tests[method]
    for figure, value in (("pressure", pressure * 100), ("least", least), ("settled", settled * 60), ("settle", settle),
                          ("held", held * 60), ("time", hold), ("fell", fell * 100), ("drop", drop)):
        spec.want(f"leak_test_{figure}", of, float(value), 1e-6, 1.0 if value == 0 else None)


def draw(chance):
    spec = Spec(chance)
    restated(spec, chance)
    bodies = cylinders(spec, chance)
    surroundings(spec, chance, bodies)
    burners = appliances(spec, chance)
    in_turn = chance.random() < 0.5
    if burners:
        lines(spec, chance, burners)
    # `[gas]` holds what is connected, ahead of its lines.
    names = ", ".join(f'"{body["tag"]}"' for body in bodies)
    connected = f'connected = [{names}]\ndrawn = "{"in turn" if in_turn else "together"}"\n'
    if burners:
        spec.parts = [part.replace("\n[gas]\n", "\n[gas]\n" + connected) for part in spec.parts]
    else:
        spec.parts.append("\n[gas]\n" + connected)
    system(spec, chance, bodies, burners, in_turn)
    leak_tests(spec, chance)
    return spec.text(), spec.wanted


if __name__ == "__main__":
    figures.main("gas", draw, count=300, least=20.0)
