"""Works out again, with the pint library, what the quantity crate makes of units and texts.

    cargo run -q -p pintle-quantity --example quantity_table | python3 tests/oracles/quantity_pint.py

Reads one JSON object a line on stdin: kind "unit" with a unit's name, a value and its SI value, or
kind "text" with a quantity as written and its SI value. The texts are read here by a grammar of our
own on exact fractions, not by the crate's. Exits 1 where the two differ, where a unit of the crate
has no counterpart here, or where a counterpart here is no longer in the crate.
"""

import json
import math
import re
import sys
import unicodedata
from fractions import Fraction

import pint

EXACT = 1e-12
# pint rounds the British thermal unit to 1055.056 J, as NIST SP 811 prints it; the crate takes the
# definition it is rounded from, 1055.05585262 J. The two are 1.4e-7 apart.
ROUNDED_BTU = 5e-7

# Our name: pint's expression for one of it.
COUNTERPARTS = {
    "in": "inch", "ft": "foot", "yd": "yard", "mi": "mile",
    "mm": "millimeter", "cm": "centimeter", "m": "meter", "km": "kilometer",
    "in²": "inch**2", "ft²": "foot**2", "mm²": "millimeter**2", "cm²": "centimeter**2", "m²": "meter**2",
    "cmil": "circular_mil", "kcmil": "kilocircular_mil",
    "in³": "inch**3", "ft³": "foot**3", "gal": "gallon", "qt": "quart", "pt": "pint", "fl oz": "fluid_ounce",
    "mL": "milliliter", "cm³": "centimeter**3", "L": "liter", "m³": "meter**3",
    "lb": "pound", "oz": "ounce", "ton": "short_ton", "g": "gram", "kg": "kilogram", "t": "metric_ton",
    "lb/ft²": "pound/foot**2", "oz/yd²": "ounce/yard**2", "kg/m²": "kilogram/meter**2", "g/m²": "gram/meter**2",
    "lb/ft": "pound/foot", "kg/m": "kilogram/meter", "lb/h": "pound/hour", "kg/h": "kilogram/hour",
    "lb/gal": "pound/gallon", "lb/ft³": "pound/foot**3", "kg/L": "kilogram/liter", "kg/m³": "kilogram/meter**3",
    "lbf": "force_pound", "N": "newton", "kN": "kilonewton", "lbf/in": "force_pound/inch", "N/mm": "newton/millimeter",
    "lb·in": "pound*inch", "lb·ft": "pound*foot", "kg·m": "kilogram*meter",
    "in⁴": "inch**4", "cm⁴": "centimeter**4",
    "lb·ft²": "pound*foot**2", "kg·m²": "kilogram*meter**2", "lbf/°": "force_pound/degree", "N/rad": "newton/radian",
    "/°": "1/degree", "/rad": "1/radian",
    "lbf·ft": "force_pound*foot", "lbf·in": "force_pound*inch", "N·m": "newton*meter",
    "psi": "psi", "psf": "force_pound/foot**2", "inH2O": "inH2O", "Pa": "pascal", "kPa": "kilopascal",
    "MPa": "megapascal", "bar": "bar", "mbar": "millibar", "mmHg": "mmHg",
    "Wh": "watt*hour", "kWh": "kilowatt*hour", "J": "joule", "kJ": "kilojoule", "MJ": "megajoule",
    "Btu": "Btu", "Btu/lb": "Btu/pound", "MJ/kg": "megajoule/kilogram",
    "W": "watt", "kW": "kilowatt", "Btu/h": "Btu/hour", "hp": "horsepower",
    "mA": "milliampere", "A": "ampere", "mAh": "milliampere*hour", "Ah": "ampere*hour",
    "mV": "millivolt", "V": "volt", "kV": "kilovolt", "mΩ": "milliohm", "Ω": "ohm", "kΩ": "kiloohm",
    "mΩ/ft": "milliohm/foot", "mΩ/m": "milliohm/meter",
    "s": "second", "min": "minute", "h": "hour", "d": "day", "wk": "week", "Hz": "1/second", "/h": "1/hour",
    "mph": "mile/hour", "ft/s": "foot/second", "fpm": "foot/minute", "km/h": "kilometer/hour", "m/s": "meter/second",
    "m/s²": "meter/second**2", "ft/s²": "foot/second**2",
    "cfm": "foot**3/minute", "gpm": "gallon/minute", "gal/h": "gallon/hour",
    "L/s": "liter/second", "L/min": "liter/minute", "L/h": "liter/hour", "m³/h": "meter**3/hour",
    "°F": "degF", "°C": "degC", "K": "kelvin",
    "°": "degree", "rad": "radian", "%": "percent", "ppm": "ppm", "$": "dollar",
}

# The SI unit behind a dimension's noun, so that the crate's dimensions are checked as well.
SI = {
    "a share": "dimensionless", "a length": "m", "an area": "m**2", "a volume": "m**3", "a mass": "kg", "a time": "s",
    "a current": "A", "a temperature": "K", "an angle": "radian", "a price": "dollar", "a force": "N",
    "an energy or torque": "J", "a pressure": "Pa", "a power": "W", "a charge": "A*s", "a voltage": "V",
    "a resistance": "ohm", "a speed": "m/s", "an acceleration": "m/s**2", "a flow": "m**3/s", "a density": "kg/m**3",
    "a moment": "kg*m", "a rate": "1/s", "a mass per area": "kg/m**2", "a mass per length": "kg/m",
    "a mass per time": "kg/s", "a spring rate": "N/m", "a resistance per length": "ohm/m", "an energy per mass": "J/kg",
    "a second moment of area": "m**4", "a moment of inertia": "kg*m**2", "a force per angle": "N/radian", "a share per angle": "1/radian",
}

ureg = pint.UnitRegistry()
ureg.define("dollar = [money]")

PART = re.compile(
    r"(?P<whole>[\d,]*\.?\d+(?![\d/]))?(?:[ -]?(?P<above>\d+)/(?P<below>\d+))?(?P<vulgar>[½¼¾⅛⅜⅝⅞⅓])?"
    r"\s*(?P<unit>'|\"|[^\d\s'\"½-]+)\s*"
)


def in_si(value, name, dimension):
    quantity = ureg.Quantity(float(value), COUNTERPARTS[name])
    return quantity.to(SI[dimension]).magnitude


def wire_area(text):
    """ASTM B258: d = 0.005 in * 92**((36 - n) / 39)."""
    number = text.split(" ")[0]
    n = 1 - int(number.split("/")[0]) if "/" in number else int(number)
    diameter = 0.127e-3 * math.exp(math.log(92.0) * (36 - n) / 39)
    return math.pi * diameter**2 / 4


def read(text, dimension):
    if text.endswith(" AWG"):
        return wire_area(text)
    sign, rest = (-1, text[1:]) if text.startswith("-") else (1, text)
    total, at = 0.0, 0
    while at < len(rest):
        part = PART.match(rest, at)
        if part is None or part.end() == at:
            raise ValueError(f"the oracle cannot read {text!r}")
        number = Fraction(part["whole"].replace(",", "")) if part["whole"] else Fraction(0)
        if part["above"]:
            number += Fraction(int(part["above"]), int(part["below"]))
        if part["vulgar"]:
            number += Fraction(unicodedata.normalize("NFKD", part["vulgar"]).replace("\u2044", "/"))
        unit = {"'": "ft", '"': "in"}.get(part["unit"], part["unit"])
        total += in_si(number, unit, dimension)
        at = part.end()
    return sign * total


def main():
    compared, worst, faults, seen = 0, 0.0, [], {"AWG"}
    for line in sys.stdin:
        row = json.loads(line)
        text, dimension = row["text"], row["dimension"]
        if row["kind"] == "refused":
            faults.append(f"{text!r} was refused: {dimension}")
            continue
        if row["kind"] == "unit":
            seen.add(text)
            if text not in COUNTERPARTS:
                faults.append(f"unit {text!r} has no counterpart in this script")
                continue
        try:
            expected = in_si(row["value"], text, dimension) if row["kind"] == "unit" else read(text, dimension)
        except (KeyError, ValueError, pint.errors.PintError) as error:
            faults.append(f"{text!r} as {dimension}: {type(error).__name__}: {error}")
            continue
        difference = abs(row["si"] - expected) / max(abs(expected), 1e-300) if row["si"] != expected else 0.0
        rounded = "Btu" in text
        compared += 1
        if not rounded:
            worst = max(worst, difference)
        if not difference <= (ROUNDED_BTU if rounded else EXACT):
            value = "" if row["value"] is None else f"{row['value']} "
            faults.append(f"{value}{text}: the crate has {row['si']!r}, pint {expected!r}, {difference:.3g} apart")
    for name in sorted(set(COUNTERPARTS) - seen):
        faults.append(f"counterpart {name!r} is no unit of the crate")
    for fault in faults:
        print(fault)
    print(f"{compared} compared, worst relative difference {worst:.3g} (Btu family, which pint rounds, apart)")
    if faults or compared == 0:
        sys.exit(1)


main()
