# SPDX-License-Identifier: GPL-3.0-or-later
"""What holds and pulls the neck, from the case: springs over rows of displacements, and loads.

A row is {(node, component): coefficient}; the body's tip about its pads is the node TIP.
"""

import math
from dataclasses import dataclass, field

import numpy as np

from elements import area_of_nodes, face_shapes

TIP = -1
# What the model takes where the case has no number (estimates; they stand in solver/bench).
JOINT_STIFFNESS = 2e12  # N/m^3, heel in the body
RIGID_BODY = 1e8  # N m/rad, a body held hard
POST_HEIGHT = 7e-3  # m, of a string at its post over the headstock's face
BEARING_RADIUS = 12e-3  # m, of the wood that a post or a cord's foot bears on
SEAT = -8e-3, 5e-3  # m, along the neck: the ledge that the nut stands on
STRINGS_SPAN = 0.84  # of the nut's width, between the outer strings
LOOKS_DOWN = 0.5  # of the normal: from here on a surface bears on the cradle


@dataclass
class Spring:
    name: str
    row: dict
    stiffness: float  # N/m
    offset: float = 0.0  # m, of its elongation
    one_sided: bool = False


@dataclass
class Bench:
    springs: list = field(default_factory=list)
    load: dict = field(default_factory=dict)  # {(node, component): N}

    def push(self, row, factor):
        for key, value in row.items():
            self.load[key] = self.load.get(key, 0.0) + factor * value


def spread(mesh, nodes, point, force):
    """Forces on nodes with the resultant `force` at `point`: even, and turning with the arm."""
    place = mesh.position[nodes]
    arm = place - place.mean(0)
    inertia = np.eye(3) * (arm ** 2).sum() - arm.T @ arm
    turn = np.linalg.solve(inertia, np.cross(np.asarray(point) - place.mean(0), force))
    each = np.asarray(force) / len(nodes) + np.cross(turn, arm)
    return {(int(n), i): each[k, i] for k, n in enumerate(nodes) for i in range(3)}


def spans_an_area(place, narrowest=0.09):
    """Nodes of one line carry no moment about it."""
    size = np.linalg.svd(place - place.mean(0), compute_uv=False)
    return len(place) >= 3 and size[1] > narrowest * size[0]


def nodes_near(mesh, face, point, radius):
    """Nodes of a face within a radius, and the next ones until they can carry a moment."""
    nodes = mesh.nodes_of(face)
    distance = np.linalg.norm(mesh.position[nodes] - point, axis=1)
    order = np.argsort(distance, kind="stable")
    count = max(1, int((distance <= radius).sum()))
    while not spans_an_area(mesh.position[nodes[order[:count]]]):
        count += 1
    return nodes[order[:count]]


def hold_body(bench, case, mesh):
    for node, area in area_of_nodes(mesh, "body").items():
        for i in range(3):
            bench.springs.append(Spring("body", {(node, i): 1.0}, JOINT_STIFFNESS * area))
    pads = case.text("bench.body") == "pads"
    bench.springs.append(Spring("pads", {(TIP, 0): 1.0},
                                case.value("bench.pad_stiffness") if pads else RIGID_BODY))


def tensions(case, tables):
    """From bass to treble, N: mass (2 L f)^2, equal temperament from A = 440 Hz."""
    strings = tables.strings(case.text("strings.set"))
    shift = float(case.text("strings.semitones"))
    f = [440 * 2 ** ((note + shift - 69) / 12) for note in strings["note"]]
    return [m * (2 * case.scale_length * x) ** 2 for m, x in zip(strings["mass"], f)][::-1]


def posts(case, count):
    """(distance from the nut, y) of each string's post from bass to treble; posts on both sides."""
    if case.text("tuners.layout") != "both sides":
        raise NotImplementedError("posts in a line")
    half = (count + 1) // 2
    first, last = case.value("tuners.first_post"), case.value("tuners.last_post")
    places = [first + (last - first) * k / (half - 1) for k in range(half)]
    y = case.value("tuners.across") / 2
    return [(p, -y) for p in places] + [(p, y) for p in reversed(places)]


def on_face(case, along, y):
    a = case.value("headstock.angle")
    return np.array([-along * math.cos(a), y,
                     -case.value("headstock.face_step") - along * math.sin(a)])


def nut_seat(case, mesh):
    nodes = np.union1d(mesh.nodes_of("headstock_face"), mesh.nodes_of("board_glue_lower"))
    p = mesh.position[nodes]
    near = (p[:, 0] > SEAT[0]) & (p[:, 0] < SEAT[1])
    return nodes[near & (abs(p[:, 1]) <= case.value("neck.nut_width") / 2)]


def string_up(bench, case, tables, mesh, factor=1.0):
    """Tension from bridge to nut to post, and how it turns with the neck (second order)."""
    if case.text("headstock.kind") != "flat":
        raise NotImplementedError("strings on a tilted headstock")
    pull = [factor * t for t in tensions(case, tables)]
    seat = nut_seat(case, mesh)
    height = case.value("board.thickness") + case.value("strings.height_at_nut")
    rise = case.value("strings.height_at_join") - case.value("strings.height_at_nut")
    to_bridge = np.array([case.join, 0, rise]) / math.hypot(case.join, rise)
    for k, (tension, (along, across)) in enumerate(zip(pull, posts(case, len(pull)))):
        y = STRINGS_SPAN * (k / (len(pull) - 1) - 0.5) * case.value("neck.nut_width")
        nut, foot = np.array([0, y, height]), on_face(case, along, across)
        post = foot + [0, 0, POST_HEIGHT]
        to_post = (post - nut) / np.linalg.norm(post - nut)
        bench.push(spread(mesh, seat, nut, to_bridge + to_post), tension)
        bush = nodes_near(mesh, "headstock_face", foot, BEARING_RADIUS)
        bench.push(spread(mesh, bush, post, to_post), -tension)
    turn_with_neck(bench, case, mesh, seat, height, sum(pull))


def turn_with_neck(bench, case, mesh, seat, height, tension):
    """A nut that rises turns the strings back; thrust on a bent neck bends it further (-T w'^2)."""
    row = spread(mesh, seat, [0, 0, height], [0, 0, 1])
    bench.springs.append(Spring("strings", row, tension / case.scale_length))
    nodes = mesh.nodes_of("board_glue_lower")
    p = mesh.position[nodes]
    line = nodes[(abs(p[:, 1]) < 1e-6) & (p[:, 0] <= case.join)]
    line = line[np.argsort(mesh.position[line, 0])]
    for a, b in zip(line[:-1], line[1:]):
        length = mesh.position[b, 0] - mesh.position[a, 0]
        bench.springs.append(Spring("thrust", {(int(b), 2): 1.0, (int(a), 2): -1.0},
                                    -tension / length))


def half_width_of_headstock(mesh, x):
    """Largest |y| of the headstock's face at x, between the nodes of its edge."""
    p = mesh.position[mesh.nodes_of("headstock_face")]
    stations = np.unique(np.round(p[:, 0], 6))
    widths = [abs(p[abs(p[:, 0] - s) < 1e-5, 1]).max() for s in stations]
    return float(np.interp(x, stations, widths))


def pads_place(case):
    return case.join + case.value("bench.pad_distance")


def pull_cords(bench, case, mesh, take_up, count=6):
    """One cord from the middle post of each side over the headstock's edge down to the bench."""
    places = posts(case, count)
    middle = {"bass": places[(count // 2 - 1) // 2], "treble": places[count // 2 + 1]}
    for side, (along, across) in middle.items():
        foot = on_face(case, along, across)
        foot[1] = math.copysign(half_width_of_headstock(mesh, foot[0]), across)
        row = spread(mesh, nodes_near(mesh, "headstock_face", foot, BEARING_RADIUS), foot,
                     [0, 0, 1])
        row[TIP, 0] = pads_place(case) - foot[0]
        bench.springs.append(Spring("cord " + side, row, case.value("bench.cord_stiffness"),
                                    take_up[side], one_sided=True))


def bear_on_cradle(bench, case, mesh, parts=4):
    """Pad under the back: springs at points of the faces that look down over its length."""
    middle, width = case.place("bench.cradle"), case.value("bench.cradle_width")
    t = (np.arange(parts) + 0.5) / parts * 2 - 1
    for nodes in mesh.face["back"]:
        place = mesh.position[nodes]
        if place[:, 0].max() < middle - width / 2 or place[:, 0].min() > middle + width / 2:
            continue
        for point in [(u, v) for u in t for v in t]:
            value, slope = face_shapes(len(nodes), point)
            x = value @ place
            normal = np.cross(slope[:, 0] @ place, slope[:, 1] @ place)
            down = abs(normal[2])
            if abs(x[0] - middle) > width / 2 or down < LOOKS_DOWN * np.linalg.norm(normal):
                continue
            row = {(int(n), 2): -v for n, v in zip(nodes, value)}
            row[TIP, 0] = -(pads_place(case) - x[0])
            stiffness = case.value("bench.cradle_pad") * down * 4 / parts ** 2
            bench.springs.append(Spring("cradle", row, stiffness, one_sided=True))
