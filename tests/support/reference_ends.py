"""Which ends of which rings can meet along the axis, and linear equations: pieces of reference.py."""
import itertools

import numpy as np


def document_hub(document, on_cone):
    """The part that the nut draws home: the one that the seat section names, or else the one on a
    cone."""
    return document["seat"].get("hub", on_cone.name)


def seat_faces(earlier, later):
    """{(face of `earlier`, face of `later`): [seat]} of the seats between the two, cones aside."""
    found = {}
    for one, other in ((earlier, later), (later, earlier)):
        for s in one.seats:
            if not s["cone"] and s["part"] is other:
                found.setdefault((s["other"], s["own"]) if one is later else (s["own"], s["other"]), []).append(s)
    return found


def meeting_ends(earlier, later):
    """[(outboard end of a ring of `earlier`, inboard end of a ring of `later`, outer edge of the overlap)]
    of all rings that overlap in diameter, the faces of a seat that lie on one another excepted. An end:
    (face, beyond). The edge is as large as the outside diameters' limits allow."""
    # At an offset a part may be in the one that it is seated by, or too near to it: such a pair is looked at. With play
    # the two are to meet, and only a part that is in the other is.
    def meet(s):
        if s["offset"] is None or abs(s["stands"]) <= 1e-9:
            return True
        outboard = 1.0 if any(s is each for each in later.seats) else -1.0
        return s["play"] is not None and s["stands"] * outboard > 0.0

    seats = {faces for faces, all_of in seat_faces(earlier, later).items() if any(meet(s) for s in all_of)}
    pairs = []
    for a in earlier.rings.values():
        for b in later.rings.values():
            # What touches by the rounding of two units does not overlap.
            if b["bore"] < a["od"] * (1.0 - 1e-12) and a["bore"] < b["od"] * (1.0 - 1e-12):
                seat = a["out"][1] == b["in"][1] == 0.0 and (a["out"][0], b["in"][0]) in seats
                edge = min(a["od_limit"], b["od_limit"])
                pairs += [] if seat else [(a["out"], b["in"], edge)]
    return pairs


def solve(matrix, right):
    """Gauss with row pivots; None where the matrix is singular."""
    n = len(right)
    rows = [list(matrix[i]) + [right[i]] for i in range(n)]
    for c in range(n):
        p = max(range(c, n), key=lambda i: abs(rows[i][c]))
        if abs(rows[p][c]) < 1e-14:
            return None
        rows[c], rows[p] = rows[p], rows[c]
        for i in range(n):
            if i != c and rows[i][c]:
                f = rows[i][c] / rows[c][c]
                rows[i] = [a - f * b for a, b in zip(rows[i], rows[c])]
    return [rows[i][n] / rows[i][i] for i in range(n)]


def extremes(a, b, c):
    """Least and greatest sum of c u over |u| <= 1 with a' u = b, a row of a for each u: by linear
    programming's dual, whose corners each let as many sizes float as there are loops."""
    basis = np.array(list(itertools.combinations(range(len(a)), len(b))))
    scale = np.prod(np.abs(a).max(axis=0))
    basis = basis[np.abs(np.linalg.det(a[basis])) > 1e-13 * scale]  # what tells the loops apart
    price = np.linalg.solve(a[basis], c[basis])
    floating = np.abs(c - price @ a.T).sum(axis=1)
    return [-float(np.min(floating - price @ b)), float(np.min(floating + price @ b))]


def can_close(a, b):
    """Whether any sizes within their limits close the loops: no weighting of the loops may ask
    for more than the limits give. The weightings to try let all but one loop's worth float."""
    r = len(b)
    for basis in itertools.combinations(a, r - 1):
        for k in range(r):
            others = [j for j in range(r) if j != k]
            found = solve([[row[j] for j in others] for row in basis], [-row[k] for row in basis])
            if found is None:
                continue
            weights = [0.0] * r
            weights[k] = 1.0
            for j, value in zip(others, found):
                weights[j] = value
            asked = sum(w * v for w, v in zip(weights, b))
            given = sum(abs(sum(w * v for w, v in zip(weights, row))) for row in a)
            if abs(asked) > given + 1e-9:
                return False
    return True
