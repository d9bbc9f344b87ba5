"""The states of a job: reference.py's answer to heat. Each part's lengths times 1 + alpha (T - 20)."""

# Callister, Fundamentals of Materials Science and Engineering, 3rd ed., table B.6; 1e-6 per K.
EXPANSION = {"steel": 11.7, "alloy steel": 12.3, "stainless steel": 17.2, "cast iron": 11.4,
             "aluminium": 23.6, "cast aluminium": 21.5, "magnesium": 26.0, "brass": 20.5,
             "copper": 17.0, "nylon": 144.0, "epoxy": 99.0}


def celsius(written):
    return float(str(written).rstrip(" C"))


def states(job):
    """Puts the job into each of its states in turn, the sizes as measured first and last of all the
    nut tightened, where its draw-up is known; yields once for a job without states."""
    yield from warm_states(job)
    job.growth = {}
    if job.draw_up is not None:
        job.tight = True
        job.forget()
        yield "tightened"
        job.tight = False


def warm_states(job):
    given = job.document.get("states")
    if given is None:
        yield None
        return
    own = {m["material"]: float(m["expansion"]) for m in job.document.get("materials", [])
           if "expansion" in m}
    told = [state if isinstance(state, dict) else {"all": state} for state in given.values()]
    for state in [{}, *told]:
        everywhere = celsius(state.get("all", "20"))
        for part in job.parts:
            material = part.given.get("material")
            alpha = own.get(material, 1e-6 * EXPANSION[material] if material in EXPANSION else None)
            warming = celsius(state.get(part.name, everywhere)) - 20.0
            job.growth[part.name] = 1.0 + (alpha or 0.0) * warming
            if alpha is None and warming != 0.0:
                job.grows_unknown.append(part.name)
        job.forget()
        yield state
        job.grows_unknown = []


def judge_by_known_growth(job, found, again):
    """What changes when the parts grow of which nothing says how far is not judged."""
    if not job.grows_unknown:
        return found
    for name in job.grows_unknown:
        job.growth[name] += 1e-3
    job.forget()
    for one, other in zip(found, again()):
        if abs(one["middle"] - other["middle"]) > 1e-9:
            one["verdict"] = "not judged"
    for name in job.grows_unknown:
        job.growth[name] -= 1e-3
    job.forget()
    return found


def deciding(in_each, key, worst_of):
    """Of each finding the state with the worst verdict and, among those, the least to spare."""
    def spare(found):
        sides = [found["worst"][0] - found["at_least"] if found["at_least"] is not None else 9e99,
                 found["at_most"] - found.get("widest", found)["worst"][1]
                 if found.get("at_most") is not None else 9e99]
        return min(sides)

    best = {}
    for found in (each for state in in_each for each in state):
        before = best.get(key(found))
        if before is not None and worst_of([before["verdict"], found["verdict"]]) == before["verdict"]:
            if before["verdict"] != found["verdict"] or spare(found) >= spare(before):
                continue
        best[key(found)] = found
    return list(best.values())
