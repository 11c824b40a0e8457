"""Works the electric figures of random build specs out again and compares with `pintle figures`.

    python3 tests/oracles/electric.py [--count 300] [--seed 118] [--pintle PATH]
    python3 tests/oracles/electric.py --self-test

Diameters of gauges are those of ASTM B258's formula, which must agree with the gauge table of `fluids`. What the sun
brings is integrated in steps of five seconds from the zenith angle that `pvlib` gives, losses and panel power are its PVWatts
functions. The bank is followed hour by hour in a `numpy` loop over tables that are made here.
"""

import math
import pathlib
import sys
import tomllib

import numpy as np
from fluids.piping import t_from_gauge
from pvlib import pvsystem, solarposition
from pvlib.irradiance import get_extra_radiation

from figures import Expect, main

ROOT = pathlib.Path(__file__).resolve().parents[2]
INCH, FOOT, HOUR = 0.0254, 0.3048, 3600.0
CMIL = math.pi / 4 * (INCH / 1000) ** 2
GAUGES = [18, 16, 14, 12, 10, 8, 6, 4, 2, 0, -1, -3]
NAMES = {0: "1/0", -1: "2/0", -3: "4/0"}
SAE = dict(zip(GAUGES, [1537, 2336, 3702, 5833, 9343, 14810, 24538, 37360, 62450, 98980, 125100, 205500]))
NEC = {
    "60 °C": dict(zip(GAUGES[2:], [15, 20, 30, 40, 55, 70, 95, 125, 145, 195])),
    "75 °C": dict(zip(GAUGES[2:], [20, 25, 35, 50, 65, 85, 115, 150, 175, 230])),
    "90 °C": dict(zip(GAUGES, [14, 18, 25, 30, 40, 55, 75, 95, 130, 170, 195, 260])),
    "105 °C": dict(zip(GAUGES, [20, 25, 35, 45, 60, 80, 120, 160, 210, 285, 330, 445])),
}
OVERCURRENT = {14: 15, 12: 20, 10: 30}
PARK_TRAILER = {18: 6, 16: 8, 14: 15, 12: 20, 10: 30}
COMPANY = {
    True: [(2, 1.0), (3, 0.7), (6, 0.6), (24, 0.5), (10**9, 0.4)],
    False: [(3, 1.0), (6, 0.8), (9, 0.7), (20, 0.5), (30, 0.45), (40, 0.4), (10**9, 0.35)],
}
MONTHS = ["january", "february", "march", "april", "may", "june", "july", "august", "september", "october",
          "november", "december"]


def diameter(gauge):
    return 0.005 * INCH * math.exp(math.log(92) * (36 - gauge) / 39)


def area(gauge):
    return math.pi / 4 * diameter(gauge) ** 2


for gauge in GAUGES[:-3]:
    if abs(t_from_gauge(gauge, schedule="AWG") / diameter(gauge) - 1) > 2e-3:
        sys.exit(f"electric: {gauge} AWG is not that of fluids")


def number(text):
    """A value of the table of assumptions, in SI."""
    value, _, unit = text.partition(" ")
    return {"%": lambda x: x / 100, "°C": lambda x: x + 273.15, "V": float, "h": lambda x: x * HOUR,
            "d": lambda x: x * 24 * HOUR}[unit](float(value))


with open(ROOT / "rules" / "assumptions" / "electric.toml", "rb") as file:
    DEFAULTS = {row["of"]: number(row["value"]) for row in tomllib.load(file)["assumption"]}


def day_of(month):
    return math.floor(30.4 * month - 15)


def sun_by_step(latitude, day):
    """Watts on a flat square metre above the air, every five seconds after midnight, solar time."""
    tilt = 0.409 * math.sin(2 * math.pi * day / 365 - 1.39)
    steps = 24 * 60 * 12
    angle = np.radians((np.arange(steps) + 0.5) / steps * 360 - 180)
    zenith = solarposition.solar_zenith_analytical(math.radians(latitude), angle, tilt)
    near = 1 + 0.033 * math.cos(2 * math.pi * day / 365)
    return 0.0820e6 / 60 * near * np.clip(np.cos(zenith), 0, None)


def sun_by_hour(latitude, day):
    """Joules on a flat square metre above the air in each hour; and in the day."""
    steps = sun_by_step(latitude, day)
    hours = steps.reshape(24, -1).mean(axis=1) * HOUR
    beyond = sun_by_spencer(latitude, day)
    if hours.sum() > 2e6 and abs(hours.sum() / beyond - 1) > 0.12:
        sys.exit(f"electric: {latitude}° on day {day}: {hours.sum():.0f} J/m², by Spencer {beyond:.0f}")
    return hours, hours.sum()


def sun_by_spencer(latitude, day):
    """The same of a day by pvlib's own declination and distance: a check that no formula is far off."""
    tilt = solarposition.declination_spencer71(day)
    angle = np.radians((np.arange(1440) + 0.5) / 4 - 180)
    zenith = solarposition.solar_zenith_analytical(math.radians(latitude), angle, tilt)
    above = get_extra_radiation(day, solar_constant=0.0820e6 / 60, method="spencer")
    return float(above * np.clip(np.cos(zenith), 0, None).mean() * 24 * HOUR)


class Spec:
    def __init__(self, chance):
        self.chance, self.lines, self.want = chance, [], {}
        self.assumed = dict(DEFAULTS)
        self.out("[build]", 'number = "E-1"', 'title = "drawn"', 'stage = "design"', "[trailer]",
                 'ball_to_box = "36 in"', 'length = "144 in"', 'width = "72 in"', 'height = "75 in"',
                 'wall = "1.5 in"', 'roof = "2 in"', 'floor_height = "20 in"', 'frame_height = "17 in"',
                 'nose = { shape = "flat" }')

    def out(self, *lines):
        self.lines.extend(lines)

    def expect(self, figure, of, value, within=1e-9, scale=None):
        self.want[(figure, of)] = Expect(value, within, scale)

    def part(self, tag, kind, fields):
        self.out("[[item]]", f'tag = "{tag}"', f'kind = "{kind}"', 'at = { front = "1 in", left = "1 in" }')
        self.out(*fields)

    def pick(self, low, high, places=0):
        return round(self.chance.uniform(low, high), places)

    def maybe(self, odds=0.5):
        return self.chance.random() < odds


def batteries(spec):
    chance = spec.chance
    series, strings = chance.choice([(1, 1), (1, 2), (2, 1), (2, 2), (1, 3)])
    volts = chance.choice([6, 12, 12.8])
    chemistry = chance.choice(["lithium iron phosphate", "flooded lead", "absorbed glass mat", "gel"])
    names, charges, currents, most, shorts = [], [], [], [], []
    knows = spec.maybe(0.9)
    for index in range(series * strings):
        tag = f"b{index}"
        charge, current, charging = spec.pick(40, 300), spec.pick(30, 200), spec.pick(10, 100)
        ohms = spec.pick(2, 15, 1)
        fields = [f'capacity = "{charge} Ah"', f'voltage = "{volts} V"', f'chemistry = "{chemistry}"',
                  f'charge_most = "{charging} A"']
        if knows:
            fields.append(f'continuous = "{current} A"')
        if spec.maybe():
            fields.append(f'resistance = "{ohms} mΩ"')
            shorts.append(volts / (ohms / 1000))
        else:
            shorts.append(spec.pick(500, 5000))
            fields.append(f'short_circuit = "{shorts[-1]} A"')
        spec.part(tag, "battery", fields)
        names.append(tag)
        charges.append(charge)
        currents.append(current)
        most.append(charging)
    voltage, charge = volts * series, min(charges) * strings
    usable = spec.assumed["usable_" + {"lithium iron phosphate": "lithium", "flooded lead": "flooded",
                                       "absorbed glass mat": "mat", "gel": "gel"}[chemistry]]
    bank = {
        "names": names, "series": series, "volts": voltage, "charge": charge * HOUR, "chemistry": chemistry,
        "energy": voltage * charge * HOUR, "usable": usable, "most": min(most) * strings,
        "short": max(shorts) * strings,
        "kept": spec.assumed["charged_lithium" if chemistry.startswith("lithium") else "charged_lead"],
    }
    of = "the bank"
    spec.expect("bank_voltage", of, voltage)
    spec.expect("bank_capacity", of, bank["charge"])
    spec.expect("bank_energy", of, bank["energy"])
    spec.expect("usable_energy", of, bank["energy"] * usable)
    spec.expect("bank_continuous", of, min(currents) * strings if knows else None)
    spec.expect("bank_charge_most", of, bank["most"])
    spec.expect("bank_short_circuit", of, bank["short"])
    spec.expect("bank_alike", of, len(set(charges)) == 1)
    spec.expect("bank_chemistry", of, chemistry)
    for tag in names:
        spec.expect("gives_off_gas", f"item `{tag}`", chemistry == "flooded lead")
    return bank


def inverter(spec):
    if spec.maybe(0.3):
        return None
    power, volts = spec.pick(300, 3000), spec.chance.choice([12, 24])
    fields = [f'power = "{power} W"', f'voltage = "{volts} V"']
    share, lowest = spec.assumed["inverter_efficiency"], spec.assumed["lowest_voltage"] * volts
    if spec.maybe():
        share = spec.pick(0.8, 0.95, 3)
        fields.append(f'efficiency = "{share * 100:.1f} %"')
    if spec.maybe():
        lowest = volts - spec.pick(0.5, 2, 1)
        fields.append(f'lowest = "{lowest} V"')
    idle = spec.pick(2, 20)
    fields.append(f'idle = "{idle} W"')
    spec.part("inv", "inverter", fields)
    of = "item `inv`"
    spec.expect("inverter_current", of, power / share / volts)
    spec.expect("inverter_current_low", of, power / share / lowest)
    spec.expect("inverter_fuse", of, power / share / lowest * spec.assumed["inverter_fuse"])
    return {"share": share, "low": power / share / lowest, "idle": idle}


def chargers(spec, bank):
    found = []
    for tag, sort in (("mains-charger", "mains"), ("road-charger", "DC to DC"), ("sun-charger", "solar")):
        if spec.maybe(0.3):
            continue
        current, volts = spec.pick(5, 60), spec.pick(13.5, 14.8, 1)
        share = spec.assumed["charger_efficiency"]
        fields = [f'sort = "{sort}"', f'current = "{current} A"', f'voltage = "{volts} V"']
        if spec.maybe():
            share = spec.pick(0.7, 0.98, 2)
            fields.append(f'efficiency = "{share * 100:.0f} %"')
        suits = spec.maybe()
        fields.append(f'charges = ["{bank["chemistry"] if suits else "gel"}"]')
        suits = suits or bank["chemistry"] == "gel"
        stands = spec.pick(25, 150)
        fields.append(f'input_most = "{stands} V"')
        spec.part(tag, "charger", fields)
        of = f"item `{tag}`"
        spec.expect("charger_current", of, float(current))
        spec.expect("charger_suits", of, suits)
        if sort != "solar":
            time = bank["energy"] * bank["usable"] / bank["kept"] / bank["volts"] / min(current, bank["most"])
            spec.expect("charge_time", of, time)
        found.append({"tag": tag, "sort": sort, "current": float(current), "share": share, "stands": stands,
                      "takes": current * volts / share, "volts": volts})
    return found


def solar(spec, bank, chargers):
    """The array's table, its day, and what its own controller gives."""
    if spec.maybe(0.3):
        return [], [], None
    controller = next((c for c in chargers if c["sort"] == "solar"), None)
    series, strings = spec.chance.choice([(1, 1), (1, 2), (2, 1), (2, 2)])
    panels, falls, rises, opens, shorts = [], [], [], [], []
    for index in range(series * strings):
        power, volts, amps = spec.pick(50, 400), spec.pick(18, 45, 1), spec.pick(3, 12, 1)
        fields = [f'power = "{power} W"', f'open_voltage = "{volts} V"', f'short_current = "{amps} A"',
                  f'working_voltage = "{volts - 4} V"']
        fall, rise = spec.assumed["power_fall"], spec.assumed["voltage_rise"]
        if spec.maybe():
            fall = spec.pick(0.2, 0.6, 2) / 100
            fields.append(f'power_fall = "{fall * 100:.2f} %"')
        if spec.maybe():
            rise = spec.pick(0.2, 0.4, 2) / 100
            fields.append(f'voltage_rise = "{rise * 100:.2f} %"')
        spec.part(f"p{index}", "solar", fields)
        panels.append(power)
        falls.append(fall)
        rises.append(rise)
        opens.append(volts)
        shorts.append(amps)
    names = ", ".join(f'"p{index}"' for index in range(len(panels)))
    table = ["[[electric.array]]", f"panels = [{names}]", f"series = {series}"]
    of = "the array on `p0`"
    share = spec.assumed["charger_efficiency"]
    if controller is not None:
        table.append(f'controller = "{controller["tag"]}"')
        of, share = f"the array on `{controller['tag']}`", controller["share"]
    cold = spec.assumed["coldest"] - 273.15
    spec.expect("array_power", of, float(sum(panels)))
    spec.expect("array_short_current", of, max(shorts) * strings)
    spec.expect("array_cold_voltage", of,
                max(series * v * (1 + r * (25 - cold)) for v, r in zip(opens, rises)))
    spec.expect("array_charge", of, sum(panels) / bank["volts"])
    spec.expect("controller_voltage_most", of, None if controller is None else float(controller["stands"]))
    hot = spec.assumed["panel_temperature"] - 273.15
    losses = spec.assumed["solar_losses"]
    watts = sum(pvsystem.pvwatts_dc(1000, hot, p, -f) for p, f in zip(panels, falls)) * (1 - losses) * share
    own = sum(panels) / bank["volts"] if controller is None else None
    return table, [watts], own


def uses(spec, bank, inverter):
    tables, profile, all_of_it = [], np.zeros(24), []
    on_inverter = np.zeros(24)
    for index in range(spec.chance.randint(0, 4)):
        name = f"use {index}"
        power, count, hours = spec.pick(1, 200, 1), spec.chance.randint(1, 4), spec.pick(0.25, 24, 2)
        table = ["[[electric.use]]", f'what = "{name}"', f'power = "{power} W"', f'hours = "{hours} h"']
        if count > 1:
            table.append(f"count = {count}")
        duty = 1.0
        if spec.maybe(0.4):
            duty = spec.pick(5, 95) / 100
            table.append(f'duty = "{duty * 100:.0f} %"')
        on = np.full(24, hours / 24)
        if spec.maybe(0.7):
            start = spec.chance.randint(0, 23)
            table.append(f"from_hour = {start}")
            seconds = np.zeros(24 * 3600)
            seconds[(start * 3600 + np.arange(round(hours * 3600))) % (24 * 3600)] = 1
            on = seconds.reshape(24, -1).mean(axis=1)
        through = inverter is not None and spec.maybe(0.4)
        share = inverter["share"] if through else 1.0
        if through:
            table.append('through = "inv"')
            on_inverter = np.maximum(on_inverter, on)
        spec.expect("use_energy", f"use `{name}`", power * count * duty * hours * HOUR / share)
        profile += power * count * duty / share * on * HOUR
        all_of_it.append({"name": name, "power": power * count, "through": through})
        tables += table
    if on_inverter.any():
        profile += inverter["idle"] * on_inverter * HOUR
    load = sum(u["power"] for u in all_of_it if not u["through"]) / bank["volts"]
    if inverter is not None:
        load += inverter["low"]
    if all_of_it or inverter is not None:
        spec.expect("bank_load", "the bank", load)
        spec.expect("discharge_rate", "the bank", load / bank["charge"])
    if all_of_it:
        day = float(profile.sum())
        spec.expect("daily_use", "the build", day)
        spec.expect("days_of_autonomy", "the bank", bank["energy"] * bank["usable"] / day * 24 * HOUR)
    else:
        spec.expect("daily_use", "the build", None)
    return tables, profile, all_of_it


def follow(spec, bank, profile, sun, days, of, within):
    """The bank hour by hour from full."""
    now = lowest = bank["energy"]
    reserve, passed = bank["energy"] * (1 - bank["usable"]), None
    hour = round(spec.assumed["arrival"] / HOUR)
    for step in range(days * 24):
        over = sun[(hour + step) % 24] - profile[(hour + step) % 24]
        change = over * bank["kept"] if over > 0 else over
        after = min(max(now + change, 0.0), bank["energy"])
        if passed is None and now >= reserve > after:
            passed = (step + (now - reserve) / abs(change)) * HOUR
        now, lowest = after, min(lowest, after)
    near = abs(lowest - reserve) < 1e-6 * bank["energy"]
    spec.expect("lowest_charge", of, lowest / bank["energy"], within, 1.0)
    spec.expect("charge_at_end", of, now / bank["energy"], within, 1.0)
    if not near:
        spec.expect("hours_to_reserve", of, passed, within, 24 * HOUR)


def gauge_text(gauge):
    return f"{NAMES.get(gauge, gauge)} AWG"


def wire(spec):
    """A wire's table, its section, and the row of the tables that it counts as."""
    chance = spec.chance
    if spec.maybe(0.2):
        metric = chance.choice([1, 1.5, 2.5, 4, 6, 10, 16, 25, 35, 50, 70])
        rows = [gauge for gauge in GAUGES if metric * 1e-6 >= area(gauge) * 0.999]
        return f"{metric} mm²", metric * 1e-6, rows[-1] if rows else None, False
    gauge = chance.choice(GAUGES)
    return gauge_text(gauge), area(gauge), gauge, True


class Circuit:
    def __init__(self, spec, name, source, volts, before=None, short=None):
        self.spec, self.name, self.volts, self.before = spec, name, volts, before
        self.of = f"circuit `{name}`"
        self.table = ["[[electric.circuit]]", f'name = "{name}"', f'from = "{source}"']
        chance = spec.chance
        text, self.out, self.row, gauged = wire(spec)
        self.table.append(f'gauge = "{text}"')
        self.back, self.mixed = self.out, False
        self.nominal = self.out
        sae = gauged and spec.maybe(0.2)
        if sae:
            self.table.append('mils = "SAE"')
            self.out = self.back = SAE[self.row] * CMIL
        elif spec.maybe(0.2):
            text, self.back, row, _ = wire(spec)
            self.table.append(f'return_gauge = "{text}"')
            self.mixed = abs(self.back / self.out - 1) > 1e-9
            if self.back < self.out:
                self.row = row
        self.length = spec.pick(1, 40, 1) * FOOT
        self.table.append(f'length = "{self.length / FOOT:.1f} ft"')
        self.insulation = chance.choice(list(NEC))
        self.table.append(f'insulation = "{self.insulation}"')
        self.wires = 2
        if spec.maybe(0.3):
            self.wires = chance.randint(2, 50)
            self.table.append(f"bundled = {self.wires}")
        self.critical = True
        if spec.maybe():
            self.critical = spec.maybe()
            self.table.append(f"critical = {str(self.critical).lower()}")
        self.fuse = None
        self.from_bank = source == "bank"
        if spec.maybe(0.75):
            self.fuse, self.at = float(spec.pick(2, 250)), spec.pick(1, 90, 1)
            self.sheathed = spec.maybe()
            self.table += [f'fuse = "{self.fuse} A"', f'fuse_at = "{self.at} in"', 'interrupts = "5000 A"']
            if self.sheathed:
                self.table.append("sheathed = true")
        self.short = short

    def ohms(self, hot=True):
        assumed = self.spec.assumed
        rise = 1 + 0.00393 * (assumed["wire_temperature"] - 293.15) if hot else 1
        lay = 1 + assumed["stranding"] if hot else 1
        return 1.7241e-8 * self.length * (1 / self.out + 1 / self.back) * lay * rise

    def allowed(self):
        table = NEC[self.insulation]
        if self.row not in table:
            return None
        limit = 333.15 + {"60 °C": 0, "75 °C": 15, "90 °C": 30, "105 °C": 45}[self.insulation]
        return table[self.row] * self.left(limit)

    def left(self, limit):
        company = next(f for most, f in COMPANY[self.insulation == "105 °C"] if self.wires <= most)
        return math.sqrt((limit - self.spec.assumed["ambient"]) / (limit - 303.15)) * company

    def chain(self):
        at = self
        while at is not None:
            yield at
            at = at.before

    def needed(self, load):
        limit = 333.15 + {"60 °C": 0, "75 °C": 15, "90 °C": 30, "105 °C": 45}[self.insulation]
        share = self.spec.assumed["drop_critical" if self.critical else "drop_other"]
        room = share * self.volts - sum(c.load * c.ohms() for c in self.chain() if c is not self)
        if room <= 0:
            return None
        assumed = self.spec.assumed
        rise = 1 + 0.00393 * (assumed["wire_temperature"] - 293.15)
        least = 2 * self.length * load * 1.7241e-8 * (1 + assumed["stranding"]) * rise / room
        table, left = NEC[self.insulation], self.left(limit)
        found = [g for g in GAUGES if g in table and area(g) >= least and table[g] * left >= load]
        return area(found[0]) if found else None

    def finish(self, load, stated=False):
        self.load = load
        spec, of = self.spec, self.of
        if stated:
            self.table.append(f'current = "{load} A"')
        lost = load * self.ohms()
        total = sum(c.load * c.ohms() for c in self.chain())
        thinner = min(self.out, self.back)
        spec.expect("circuit_voltage", of, self.volts)
        spec.expect("circuit_load", of, load)
        spec.expect("wire_resistance", of, self.ohms())
        spec.expect("voltage_drop", of, lost)
        spec.expect("voltage_drop_total", of, total)
        spec.expect("voltage_drop_share", of, total / self.volts)
        spec.expect("critical_circuit", of, self.critical)
        spec.expect("voltage_drop_allowed", of, spec.assumed["drop_critical" if self.critical else "drop_other"])
        spec.expect("voltage_drop_round_trip", of, 10.75 * load * 2 * self.length / FOOT / (thinner / CMIL))
        spec.expect("voltage_drop_one_way", of, 2 * 12.9 * load * self.length / FOOT / (thinner / CMIL))
        spec.expect("voltage_drop_metric", of, 2 * self.length * load / (56 * thinner * 1e6))
        most = self.allowed()
        spec.expect("ampacity", of, most)
        spec.expect("load_to_ampacity", of, None if most is None else load / most)
        spec.expect("gauge_needed", of, self.needed(load))
        spec.expect("fuse_most_next_size", of, None if most is None else 1.5 * most)
        own = next((g for g in reversed(GAUGES) if self.nominal >= area(g) * 0.999), None)
        small = OVERCURRENT.get(own) if self.insulation != "105 °C" else None
        spec.expect("fuse_most", of, None if most is None else min(most, small) if small else most)
        spec.expect("low_voltage_most", of, float(PARK_TRAILER[own]) if own in PARK_TRAILER else None)
        guard = next((c for c in self.chain() if c.fuse is not None), None)
        spec.expect("fused", of, self.fuse is not None)
        spec.expect("guarded", of, guard is not None)
        spec.expect("guarding_fuse", of, None if guard is None else guard.fuse)
        spec.expect("fuse_to_ampacity", of, None if guard is None or most is None else guard.fuse / most)
        spec.expect("fuse_to_load", of, None if guard is None or load == 0 else guard.fuse / load)
        mixed = self.mixed or (self.fuse is None and self.before is not None
                               and abs(self.before.nominal / self.nominal - 1) > 1e-9)
        spec.expect("wire_sizes_mixed", of, mixed)
        spec.expect("fuse_distance", of, None if self.fuse is None else self.at * INCH)
        if self.fuse is None:
            spec.expect("fuse_distance_most", of, None)
        else:
            spec.expect("fuse_distance_most", of,
                        (7 if not self.sheathed else 72 if self.from_bank else 40) * INCH)
            if self.short is not None:
                source = self.spec_bank_volts / self.short
                before = sum(c.ohms(hot=False) for c in self.chain() if c is not self)
                spec.expect("fault_current", of, self.spec_bank_volts / (source + before))


def circuits(spec, bank, inverter, chargers, uses):
    made = []

    def new(name, source, volts, before=None, short=None):
        circuit = Circuit(spec, name, source, volts, before, short)
        circuit.spec_bank_volts = bank["volts"]
        made.append(circuit)
        return circuit

    branches = [u for u in uses if not u["through"]]
    if branches:
        panel = new("panel", "bank", bank["volts"], None, bank["short"])
        panel.load = sum(u["power"] for u in branches) / bank["volts"]
        for index, use in enumerate(branches):
            branch = new(f"branch {index}", "panel", bank["volts"], panel, bank["short"])
            branch.table.append(f'to = "{use["name"]}"')
            branch.finish(use["power"] / bank["volts"])
        panel.finish(sum(u["power"] for u in branches) / bank["volts"])
    if inverter is not None:
        heavy = new("heavy", "bank", bank["volts"], None, bank["short"])
        heavy.table.append('to = "inv"')
        heavy.finish(inverter["low"])
    for charger in chargers:
        if charger["sort"] == "mains":
            lead = new("lead", "bank", bank["volts"], None, bank["short"])
            lead.table.append(f'to = "{charger["tag"]}"')
            lead.finish(charger["current"])
        elif charger["sort"] == "DC to DC":
            volts = spec.assumed["alternator_voltage"]
            line = new("line", "tow vehicle", volts)
            line.table.append(f'to = "{charger["tag"]}"')
            under = volts**2 - 4 * line.ohms() * charger["takes"]
            if under < 0.01:
                made.remove(line)
                continue
            # By fixed-point steps rather than by the formula for squares.
            end = volts
            for _ in range(20000):
                end = volts - charger["takes"] / end * line.ohms()
            line.finish(charger["takes"] / end)
            spec.expect("line_voltage", line.of, end)
    if spec.maybe():
        plain = new("plain", "bank", bank["volts"], None, bank["short"])
        plain.finish(spec.pick(0.5, 40, 1), stated=True)
    ends = {line.split('"')[1] for circuit in made for line in circuit.table if line.startswith("to = ")}
    for charger in chargers:
        spec.expect("has_circuit", f"item `{charger['tag']}`", charger["tag"] in ends)
    for use in branches:
        spec.expect("has_circuit", f"use `{use['name']}`", True)
    return [line for circuit in made for line in circuit.table]


def mains(spec, chargers):
    if spec.maybe():
        if any(c["sort"] == "mains" for c in chargers):
            spec.expect("mains_load", "the mains side", None)
        return []
    load, inlet = spec.pick(0, 3000), spec.chance.choice([15, 20, 30])
    open_outlets = [spec.maybe() for _ in range(spec.chance.randint(0, 3))]
    taken = load + sum(c["takes"] for c in chargers if c["sort"] == "mains")
    of = "the mains side"
    spec.expect("mains_load", of, taken / 120)
    spec.expect("mains_to_inlet", of, taken / 120 / inlet)
    spec.expect("inlet", of, float(inlet))
    names = [f"outlet `o{index}`" for index, gfci in enumerate(open_outlets) if not gfci]
    spec.expect("outlets_without_gfci", of, names if open_outlets else None)
    lines = ["[electric.mains]", 'voltage = "120 V"', f'inlet = "{inlet} A"', f'load = "{load} W"']
    if spec.maybe():
        lines.append('bond = "8 AWG"')
        spec.expect("frame_bond", of, area(8))
    else:
        spec.expect("frame_bond", of, None)
    for index, gfci in enumerate(open_outlets):
        lines += ["[[electric.mains.outlet]]", f'name = "o{index}"', f"gfci = {str(gfci).lower()}"]
    return lines


def draw(chance):
    spec = Spec(chance)
    restated = {}
    for name, low, high, unit, si in (
        ("sunshine", 10, 95, "%", lambda x: x / 100), ("ambient", 15, 55, "°C", lambda x: x + 273.15),
        ("coldest", -40, 5, "°C", lambda x: x + 273.15), ("stranding", 0, 5, "%", lambda x: x / 100),
        ("arrival", 0, 23, "h", lambda x: x * HOUR), ("usable_lithium", 60, 100, "%", lambda x: x / 100),
        ("alternator_voltage", 13, 15, "V", float), ("wire_temperature", 20, 80, "°C", lambda x: x + 273.15),
    ):
        if spec.maybe(0.3):
            value = chance.randint(low, high)
            restated[name] = f"{value} {unit}"
            spec.assumed[name] = si(value)
    bank = batteries(spec)
    inv = inverter(spec)
    all_chargers = chargers(spec, bank)
    array, watts, own_controller = solar(spec, bank, all_chargers)
    use_tables, profile, all_uses = uses(spec, bank, inv)
    tables = circuits(spec, bank, inv, all_chargers, all_uses)
    days = chance.randint(1, 5)
    latitude = spec.pick(-60, 60, 1)
    months = chance.sample(range(1, 13), 2)
    if all_uses:
        follow(spec, bank, profile, np.zeros(24), days, "without sun", 1e-9)
    if array:
        for month in months:
            of = f"month `{MONTHS[month - 1]}`"
            hours, whole = sun_by_hour(latitude, day_of(month))
            full = (0.25 + 0.50 * spec.assumed["sunshine"]) * whole / 1000
            spec.expect("sun_hours", of, full, 1e-6, HOUR)
            spec.expect("solar_yield", of, full * watts[0], 1e-6, HOUR * watts[0])
            if all_uses:
                spec.expect("solar_to_use", of, full * watts[0] / profile.sum(), 1e-6, 1 + full * watts[0] / profile.sum())
                follow(spec, bank, profile, hours / whole * full * watts[0], days, of, 1e-5)
    running = {sort: sum(c["current"] for c in all_chargers if c["sort"] == sort)
               for sort in ("mains", "DC to DC", "solar")}
    if all_chargers or array:
        current = max(running["mains"], running["DC to DC"]) + running["solar"] + (own_controller or 0)
        spec.expect("charge_current", "the bank", current)
        spec.expect("charge_rate", "the bank", current / bank["charge"])
    spec.out("[electric]", f'latitude = "{latitude} °"', f"days = {days}", "disconnect = true",
             f'months = ["{MONTHS[months[0] - 1]}", "{MONTHS[months[1] - 1]}"]')
    spec.expect("disconnect", "the bank", True)
    names = ", ".join(f'"{tag}"' for tag in bank["names"])
    spec.out("[electric.bank]", f"batteries = [{names}]", f"series = {bank['series']}")
    spec.out(*array, *use_tables, *tables, *mains(spec, all_chargers))
    if restated:
        spec.out("[assume.electric]", *(f'{name} = "{value}"' for name, value in restated.items()))
    return "\n".join(spec.lines) + "\n", spec.want


if __name__ == "__main__":
    losses = pvsystem.pvwatts_losses() / 100
    if abs(losses - DEFAULTS["solar_losses"]) > 1e-6:
        sys.exit("electric: the losses that are assumed are not PVWatts' own")
    main("electric", draw, least=60)
