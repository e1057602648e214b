# SPDX-License-Identifier: GPL-3.0-or-later
"""A job of tests/jobs/run as cases with a given set-up and clamps, and what they ask of its limits (for grid)."""
import importlib.machinery
import importlib.util
import json
import pathlib
import sys

from simulated import simulate

AIR, OVERSHOOT = 21.0, 3.0
LIMITS = {"line": 60.0, "top": 65.0, "frets": 68.0, "back": 70.0}
WOOD, BOND_HOT, FRET_SHARE_OF_BAR = 0.8, 0.5, 0.78
PULLS = {"cord": 150.0, "strap": 600.0, "bar": 300.0}
DEVICES = {"in line": ("strap and bar", "headstock bar", "strap"), "both sides": ("posts", "strap", "headstock bar"),
           "steel-string acoustic": ("posts", "strap", "headstock bar"),
           "long-scale bass": ("strap", "headstock bar", "strap and bar")}
# Depth of shaft and board at the cradle of the preset, rounded down, mm; board at the iron.
DEPTH = {"electric": 21.0, "steel-string acoustic": 22.0, "classical": 22.5, "long-scale bass": 22.0}


def ordinary_jobs():
    """The script tests/jobs/run, whose cases these are."""
    path = pathlib.Path(__file__).with_name("run")
    loader = importlib.machinery.SourceFileLoader("ordinary_jobs", str(path))
    module = importlib.util.module_from_spec(importlib.util.spec_from_loader("ordinary_jobs", loader))
    sys.dont_write_bytecode = True
    loader.exec_module(module)
    return module


def phase(kind, duration, more=""):
    return f'[[phase]]\nkind = "{kind}"\nduration = "{duration}"\n{more}'


class Job:
    def __init__(self, options, job):
        self.options, self.made, self.saved = options, 0, 0
        self.preset, self.layout, self.bow, self.twist, self.glue = job
        self.name = f"{self.preset} {self.layout} {self.bow} mm {self.twist} deg, {self.glue}".replace("  ", " ")
        self.stem = self.name.replace(" ", "-").replace(",", "")
        self.base = ordinary_jobs().case_text(*job, options.resolution)
        self.device = DEVICES[self.layout or self.preset][0]
        plan = options.plans / self.stem / "plan.json"
        self.plan = json.loads(plan.read_text()) if plan.exists() else None
        self.target = 0.3 if self.preset == "long-scale bass" else 0.2
        self.overbend = 4.0 if self.preset == "long-scale bass" else 3.0

    def set_up(self, point, device=None):
        bar, _, _, cradle = point
        to = "fret 19.5" if self.preset in ("electric", "long-scale bass") else "join"
        return (self.base + f'[heater]\nbar_temperature = "{bar} degC"\nto = "{to}"\niron_to = "fret 12"\n[bench]\n'
                f'device = "{device or self.device}"\ncradle = "fret {cradle}"\n')

    def one_pass(self, point, clamp, twist, device):
        _, hours, wrap, _ = point
        sets_twist = self.twist and (device or self.device) != "strap"
        hot = f'bow = "{-clamp:.4f} mm"\n' + (f'twist = "{-twist:.4f} deg"\n' if sets_twist else "")
        return (phase("clamp", "20 min", f"wrapped = {str(wrap).lower()}\n") + phase("heat", "45 min")
                + phase("reread", "5 min", hot) + phase("hold", f"{hours} h") + phase("cool", "14 h")
                + phase("release", "1 h") + phase("rest", "24 h"))

    def simulated(self, name, text):
        fresh = not self.options.table and self.options.limit > 0
        folder = self.options.folder / self.stem
        before = (folder / name / "readings.csv").exists()
        found = simulate(self.options.program, folder, name, text, None, fresh)
        if found is not None and not before:
            self.options.limit -= 1
        self.made += found is not None
        return found

    def clamped(self, point, clamps, twists=None, device=None):
        """Passes with these clamps, one after the other, then a week strung; None if not made."""
        twists = twists or [self.twist] * len(clamps)
        text = self.set_up(point, device) + "".join(
            self.one_pass(point, c, t, device) for c, t in zip(clamps, twists)) + phase("string up", "143 h")
        bar, hours, wrap, cradle = point
        name = f"{bar}-{hours}-{'wrapped' if wrap else 'bare'}-{cradle}-" + "-".join(f"{c:.3f}" for c in clamps)
        name += "".join(f"-t{t:.2f}" for t in twists if self.twist) + (f"-{device.replace(' ', '')}" if device else "")
        return self.simulated(name, text)

    def heat(self, bar, wrap, cradle=6):
        """What the places of LIMITS have when the bar overshoots; None where not made."""
        depth = DEPTH[self.preset] - 6.5
        places = {"line": ("fret 6", 0, 0), "top": ("fret 6", 0, 6), "back": (f"fret {cradle}", 0, -depth + 0.5)}
        has = {}
        for place, (x, across, z) in places.items():
            text = self.set_up((62, 0, wrap, cradle)).replace(f'bow = "{self.bow} mm"', 'bow = "0.2 mm"')
            # Heat does not hang on the glue, and one that does not flow takes fewer steps.
            text = text.replace(f'twist = "{self.twist} deg"\n', "")
            text = text.replace(f'board = "{self.glue}"', 'board = "epoxy"')
            text += f'[probe]\nposition = "{x}"\nacross = {across}\nheight = "{z} mm"\n'
            text += phase("warm free", "180 min", f"wrapped = {str(wrap).lower()}\n")
            run = self.simulated(f"heat-{'wrapped' if wrap else 'bare'}-{place}", text)
            if run is None:
                return None
            shown, on_bar = run.last("probe [degC]", "warm free"), run.last("bar [degC]", "warm free")
            has[place] = AIR + (shown - AIR) / (on_bar - AIR) * (bar + OVERSHOOT - AIR)
        has["frets"] = FRET_SHARE_OF_BAR * (bar + OVERSHOOT) + (1 - FRET_SHARE_OF_BAR) * has["top"]
        return has

    def asked(self, run, clamps):
        """Largest share of a limit that the passes ask for, and of what."""
        worst = (max(clamps) / self.overbend, "overbend")
        for column in run.columns("share of strength used", "-"):
            place = column.split(", ")[1].split(" [")[0]
            for phases, bond in ((("clamp",), WOOD), (("heat", "reread", "hold", "cool"), BOND_HOT)):
                bears = bond if "glue line" in place else WOOD
                most = max((v for name in phases for v in run.values(column, name)), default=0)
                worst = max(worst, (most / bears, place))
        for column in run.columns("pull of the", "N"):
            bears = self.pull_limit(column.removeprefix("pull of the ").removesuffix(" [N]"))
            worst = max(worst, (run.most(column) / bears, column))
        return worst

    def pull_limit(self, pull):
        passes = self.plan["job"]["passes"] if self.plan and self.plan.get("job") else []
        for demand in (demand for one in passes for demand in one["demands"]):
            if demand["place"] == pull:
                return demand["bears"]
        return next(limit for word, limit in sorted(PULLS.items(), key=lambda w: -len(w[0])) if word in pull)

    def reads(self, run):
        return run.last("bow centre, fret", "string up"), run.last("twist between", "string up")
