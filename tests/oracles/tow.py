"""Works out again what coupler, hitch and tow vehicle carry, and compares with `pintle figures --of tow`.

    python3 tests/oracles/tow.py [--count 300] [--seed 118] [--pintle PATH] [--self-test]

Written from docs/src/calculation/tow.md and docs/src/spec-format.md alone. Axle loads are the solution of the balance of forces and
moments of vehicle and trailer as one system of linear equations, with spring bars as an unknown moment in it; the most over all
arrangements comes from writing every one of them down. Units are those of `pint`; the table of couplers is typed anew.
"""

import itertools
import math

import numpy
import pint

import figures
from figures import Expect

UNITS = pint.UnitRegistry()
LB = UNITS.Quantity(1, "pound").to("kilogram").magnitude
IN = UNITS.Quantity(1, "inch").to("meter").magnitude
LBF = UNITS.Quantity(1, "pound_force").to("newton").magnitude
RESTORES = 0.5
ANY = "any arrangement"
BUILD = "the build"

# Most gross weight, ball, along, across, upwards, downwards, each chain.
CLASSES = [
    (2000, 1.875, 6000, 2000, 2500, 2500, 2000),
    (3500, 2.0, 10500, 3000, 4500, 4500, 3500),
    (5000, 2.0, 15000, 4000, 7000, 7000, 5000),
]


def coupler_class(pounds):
    for number, row in enumerate(CLASSES, 1):
        if pounds <= row[0]:
            return number, row[1], row[2:6], row[6]
    if pounds > 10000:
        return None
    return 4, None, (3.0 * pounds, pounds, 1.3 * pounds, 1.4 * pounds), pounds


def balance(trailer, gross, centre, vehicle, moment=None, restores=None):
    """Loads of front axle, rear axle, ball and trailer axle, and the moment between the two halves, in lb and lb·in.

    Five unknowns; forces and moments of the trailer, forces and moments of the vehicle, and the bars: either their moment is
    known, or what the front axle has to have."""
    wheelbase, overhang, front, rear = vehicle
    weight = front + rear
    # x runs aft from the front axle. The vehicle's own weight lies where its axle loads say.
    own = rear * wheelbase / weight
    matrix, right = numpy.zeros((5, 5)), numpy.zeros(5)
    matrix[0] = [0, 0, 1, 1, 0]
    right[0] = gross
    # Trailer about the ball: its axle holds its weight up; the bars press its axle down, and lift the ball.
    matrix[1] = [0, 0, 0, trailer, -1]
    right[1] = gross * centre
    matrix[2] = [1, 1, -1, 0, 0]
    right[2] = weight
    # Vehicle about its front axle: weight and ball turn it tail down, the rear axle and the bars nose down.
    matrix[3] = [0, wheelbase, -(wheelbase + overhang), 0, 1]
    right[3] = weight * own
    if restores is None:
        matrix[4, 4], right[4] = 1, moment or 0.0
    else:
        plain = balance(trailer, gross, centre, vehicle)
        matrix[4, 0], right[4] = 1, plain[0] + restores * (front - plain[0])
    return numpy.linalg.solve(matrix, right)


class Rig:
    def __init__(self, chance):
        self.chance = chance
        self.mass = chance.randint(600, 4000)
        self.axle = chance.randint(90, 220)
        self.tongue = round(self.mass * chance.uniform(0.05, 0.2), 1)
        self.box = 36
        # Bodies: the empty trailer, by where its tongue weight puts it; then whatever rides along.
        self.fixed = [(self.mass, self.axle * (1 - self.tongue / self.mass))]
        self.optional, self.texts, self.tags = [], [], []
        for number in range(chance.randint(0, 4)):
            pounds, ahead, long = chance.randint(5, 400), chance.randint(0, 120), chance.randint(4, 60)
            removable = chance.random() < 0.6
            at = self.box + 1 + ahead + long / 2
            self.texts.append(
                f'[[item]]\ntag = "m{number}"\nkind = "module"\nmass = "{pounds} lb"\nlength = "{long} in"\nremovable = {str(removable).lower()}\n'
                f'at = {{ front = "{ahead} in" }}\n'
            )
            if removable:
                self.optional.append([(0.0, at), (float(pounds), at)])
                self.tags.append(f"m{number}")
            else:
                self.fixed.append((pounds, at))
        self.loads = []
        for number in range(chance.randint(0, 3)):
            most, ahead = chance.randint(5, 300), chance.randint(0, 150)
            least = chance.choice([0, 0, most // 2])
            self.texts.append(
                f'[[load]]\ntag = "l{number}"\nmass = "{most} lb"\nleast = "{least} lb"\nat = {{ front = "{ahead} in", floor = "1 in" }}\n'
            )
            at = self.box + 1 + ahead
            self.optional.append([(float(least), at), (float(most), at)])
            self.loads.append((f"l{number}", least, most, at))

    def states(self):
        chance = self.chance
        for number in range(chance.randint(1, 3)):
            bodies, out, carry = list(self.fixed), [], []
            for tag, ends in zip(self.tags, self.optional):
                if chance.random() < 0.4:
                    out.append(tag)
                else:
                    bodies.append(ends[1])
            for tag, least, most, at in self.loads:
                pounds = chance.choice([least, most, chance.randint(least, most)])
                if pounds:
                    carry.append(f'{tag} = "{pounds} lb"')
                    bodies.append((pounds, at))
            name = f"s{number}"
            text = f'[[state]]\nname = "{name}"\nuse = "road"\nout = {out}\ncarry = {{ {", ".join(carry)} }}\n'.replace("'", '"')
            yield f"state `{name}`", text, self.weigh(bodies)

    def weigh(self, bodies):
        masses, places = numpy.array(bodies, dtype=float).T
        gross = masses.sum()
        centre = masses @ places / gross
        return gross, centre, gross * (self.axle - centre) / self.axle

    def any(self):
        """The most gross weight, and the gross weight and centre of what has the most on the ball."""
        weighed = [self.weigh(self.fixed + list(choice)) for choice in itertools.product(*self.optional)]
        return max(found[0] for found in weighed), max(weighed, key=lambda found: found[2])


def least_rating(ratings):
    """The least, and whose: the first of equals."""
    if any(pounds is None for _, pounds in ratings):
        return None, None
    whose, pounds = min(ratings, key=lambda rating: rating[1])
    return pounds * LB, whose


def draw(chance):
    rig = Rig(chance)
    expect = {}

    def say(key, of, value, within=1e-9, scale=None):
        expect[(key, of)] = Expect(value, within, scale)

    def maybe(*range_):
        return chance.randint(*range_) if chance.random() < 0.9 else None

    gvwr = chance.randint(2000, 9000)
    coupler = {"rating": chance.randint(1500, 9000), "tongue_rating": maybe(150, 1200)}
    jack = maybe(500, 2000)
    socket, ball = chance.randint(14, 24), chance.randint(14, 24)
    heavy_gawr = chance.randint(2000, 8000)
    wall, length = 1, chance.randint(90, 220)
    tow = {
        "rating": chance.randint(2000, 12000), "tongue_rating": chance.randint(200, 1200), "mass": chance.randint(3500, 8000),
        "aboard": maybe(100, 1500), "gvwr": chance.randint(4000, 9000),
    }
    vehicle = (chance.randint(95, 165), chance.randint(30, 70), chance.randint(1500, 4500), chance.randint(1500, 4500))
    d_coupler, d_hitch = (chance.randint(40, 200) / 10 if chance.random() < 0.5 else None for _ in range(2))
    coupler_text = ", ".join(f'{key} = "{value} lb"' for key, value in coupler.items() if value)
    coupler_text += f', height = "{socket} in"' + (f', d_value = "{d_coupler} kN"' if d_coupler else "")
    lines = [
        '[build]\nnumber = "T-1"\ntitle = "by chance"\nstage = "design"\n',
        f'[trailer]\nmass = "{rig.mass} lb"\ntongue = "{rig.tongue} lb"\ngvwr = "{gvwr} lb"\nball_to_box = "36 in"\nlength = "{length} in"\n'
        f'width = "70 in"\nheight = "75 in"\nwall = "{wall} in"\nroof = "2 in"\nfloor_height = "20 in"\nframe_height = "17 in"\n'
        f'nose = {{ shape = "flat" }}\naxle = {{ ball = "{rig.axle} in", count = 1, gawr = "{heavy_gawr} lb" }}\ncoupler = {{ {coupler_text} }}\n'
        + (f'jack = {{ rating = "{jack} lb" }}\n' if jack else ""),
        "[tow]\n" + "".join(f'{key} = "{value} lb"\n' for key, value in tow.items() if value)
        + f'ball_height = "{ball} in"\nwheelbase = "{vehicle[0]} in"\noverhang = "{vehicle[1]} in"\n'
        + f'front_axle = "{vehicle[2]} lb"\nrear_axle = "{vehicle[3]} lb"\n',
    ]
    hitch, fitted, carrying, bars = {}, None, None, None
    if chance.random() < 0.8 or d_hitch:
        fitted = chance.choice(["weight-carrying", "distributing", "distributing"])
        text = [f'fitted = "{fitted}"']
        for table, name in (("weight_carrying", "receiver"), ("distributing", "receiver"), ("ball_mount", "ball mount")):
            if chance.random() < 0.7:
                gross, tongue = chance.randint(1500, 9000), chance.randint(100, 1200)
                text.append(f'{table} = {{ gross = "{gross} lb", tongue = "{tongue} lb" }}')
                if table == "weight_carrying":
                    carrying = (gross, tongue)
                if name == "ball mount" or table.replace("_", "-") == fitted:
                    hitch[name] = (gross, tongue)
        if chance.random() < 0.5:
            stamped = chance.randint(1500, 9000)
            hitch["ball"] = (stamped, None)
            text.append(f'ball_rating = "{stamped} lb"')
        if fitted == "distributing" and chance.random() < 0.5:
            bars = (chance.randint(1, 2), chance.randint(50, 1200), chance.randint(20, 34))
            text.append(f'bars = {{ count = {bars[0]}, lift = "{bars[1]} lb", lever = "{bars[2]} in" }}')
        if d_hitch:
            text.append(f'd_value = "{d_hitch} kN"')
        lines.append("[tow.hitch]\n" + "\n".join(text) + "\n")
    on_ball = [("coupler", coupler["tongue_rating"]), ("jack", jack), ("tow vehicle", tow["tongue_rating"])]
    on_ball += [(name, pair[1]) for name, pair in hitch.items() if pair[1]]
    of_gross = [("trailer", gvwr), ("coupler", coupler["rating"]), ("tow vehicle", tow["rating"])]
    of_gross += [(name, pair[0]) for name, pair in hitch.items()]
    for key, ratings in (("tongue_limit", on_ball), ("gross_limit", of_gross)):
        pounds, whose = least_rating(ratings)
        say(key, BUILD, pounds)
        say(f"{key}_by", BUILD, whose)
    say("pitch", BUILD, math.atan2(ball - socket, rig.axle), 1e-9, 1e-3)
    found = coupler_class(gvwr)
    for key, force in zip(("pull", "side", "lift", "press"), found[2] if found else [None] * 4):
        say(f"coupler_{key}_test", BUILD, force and force * LBF)
    for key, force in zip(("first", "pull", "press", "side"), (0.47 * gvwr + 480, 0.23 * gvwr + 1530, 0.15 * gvwr, 0.2 * gvwr + 500)):
        say(f"hitch_{key}_test", BUILD, force * LBF)
    if d_coupler or d_hitch:
        t, r, c = tow["gvwr"] * LB, gvwr * LB, heavy_gawr * LB
        say("d_value", BUILD, min(value for value in (d_coupler, d_hitch) if value) * 1000)
        # D is g over the sum of the inverse masses.
        say("d_needed", BUILD, 9.81 / (1 / t + 1 / r))
        say("dc_needed", BUILD, 9.81 / (1 / t + 1 / c) if r > 3500 else None)
        say("v_needed", BUILD, 2.4 * max(1.0, (length + 2 * wall) ** 2 / rig.axle**2) * c if r > 3500 else None)
        say("s_least", BUILD, max(0.04 * r, 25.0))
        say("s_most", BUILD, min(0.1 * r, 1000.0))
    cases = []
    for of, text, weighed in rig.states():
        lines.append(text)
        cases.append((of, weighed[0], weighed))
    heaviest, on_ball = rig.any()
    cases.append((ANY, heaviest, on_ball))
    for of, gross, (own, centre, tongue) in cases:
        scale = own * LB
        found = coupler_class(gross)
        say("coupler_class", of, found and float(found[0]))
        say("ball_needed", of, found and found[1] and found[1] * IN)
        chain = found and (max(gvwr, gross) if found[0] == 4 else found[3])
        say("chain_needed", of, chain and chain * LB)
        say("combination", of, (tow["mass"] + gross) * LB)
        say("payload_used", of, tow["aboard"] and (tow["aboard"] + tongue) * LB)
        say("vehicle_gross", of, (tow["mass"] + tongue) * LB)
        front, rear, on_hitch, _, _ = balance(rig.axle, own, centre, vehicle)
        say("rear_axle_load", of, rear * LB)
        say("front_axle_load", of, front * LB)
        say("rear_axle_gain", of, (rear - vehicle[3]) * LB, 1e-9, scale)
        say("front_axle_relief", of, (vehicle[2] - front) * LB, 1e-9, scale)
        say("front_axle_share", of, front / vehicle[2])
        say("needs_distribution", of, None if carrying is None else bool(tongue > carrying[1] or gross > carrying[0]))
        if fitted is None:
            continue
        spread = [None] * 7
        if fitted == "distributing":
            if bars:
                loads = balance(rig.axle, own, centre, vehicle, moment=math.prod(bars))
            else:
                loads = balance(rig.axle, own, centre, vehicle, restores=RESTORES)
            moment = loads[4] * LB * IN
            changes = [loads[0] - vehicle[2], loads[1] - vehicle[3], loads[3] - (own - on_hitch), loads[2], loads[0], loads[1]]
            spread = [moment, *(pounds * LB for pounds in changes)]
        keys = ("bar_moment", "front_axle_change", "rear_axle_change", "trailer_axle_gain", "ball_load_distributed", "front_axle_distributed", "rear_axle_distributed")
        for key, value in zip(keys, spread):
            say(key, of, value, 1e-8 if key == "bar_moment" else 1e-9, value if value is None else max(scale, abs(value)))
    return "\n".join(lines + rig.texts), expect


if __name__ == "__main__":
    figures.main("tow", draw, least=40)
