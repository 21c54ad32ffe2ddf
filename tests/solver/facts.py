"""Facts as a dossier writes them: drawn at random as text, and read back exactly.

Reading is done here once more, in rationals, so that a mistake in the program's own
reading, rounding or units would show as a difference.
"""
import datetime
import re
from fractions import Fraction

# Units in SI (factor, offset); of sound levels and concentrations only one unit is used here.
UNITS = {
    "": "1", "s": "1", "min": "60", "h": "3600", "day": "86400", "year": "31556952",
    "m": "1", "ft": "0.3048", "in": "0.0254", "kg": "1", "lb": "0.45359237",
    "m/s": "1", "mph": "0.44704", "m/min": "1/60", "ft/min": "0.00508", "m2": "1", "ft2": "0.09290304",
    "L": "1/1000", "m3": "1", "L/min": "1/60000", "N": "1", "lbf": "4.4482216152605", "V": "1",
    "dBA": "1", "ppm": "1", "mg/m3": "1", "degC": "1", "degF": "5/9",
}
OFFSETS = {"degC": "273.15", "degF": "459.67"}


def in_si(number, unit):
    return (Fraction(number) + Fraction(OFFSETS.get(unit, 0))) * Fraction(UNITS[unit])


def q(text):
    """One quantity, like "1.5 m", as an exact number of SI units."""
    number, _, unit = text.partition(" ")
    return in_si(number, unit)


def days(text):
    """First and last moment of a date or a month, in seconds."""
    number = lambda day: Fraction((day - datetime.date(1970, 1, 1)).days * 86400)
    if len(text) == 10:
        return (number(datetime.date.fromisoformat(text)),) * 2
    year, month = map(int, text.split("-"))
    after = datetime.date(year + month // 12, month % 12 + 1, 1)
    return number(datetime.date(year, month, 1)), number(after - datetime.timedelta(1))


def read_range(text):
    """The ends of "4 m", "3..4 m", "4 ± 0.1 m", "2027-03..2027-05-04"."""
    if re.match(r"\d{4}-", text):
        low, _, high = text.partition("..")
        return days(low)[0], days(high or low)[1]
    value, unit = re.fullmatch(r"([-+.0-9e± ]*[.0-9])(?: (\S+))?", text).groups()
    unit = unit or ""
    if "±" in value:
        middle, more = map(Fraction, value.replace(" ", "").split("±"))
        return in_si(middle - more, unit), in_si(middle + more, unit)
    low, _, high = value.partition("..")
    return in_si(low, unit), in_si(high or low, unit)


def read_vocabulary(text):
    """(entity, fact) to ("flag",), ("choice", words) or ("number", low, high, whole)."""
    known, entity, lines = {}, None, []

    def finish():
        if not lines or lines[0].startswith("    In rules "):
            return
        name = re.match(r"    (\S+):", lines[0]).group(1)
        what = " ".join(line.strip() for line in lines if line.startswith("      "))
        one_of = re.search(r"(?:^| )one of ([a-z0-9 -]+)", what)
        span = re.search(r"(quantity|whole number|date or part of one), (\S+)(?: (\S+))? to (\S+)(?: ([^\s,;]+))?[,;]", what)
        if span:
            ends = [f"{span[2]} {span[3] or ''}", f"{span[4]} {span[5] or ''}"]
            if all((" " + (u or "")).strip() in UNITS for u in (span[3], span[5])):
                low, high = (read_range(end.strip())[0] for end in ends)
                known[entity, name] = ("number", low, high, span[1] == "whole number")
        elif one_of:
            known[entity, name] = ("choice", one_of[1].split())
        elif re.search(r"(^| )yes or no(;|$)", what):
            known[entity, name] = ("flag",)

    for line in text.splitlines():
        if line.startswith("    "):
            if not line.startswith("      "):
                finish()
                lines = []
            lines.append(line)
        elif re.match(r"[a-z-]+: ", line):
            finish()
            lines, entity = [], line.split(":")[0]
    finish()
    return known


# How numbers are drawn: unit, lowest, highest, and thresholds to hit exactly. A second unit
# is used now and then. Coarse steps make sums and products meet thresholds, too.
DRAWS = {
    "appliance.battery-voltage": ("V", 0, 70, "0 6 12 30 60"),
    "appliance.trailing-length": ("m", 0, 2, "0.3 1.5", "ft", 0, 6),
    "appliance.remove-time": ("s", 5, 240, "90 180", "min", 1, 4),
    "rig.noise": ("dBA", 60, 150, "80 85 87 90 100 120 130 137 140"),
    "rig.surface-temperature": ("degC", 40, 100, "-20 -25 60 62", "degF", -40, 200),
    "rig.people-distance": ("m", 0, 2, "0.5 1.5", "ft", 0, 9),
    "rig.mass": ("kg", 0, 300, "0 67 80 90 100 110", "lb", 1, 600),
    "rig.trapped-water": ("L", 0, 120, "0 10 20"),
    "rig.load-rating": ("kg", 50, 400, "100 200", "lb", 200, 900),
    "rig.riders": ("", 0, 2, "0 1"),
    "rig.water-depth": ("m", 0, 1.5, "0.5 1", "ft", 0, 5),
    "rig.water-speed": ("m/s", 0, 9, "0.4 0.6 0.8 1.2 5 5 5 7 7"),
    "rig.stream-area": ("m2", 0, 0.05, "0.001 0.004 0.007 0.01 0.02", "ft2", 0, 0.5),
    "rig.hang-time": ("min", 0, 18, "1.5 3 5 8 10 15"),
    "rig.rest-time": ("min", 0, 20, "1.5 3 5 10"),
    "rig.lowering-time": ("s", 10, 120, "60"),
    "rig.spotters": ("", 0, 2, "0 1"),
    "rig.stop-time": ("s", 1, 10, "5"),
    "craft.capacity": ("", 2, 10, "4 8 10"),
    "craft.aboard": ("", 0, 11, "0 3 4 6 8 9 11"),
    "craft.load": ("kg", 100, 1100, "670 800 1000 1100", "lb", 200, 2400),
    "craft.load-rating": ("kg", 400, 1500, "1000", "lb", 900, 3000),
    "craft.freeboard": ("m", 0, 0.6, "0.25", "in", 5, 15),
    "craft.swimmer-distance": ("m", 2, 30, "10", "ft", 6, 90),
    "craft.speed": ("m/s", 0, 8, "3", "mph", 0, 15),
    "prop.net-buoyancy": ("N", -700, 700, "-500 -50 50 500", "lbf", -150, 150),
    "prop.tether-rating": ("N", 0, 1500, "100 1000", "lbf", 0, 300),
    "prop.people-distance": ("m", 0, 5, "2"),
    "supply.carbon-dioxide": ("ppm", 300, 1200, "450 480 500 1000"),
    "supply.oil": ("mg/m3", 0, 6, "0.1 0.3 0.5 5"),
    "emergency.notice-time": ("s", 0, 60, "0 30"),
    "emergency.reach-time": ("s", 0, 60, "10 30"),
    "emergency.gas-time": ("s", 0, 40, "30"),
    "emergency.surface-time": ("s", 0, 60, "30"),
    "emergency.deck-time": ("s", 0, 120, "60"),
    "emergency.breath-time": ("s", 0, 60, "30"),
    "emergency.promised-gas-time": ("s", 20, 160, "90"),
    "emergency.promised-deck-time": ("s", 20, 240, "180"),
    "emergency.oxygen-time": ("s", 30, 600, "60 120 240 480"),
    "emergency.call-time": ("s", 0, 600, "0 300", "min", 1, 10),
    "emergency.ambulance-time": ("min", 1, 40, "3 8 15 30"),
    "emergency.hospital-time": ("min", 5, 220, "15 45 90"),
    "emergency.oxygen-volume": ("L", 100, 900, "300 450"),
    "emergency.oxygen-flow": ("L/min", 5, 20, "10 15"),
    "basin.exits": ("", 0, 4, "2"),
    "basin.exit-spacing": ("m", 2, 40, "15", "ft", 20, 90),
    "basin.freeboard": ("m", 0, 1, "0.5", "ft", 0, 3),
    "deck.ladder-depth": ("m", 0, 1, "0.3", "ft", 0, 2),
    "openwater.wind-limit": ("m/s", 5, 15, "10", "mph", 10, 30),
    "openwater.wave-limit": ("m", 0.5, 2, "1", "ft", 1, 6),
    "openwater.current": ("m/s", 0, 1, "0.3 0.4 0.5"),
    "openwater.current-limit": ("m/s", 0.2, 1, "0.5"),
    "day.wind-forecast": ("m/s", 2, 15, "6 8 10 13", "mph", 5, 30),
    "day.wave-forecast": ("m", 0, 2, "0.6 0.8 1 1.3", "ft", 0, 6),
    "task.safety-divers": ("", 0, 3, "1 2"),
    "task.exit-distance": ("m", 5, 120, "20", "ft", 20, 300),
    "immersion.breath-hold": ("s", 0, 60, "0 10 11 20"),
    "immersion.interval": ("s", 0, 180, "40 80", "min", 1, 3),
    "immersion.takes": ("", 1, 120, "1 10 100"),
    "immersion.depth": ("m", 0, 6, "1.2", "ft", 2, 20),
    "immersion.descent-rate": ("m/min", 3, 20, "9", "ft/min", 20, 60),
    "immersion.descents": ("", 0, 20, "10"),
    "immersion.surface-swim": ("m", 0, 100, "10 20", "ft", 20, 300),
    "immersion.air-return-time": ("s", 5, 240, "90 180"),
    "person.dives": ("", 0, 30, "10"),
    "person.swim-distance": ("m", 5, 400, "22 30 40 60", "ft", 50, 900),
    "person.training-days": ("", 0, 30, "10"),
    "post.ready-time": ("s", 0, 120, "30 45 60"),
}
DATES = {"person.trained-since"}
DAY = datetime.date(2027, 3, 9)


def decimal(value):
    """The decimal of a fraction that has one."""
    places = 0
    while (value * 10**places).denominator != 1:
        places += 1
    text = str(abs(int(value * 10**places))).rjust(places + 1, "0")
    split = len(text) - places
    return ("-" if value < 0 else "") + text[:split] + ("." + text[split:] if places else "")


def draw_end(chance, low, high, hits, whole, beside):
    """One end: a threshold or, in parts in 10^13, beside one; or any number."""
    if hits and chance.random() < 0.65:
        hit = Fraction(chance.choice(hits))
        return hit if whole else hit * (1 + chance.choice(beside) * Fraction(1, 10**13))
    at = low + (high - low) * Fraction(chance.randrange(1001), 1000)
    span = high - low
    places = [-1, 0, 1, 2] if span > 50 else [0, 1, 2] if span > 2 else [1, 2, 3] if span > 0.1 else [3, 4]
    return Fraction(round(at) if whole else round(at, chance.choice(places)))


# Up to 10 parts in 10^13 count as equal: 3 are a value at the threshold, 37 are not.
BESIDE = [0, 0, 37, -37, 3 * 10**11, -3 * 10**11]
# The 3 only for facts that are compared with nothing but constants: the end of a range that
# is worked out from such a value lies beside the threshold, not at it.
ALONE = set("""appliance.battery-voltage appliance.remove-time rig.noise rig.people-distance rig.lowering-time
    rig.stop-time craft.swimmer-distance craft.speed prop.people-distance supply.carbon-dioxide supply.oil
    basin.exit-spacing basin.freeboard deck.ladder-depth immersion.depth immersion.descent-rate
    immersion.air-return-time""".split())


def draw_number(chance, name, whole, narrow):
    unit, low, high, hits, *other = DRAWS[name]
    low, high, hits = Fraction(str(low)), Fraction(str(high)), hits.split()
    if other and chance.random() < 0.15:
        unit, low, high, hits = other[0], Fraction(str(other[1])), Fraction(str(other[2])), []
    if narrow or chance.random() < 0.3:
        beside = BESIDE + [3, -3] * (name in ALONE)
        return f"{decimal(draw_end(chance, low, high, hits, whole, beside))} {unit}".strip()
    tolerance = not whole and chance.random() < 0.12
    ends = sorted(draw_end(chance, low, high, hits, whole, [0] if tolerance else BESIDE) for _ in range(2))
    text = f"{decimal(ends[0])}..{decimal(ends[1])}"
    if tolerance and ends[0] != ends[1]:
        text = f"{decimal((ends[0] + ends[1]) / 2)} ± {decimal((ends[1] - ends[0]) / 2)}"
    return f"{text} {unit}".strip()


def draw_date(chance):
    """A date before the day: at a threshold, a month, or from one date to another."""
    before = lambda: DAY - datetime.timedelta(chance.choice([14, 45, 90, 180, chance.randrange(1, 250)]))
    first, second = sorted([before(), before()])
    return chance.choice([str(first), f"{first}..{second}", str(first)[:7]])


def draw(chance, vocabulary, name, unknown, narrow):
    """The text of a fact; None: left out. `narrow`: little is open, no range is stated."""
    kind = vocabulary[tuple(name.split("."))]
    if chance.random() < (unknown / 5 if narrow else unknown):
        return chance.choice([None, "?"])
    if kind[0] == "flag":
        return chance.choice(["yes", "no"])
    if kind[0] == "choice":
        return "|".join(chance.sample(kind[1], chance.choice([1, 1, 2])))
    return draw_date(chance) if name in DATES else draw_number(chance, name, kind[3], narrow)
