# SPDX-License-Identifier: GPL-3.0-or-later
"""The neck as a list of numbers, from case, tables and mesh: pieces, grain, glue lines.

Nothing here is taken from the program: the design and the comments of the tables say what is
modelled.
"""

import math

import numpy as np

from elements import area_of_nodes
from quantity import ring_angle
from tables import REFERENCE_TEMPERATURE, equilibrium_moisture

SLOT_DEPTH, SLOT_SHARE = 2.5e-3, 0.42  # of unknown slots: the manual under board.slot_depth


def grain_frame(ring, across, depth):
    """Columns L, R, T: L along the grain's slopes; R by the rings in the section, square to L."""
    along = np.array([1.0, across, depth])
    along /= np.linalg.norm(along)
    radial = np.array([0.0, math.sin(ring), math.cos(ring)])
    radial -= (radial @ along) * along
    radial /= np.linalg.norm(radial)
    return np.column_stack([along, radial, np.cross(along, radial)])


class Neck:
    """Woods and frames by piece; the glue lines as pairs of nodes with areas."""

    def __init__(self, case, tables, mesh, faults=()):
        self.case, self.tables, self.mesh, self.faults = case, tables, mesh, faults
        self.moisture = equilibrium_moisture(REFERENCE_TEMPERATURE, case.value("moisture.built_at"))
        self.wood, self.frame = {}, {}
        for piece in ("shaft", "fillet", "board", "headstock"):
            section = self.section_of(piece)
            self.wood[piece] = tables.wood(self.wood_name(piece))
            self.frame[piece] = self.frame_of(piece, section)
        self.refuse_what_is_left_out()
        self.glue_pairs = self.pair("board_glue_upper", "board_glue_lower")
        self.tongue = {}
        if case.truth("board.tongue_glued") and "along-as-across" not in faults:
            self.tongue = area_of_nodes(mesh, "tongue_under")
        if "line-left-out" in faults:
            self.glue_pairs = [(u, l, a * 1e-9) for u, l, a in self.glue_pairs]

    def section_of(self, piece):
        scarf = self.case.text("headstock.kind") == "scarf"
        if piece == "board":
            return "board"
        return "headstock" if piece == "headstock" and scarf else "shaft"

    def wood_name(self, piece):
        name = self.case.text(self.section_of(piece) + ".wood")
        return self.case.text("shaft.wood") if name == "as shaft" else name

    def frame_of(self, piece, section):
        angle = ring_angle(self.case.text(section + ".grain"))
        if piece == "board" and "board-turned" in self.faults:
            angle += math.pi / 2
        frame = grain_frame(angle, self.case.value(section + ".run_out_across"),
                            self.case.value(section + ".run_out_depth"))
        if section == "headstock":  # grown along its own face
            a = self.case.value("headstock.angle")
            tilt = np.array([[math.cos(a), 0, -math.sin(a)], [0, 1, 0],
                             [math.sin(a), 0, math.cos(a)]])
            frame = tilt @ frame
        return frame

    def refuse_what_is_left_out(self):
        """What this proof does not know must not pass unseen."""
        c, given = self.case, self.case.given
        if "lamination" in given or any(k.endswith(("at_body", "at_tip")) for s in given.values()
                                        if isinstance(s, dict) for k in s):
            raise NotImplementedError("strips, or grain that changes along a piece")
        if c.text("grain.scatter") != "0 %" or "bar" in self.mesh.piece:
            raise NotImplementedError("scattered swelling, or a bonded bar")

    def pair(self, upper, lower):
        """(node above, node below, area): nodes of the two sides at one place."""
        if upper not in self.mesh.face:
            return []
        at = self.mesh.position
        below = {tuple(np.round(at[n], 7)): n for n in self.mesh.nodes_of(lower)}
        return [(n, int(below[tuple(np.round(at[n], 7))]), area)
                for n, area in area_of_nodes(self.mesh, upper).items()]

    def compliances(self, temperature, at_once=True):
        """By piece, in wood axes, 1/Pa."""
        result = {}
        for piece, wood in self.wood.items():
            pick = wood.compliance_at_once if at_once else wood.compliance
            result[piece] = pick(temperature, self.moisture)
        return result

    def expansions(self):
        factor = 1.2 if "expansion" in self.faults else 1.0
        return {piece: factor * wood.expansion() for piece, wood in self.wood.items()}

    @property
    def line_thickness(self):
        return self.case.value("glue.board_thickness")

    @property
    def glue(self):
        return self.tables.glue(self.case.text("glue.board"))

    def glass_modulus(self):
        """Shear modulus of the line at once, Pa: plateau and all branches."""
        return self.glue["plateau"] + sum(self.glue["branch_modulus"])

    def normal_stiffness(self):
        """Across the line, Pa/m: a thin layer that cannot move sideways, (K + 4/3 G)/t."""
        return (self.glue["bulk_modulus"] + 4 / 3 * self.glass_modulus()) / self.line_thickness

    def shear_stiffness(self):
        return self.glass_modulus() / self.line_thickness
