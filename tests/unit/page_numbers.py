# SPDX-License-Identifier: GPL-3.0-or-later
"""Every number on a plan's bench card and report equals plan.json.

Usage: page_numbers.py FOLDER. Reads plan.json, bench-card.html and report.html. An element with
data-value holds a JSON pointer and data-as how the number is written; the text is made again here
from the JSON, by conversions of its own, and compared letter by letter. A digit in any other text
(but fixed advice, marked data-fixed) is a fault: no number comes from elsewhere. At the end one
number of each kind is spoilt to see that the check notices.

Exact by definition: 1 in = 25.4 mm, 1 thou = 0.001 in, 1 kgf = 9.80665 N, 1 lbf = 0.45359237 kgf,
0 degC = 273.15 K.
"""
import json
import math
import re
import sys
from html.parser import HTMLParser
from pathlib import Path

VOID = {"meta", "img", "br", "input", "link", "hr"}


def dec(value, places):
    text = f"{value:.{places}f}"
    return text[1:] if text.startswith("-") and not text.strip("-0.") else text


def signed(value, places):
    text = dec(value, places)
    return text if text[0] == "-" or not text.strip("0.") else "+" + text


def thou_places(metres):
    return 1 if abs(metres * 1e3 / 0.0254) < 10 else 0


def length(metres):
    mm = metres * 1e3
    if abs(mm) >= 10:
        return f"{dec(mm, 1)} mm ({dec(mm / 25.4, 2)} in)"
    return f"{dec(mm, 2)} mm ({dec(mm / 0.0254, thou_places(metres))} thou)"


def mm_signed(metres):
    return signed(metres * 1e3, 2)


def thou_signed(metres):
    return signed(metres * 1e3 / 0.0254, thou_places(metres))


def bow(metres):
    if abs(metres) < 5e-6:
        return "straight"
    return length(abs(metres)) + (" forward" if metres > 0 else " back-bow")


def twist(radians):
    degrees = math.degrees(radians)
    if abs(degrees) < 0.005:
        return "none"
    return f"{dec(abs(degrees), 2)}°, {'treble' if degrees > 0 else 'bass'} corner of the nut up"


def temperature(kelvin):
    celsius = kelvin - 273.15
    return f"{dec(celsius, 0)} °C ({dec(celsius * 9 / 5 + 32, 0)} °F)"


def force(newton):
    kgf = newton / 9.80665
    return f"{dec(newton, 0)} N ({dec(kgf, 1)} kgf, {dec(kgf / 0.45359237, 1)} lbf)"


def near(value):
    """To the nearest whole number, halves away from zero."""
    return int(math.floor(abs(value) + 0.5)) * (1 if value >= 0 else -1)


def two_units(big, big_name, small, small_name):
    parts = [f"{n} {name}" for n, name in ((big, big_name), (small, small_name)) if n > 0]
    return " ".join(parts)


def duration(seconds):
    if seconds < 0:
        return "-" + duration(-seconds)
    if seconds < 59.5:
        return f"{dec(seconds, 0)} s"
    minutes, hours = near(seconds / 60), near(seconds / 3600)
    if minutes < 48 * 60:
        return two_units(minutes // 60, "h", minutes % 60, "min")
    if hours < 2 * 365 * 24:
        return two_units(hours // 24, "days", hours % 24, "h")
    return f"{dec(seconds / (365.25 * 86400), 1)} years"


def clock(seconds):
    minutes = near(abs(seconds) / 60)
    if minutes >= 48 * 60:
        return duration(seconds)
    sign = "-" if seconds < 0 and minutes > 0 else ""
    return f"{sign}{minutes // 60}:{minutes % 60:02d}"


def turns(number):
    eighths = near(abs(number) * 8)
    if eighths == 0:
        return "leave it"
    whole, rest = divmod(eighths, 8)
    part = ""
    if rest:
        common = math.gcd(rest, 8)
        part = f"{rest // common}/{8 // common}"
    text = " ".join(p for p in (str(whole) if whole else "", part) if p)
    verb = "let out" if number < 0 else "take up"
    return f"{verb} {text} turn{'s' if eighths > 8 else ''}"


WRITE = {
    "length": length,
    "size": lambda v: length(abs(v)),
    "signed_both": lambda v: f"{mm_signed(v)} mm ({thou_signed(v)} thou)",
    "pair": lambda v: f"{mm_signed(v)} / {thou_signed(v)}",
    "mm": mm_signed,
    "thou": thou_signed,
    "bow": bow,
    "twist": twist,
    "angle": lambda v: signed(math.degrees(v), 2) + "°",
    "angle_size": lambda v: dec(abs(math.degrees(v)), 2) + "°",
    "sticks": lambda v: length(abs(0.3 * math.sin(v))),
    "temperature": temperature,
    "force": force,
    "megapascal": lambda v: dec(v * 1e-6, 3) + " MPa",
    "clock": clock,
    "duration": duration,
    "turns": turns,
    "percent": lambda v: dec(100 * v, 0) + " %",
    "ratio": lambda v: dec(v, 2),
    "count": lambda v: dec(v, 0),
}


def expected(value, kind):
    if value is None:
        return "-"
    if kind == "verbatim":
        return value
    if isinstance(value, str):
        text = re.sub(r" deg([CF])\b", r" °\1", value)
        return re.sub(r"(\d) deg\b", r"\1°", text)
    return WRITE[kind](value)


def lookup(plan, pointer):
    here = plan
    for part in pointer.split("/")[1:]:
        part = part.replace("~1", "/").replace("~0", "~")
        here = here[int(part)] if isinstance(here, list) else here[part]
    return here


class Page(HTMLParser):
    """Shown values as (pointer, kind, text), and the digits that stand outside of them."""

    def __init__(self, text):
        super().__init__()
        self.open = []
        self.shown = []
        self.strays = []
        self.feed(text)

    def handle_starttag(self, tag, attributes):
        if tag in VOID:
            return
        attributes = dict(attributes)
        if "data-value" in attributes:
            self.shown.append([attributes["data-value"], attributes["data-as"], ""])
        self.open.append((tag, attributes))

    def handle_startendtag(self, tag, attributes):
        pass

    def handle_endtag(self, tag):
        while self.open:
            if self.open.pop()[0] == tag:
                break

    def handle_data(self, data):
        for tag, attributes in self.open:
            if "data-value" in attributes:
                self.shown[-1][2] += data
                return
            if "data-fixed" in attributes or tag in ("script", "style", "head"):
                return
        if re.search(r"\d", data):
            self.strays.append(" ".join(data.split()))


def faults(plan, text):
    page = Page(text)
    found = [f"a number from nowhere: {stray!r}" for stray in page.strays]
    for pointer, kind, shown in page.shown:
        try:
            wanted = expected(lookup(plan, pointer), kind)
        except (KeyError, IndexError, TypeError) as error:
            found.append(f"{pointer} as {kind}: not in the plan ({error!r})")
            continue
        if shown != wanted:
            found.append(f"{pointer} as {kind}: shown {shown!r}, the plan says {wanted!r}")
    return found, page.shown


def spoilt(text, kind):
    """The page with a digit more in the first number of a kind; None if it has none."""
    place = re.search(rf'data-as="{kind}"[^>]*>[^<]*\d', text)
    return None if place is None else text[: place.end()] + "7" + text[place.end():]


def main(folder):
    plan = json.loads((folder / "plan.json").read_text(encoding="utf-8"))
    count, wrong = 0, []
    kinds = set()
    for name in ("bench-card.html", "report.html"):
        text = (folder / name).read_text(encoding="utf-8")
        found, shown = faults(plan, text)
        count += len(shown)
        wrong += [f"{name}: {fault}" for fault in found]
        if not shown:
            wrong.append(f"{name}: shows nothing of the plan")
        for kind in {kind for _, kind, _ in shown}:
            bad = spoilt(text, kind)
            if bad is not None:
                kinds.add(kind)
                if len(faults(plan, bad)[0]) != len(found) + 1:
                    wrong.append(f"{name}: a spoilt {kind} was not noticed")
        bad = text.replace("</main>", "<p>12.5 mm</p></main>", 1)
        if len(faults(plan, bad)[0]) != len(found) + 1:
            wrong.append(f"{name}: a number from nowhere was not noticed")
    for fault in wrong[:40]:
        print(fault)
    print(f"{count} shown values in {len(kinds)} ways of writing, {len(wrong)} faults")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main(Path(sys.argv[1])))
