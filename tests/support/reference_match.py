# SPDX-License-Identifier: MIT
"""The second answer to `trialfit match`: files put together as one document, and how it stands.

Written from what the README says of kits: every file's sizes are read by its own unit, gauges and general tolerance,
and stand in the joined document as sizes that are read, in the engine's unit. The joined document is then a job like
any other for reference.py (as it comes), reference_odds.py (its odds) and reference_plan.py (its cheapest plan).
"""
import copy
import dataclasses

import reference
from reference_job import Contradiction
from reference_odds import FormsJob, Spreads, findings
from reference_plan import Plan, TooMany
from reference_sizes import UNIT_MM, Context, parse

ORDER = ["holds", "holds after a plan", "doubtful", "no plan", "not judged"]  # best first
SAME = ("running_clearance", "radial_clearance", "shim_cost")  # in one file, or alike in all
LISTS = ("checks", "readings", "materials")


class NoJob(Exception):
    """The files make no job together."""


class File:
    """A file's document, and what its sizes leave to it."""

    def __init__(self, document, units):
        self.document, self.units = document, units
        self.context = Context(document.get("units", "mm"), document.get("general_tolerance", ""), {})
        for name, width in document.get("gauges", {}).items():
            self.context.gauges[name] = parse(width, self.context, True).nominal

    def size(self, written, bare=False):
        """A size in the engine's unit."""
        scale = UNIT_MM[self.context.units] / UNIT_MM[self.units]
        own = parse(written, self.context, bare)
        return dataclasses.replace(own, nominal=own.nominal * scale, lower=own.lower * scale, upper=own.upper * scale,
                                   sd=own.sd * scale, scatter=own.scatter * scale)

    def number(self, written):
        return self.size(written, True)

    def dimension(self, written):
        if isinstance(written, list):
            return [self.dimension(one) for one in written]
        if isinstance(written, dict):
            return {"read": self.size({k: v for k, v in written.items() if k != "from"}), "from": written["from"]}
        if " from " not in written:
            return written
        size, origin = written.rsplit(" from ", 1)
        return {"read": self.size(size), "from": origin.strip()}

    def shims(self, given):
        out = dict(given)
        if "holds" in given:
            out["holds"] = self.number(given["holds"])
        if "fitted" in given:
            out["fitted"] = [self.number(one) for one in given["fitted"]]
        if "stock" in given:
            out["stock"] = [one | {"thickness": self.number(one["thickness"])}
                            if isinstance(one, dict) and "thickness" in one else self.number(one)
                            for one in given["stock"]]
        return out

    def seat(self, given):
        out = dict(given)
        for key, bare in (("offset", False), ("play", True)):
            if key in given:
                out[key] = self.size(given[key], bare)
        if "key" in given:
            out["key"] = given["key"] | {k: self.size(given["key"][k]) for k in ("height", "room")}
        if "shims" in given:
            out["shims"] = self.shims(given["shims"])
        return out

    def part(self, given):
        out = copy.deepcopy(given)
        out["faces"] = {face: self.dimension(written) for face, written in given["faces"].items()}
        if "sits" in given:
            seats = given["sits"]
            out["sits"] = [self.seat(s) for s in seats] if isinstance(seats, list) else self.seat(seats)
        for ring in out.get("rings", {}).values():
            ring |= {k: self.number(ring[k]) for k in ("below", "above") if k in ring}
            ring |= {k: self.size(ring[k], not self.context.general) for k in ("bore", "od")}
        for cone in [*out.get("cones", {}).values(), *([out["cone"]] if "cone" in out else [])]:
            cone |= {"dia": self.size(cone["dia"]), "length": self.number(cone["length"])}
        for thread in [*out.get("threads", {}).values(), *([out["thread"]] if "thread" in out else [])]:
            thread |= {k: self.number(thread[k]) for k in ("lead_in", "run_out") if k in thread}
        for cut in out.get("cuts", []):
            cut |= {k: self.number(cut[k]) for k in ("keep", "holds") if k in cut}
            # Costs are by the millimetre in every file.
        for lap in out.get("laps", []):
            lap["at_most"] = f"{self.number(lap['at_most'].removesuffix(' on diameter')).nominal:.17g} on diameter"
        for key in ("clearance", "play"):
            if key in out.get("centred", {}):
                out["centred"][key] = self.number(out["centred"][key])
        if "runout" in out:
            out["runout"] = [one | {"is": self.number(one["is"])} if isinstance(one, dict) else self.number(one)
                             for one in (out["runout"] if isinstance(out["runout"], list) else [out["runout"]])]
        if "face_runout" in out:
            out["face_runout"] = {key: self.number(out["face_runout"][key]) for key in ("is", "dia")}
        return out

    def limit(self, written):
        words = str(written).split()
        if words[-1] in ("d", "pitches", "pitch") or words[-1].endswith("%"):
            return written
        return f"{self.number(written).nominal:.17g}"

    def section(self, key):
        items = self.document.get(key, [])
        if key == "checks":
            return [one | {k: self.limit(one[k]) for k in ("at_least", "at_most") if k in one}
                    | ({"aim": self.number(one["aim"])} if "aim" in one else {}) for one in items]
        return [one | {"is": self.size(one["is"])} for one in items] if key == "readings" else list(items)


def joined(engine, kits):
    """The document that an engine's and some kits' make together; NoJob where they make none."""
    for kit in kits:
        if isinstance(kit, str) or "parts" not in kit:
            raise NoJob("no YAML, or no parts")
    units = engine.get("units", "mm")
    files = [File(document, units) for document in (engine, *kits)]
    out = {key: value for key, value in engine.items() if key not in (*SAME, *LISTS, "parts", "states", "gauges")}
    parts = list(engine["parts"])
    at = next((n for n, part in enumerate(parts) if "kit" in part), len(parts))
    before, after = parts[:at], parts[at + 1:]
    out["parts"] = [files[0].part(part) for part in before]
    for file in files[1:]:
        out["parts"] += [file.part(part) for part in file.document.get("parts", [])]
    out["parts"] += [files[0].part(part) for part in after]
    for key in LISTS:
        items = [item for file in files for item in file.section(key)]
        if key == "materials":
            items = [item for n, item in enumerate(items) if item not in items[:n]]
        if items:
            out[key] = items
    for key in SAME:
        said = [file.number(file.document[key]).nominal if key != "shim_cost" else float(file.document[key])
                for file in files if key in file.document]
        if any(abs(one - said[0]) > 1e-9 * max(one, said[0]) for one in said):
            raise NoJob(f"{key}: {said}")
        if said:
            out[key] = f"{said[0]:.17g}"
    states = {}
    for file in files:
        for name, state in file.document.get("states", {}).items():
            if states.setdefault(name, state) != state:
                raise NoJob(f"state {name}")
    if states:
        out["states"] = states
    refuse(out)
    return out


def refuse(document):
    """What a job may not be, as far as made-up catalogues make it so."""
    names = [part["part"] for part in document["parts"]]
    if len(set(names)) < len(names):
        raise NoJob(f"two parts of one name: {names}")
    faces = {f"{part['part']}.{face}" for part in document["parts"] for face in part["faces"]}
    for check in document.get("checks", []):
        unknown = [face for face in check.get("gap", []) if face not in faces]
        if unknown:
            raise NoJob(f"{unknown} of check {check['check']}")


class Standing:
    """How a joined document stands; figures in the engine's unit."""

    def __init__(self, document):
        self.document = document
        self.check = reference.answer_of(document)
        self.verdict = self.check["verdict"]
        self.cost, self.plan = None, None
        self.fits = {"fails": "no plan"}.get(self.verdict, self.verdict)
        if self.verdict == "holds" and not self.check["clearances"] + self.check["checks"] + self.check["radial"]:
            self.fits = "not judged"  # what holds is nothing
            return
        if self.verdict == "holds":
            self.cost = 0.0
            return
        if self.verdict != "not judged" and self.may_change():
            self.plan = Plan(document)
            best = self.plan.cheapest()
            # No work makes a hub sit that rocks on its cone, or that its key holds off.
            if best is not None and not reference.rocks(self.plan.before) and \
                    not any(reference.keys(self.plan.before)) and not any(reference.cones_miss(self.plan.before)):
                self.fits, self.cost = "holds after a plan", best[0]

    def may_change(self):
        seats = [seat for part in self.document["parts"] if "sits" in part
                 for seat in (part["sits"] if isinstance(part["sits"], list) else [part["sits"]])]
        return any("stock" in seat.get("shims", {}) for seat in seats) \
            or any(part.get("cuts") or part.get("laps") for part in self.document["parts"])

    def least_chances(self, draws, seed):
        """The chance of the finding least likely to hold: of those by convolution, and of those by draws."""
        job = FormsJob(self.document)
        spreads = Spreads(job)
        drawn, exact, by_draws = None, 1.0, 1.0
        for states in findings(job).values():
            demands = [spreads.counted(demand) for demand in states[0].demands]
            single = len(states) == 1 and len(demands) == 1 and not states[0].over
            if single and spreads.certain(demands[0]) is not None:
                exact = min(exact, float(spreads.certain(demands[0])))
            elif single and not spreads.has_key(demands[0].form):
                exact = min(exact, 1.0 - spreads.fails(demands[0]))
            else:
                drawn = spreads.draw(draws, seed) if drawn is None else drawn
                by_draws = min(by_draws, float(spreads.holds(states, drawn).mean()))
        return exact, by_draws


def standing_of(engine, kits):
    """A Standing, or NoJob."""
    document = joined(engine, kits)
    try:
        return Standing(document)
    except Contradiction as why:
        raise NoJob(str(why)) from why
    except ZeroDivisionError as why:  # bound sizes whose vertices this answer cannot tell apart
        raise TooMany from why
