# SPDX-License-Identifier: GPL-3.0-or-later
"""The twenty places at which neck and reference are compared, as nodes of the mesh."""

import numpy as np

# face, x and y in mm. On the board's top none in or at the cells that the bar's edge (20 mm from the
# centre line) runs through: there quadratic cells overshoot the step of the contact, by 1 K.
WANTED = [
    ("board_top", 30, 0), ("board_top", 110, 0), ("board_top", 190, 0), ("board_top", 270, 0),
    ("board_top", 350, 0), ("board_top", 440, 0), ("board_top", 20, -8), ("board_top", 150, 8),
    ("board_top", 230, -8), ("board_top", 310, 8), ("board_side", 90, -23),
    ("board_side", 400, 27), ("back", 60, 0), ("back", 140, -5), ("back", 220, 5),
    ("back", 300, 0), ("back", 365, 0), ("headstock_face", -75, 15),
    ("headstock_face", -140, -30), ("headstock_other", -185, 30),
]


def on_lines(mesh):
    faces = [f for f in ("board_glue_upper", "board_glue_lower") if f in mesh.face]
    return set(np.concatenate([mesh.nodes_of(f) for f in faces]).tolist()) if faces else set()


def twenty(mesh):
    """Node numbers; no middles of faces, which cells of 20 nodes lack, and none on a glue line."""
    double, chosen = on_lines(mesh), []
    for face, x, y in WANTED:
        nodes = [n for n in np.unique(mesh.face[face][:, :8])
                 if n not in double and n not in chosen]
        p = mesh.position[nodes]
        off = np.hypot(p[:, 0] - x / 1e3, p[:, 1] - y / 1e3)
        if face == "back":  # the lowest line of the back, not its sides
            off = off + abs(p[:, 2] - p[:, 2].min()) * 0.5
        chosen.append(int(nodes[int(np.argmin(off))]))
    return chosen


def centre_line(mesh):
    """Nodes of the board's top on the centre line by rising x, none doubled."""
    nodes = mesh.nodes_of("board_top")
    p = mesh.position[nodes]
    line = nodes[abs(p[:, 1]) < 1e-6]
    return line[np.argsort(mesh.position[line, 0])]
