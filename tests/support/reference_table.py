# SPDX-License-Identifier: MIT
"""The formulas behind `trialfit table`, written again from their sources; lengths in mm.

Metric threads: ISO 68-1 (profile), ISO 965-1 annex (tolerances by formula, rounded to R40; deviations). Unified:
ASME B1.1, sections 3 and 5, in decimal figures, since its rounding is by tenths of a thousandth of an inch. Tapers:
geometry. Shrink fits: Lame, as in Shigley. Engagement: FED-STD-H28/2B. Unbalance: ISO 21940-11.
"""
import math
from decimal import ROUND_HALF_UP, Decimal

STEPS = [0.99, 1.4, 2.8, 5.6, 11.2, 22.4, 45.0, 90.0, 180.0, 355.0]
R40 = [100, 106, 112, 118, 125, 132, 140, 150, 160, 170, 180, 190, 200, 212, 224, 236, 250, 265, 280, 300, 315, 335,
       355, 375, 400, 425, 450, 475, 500, 530, 560, 600, 630, 670, 710, 750, 800, 850, 900, 950]
RANKS = [n * 10.0 ** e for e in (-1, 0, 1, 2) for n in R40]
# Where the standard's tables leave its formulas: the second answer has nothing of its own to say there.
LEFT_PITCH = {(5.6, 0.5), (90.0, 5.0), (355.0, 3.0), (355.0, 4.0)}
LEFT_CREST = {"major": {4.0, 8.0}, "minor": {0.25, 0.5, 2.5}}


class Beyond(Exception):
    """A cell of which the formulas do not speak."""


def r40(value, steps):
    nearest = min(range(len(RANKS)), key=lambda i: (abs(RANKS[i] - value), -i))
    return float(Decimal(RANKS[nearest + steps]).quantize(Decimal(1)))


def step_of(d):
    return next(i for i in range(1, len(STEPS)) if d <= STEPS[i])


def pitch_tolerance(d, pitch, grade, nut):
    at = step_of(d)
    if (STEPS[at], pitch) in LEFT_PITCH:
        raise Beyond
    mean = math.sqrt(STEPS[at - 1] * STEPS[at])
    # A grade is a step of R10, four of R40; a nut's tolerance is 1.32 times a bolt's, five of them.
    return r40(90.0 * pitch ** 0.4 * mean ** 0.1, 4 * (grade - 6) + 5 * nut) / 1000.0


def crest_tolerance(pitch, grade, nut):
    if pitch in LEFT_CREST["minor" if nut else "major"]:
        raise Beyond
    if not nut:
        value = 180.0 * pitch ** (2.0 / 3.0) - 3.15 / math.sqrt(pitch)
    elif pitch >= 1.0:
        value = 230.0 * pitch ** 0.7
    else:
        value = 433.0 * pitch - 190.0 * pitch ** 1.22
    return r40(value, 4 * (grade - 6)) / 1000.0


# ISO 965-1 gives 15 + 11 P, 30 + 11 P and 50 + 11 P, and rounds them by a rule of its own: the printed figures lie
# within 2 micrometres of these, up to a pitch of 4, and within 4 beyond.
DEVIATION = {"h": None, "H": None, "g": 15.0, "G": 15.0, "f": 30.0, "e": 50.0}


def deviation(position, pitch):
    """(signed, mm; by how much the printed figure may be off it)"""
    if DEVIATION[position] is None:
        return 0.0, 0.0
    value = (DEVIATION[position] + 11.0 * pitch) / 1000.0
    return (value if position == "G" else -value), 0.0045


def micrometre(value):
    return float(Decimal(repr(value)).quantize(Decimal("0.001"), ROUND_HALF_UP))


def profile(d, pitch):
    """(d2, D1, d3, H1)"""
    height = 0.5 * math.sqrt(3.0) * pitch
    return d - 0.75 * height, d - 1.25 * height, d - 17.0 / 12.0 * height, 0.625 * height


def areas(d, pitch, metric):
    """(stress, core)"""
    d2, _, d3, _ = profile(d, pitch)
    if metric:
        return math.pi / 4.0 * (0.5 * (d2 + d3)) ** 2, math.pi / 4.0 * d3 ** 2
    return math.pi / 4.0 * (d - 0.9743 * pitch) ** 2, math.pi / 4.0 * (d - 0.75 * math.sqrt(3.0) * pitch) ** 2


def strip(pitch, bolt_major, bolt_pitch, nut_minor, nut_pitch):
    """Areas per mm of the bolt's thread and of the nut's, from the limits at least material."""
    return (math.pi / pitch * nut_minor * (0.5 * pitch + (bolt_pitch - nut_minor) / math.sqrt(3.0)),
            math.pi / pitch * bolt_major * (0.5 * pitch + (bolt_major - nut_pitch) / math.sqrt(3.0)))


def places(value, count=4):
    return Decimal(value).quantize(Decimal(1).scaleb(-count), ROUND_HALF_UP)


def power(value, exponent):
    return Decimal(float(value) ** exponent)


def unified_2a(d, per_inch, series):
    pitch = 1 / Decimal(per_inch)
    engaged = d if series in ("UNC", "UNF") or series == "UN" and per_inch <= 8 else 9 * pitch
    return places(Decimal("0.0015") * power(d, 1 / 3) + Decimal("0.0015") * power(engaged, 0.5)
                  + Decimal("0.015") * power(pitch, 2 / 3), 6)


def unified_bolt(d, per_inch, series, number):
    """Limits in inches: ((least, greatest) of major and of pitch diameter, greatest of the minor)."""
    pitch = 1 / Decimal(per_inch)
    height = Decimal(math.sqrt(3.0) / 2.0) * pitch
    tolerance = unified_2a(d, per_inch, series)
    allowance = Decimal(0) if number == 3 else places(Decimal("0.3") * tolerance)
    major = places(Decimal("0.09" if number == 1 else "0.06") * power(pitch, 2 / 3))
    of_pitch = places({1: Decimal("1.5"), 2: Decimal(1), 3: Decimal("0.75")}[number] * tolerance)
    d2 = places(d - Decimal("0.75") * height)
    minor = places(d - Decimal("1.25") * height) - places(height / 8)
    top = places(d) - allowance
    return (top - major, top), (d2 - allowance - of_pitch, d2 - allowance), minor - allowance


def unified_nut(d, per_inch, series, number):
    """((least of major), (least, greatest) of pitch diameter, (least, greatest) of minor)"""
    pitch = 1 / Decimal(per_inch)
    height = Decimal(math.sqrt(3.0) / 2.0) * pitch
    tolerance = unified_2a(d, per_inch, series)
    of_pitch = places({1: Decimal("1.95"), 2: Decimal("1.3"), 3: Decimal("0.975")}[number] * tolerance)
    d2, minor = places(d - Decimal("0.75") * height), d - Decimal("1.25") * height
    by_pitch = Decimal("0.25") * pitch - Decimal("0.4") * pitch ** 2
    small = Decimal("0.05") * power(pitch, 2 / 3) + Decimal("0.03") * pitch / d - Decimal("0.002")
    most = Decimal("0.394") * pitch
    if number == 3:
        least = Decimal("0.23") * pitch - Decimal("1.5") * pitch ** 2 if per_inch >= 13 else Decimal("0.12") * pitch
        room = min(max(small, least), most)
    elif d < Decimal("0.25"):
        room = min(max(small, by_pitch), most)
    else:
        room = Decimal("0.15") * pitch if per_inch < 4 else by_pitch
    greatest = places(minor + room)
    coarse = d >= Decimal("0.138")
    if coarse and number != 3:
        greatest = places(greatest, 3)
    return places(d), (d2, d2 + of_pitch), (places(minor, 3 if coarse else 4), greatest)


def shrink(shaft_dia, hub_od, interference, shaft, hub):
    """{pressure, hoop, equivalent, shaft}; shaft and hub: (modulus, Poisson's ratio)."""
    spread = (hub_od ** 2 + shaft_dia ** 2) / (hub_od ** 2 - shaft_dia ** 2)
    pressure = interference / shaft_dia / ((spread + hub[1]) / hub[0] + (1.0 - shaft[1]) / shaft[0])
    hoop = pressure * spread
    return {"pressure": pressure, "hoop": hoop, "shaft": -pressure,
            "equivalent": math.sqrt(hoop ** 2 + hoop * pressure + pressure ** 2)}


def standard_tolerance(size, grade):
    """IT of ISO 286-1 by its formulas, grades 5 to 18, micrometres before the standard's rounding."""
    ends = [3, 6, 10, 18, 30, 50, 80, 120, 180, 250, 315, 400, 500]
    at = next(i for i, end in enumerate(ends) if size <= end)
    mean = math.sqrt((ends[at - 1] if at else 1.0) * ends[at])  # up to 3: of 1 and 3
    unit = 0.45 * mean ** (1.0 / 3.0) + 0.001 * mean
    if grade == 5:
        return 7.0 * unit
    return unit * 10.0 * 10.0 ** ((grade - 6) / 5.0)  # 10, 16, 25, 40 ... of R5
