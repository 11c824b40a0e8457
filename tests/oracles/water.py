"""Works tanks and their use out again over random specs and compares with `pintle figures --of water`.

    python3 tests/oracles/water.py [--count 300] [--seed 118] [--pintle PATH]
    python3 tests/oracles/water.py --self-test

Where the water runs to is the centroid of a tank's outline cut by a half plane (`shapely`), the plane set by bisection so
that as much water is below it as before (`scipy`); no formula of the tool is used. What water weighs is held, within
0.3 %, against its density from `CoolProp` between 4 °C and 20 °C before anything else is compared.
"""

import math
import sys

import scipy.optimize
import shapely
from CoolProp.CoolProp import PropsSI

import figures
from figures import Expect

IN, LB, GAL, LITRE, DAY = 0.0254, 0.45359237, 231 * 0.0254**3, 1e-3, 86_400.0
WATER = 8.34 * LB / GAL

for kelvin in (277.15, 288.71, 293.15):
    if abs(WATER / PropsSI("D", "T", kelvin, "P", 101_325, "Water") - 1) > 0.003:
        sys.exit("8.34 lb/gal is not what water weighs")


def run(length, height, filled, slope):
    """Where the centre of the water goes: along, towards the deep end, and up."""
    if filled <= 0 or filled >= height:
        return 0.0, 0.0
    tank, far = shapely.box(0, 0, length, height), 10 * (length + height) * (1 + slope)

    def below(at):
        return tank.intersection(shapely.Polygon([(-far, at + slope * far), (far, at - slope * far), (far, -10 * far), (-far, -10 * far)]))

    wanted = filled * length
    at = scipy.optimize.brentq(lambda at: below(at).area - wanted, -1e-9, height + slope * length + 1e-9, xtol=1e-13, rtol=1e-15)
    centre = below(at).centroid
    return length / 2 - centre.x, centre.y - filled / 2


def draw(chance):
    q = lambda low, high: chance.randint(int(low * 4), int(high * 4)) / 4
    want, text = {}, []
    mass, cg, axle, gvwr = chance.randint(900, 2500), q(70, 110), q(90, 130), chance.randint(2000, 4000)
    slope, back, ice = chance.randint(5, 60), chance.randint(40, 100), chance.randint(80, 100) / 10
    each = {"drinking": chance.randint(2, 8) / 4, "dishes": chance.randint(0, 4) / 4, "washing": chance.randint(0, 4) / 4}
    shower = chance.randint(2, 16) / 4
    people, showers = chance.randint(1, 5), chance.randint(0, 4)
    stated, flow, days = chance.random() < 0.3, chance.randint(2, 20) / 4, chance.randint(1, 7)
    used = chance.randint(4, 80) / 4
    winter = chance.random() < 0.5
    text.append(f"""
[build]
number = "W-1"
title = "drawn by chance"
stage = "design"

[people]
count = {people}
mass = "170 lb"

[trailer]
mass = "{mass} lb"
gvwr = "{gvwr} lb"
ball_to_box = "36 in"
length = "144 in"
width = "72 in"
height = "75 in"
wall = "1.5 in"
roof = "2 in"
floor_height = "20 in"
frame_height = "17 in"
nose = {{ shape = "flat" }}
cg = {{ ball = "{cg} in", centre = "0 in", ground = "30 in" }}
axle = {{ ball = "{axle} in", count = 1, track = "70 in" }}

[assume.water]
slosh = "{slope} %"
return = "{back} %"
ice = "{ice} %"
shower = "{shower} gal"
""" + "".join(f'{key} = "{value} gal"\n' for key, value in each.items()) + f"""
[water]
showers = {showers}
days = "{days} d"
winter = {"true" if winter else "false"}
pump = {{ flow = "{flow} gpm" }}
{f'use = "{used} gal"' if stated else ""}
""")
    boxes = []
    for number in range(chance.randint(0, 2)):
        x, y, z = q(36, 140), q(-30, 20), q(20, 60)
        boxes.append((x, y, z))
        text.append(f"""
[[item]]
tag = "battery-{number}"
kind = "battery"
mass = "0 lb"
length = "10 in"
width = "8 in"
height = "9 in"
at = {{ ball = "{x} in", left = "{y + 36} in", ground = "{z} in" }}
""")
    tanks = []
    for number in range(chance.randint(1, 4)):
        metric = chance.random() < 0.3
        one = {"tag": f"tank-{number}", "holds": chance.choice(["fresh", "fresh", "grey", "black"]),
               "length": q(8, 60), "width": q(8, 30), "height": q(4, 20), "own": chance.randint(1, 30), "metric": metric,
               "capacity": chance.randint(10, 200) * LITRE if metric else chance.randint(8, 200) / 4 * GAL,
               "baffles": chance.choice([0, 0, 1, 2]), "x": q(36, 150), "left": q(0, 30), "under": chance.random() < 0.3,
               "removable": chance.random() < 0.4, "frost": chance.choice(["drained", "heated", "insulated", "nothing"])}
        one["z"] = q(6, 10) if one["under"] else 20.0
        if one["under"]:
            one["height"] = q(4, 10)  # it hangs below the floor, at 20 in
        bounds = sorted((chance.randint(0, 100), chance.randint(0, 100))) if chance.random() < 0.4 else None
        one["bounds"] = bounds
        one["fill"] = chance.choice([0, 100, chance.randint(1, 99)]) if bounds is None else chance.randint(*bounds)
        tanks.append(one)
        amount = f"{round(one['capacity'] / LITRE)} L" if metric else f"{one['capacity'] / GAL} gal"
        y_text = f'left = "{one["left"] + 1.5} in"' if one["under"] else f'left = "{one["left"]} in"'
        text.append(f"""
[[tank]]
tag = "{one['tag']}"
holds = "{one['holds']}"
mass = "{one['own']} lb"
length = "{one['length']} in"
width = "{one['width']} in"
height = "{one['height']} in"
capacity = "{amount}"
baffles = {one['baffles']}
frost = "{one['frost']}"
removable = {"true" if one['removable'] else "false"}
{'zone = "underside"' if one["under"] else ""}
at = {{ ball = "{one['x']} in", {y_text}{f', ground = "{one["z"]} in"' if one["under"] else ', floor = "0 in"'} }}
{f'on_road = {{ least = "{bounds[0]} %", most = "{bounds[1]} %" }}' if bounds else ""}
""")
    fills = ", ".join(f'{one["tag"]} = "{one["fill"]} %"' for one in tanks)
    text.append(f'[[state]]\nname = "out"\nuse = "road"\nfill = {{ {fills} }}\n')
    # All together.
    total = lambda which: sum(one["capacity"] for one in tanks if one["holds"] == which)
    fresh, grey = total("fresh"), total("grey")
    day = used * GAL if stated else (people * sum(each.values()) + showers * shower) * GAL
    build = "the build"
    want["fresh_capacity", build], want["grey_capacity", build] = Expect(fresh, 1e-9, GAL), Expect(grey, 1e-9, GAL)
    want["grey_to_fresh", build] = Expect(grey / fresh if fresh else None, 1e-9, 1.0)
    want["label_water", build] = Expect(sum(
        one["capacity"] / LITRE if one["metric"] else one["capacity"] / GAL * 8.3 * LB
        for one in tanks if one["holds"] == "fresh"), 1e-9, LB)
    want["use_per_day", build] = Expect(day)
    want["days_of_water", build] = Expect(fresh / day * DAY, 1e-9, DAY)
    want["days_of_grey", build] = Expect(grey / (day * back / 100) * DAY, 1e-9, DAY)
    want["water_for_stay", build] = Expect(day * days)
    want["pump_time", build] = Expect(fresh / (flow * GAL / 60), 1e-9, 60.0)
    # The state, and each tank moved in it.
    state = "state `out`"

    def weigh(fill):
        """Gross weight and the weight on the ball, by levers about the axle."""
        bodies = [(mass, cg)]
        for one, share in zip(tanks, fill):
            at = one["x"] + one["length"] / 2
            bodies += [(one["own"], at), (one["capacity"] * share * WATER / LB, at)]
        return sum(w for w, _ in bodies), sum(w * (axle - x) for w, x in bodies) / axle

    as_is = [one["fill"] / 100 for one in tanks]
    gross, tongue = weigh(as_is)
    change, part_full, worst_of_all, worst_fills = 0.0, False, 0.0, []
    want["water_aboard", state] = Expect(sum(one["capacity"] * f * WATER for one, f in zip(tanks, as_is)), 1e-9, LB)
    full = weigh([1.0] * len(tanks))[0]
    want["gross_all_full", state] = Expect(full * LB)
    want["left_all_full", state] = Expect((gvwr - full) * LB, 1e-9, gvwr * LB)
    for number, (one, fill) in enumerate(zip(tanks, as_is)):
        of, called = f"tank `{one['tag']}` in {state}", f"tank `{one['tag']}`"
        parts = one["baffles"] + 1
        shares = []
        for end in (1.0, 0.0):
            w, t = weigh([end if other == number else f for other, f in enumerate(as_is)])
            shares.append(t / w)
        want["tank_swing", of] = Expect(shares[0] - shares[1], 1e-9, 1.0)
        if 0 < fill < 1:
            part_full = True
            along, rise = run(one["length"] / parts, one["height"], fill * one["height"], slope / 100)
            want["slosh_shift", of] = Expect(along * IN, 1e-7, one["length"] * IN)
            want["slosh_rise", of] = Expect(rise * IN, 1e-7, one["height"] * IN)
            change += one["capacity"] * fill * WATER / LB * along / axle / gross
        low, high = (one["bounds"] or (0, 100))
        # The worst of many fills, and then of many near it.
        moment = lambda f: one["capacity"] * f * WATER * run(one["length"] / parts, one["height"], f * one["height"], slope / 100)[0] * IN
        tried = [low / 100 + (high - low) / 100 * k / 24 for k in range(25)]
        if low <= 50 <= high:
            tried.append(0.5)
        worst = max(map(moment, tried))
        worst_of_all += worst / LB / IN
        worst_fills.append(min(max(low / 100, 0.5), high / 100))
        want["slosh_moment", called] = Expect(worst, 1e-6, one["capacity"] * WATER * one["length"] * IN)
        want["water_full", called] = Expect(one["capacity"] * WATER)
        want["behind_axle", called] = Expect((one["x"] + one["length"] / 2 - axle) * IN, 1e-9, IN)
        want["fill_before_frost", called] = Expect(1 / (1 + ice / 100))
        want["could_freeze", called] = Expect(winter and one["under"] and one["frost"] in ("insulated", "nothing"))
        if one["removable"]:
            want["can_lift", called] = Expect(one["capacity"] * WATER + one["own"] * LB)
            want["lift_height", called] = Expect(one["z"] * IN)
        left = -36 + one["left"]
        here = ((one["x"], one["x"] + one["length"]), (left, left + one["width"]), (one["z"], one["z"] + one["height"]))
        gaps = []
        for x, y, z in boxes:
            apart = [max(a - d, c - b, 0) for (a, b), (c, d) in zip(here, ((x, x + 10), (y, y + 8), (z, z + 9)))]
            gaps.append(math.hypot(*apart))
        want["battery_gap", called] = Expect(min(gaps) * IN if gaps else None, 1e-9, IN)
    share = tongue / gross
    want["slosh_worst", state] = Expect(worst_of_all / axle / weigh(worst_fills)[0], 1e-9, 1.0)
    for key, value in (("slosh_change", change), ("share_ahead", share + change), ("share_aft", share - change)):
        want[key, state] = Expect(value if part_full else None, 1e-9, 1.0)
    return "\n".join(text), want


if __name__ == "__main__":
    figures.main("water", draw, count=300, least=25.0)
