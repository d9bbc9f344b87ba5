# SPDX-License-Identifier: MIT
"""An instance of W3 at random, with a solution by construction, in the format of spec/w3_*.txt.

  python3 tests/bench/generate_w3.py FACES SEATS SEED > spec/w3_FACES_SEATS_NN.txt
"""
import random
import sys

KINDS, MOST = 15, 3
THICKNESS = [0.1, 0.15, 0.2, 0.25, 0.3, 0.35, 0.4, 0.45, 0.5, 0.6, 0.7, 0.85, 1.0, 1.15, 1.3]


def main():
    faces, seats, seed = (int(word) for word in sys.argv[1:])
    dice = random.Random(seed)
    print("# faces: maxdepth setup cost_per_mm tol_uncut tol_cut")
    print(faces)
    face = []
    for _ in range(faces):
        face.append((round(dice.uniform(1.0, 2.0), 2), round(dice.uniform(5, 11), 1),
                     round(dice.uniform(0.5, 3.0), 2), round(dice.uniform(0.1, 0.2), 3),
                     round(dice.uniform(0.02, 0.036), 3)))
        print(*face[-1])
    print("# shim positions, max shims each; stock: thickness tol count price")
    print(seats, MOST)
    print(KINDS)
    half_width = [round(0.004 + 0.006 * thickness, 4) for thickness in THICKNESS]
    for thickness, half in zip(THICKNESS, half_width):
        print(thickness, half, dice.randint(2, 5), round(0.3 + 0.5 * thickness, 2))
    cut = [dice.random() < 0.4 for _ in range(faces)]
    depth = [dice.uniform(0, each[0]) if made else 0.0 for each, made in zip(face, cut)]
    stacks = [[dice.randrange(KINDS) for _ in range(dice.randint(0, 2))] for _ in range(seats)]
    rows = 12 * faces // 8
    print("# clearance rows: lower upper gap0 fixed_margin  face coeffs  shim coeffs")
    print(rows)
    for _ in range(rows):
        of_faces, of_seats = [0] * faces, [0] * seats
        for f in dice.sample(range(faces), dice.randint(2, 4)):
            of_faces[f] = dice.choice((-1, 1))
        for s in dice.sample(range(seats), dice.randint(1, 3)):
            of_seats[s] = dice.choice((-1, 1))
        fixed = round(dice.uniform(0.02, 0.08), 3)
        margin = fixed + sum(abs(c) * (face[f][4] if cut[f] else face[f][3])
                             for f, c in enumerate(of_faces))
        margin += sum(abs(c) * sum(half_width[k] for k in stacks[s])
                      for s, c in enumerate(of_seats))
        moved = sum(c * depth[f] for f, c in enumerate(of_faces))
        moved += sum(c * sum(THICKNESS[k] for k in stacks[s]) for s, c in enumerate(of_seats))
        lower = 0.3
        upper = round(lower + 2 * margin + dice.uniform(0.1, 0.5), 4)
        gap = lower + margin + dice.uniform(0, upper - lower - 2 * margin) - moved
        print(lower, f"{upper:.4f}", f"{gap:.4f}", fixed, "", *of_faces, "", *of_seats)


main()
