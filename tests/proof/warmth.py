# SPDX-License-Identifier: GPL-3.0-or-later
"""What the heat equation needs, from the case: woods, surfaces, lines, heater. SI, K."""

import math
from dataclasses import dataclass

import numpy as np

# What the model takes where the case has no number (estimates; they stand in solver/climate and
# solver/model/build_model.cc).
CAPACITY_AT = 308.15  # K, between shop and clamp
EMISSIVITY = 0.9
STEFAN_BOLTZMANN = 5.670374e-8  # W/(m^2 K^4)
GLUE_CONDUCTANCE = 2000.0  # W/(m^2 K)
TONGUE_TO_BODY, HEEL_TO_BODY = 7.0, 8.0  # W/(m^2 K)
AIR_CONDUCTIVITY, GAP_RADIATION = 0.026, 5.0  # W/(m K), W/(m^2 K): air under the bar's edges
CONTACT = {"in": 60.0, "out": 400.0}  # W/(m^2 K), unknown: the manual under heater.contact
POWER = 100.0  # W, unknown, under a thermostat
FREE_FACES = ("board_top", "board_side", "board_nut_end", "board_body_end", "back",
              "headstock_face", "headstock_other")


@dataclass
class Film:
    conductance: float
    emissivity: float


class Warmth:
    def __init__(self, case, neck, phase_air, faults=()):
        self.case, self.neck, self.air = case, neck, phase_air
        self.woods, self.faults = {}, faults
        for piece, wood in neck.wood.items():
            along, across = wood.conductivity(neck.moisture)
            if "conductivity-swapped" in faults:
                along, across = across, along
            if "along-as-across" in faults:
                along = across
            capacity = wood.heat_capacity(CAPACITY_AT, neck.moisture)
            self.woods[piece] = along, across, capacity * (1.2 if "capacity" in faults else 1)
        bare = Film(case.value("room.film"), EMISSIVITY)
        self.film = {face: bare for face in FREE_FACES}
        self.film["body"] = Film(HEEL_TO_BODY, 0.0)
        self.film["tongue_under"] = Film(TONGUE_TO_BODY, 0.0) if neck.tongue else bare
        if "film" in faults:
            self.film = {f: Film(1.2 * v.conductance, v.emissivity) for f, v in self.film.items()}


class Bar:
    """The bar on the board: a line of linear elements with the heat of an iron on it."""

    def __init__(self, case, tables, element=5e-3):
        if case.text("heater.source") != "thermostat" or case.text("heater.held_by") != "bar":
            raise NotImplementedError("another source of heat than an iron held by the bar")
        metal = tables.bar(case.text("heater.metal"))
        self.conductivity = metal["conductivity"]
        self.capacity = metal["density"] * metal["heat_capacity"]
        self.width, self.thickness = case.value("heater.width"), case.value("heater.thickness")
        self.start, self.end = case.place("heater.from"), case.place("heater.to")
        self.iron = case.place("heater.iron_from"), case.place("heater.iron_to")
        self.sensor, self.film = case.place("heater.bar_sensor"), case.value("heater.film")
        self.contact = case.known("heater.contact", CONTACT[case.text("heater.frets")])
        self.packing = case.value("heater.overhang_contact")
        self.power = case.known("heater.power", POWER)
        self.set_point = case.value("heater.bar_temperature")
        flat_bar = case.text("heater.underside").startswith("flat")
        flat_board = case.text("board.radius") == "flat"
        self.radius = case.value("board.radius") if flat_bar and not flat_board else math.inf
        count = math.ceil((self.end - self.start) / element)
        self.x = np.linspace(self.start, self.end, count + 1)

    def resistance(self, y):
        """m^2 K/W between the bar and the board's top: frets, and the air under a flat bar."""
        gap = self.radius - math.sqrt(self.radius ** 2 - y * y) if self.radius < math.inf else 0.0
        return 1 / self.contact + gap / (AIR_CONDUCTIVITY + GAP_RADIATION * gap)

    def covers(self, x, y):
        return self.start <= x <= self.end and abs(y) <= self.width / 2

    def weights(self, x):
        """[(station, weight)] of the temperature at a place on the bar."""
        t = (min(max(x, self.start), self.end) - self.start) / (self.end - self.start)
        t *= len(self.x) - 1
        k = min(int(t), len(self.x) - 2)
        return [(k, 1 - (t - k)), (k + 1, t - k)]

    def iron_shares(self, samples=2000):
        """Of the iron's heat, by station; it is moved evenly over its length."""
        share = np.zeros(len(self.x))
        length = self.iron[1] - self.iron[0]
        for x in self.iron[0] + (np.arange(samples) + 0.5) / samples * length:
            if self.start <= x <= self.end:
                for k, weight in self.weights(x):
                    share[k] += weight
        return share / share.sum()
