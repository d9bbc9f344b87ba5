#!/usr/bin/python3
"""Holds `trialfit seat` to a second answer, on examples and on made-up shaft ends: its published formulas
written again from their sources, each range from every corner of what it is made of.

usage: seat_made_up.py TRIALFIT JOB...
       seat_made_up.py TRIALFIT --random FIRST COUNT

preload, thread stress: VDI 2230 sheet 1 (torque of the flanks and of the face under the nut; tension with
plastic torsion on the stress area). Stripping: FED-STD-H28/2B, shear areas of both threads at their worst
limits. Cone: R. S. Khurmi and J. K. Gupta, Theory of Machines, ch. 10. Hub and draw-up: Lame, as in
R. G. Budynas and J. K. Nisbett, Shigley's Mechanical Engineering Design, 8th ed., eq. 3-49 and 3-56, the
spinning ring eq. 3-55. Inertia m (ro^2 + ri^2)/2. Limits of threads: ISO 965-1, from memory.
Where hub and shaft touch is worked out from the faces and cones of the job. Strengths that stand in tables
(property classes, nuts) and the least face under the nut are taken as `seat` tells them under `inputs`; other
tests hold those. Keys, unequal tapers and what the cuts of a job would cost the seat are not looked at.

Figures agree to 1e-9, relative: both add up a few dozen terms.
"""
import itertools
import json
import math
import subprocess
import sys

sys.path.insert(0, __file__.rsplit("/", 2)[0] + "/support")
import random_jobs  # noqa: E402
import reference  # noqa: E402
from held import Held  # noqa: E402
from reference_job import Job  # noqa: E402
from reference_sizes import UNIT_MM, taper  # noqa: E402

# d, P: deviation of 6g, its tolerances of major and pitch diameter, those of 6H of pitch and minor, micrometres.
THREADS = {(8, 1.0): (26, 180, 112, 150, 236), (10, 1.0): (26, 180, 112, 150, 236),
           (10, 1.25): (28, 212, 118, 160, 265), (12, 1.25): (28, 212, 132, 180, 265),
           (12, 1.5): (32, 236, 140, 190, 300), (14, 1.5): (32, 236, 140, 190, 300)}
USUAL = {"thread_friction": (0.10, 0.15, 0.20), "under_nut_friction": (0.10, 0.15, 0.20),
         "cone_friction": (0.10, 0.125, 0.15)}
UTILISATION = 0.9
# `seat` takes where the hub stands and how wide the shaft is each at its limits, as if the one did not hang on
# the other: its range holds that of the true corners, and is wider by up to so much of a figure.
CORNERS = 0.01


def span(written):
    """`30..34 N m` as (least, middle, greatest)."""
    ends = [float(end) for end in str(written).split(" ")[0].split("..")]
    return ends[0], 0.5 * (ends[0] + ends[-1]), ends[-1]


class Thread:
    def __init__(self, d, pitch):
        self.d, self.pitch = d, pitch
        height = math.sqrt(3.0) / 2.0 * pitch
        self.d2, d3 = d - 0.75 * height, d - 17.0 / 12.0 * height
        self.stress_dia = 0.5 * (self.d2 + d3)
        self.stress_area = math.pi / 4.0 * self.stress_dia ** 2
        deviation, of_major, of_pitch, of_nut_pitch, of_minor = (t / 1000.0 for t in THREADS[d, pitch])
        pitch_dia, minor = round(self.d2, 3), round(d - 1.25 * height, 3)  # as ISO 724 prints them
        least_major, least_pitch = d - deviation - of_major, pitch_dia - deviation - of_pitch
        most_minor, most_pitch = minor + of_minor, pitch_dia + of_nut_pitch
        self.bolt_area = math.pi / pitch * most_minor * (0.5 * pitch + (least_pitch - most_minor) / math.sqrt(3.0))
        self.nut_area = math.pi / pitch * least_major * (0.5 * pitch + (least_major - most_pitch) / math.sqrt(3.0))

    def preload(self, torque, thread, face, face_dia):
        """N from N m: pitch, flanks, face."""
        return 1e3 * torque / (0.16 * self.pitch + 0.58 * self.d2 * thread + 0.5 * face_dia * face)

    def stress(self, preload, thread):
        twist = 1.5 * self.d2 / self.stress_dia * (self.pitch / (math.pi * self.d2) + 1.155 * thread)
        return preload / self.stress_area * math.sqrt(1.0 + 3.0 * twist ** 2)


class Joint:
    """Hub, shaft and threads of a job, in mm."""

    def __init__(self, job):
        self.job, document = job, job.document
        self.mm = mm = UNIT_MM[job.context.units]
        self.hub = next(p for p in job.parts if p.seats and p.seats[0]["cone"])
        seat = self.hub.seats[0]
        self.shaft = seat["part"]
        self.on, self.own = self.shaft.cones[seat["other"]], self.hub.cones[seat["own"]]
        self.taper = self.on["taper"]
        if abs(self.taper - self.own["taper"]) > 1e-12 or seat["key"]:
            raise NotImplementedError
        sizes = [job.sizes[cone["dia"]] for cone in (self.on, self.own)]
        self.middle = self.contact(*(s.middle for s in sizes))
        self.corners = [self.contact(a, b) for a in (sizes[0].lower, sizes[0].upper)
                        for b in (sizes[1].lower, sizes[1].upper)]
        # As `seat` has it, see CORNERS.
        self.contacts = [self.contact(a, stand=stand) for a in (sizes[0].lower, sizes[0].upper)
                         for stand in self.stands(*sizes)]
        ring = max((r for r in self.hub.rings.values()), key=lambda r: -r["bore"])
        self.hub_od = ring["od"] * mm
        self.shaft_bore = max((r["bore"] for r in self.shaft.rings.values()), default=0.0) * mm
        own = {m["material"]: m for m in document.get("materials", [])}
        self.metals = [own.get(p.given.get("material")) for p in (self.shaft, self.hub)]
        given = next(t for t in self.shaft.threads.values())
        self.thread = Thread(round(given["d"] * mm, 6), round(given["pitch"] * mm, 6))

    def lengths(self):
        return [self.job.sizes[cone["length"]].nominal for cone in (self.on, self.own)]

    def stands(self, shaft_dia, hub_dia):
        """Where the hub may stand: the ends, and where the contact is longest between them."""
        least, most = (shaft_dia.lower - hub_dia.upper) / self.taper, (shaft_dia.upper - hub_dia.lower) / self.taper
        long, deep = self.lengths()
        return [least, most, *(level for level in (0.0, long - deep) if least < level < most)]

    def contact(self, shaft_dia, hub_dia=None, stand=None):
        """(length, mean diameter) where both cones are; `stand`: the hub's, where the diameters do not say it."""
        stand = (shaft_dia - hub_dia) / self.taper if stand is None else stand
        long, deep = self.lengths()
        start, end = max(0.0, stand), min(long, stand + deep)
        return (end - start) * self.mm, (shaft_dia - 0.5 * self.taper * (start + end)) * self.mm

    def draw_up(self, pressure, dia):
        """Lame: what shaft and hub yield, on the diameter, over the taper."""
        def spread(inside, outside):
            return (outside ** 2 + inside ** 2) / (outside ** 2 - inside ** 2)

        shaft, hub = ((float(m["modulus"]), float(m["poisson"])) for m in self.metals)
        per = dia * ((spread(dia, self.hub_od) + hub[1]) / hub[0]
                     + (spread(self.shaft_bore, dia) - shaft[1]) / shaft[0])
        return pressure * per / self.taper


def load(joint, torque, thread, face, cone, face_dia, engaged, contact, strengths):
    """All that the nut's torque does at one point of all ranges."""
    length, dia = contact
    slope = math.atan(0.5 * joint.taper)
    preload = joint.thread.preload(torque, thread, face, face_dia)
    normal = preload / (math.sin(slope) + cone * math.cos(slope))
    pressure = normal * math.cos(slope) / (math.pi * dia * length)
    q = (dia / joint.hub_od) ** 2
    hoop = pressure * (1.0 + q) / (1.0 - q)
    found = {"preload": preload, "thread_stress": joint.thread.stress(preload, thread),
             "cone_torque": cone * normal * dia / 2e3, "cone_pressure": pressure, "hub_hoop": hoop,
             "pull_off": normal * (cone * math.cos(slope) - math.sin(slope)),
             "hub_stress": math.sqrt(hoop ** 2 + hoop * pressure + pressure ** 2)}
    if all(joint.metals):
        found["draw_up"] = joint.draw_up(pressure, dia)
    if strengths:
        found["bolt_strip"] = preload / (0.5 * strengths[0] * joint.thread.bolt_area * engaged)
        found["nut_strip"] = preload / (0.5 * strengths[1] * joint.thread.nut_area * engaged)
    return found


def over_all(joint, ranges, engaged, strengths, contacts):
    """{figure: (least, middle, greatest)}: corners, and the middles of all."""
    names = ("nut_torque", "thread_friction", "under_nut_friction", "cone_friction", "face")
    points = [load(joint, *values, e, contact, strengths)
              for values in itertools.product(*({ranges[n][0], ranges[n][2]} for n in names))
              for e in {engaged[0], engaged[2]} for contact in contacts]
    middle = load(joint, *(ranges[n][1] for n in names), engaged[1], joint.middle, strengths)
    return {key: (min(p[key] for p in points), middle[key], max(p[key] for p in points)) for key in middle}


def turning(joint):
    """Inertia of hub and all that sits on it and turns, kg m2; None where a material is unknown."""
    job, with_hub, total, spins = joint.job, {joint.hub.name}, 0.0, []
    own = {m["material"]: m for m in job.document.get("materials", [])}
    z = job.positions(job.nominals)
    for part in job.parts:
        if not part.turns or part is not joint.hub and not any(s["part"].name in with_hub for s in part.seats):
            continue
        with_hub.add(part.name)
        metal = own.get(part.given.get("material"))
        if metal is None or "density" not in metal:
            return None, spins
        for name, ring in part.rings.items():
            ends = [z[part.name, face] + beyond for face, beyond in (ring["in"], ring["out"])]
            ro, ri, length = (v * joint.mm * 1e-3 for v in (0.5 * ring["od"], 0.5 * ring["bore"],
                                                            abs(ends[1] - ends[0])))
            mass = float(metal["density"]) * math.pi * (ro ** 2 - ri ** 2) * length
            total += 0.5 * mass * (ro ** 2 + ri ** 2)
            spins.append((f"{part.name}.{name}", ri, ro, float(metal["density"]), float(metal["poisson"])))
    return total, spins


def hold_seated(held, said, joint):
    """What keeps the hub, or what sits on it, from coming home: never what goes on later and lands on it."""
    rides = {joint.hub.name}
    for part in joint.job.parts:
        if any(s["part"].name in rides for s in part.seats):
            rides.add(part.name)
    lands = doubts = False
    for pair in reference.clearances(joint.job, 1.0):
        inboard, outboard = (end.split(".")[0] for end in pair["between"])
        if outboard not in rides:
            continue
        drawn = 0.0 if inboard in rides else said["draw_up"]["greatest"] if said["draw_up"] else 0.0
        if min(abs(pair["nominal"]), abs(pair["worst"][0] - drawn)) < 1e-6:
            return
        lands = lands or pair["nominal"] < 0.0
        doubts = doubts or pair["worst"][0] - drawn < 0.0
    wanted = "fails" if lands else "doubtful" if doubts else "holds"
    held.hold("seated", said["seated"]["verdict"] == wanted, f"{said['seated']}, should be {wanted}")


class Figures(Held):
    def near(self, kind, got, wanted, within=1e-9):
        true = got is not None and abs(got - wanted) <= within * max(abs(wanted), 1e-2)
        self.hold(kind, true, f"{got!r}, should be {wanted!r}")


def verdict(values, at_least, at_most):
    least, middle, most = values
    if (at_least is None or least >= at_least) and (at_most is None or most <= at_most):
        return "holds"
    fine = (at_least is None or middle >= at_least) and (at_most is None or middle <= at_most)
    return "doubtful" if fine else "fails"


def compare(held, program, text):
    done = subprocess.run([program, "seat", "-", "--json", "--as-written"], input=text, capture_output=True, text=True,
                          timeout=30, check=False)
    held.hold("exit codes", done.returncode in (0, 1), f"{done.returncode}: {done.stderr.strip()}")
    if done.returncode not in (0, 1):
        return
    said, job = json.loads(done.stdout), Job(reference.load(text), as_written=True)
    joint, given = Joint(job), job.document["seat"]
    inputs = {i["what"]: (i["least"], i["middle"], i["greatest"]) for i in said["inputs"]}
    findings = {(f["id"], f.get("of", "")): f for f in said["findings"]}
    lengths = sorted(c[0] for c in joint.contacts)
    for got, wanted in zip(inputs["length of the cone in contact"], (lengths[0], joint.middle[0], lengths[-1])):
        held.near("contact", got, wanted)
    dias = sorted(c[1] for c in joint.contacts)
    for got, wanted in zip(inputs["mean diameter of the cone in contact"], (dias[0], joint.middle[1], dias[-1])):
        held.near("contact", got, wanted)
    hold_seated(held, said, joint)
    strengths = [inputs.get(f"strength that the {side} thread strips by", [None])[0]
                 for side in ("external", "internal")]
    ranges = {name: span(given[name]) if name in given else usual for name, usual in USUAL.items()}
    ranges["face"] = inputs["mean diameter under the nut"]
    engaged = hold_engaged(held, job, findings, joint)
    inertia, spins = turning(joint)
    needed = hold_needed(held, said, given, inertia)
    hold_spinning(held, findings, given, spins)
    if "nut_torque" not in given:
        held.hold("absent torque", not any(key[0] == "preload" for key in findings), "a preload of no torque")
        return
    ranges["nut_torque"] = span(given["nut_torque"])
    strengths = strengths if all(strengths) else None
    found = over_all(joint, ranges, engaged, strengths, joint.contacts)
    exact = over_all(joint, ranges, engaged, strengths, joint.corners)
    for key, values in found.items():
        if key == "draw_up" and not all(name in given for name in USUAL):
            continue
        finding = findings.get((key, ""))
        held.hold("findings", finding is not None, f"{key} is missing")
        for end, value in zip(("least", "middle", "greatest"), values if finding else ()):
            if key == "thread_stress" and end == "least":  # need not lie at a corner, and is held to nothing
                continue
            held.near(key, finding[end], value)
        if key != "thread_stress":
            wide = CORNERS * max(abs(v) for v in values)
            hair = 1e-9 * max(abs(v) for v in values)
            held.hold("corners", -hair <= exact[key][0] - values[0] <= wide
                      and -hair <= values[2] - exact[key][2] <= wide,
                      f"{key}: {values} for {exact[key]}")
    hold_limits(held, said, findings, found, needed, inputs, ranges)


def hold_engaged(held, job, findings, joint):
    """Whole thread in engagement, mm."""
    names = [f"{p.name}.{t}" for p in job.parts for t in p.threads]
    bounds = reference.check(job, {"check": "e", "engagement": names[::-1], "at_least": "0"}, 1.0)
    values = tuple(v * joint.mm for v in (bounds["worst"][0], bounds["middle"], bounds["worst"][1]))
    for end, value in zip(("least", "middle", "greatest"), values):
        held.near("engaged", findings["engaged", ""][end], value)
    return values


def hold_needed(held, said, given, inertia):
    asks = [span(given["engine_torque"])[2]] if "engine_torque" in given else []
    if "crank_acceleration" in given and inertia is not None:
        asks.append(inertia * span(given["crank_acceleration"])[2])
    if "crank_acceleration" in given and inertia is None:
        return None
    held.hold("needed", (said["needed"] is None) == (not asks), f"{said['needed']} of {asks}")
    if asks:
        held.near("needed", said["needed"], max(asks))
    return max(asks, default=None)


def hold_spinning(held, findings, given, spins):
    if "speed" not in given or not spins:
        return
    omega = span(given["speed"])[2] * math.pi / 30.0
    hoops = {name: 1e-6 * density * omega ** 2 / 4.0 * ((3.0 + nu) * ro ** 2 + (1.0 - nu) * ri ** 2)
             for name, ri, ro, density, nu in spins}
    finding = next((f for (key, _), f in findings.items() if key == "spinning_hoop"), None)
    held.near("spinning", finding and finding["greatest"], max(hoops.values()))


def hold_limits(held, said, findings, found, needed, inputs, ranges):
    """Verdicts of a hub that is seated, and where the limits of the torque lie."""
    seated = said["seated"]["verdict"] == "holds"
    most = []
    bolt_yield = inputs.get("yield strength of the external thread")
    limits = {"cone_torque": (needed, None), "bolt_strip": (None, 1.0), "nut_strip": (None, 1.0),
              "thread_stress": (None, UTILISATION * bolt_yield[0] if bolt_yield else None),
              "hub_stress": (None, inputs["yield strength of the hub"][0]
                             if "yield strength of the hub" in inputs else None)}
    for key, (low, high) in limits.items():
        if key not in found or low is None and high is None:
            continue
        finding = findings[key, ""]
        if finding["verdict"] != "not judged":
            slack = 1.0034 if key == "thread_stress" else 1.0  # VDI 2230's own tables are rounded so
            wanted = verdict(found[key], low, high and high * slack)
            held.hold("verdicts", finding["verdict"] == wanted, f"{key}: {finding['verdict']}, should be {wanted}")
        elif seated:
            held.hold("verdicts", said["not_judged"], f"{key} not judged, and no reason")
        if high is not None:
            most.append(high / found[key][2] * ranges["nut_torque"][2])
    if "nut_proof" in dict.fromkeys(k for k, _ in findings):
        most.append(1.0 / findings["nut_proof", ""]["greatest"] * ranges["nut_torque"][2])
    torque = said["torque_limits"]
    if needed is not None and torque["cone_needs"] is not None:
        held.near("torque limits", torque["cone_needs"], needed / found["cone_torque"][0] * ranges["nut_torque"][0])
    if torque["most"] is not None and torque["most_by"] in dict.fromkeys(k for k, _ in findings):
        held.near("torque limits", torque["most"], min(most))
    elif torque["most"] is not None:  # by a gap that the draw-up takes: less than the strengths allow
        held.hold("torque limits", torque["most"] <= min(most, default=math.inf), f"{torque}, over {most}")


class Maker(random_jobs.Maker):
    def span(self, low, high, unit=""):
        low, high = round(low, 3), round(high, 3)
        return f"{low}..{high}{unit}" if self.r.random() < 0.7 else f"{high}{unit}"

    def near_size(self, mm, half=0.01):
        """A diameter of a cone, known well enough for it to bear."""
        n, kind = self.number, self.r.randrange(4)
        return [f"{n(mm)} ±{n(half)}", f"{n(mm)} +{n(2 * half)} -{n(half)}", f"{n(mm)} by micrometer",
                f"{n(mm)} exact"][kind]

    def metals(self):
        r = self.r
        return [{"material": name, "density": str(r.choice([7850, 7800, 2700])), "poisson": str(r.choice([0.3, 0.33])),
                 "modulus": str(r.choice([210000, 70000])), "strength": str(r.choice([250, 400, 650]))}
                for name in ("shaft metal", "hub metal")]

    def shaft(self, dia, slope, length, thread, thread_in, end):
        r, n, (d, pitch) = self.r, self.number, thread
        crank = {"part": "crank", "turns": "true", "material": "shaft metal",
                 "sits": {"face": "big", "against": "case.floor", "offset": self.size(6.0)},
                 "faces": {"big": "zero", "thread_in": f"{n(thread_in)} ±{n(0.2)} from big",
                           "end": f"{n(end)} ±{n(0.1)} from big"},
                 "cone": {"at": "big", "dia": self.near_size(dia), "taper": slope, "length": n(length)},
                 "thread": {"form": f"M{d}x{pitch:g}-6g", "class": "8.8", "from": "thread_in", "to": "end"},
                 "rings": {"stub": {"from": "big", "to": "end", "bore": n(r.choice([0.0, 3.0])), "od": n(d)}}}
        if r.random() < 0.6:
            crank["thread"]["lead_in"] = n(pitch)
        return crank

    def hub(self, dia, slope, stand, deep, seat_at):
        r, n = self.r, self.number
        return {"part": "rotor", "turns": "true", "material": "hub metal",
                "sits": {"cone": "bore", "against": "crank.cone"},
                "faces": {"in": "zero", "seat": f"{n(seat_at)} ±{n(0.05)} from in", "rim": "-9.5 mm ±0.1 from in"},
                "cones": {"bore": {"at": "in", "dia": self.near_size(dia - stand * taper(slope)), "taper": slope,
                                   "length": n(deep)}},
                "rings": {"boss": {"from": "in", "to": "seat", "bore": n(dia), "od": n(dia * r.uniform(1.5, 2.6))},
                          "skirt": {"from": "rim", "to": "in", "bore": n(84.0), "od": n(r.uniform(90.0, 120.0))}}}

    def fastening(self, thread, washer, height):
        n, (d, pitch) = self.number, thread
        same = {"turns": "true", "material": "hub metal"}
        return [{"part": "washer", **same, "sits": {"face": "under", "against": "rotor.seat"},
                 "faces": {"under": "zero", "top": f"{n(washer)} ±{n(0.1)} from under"},
                 "rings": {"ring": {"from": "under", "to": "top", "bore": n(d + 0.5), "od": n(2.1 * d)}}},
                {"part": "nut", **same, "sits": {"face": "seat", "against": "washer.top"},
                 "faces": {"seat": "zero", "top": f"{n(height)} +{n(0.0)} -{n(0.3)} from seat"},
                 "thread": {"form": f"M{d}x{pitch:g}-6H", "class": "8", "from": "seat", "to": "top"},
                 "rings": {"hex": {"from": "seat", "to": "top", "bore": n(d), "od": n(1.8 * d)}}}]

    def in_the_way(self, parts, end):
        """A plate that the skirt may land on, and a cover that may land on shaft and nut."""
        r, n = self.r, self.number
        if r.random() < 0.5:
            parts.insert(2, {"part": "plate",
                             "sits": {"face": "back", "against": "case.floor", "offset": f"{n(-20.0)} ±{n(0.05)}"},
                             "faces": {"back": "zero", "front": f"{n(r.uniform(14.0, 19.0))} ±{n(0.05)} from back"},
                             "rings": {"disc": {"from": "back", "to": "front", "bore": n(80.0), "od": n(120.0)}}})
        if r.random() < 0.5:
            closes = f"{n(end + r.uniform(-6.0, 12.0))} ±{n(0.1)}"
            parts.append({"part": "cover", "sits": {"face": "in", "against": "case.floor", "offset": closes},
                          "faces": {"in": "zero", "out": f"{n(3.0)} ±{n(0.1)} from in"},
                          "rings": {"roof": {"from": "in", "to": "out", "bore": "0", "od": n(130.0)}}})

    def seat(self, d):
        """What the section states, some of it left out."""
        r, torque = self.r, self.r.uniform(0.2, 0.6) * d ** 2
        seat = {"nut_torque": self.span(torque, torque * 1.2, " N m")}
        for key, least in (("thread_friction", 0.1), ("under_nut_friction", 0.1), ("cone_friction", 0.11)):
            seat[key] = self.span(least, r.uniform(0.12, 0.2))
        seat |= {"engine_torque": self.span(5.0, r.uniform(6.0, 80.0), " N m"),
                 "crank_acceleration": self.span(5000.0, r.uniform(6000.0, 50000.0), " rad/s2"),
                 "speed": self.span(5000, 9000, " rpm")}
        return {key: value for key, value in seat.items() if r.random() < 0.85} or {"nut_torque": "20 N m"}

    def job(self):
        r, thread = self.r, self.r.choice(sorted(THREADS))
        slope = r.choice(["1 in 5", "1:8", "1 in 10", "0.15"])
        dia, length = r.uniform(1.3, 1.8) * thread[0] + 4.0, r.uniform(12.0, 22.0)
        stand, deep = r.uniform(0.2, 3.0), length + r.uniform(-3.0, 5.0)
        washer, height = r.uniform(1.5, 3.0), 0.8 * thread[0]
        seat_at = max(deep, length) + 4.0 - stand
        end = max(seat_at, length) + stand + 5.0 + washer + height + r.uniform(1.0, 5.0)
        parts = [{"part": "case", "faces": {"floor": "zero"}},
                 self.shaft(dia, slope, length, thread, length + stand + r.uniform(0.0, 1.5), end),
                 self.hub(dia, slope, stand, deep, seat_at), *self.fastening(thread, washer, height)]
        for part in (parts[1], parts[4]):
            if r.random() < 0.15:
                del part["thread"]["class"]
        metals = self.metals()
        if r.random() < 0.1:
            del metals[1]["density"]
        service = self.seat(thread[0])
        self.in_the_way(parts, end)
        document = {"trialfit": "1", "units": self.units}
        if self.general:
            document["general_tolerance"] = self.general
        return random_jobs.emit(document | {
            "gauges": {k: self.number(v) for k, v in random_jobs.GAUGES.items()}, "materials": metals, "parts": parts,
            "seat": service})


def jobs(arguments):
    if arguments[0] == "--random":
        first, count = int(arguments[1]), int(arguments[2])
        for seed in range(first, first + count):
            yield f"shaft end {seed}", Maker(seed).job()
    else:
        for path in arguments:
            with open(path, encoding="utf-8") as file:
                text = file.read()
            if "\nseat:" in text and "unmeasured" not in text and "\nrecord:" not in text:
                yield path, text


def main():
    held, skipped = Figures(), 0
    for name, text in jobs(sys.argv[2:]):
        try:
            held.ask(name, lambda: compare(held, sys.argv[1], text))
        except NotImplementedError:
            skipped += 1
    return held.end("seats", skipped)


if __name__ == "__main__":
    sys.exit(main())
