"""Written sizes, as a job file gives them, to numbers: the notation half of reference.py.

Standard library only, written from the format's description and not from the library's reader, so
that the two can disagree. Lengths come back in the file's unit.
"""
import functools
import math
import re
from dataclasses import dataclass

UNIT_MM = {"mm": 1.0, "in": 25.4, "inch": 25.4, "um": 0.001, "thou": 0.0254}
NUMBER = r"[+-]?\d*\.?\d+(?:[eE][+-]?\d+)?"

# ISO 286-1 standard tolerances in micrometres, bands "over - up to" in mm, as reprinted in
# K. L. Narayana, P. Kannaiah and K. V. Reddy, Machine Drawing, table 15.1, p. 213.
BANDS = [3, 6, 10, 18, 30, 50, 80, 120]
IT = {
    5: [4, 5, 6, 8, 9, 11, 13, 15], 6: [6, 8, 9, 11, 13, 16, 19, 22],
    7: [10, 12, 15, 18, 21, 25, 30, 35], 8: [14, 18, 22, 27, 33, 39, 46, 54],
    9: [25, 30, 36, 43, 52, 62, 74, 87], 10: [40, 48, 58, 70, 84, 100, 120, 140],
    11: [60, 75, 90, 110, 130, 160, 190, 220], 12: [100, 120, 150, 180, 210, 250, 300, 350],
}
# Fundamental deviations in micrometres, same book, tables 15.2 and 15.3, pp. 215-221. The small
# letters f, g, h give the upper deviation of a shaft; the rest the lower one.
UPPER = {"f": [-6, -10, -13, -16, -20, -25, -30, -36], "g": [-2, -4, -5, -6, -7, -9, -10, -12],
         "h": [0] * 8}
LOWER = {"m": [2, 4, 6, 7, 8, 9, 11, 13], "n": [4, 8, 10, 12, 15, 17, 20, 23],
         "p": [6, 12, 15, 18, 22, 26, 32, 37], "F": [6, 10, 13, 16, 20, 25, 30, 36],
         "G": [2, 4, 5, 6, 7, 9, 10, 12], "H": [0] * 8}
# ISO 2768-1 general tolerances, half-widths in mm, upper band ends included; None: no value.
GENERAL_ENDS = [3, 6, 30, 120, 400, 1000, 2000, 4000]
GENERAL = {
    "f": [0.05, 0.05, 0.1, 0.15, 0.2, 0.3, 0.5, None], "m": [0.1, 0.1, 0.2, 0.3, 0.5, 0.8, 1.2, 2],
    "c": [0.2, 0.3, 0.5, 0.8, 1.2, 2, 3, 4], "v": [None, 0.5, 1, 1.5, 2.5, 4, 6, 8],
}


@dataclass(frozen=True)
class Size:
    """nominal, limits, and the sd of the spread, in the file's unit."""

    nominal: float
    lower: float
    upper: float
    sd: float = 0.0
    shape: str = "normal"
    sigmas: float = 3.0   # half-width over sd of a normal, before it is cut
    scatter: float = 0.0  # sd of a mean of readings beside the gauge's uniform

    @property
    def middle(self):
        return 0.5 * (self.lower + self.upper)

    @property
    def half(self):
        return 0.5 * (self.upper - self.lower)


@dataclass
class Context:
    """What a written size needs to know of its file."""

    units: str = "mm"
    general: str = ""
    gauges: dict = None


def normal(nominal, lower, upper, sigmas=3.0):
    return Size(nominal, lower, upper, (upper - lower) / 2.0 / sigmas, sigmas=sigmas)


def to_file_unit(value, unit, context):
    """A number written in `unit` (None: the file's), in the file's unit."""
    if unit is None or unit == context.units:
        return value
    return value * UNIT_MM[unit] / UNIT_MM[context.units]


def numbers_with_units(pairs, context):
    """[(text, unit or None)] to lengths: a unit reaches the numbers after it that have none; the
    numbers before the first one take that first one."""
    first = next((unit for _, unit in pairs if unit), None)
    out, current = [], first
    for text, unit in pairs:
        current = unit or current
        out.append(to_file_unit(float(text), current, context))
    return out


def iso286(nominal, letter, grade, context):
    millimetres = abs(nominal) * UNIT_MM[context.units]
    band = next(i for i, end in enumerate(BANDS) if millimetres <= end)
    width = IT[grade][band]
    if letter in UPPER:
        upper, lower = UPPER[letter][band], UPPER[letter][band] - width
    elif letter in ("js", "JS"):
        upper, lower = width / 2.0, -width / 2.0
    else:
        lower, upper = LOWER[letter][band], LOWER[letter][band] + width
    scale = 0.001 / UNIT_MM[context.units]
    return normal(nominal, nominal + lower * scale, nominal + upper * scale)


def general(nominal, context):
    millimetres = abs(nominal) * UNIT_MM[context.units]
    if not context.general:
        raise ValueError(f"{nominal}: no general_tolerance")
    half = GENERAL[context.general][next(i for i, e in enumerate(GENERAL_ENDS) if millimetres <= e)]
    half /= UNIT_MM[context.units]
    return normal(nominal, nominal - half, nominal + half)


def by_gauge(values, gauge, context):
    a = context.gauges[gauge]
    n = len(values)
    mean = math.fsum(values) / n
    if n == 1:
        return Size(mean, mean - a, mean + a, a / math.sqrt(3.0), "uniform")
    s = math.sqrt(math.fsum((v - mean) ** 2 for v in values) / (n - 1))
    half = a + 3.0 * s / math.sqrt(n)
    return Size(mean, mean - half, mean + half, math.sqrt(a * a / 3.0 + s * s / n), "uniform",
                scatter=s / math.sqrt(n))


def long_form(given, context):
    if "lower" in given:
        lower, upper = parse(given["lower"], context, True).nominal, \
            parse(given["upper"], context, True).nominal
        nominal = parse(given["size"], context, True).nominal if "size" in given \
            else 0.5 * (lower + upper)
    elif "by" in given:
        values = given["size"] if isinstance(given["size"], list) else [given["size"]]
        return by_gauge([parse(v, context, True).nominal for v in values], given["by"], context)
    else:
        nominal = parse(given["size"], context, True).nominal
        upper = nominal + parse(given.get("plus", "0"), context, True).nominal
        lower = nominal - parse(given.get("minus", "0"), context, True).nominal
    half, shape = 0.5 * (upper - lower), given.get("shape", "normal")
    k = float(given.get("sigmas", 3.0))
    sd = {"normal": half / k, "uniform": half / math.sqrt(3.0),
          "triangular": half / math.sqrt(6.0)}.get(shape)
    if sd is None:  # a normal cut at its limits
        density = math.exp(-k * k / 2.0) / math.sqrt(2.0 * math.pi)
        sd = half / k * math.sqrt(1.0 - 2.0 * k * density / math.erf(k / math.sqrt(2.0)))
    return Size(nominal, lower, upper, sd, shape, k)


def parse(written, context, bare=False):
    """A size as written, or as read before (reference_match.py). `bare`: a lone number is exact and not under the
    general tolerance."""
    if isinstance(written, Size):
        return written
    if isinstance(written, dict) and "read" in written:
        return written["read"]
    if isinstance(written, dict):
        return long_form(written, context)
    gauges = tuple(sorted((context.gauges or {}).items()))
    return parse_text(str(written), context.units, context.general, gauges, bare)


@functools.lru_cache(maxsize=4096)
def parse_text(written, units, general_tolerance, gauges, bare):
    context = Context(units, general_tolerance, dict(gauges))
    text = written.strip().replace("µ", "u")
    unit = r"(?:\s*(mm|in|inch|um|thou))?"
    if match := re.fullmatch(r"(.*?)\s+by\s+(\S+)", text):
        inside, gauge = match.groups()
        if inside.startswith("["):
            pairs = re.findall(rf"({NUMBER}){unit}", inside)
            values = numbers_with_units([(n, u or None) for n, u in pairs], context)
        else:
            values = [parse(inside, context, True).nominal]
        return by_gauge(values, gauge, context)
    if match := re.fullmatch(rf"({NUMBER}){unit}\s*\.\.\s*({NUMBER}){unit}", text):
        a, u, b, v = match.groups()
        # "12.45..12.55": the dots must not be eaten as a decimal point.
        lower, upper = numbers_with_units([(a, u), (b, v)], context)
        return normal(0.5 * (lower + upper), lower, upper)
    if match := re.fullmatch(rf"({NUMBER})?{unit}\s*(?:±|\+/-|\+-)\s*({NUMBER}){unit}", text):
        a, u, t, v = match.groups()
        nominal, half = numbers_with_units([(a or "0", u), (t, v)], context)
        return normal(nominal, nominal - half, nominal + half)
    if match := re.fullmatch(rf"({NUMBER}){unit}\s+([+-]\S+?){unit}\s*[/\s]\s*([+-]\S+?){unit}",
                             text):
        a, u, p, v, q, w = match.groups()
        nominal, one, two = numbers_with_units([(a, u), (p, v), (q, w)], context)
        return normal(nominal, nominal + min(one, two), nominal + max(one, two))
    if match := re.fullmatch(r"(\d+(?:\.\d+)?)\s*([A-Za-z]{1,2})(\d+)", text):
        return iso286(float(match[1]), match[2], int(match[3]), context)
    if match := re.fullmatch(rf"({NUMBER}){unit}\s+exact|({NUMBER})\s+exact{unit}", text):
        value = to_file_unit(float(match[1] or match[3]), match[2] or match[4], context)
        return Size(value, value, value)
    match = re.fullmatch(rf"({NUMBER}){unit}", text)
    if not match:
        raise ValueError(f"cannot read the size {written!r}")
    value = to_file_unit(float(match[1]), match[2], context)
    return Size(value, value, value) if bare else general(value, context)


def taper(written):
    """Diameter per length."""
    text = str(written).strip()
    if match := re.fullmatch(rf"({NUMBER})\s*(?:in|:)\s*({NUMBER})", text):
        return float(match[1]) / float(match[2])
    if match := re.fullmatch(rf"({NUMBER})\s*(?:in per ft|in/ft)", text):
        return float(match[1]) / 12.0
    if match := re.fullmatch(rf"({NUMBER}) to ({NUMBER}) over ({NUMBER})", text):
        a, b, length = map(float, match.groups())
        return abs(a - b) / length
    if match := re.fullmatch(rf"({NUMBER}) deg (included|half)", text):
        half = math.radians(float(match[1])) * (0.5 if match[2] == "included" else 1.0)
        return 2.0 * math.tan(half)
    return float(text)


def thread_diameter_and_pitch(form, context):
    """Major diameter and pitch in the file's unit, of M10x1.25-6g or 3/8-24 UNF-2A."""
    if match := re.match(r"M([\d.]+)\s*x\s*([\d.]+)", form):
        d, pitch = float(match[1]), float(match[2])
    else:
        match = re.match(r"(\d+)/(\d+)-(\d+)", form)
        d, pitch = 25.4 * int(match[1]) / int(match[2]), 25.4 / int(match[3])
    return d / UNIT_MM[context.units], pitch / UNIT_MM[context.units]
