"""Writes conversions.tsv beside this file: what the library pint (PyPI, general purpose) makes of each conversion.

    pip install pint && python tests/quantity/pint/make.py

Columns: value, unit in Cotter's spelling, other unit in Cotter's spelling, the value in it to 10 figures and at most 9 decimals.
"""
import pathlib
from decimal import Decimal

import pint

registry = pint.UnitRegistry(non_int_type=Decimal)

# Cotter's spelling: pint's expression. A row a dimension; every unit of a row converts to every other.
DIMENSIONS = [
    {"N.m": "newton*meter", "lbf.ft": "force_pound*foot", "lbf.in": "force_pound*inch", "ozf.in": "force_ounce*inch",
     "kgf.m": "force_kilogram*meter", "kgf.cm": "force_kilogram*centimeter"},
    {"mm": "millimeter", "cm": "centimeter", "m": "meter", "in": "inch", "ft": "foot", "thou": "thou", "um": "micrometer"},
    {"N": "newton", "kN": "kilonewton", "lbf": "force_pound", "kgf": "force_kilogram"},
    {"g": "gram", "kg": "kilogram", "lb": "pound", "oz": "ounce"},
    {"bar": "bar", "psi": "psi", "kPa": "kilopascal", "MPa": "megapascal", "kgf/cm2": "force_kilogram/centimeter**2",
     "atm": "atmosphere"},
    {"L": "liter", "mL": "milliliter", "US gal": "gallon", "US qt": "quart", "fl oz": "fluid_ounce",
     "UK gal": "imperial_gallon"},
    {"L/min": "liter/minute", "gpm": "gallon/minute", "m3/h": "meter**3/hour", "cfm": "foot**3/minute"},
    {"W": "watt", "kW": "kilowatt", "hp": "horsepower", "PS": "metric_horsepower"},
    {"s": "second", "min": "minute", "h": "hour"},
    {"deg": "degree", "rad": "radian", "rev": "turn"},
    {"V": "volt", "mV": "millivolt", "kV": "kilovolt"},
    {"A": "ampere", "mA": "milliampere"},
    {"ohm": "ohm", "kohm": "kiloohm", "Mohm": "megaohm"},
    {"degC": "degree_Celsius", "degF": "degree_Fahrenheit"},
]
VALUES = [Decimal("100000"), Decimal("372550"), Decimal("640000")]

rows = []
for units in DIMENSIONS:
    for ours, theirs in units.items():
        for other, expression in units.items():
            if ours == other:
                continue
            value = VALUES[len(rows) % len(VALUES)]
            there = registry.Quantity(value, theirs).to(expression)
            answer = round(Decimal(f"{Decimal(there.magnitude):.10g}"), 9)
            rows.append(f"{value}\t{ours}\t{other}\t{answer:f}")

out = pathlib.Path(__file__).with_name("conversions.tsv")
out.write_text("\n".join([f"# pint {pint.__version__}", *rows]) + "\n")
print(len(rows), "rows")
