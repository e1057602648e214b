# SPDX-License-Identifier: GPL-3.0-or-later
"""A case as the manual explains it: what the file says, then its preset, then the default.

Presets and defaults are read from the tables of cases/README.md, so that nothing of the program's
own reading is used.
"""

import re
import tomllib

from quantity import fret_position, quantity


def cells_of(line):
    return [cell.strip() for cell in line.strip().strip("|").split("|")]


def read_manual(path):
    """(defaults by "section.key", presets by name and "section.key"), texts."""
    defaults, presets, names, section = {}, {}, [], None
    for line in open(path, encoding="utf-8"):
        heading = re.match(r"^#+ +(?:\[+([a-z_]+)\]+|(.*))", line)
        if heading:
            section = heading.group(1) or heading.group(2).strip()
        if not line.startswith("| "):
            continue
        cells = cells_of(line)
        if section == "Presets":
            if cells[0] == "":
                names = cells[1:]
            elif cells[0].startswith("`"):
                for name, text in zip(names, cells[1:]):
                    if text:
                        presets.setdefault(name, {})[cells[0].strip("`")] = text
        elif len(cells) == 4 and re.match(r"^`[a-z_0-9]+`$", cells[0]):
            written = re.match(r"^`([^`]*)`", cells[3])
            if written:
                defaults[f"{section}.{cells[0].strip('`')}"] = written.group(1)
    return defaults, presets


class CaseValues:
    """Texts and SI values of one case."""

    def __init__(self, case_path, manual_path):
        with open(case_path, "rb") as file:
            self.given = tomllib.load(file)
        self.defaults, presets = read_manual(manual_path)
        self.preset = presets[self.given["preset"]]

    def text(self, key):
        section, name = key.split(".")
        if name in self.given.get(section, {}):
            return self.given[section][name]
        if key in self.preset:
            return self.preset[key]
        if key in self.defaults:
            return self.defaults[key]
        raise KeyError(f"the case, its preset and the manual do not give {key}")

    def truth(self, key):
        return self.text(key) in (True, "true")

    def known(self, key, if_unknown):
        """SI value, or another one where the case says `unknown`."""
        text = self.text(key)
        return if_unknown if text == "unknown" else quantity(text)

    def value(self, key):
        return quantity(self.text(key))

    @property
    def scale_length(self):
        return self.value("neck.scale_length")

    @property
    def join(self):
        """x of the body join, m."""
        return fret_position(self.scale_length, self.value("neck.join_fret"))

    def place(self, key):
        """x of a place along the neck: a length, a fret, or the join, m."""
        text = self.text(key)
        if text == "join":
            return self.join
        if str(text).startswith("fret "):
            return fret_position(self.scale_length, float(text[5:]))
        return quantity(text)

    @property
    def phases(self):
        return self.given["phase"]
