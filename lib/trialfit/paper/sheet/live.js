// SPDX-License-Identifier: MIT
// Works out on a sheet what `trialfit check --with` says of what is typed into its fields. Every
// figure moves evenly with a field (sheet/live/live.hpp); verdicts are those of stack/bounds.cpp.
// Nothing is requested, sent or kept.
"use strict";
(() => {
  const ROUNDING = 1e-9; // lengths closer than this are equal
  const NOISE = 1e-6;    // of the last digit: no reason for another one
  const HOLDS = 0, NOT_JUDGED = 1, DOUBTFUL = 2, FAILS = 3;
  const WORDS = ["holds", "NOT JUDGED", "doubtful", "FAILS"];
  const ABSURD = 10;      // times the thickest shim in stock
  const MOST_HOLDING = 3; // clearances that hold, the tightest
  const NOMINAL = 0, MIDDLE = 1, WORST = 2, RSS = 4; // places in a figure; a range's upper end is next
  const get = id => document.getElementById(id);
  const data = JSON.parse(get("live-data").textContent);
  const inputs = data.fields.map((_, f) => get("live-" + f));
  const readingInputs = data.readings.map((_, r) => get("live-reading-" + r));
  const judged = data.judge === "rss" ? RSS : WORST;

  // A half away from zero; never "-0.00".
  const fixed = (length, decimals) => {
    const step = 10 ** decimals;
    const steps = Math.floor(Math.abs(length) * step + 0.5 + NOISE);
    const out = (steps / step).toFixed(decimals);
    return length < 0 && steps > 0 ? "-" + out : out;
  };
  const told = length => fixed(length, data.decimals);

  const number = text => /^\d+([.,]\d+)?$/.test(text) ? Number(text.replace(",", ".")) : undefined;
  const wrong = words => ({wrong: words});

  const readCut = (field, text) => {
    const value = number(text);
    if (!Number.isFinite(value)) return wrong("Write a length as a number, as in " + told(field.reference) + ".");
    if (value < field.least || value - field.half_width <= 0)
      return wrong("So little is left? " + told(field.keep) + " must remain: measure again.");
    if (value - field.half_width > field.most + ROUNDING)
      return wrong("It was at most " + told(field.most) + " before, and metal does not grow: measure again.");
    return {text: text.replace(",", "."), sum: value, pieces: 1};
  };
  const readShims = (field, text) => {
    if (text === "none") return {text, sum: 0, pieces: 0};
    const all = text.split("+").map(piece => number(piece.trim()));
    if (!all.every(Number.isFinite)) return wrong("Write the shims as 0.5 + 0.3, or none.");
    if (all.some(each => each - field.half_width <= 0)) return wrong("A shim so thin may be nothing at all.");
    const thickest = Math.max(...all);
    if (thickest > ABSURD * field.most)
      return wrong("A shim of " + told(thickest) + "? The thickest in the file is " + told(field.most) + ": measure again.");
    return {text: text.split("+").map(each => each.trim().replace(",", ".")).join(" + "),
            sum: all.reduce((a, b) => a + b, 0), pieces: all.length};
  };
  const read = f => {
    const text = inputs[f].value.trim();
    if (!text) return null;
    return (data.fields[f].kind === "cut" ? readCut : readShims)(data.fields[f], text);
  };

  // A figure at what is typed: it moves, and shims other than one widen or narrow its ranges.
  const moved = (at, by, typed) => {
    let shift = 0, wider = 0, squares = 0;
    for (const [f, gain] of Object.entries(by)) {
      const field = data.fields[f], more = typed[f].pieces - 1;
      shift += gain * (typed[f].sum - field.reference);
      wider += Math.abs(gain) * field.half_width * more;
      squares += (data.inflate * gain * field.half_width) ** 2 * more;
    }
    let rss = [at[RSS] + shift, at[RSS + 1] + shift];
    if (squares !== 0) {
      const half = Math.sqrt(Math.max(0, ((at[RSS + 1] - at[RSS]) / 2) ** 2 + squares));
      const middle = (at[RSS] + at[RSS + 1]) / 2 + shift;
      rss = [middle - half, middle + half];
    }
    return [at[NOMINAL] + shift, at[MIDDLE] + shift, at[WORST] + shift - wider, at[WORST + 1] + shift + wider, ...rss];
  };
  const least = all => all.reduce((a, b) => a.map((value, i) => Math.min(value, b[i])));
  // The least of several figures, with the ends between which play moves it.
  const value = (figures, typed) => {
    const at = (each, which) => moved(each[which] ?? each.at, each.by, typed);
    const out = {stated: least(figures.map(each => at(each, "at")))};
    out.least = least(figures.map(each => at(each, "least")));
    out.greatest = least(figures.map(each => at(each, "greatest")));
    if (figures.some(each => each.least))
      for (const range of [WORST, RSS]) {
        out.stated[range] = out.least[range];
        out.stated[range + 1] = out.greatest[range + 1];
      }
    return out;
  };

  const verdict = (of, demand) => {
    const over = x => demand.more_than ? x > demand.least + ROUNDING : x >= demand.least - ROUNDING;
    const under = x => x <= demand.most + ROUNDING;
    if (over(of.least[judged]) && under(of.greatest[judged + 1])) return HOLDS;
    const nominal = over(of.least[NOMINAL]) && under(of.greatest[NOMINAL]);
    const some = over(of.least[judged + 1]) && under(of.greatest[judged]);
    return nominal && some ? DOUBTFUL : FAILS;
  };
  const found = (finding, typed) => {
    if (finding.not_judged) return {verdict: NOT_JUDGED, margin: Infinity};
    const out = {value: value(finding.value, typed), verdict: HOLDS, margin: Infinity};
    const hold = (limit, lower) => {
      const of = limit.over ? value(limit.over, typed) : out.value;
      const demand = lower ? {least: limit.limit, most: Infinity, more_than: limit.more_than}
                           : {least: -Infinity, most: limit.limit};
      out.verdict = Math.max(out.verdict, verdict(of, demand));
      out.margin = Math.min(out.margin, lower ? of.least[judged] - limit.limit : limit.limit - of.greatest[judged + 1]);
    };
    if (finding.at_least) hold(finding.at_least, true);
    if (finding.at_most) hold(finding.at_most, false);
    if (finding.may_miss && out.verdict !== HOLDS) out.verdict = NOT_JUDGED;
    return out;
  };

  // Of each finding the state that decides: the worst verdict and the least to spare.
  const rows = (set, typed) => {
    const all = new Map();
    for (const which of set.findings) {
      const finding = data.findings[which];
      const here = {...finding, ...found(finding, typed)};
      const key = (finding.check ? "check " : "") + finding.name;
      const before = all.get(key);
      if (!before || before.verdict < here.verdict ||
          (before.verdict === here.verdict && here.margin < before.margin)) all.set(key, here);
    }
    return [...all.values()];
  };
  // What of a cut's limit is passed.
  const kept = (field, typed) => {
    if (!typed || field.kind !== "cut") return HOLDS;
    if (typed.sum < field.keep - ROUNDING) return FAILS;
    return typed.sum - field.half_width < field.keep - ROUNDING ? DOUBTFUL : HOLDS;
  };

  const row = of => {
    const out = document.createElement("tr");
    const cell = (tag, text, label, kind) => {
      const made = out.appendChild(document.createElement(tag));
      if (label) made.dataset.label = label;
      if (kind) made.className = kind;
      made.textContent = text;
      return made;
    };
    cell("th", of.name + (of.state ? ", " + of.state : ""), "", "name").scope = "row";
    const stated = of.value && of.value.stated;
    const asked = of => of.over && of.share
      ? (of.limit ? told(of.limit) + " and " : "") + +(100 * of.share).toFixed(1) + " % of the length" : told(of.limit);
    const limit = (of, words) => of ? words + " " + asked(of) : "";
    const needed = [limit(of.at_least, of.at_least && of.at_least.more_than ? "more than" : "at least"),
                    limit(of.at_most, "at most")].filter(Boolean).join(", ");
    cell("td", needed || "-", "Needed", "figure");
    cell("td", stated ? told(stated[NOMINAL]) : "-", "Nominal", "figure");
    cell("td", stated ? told(stated[WORST]) + " to " + told(stated[WORST + 1]) : "-", "Worst case", "figure");
    cell("td", WORDS[of.verdict], "Verdict");
    return out;
  };
  const shown = all => {
    const worst = [...all].sort((a, b) => b.verdict - a.verdict || a.margin - b.margin);
    let holding = 0;
    return worst.filter(each => each.check || each.verdict !== HOLDS || ++holding <= MOST_HOLDING);
  };

  const quoted = word => /^[\w.,:\/=+-]+$/.test(word) ? word : "'" + word.replaceAll("'", "'\\''") + "'";
  const command = (typed, as) => typed.map((each, f) => each && quoted(as(data.fields[f], each)))
    .map((word, f) => word && [data.fields[f].kind, word]).filter(Boolean);
  const reading = (field, each) => each.text + (field.read_by ? " by " + field.read_by : "");
  // What a reading ought to be with every part on its seat; a typed one is held against that. It
  // binds the sizes once it is recorded, which is for the program to work out.
  const readingsTaken = (set, typed) => data.readings.map((reading, r) => {
    const text = readingInputs[r].value.trim(), of = set.readings[r];
    const out = get("live-reads-" + r);
    readingInputs[r].setAttribute("aria-invalid", "false");
    if (of.at.some(each => each === null)) return void (out.textContent = "What it should read is not known.");
    const should = value([of], typed), low = should.stated[WORST], high = should.stated[WORST + 1];
    const range = told(should.stated[NOMINAL]) + " (" + told(low) + " to " + told(high) + ")";
    out.textContent = "Should read " + range + ".";
    if (!text) return null;
    const is = /^-/.test(text) ? -number(text.slice(1)) : number(text);
    if (!Number.isFinite(is)) {
      readingInputs[r].setAttribute("aria-invalid", "true");
      out.textContent = "Write a length as a number, as in " + told(should.stated[NOMINAL]) + ".";
      return null;
    }
    const inside = is >= low - reading.half_width - ROUNDING && is <= high + reading.half_width + ROUNDING;
    out.textContent = inside ? "As it should read, " + range + ". Recorded, it binds the sizes: run trialfit check then."
      : "It should read " + range + ": a part is held off its seat, or a size is wrong. Record it, and run trialfit survey.";
    const size = text.replace(",", ".") + (reading.read_by ? " by " + reading.read_by : "");
    return {word: quoted(reading.name + ": " + reading.from + " to " + reading.to + " = " + size), inside};
  }).filter(Boolean);
  const tell = (typed, measured) => {
    const supposed = command(typed, (field, each) =>
      field.kind === "cut" ? field.what + "=" + reading(field, each) : field.what + ".shims=" + each.text);
    get("live-command").textContent = "trialfit check " + data.file +
      ("entries_done" in data ? " --as-of " + data.entries_done : "") + supposed.map(([, word]) => " --with " + word).join("");
    const done = command(typed, (field, each) =>
      field.what + "=" + (field.kind === "cut" ? reading(field, each) : each.text));
    get("live-recording").hidden = done.length + measured.length === 0;
    get("live-record").textContent = "trialfit record " + data.file + " --in-place" +
      done.map(([kind, word]) => (kind === "cut" ? " --cut " : " --shim ") + word).join("") +
      measured.map(each => " --measured " + each.word).join("");
  };

  const answer = (typed, all, set, measured) => {
    const limits = data.fields.map((field, f) => kept(field, typed[f]));
    let worst = Math.max(set.apart, ...limits, ...all.map(each => each.verdict));
    const left = data.left_out.filter(each => each.caps).map(each => each.words).join("; ");
    const off = measured.some(each => !each.inside);
    if ((left || off) && worst === HOLDS) worst = NOT_JUDGED;
    const passed = data.fields.filter((_, f) => limits[f] !== HOLDS)
      .map(field => field.what + " must keep " + told(field.keep) + ". ").join("");
    const head = worst === FAILS ? "Does not fit with this."
      : worst === DOUBTFUL ? "Doubtful with this."
      : worst === HOLDS ? "All that was asked holds with this."
      : off ? "Not judged: a reading is not what it should be with every part on its seat."
      : "Not judged as a whole: not all can be worked out here.";
    get("live-verdict").textContent = passed + head;
    get("live-verdict").dataset.verdict = WORDS[worst];
    get("live-left-out").textContent = data.left_out.length === 0 ? ""
      : "This page does not work out: " + data.left_out.map(each => each.words).join("; ") + ". The command below does.";
  };

  const refresh = () => {
    const typed = data.fields.map((_, f) => read(f));
    get("live").classList.toggle("typed", typed.some(each => each));
    let sound = true;
    typed.forEach((each, f) => {
      const words = each && each.wrong || "";
      get("live-wrong-" + f).textContent = words;
      inputs[f].setAttribute("aria-invalid", words ? "true" : "false");
      sound = sound && !words;
    });
    get("live-rows").replaceChildren();
    get("live-more").textContent = "";
    for (const id of ["live-command", "live-record", "live-left-out"]) get(id).textContent = "";
    get("live-answer").hidden = !sound;
    if (!sound) {
      get("live-verdict").textContent = "Nothing is worked out: a field is wrong.";
      get("live-verdict").dataset.verdict = "wrong";
      return;
    }
    const set = data.sets[typed.reduce((mask, each, f) => mask + (each ? 2 ** f : 0), 0)];
    const all = rows(set, typed), few = shown(all);
    get("live-rows").append(...few.map(row));
    const more = all.length - few.length;
    if (more > 0) get("live-more").textContent = more + (more === 1 ? " clearance" : " clearances") + " with more room left out.";
    const measured = readingsTaken(set, typed);
    answer(typed, all, set, measured);
    tell(typed, measured);
  };

  [...inputs, ...readingInputs].forEach(input => input.addEventListener("input", refresh));
  get("live-clear").addEventListener("click", () => {
    [...inputs, ...readingInputs].forEach(input => { input.value = ""; });
    refresh();
  });
  get("live-plan").addEventListener("click", () => {
    inputs.forEach((input, f) => { input.value = data.fields[f].planned; });
    refresh();
  });
  get("live-plan").hidden = data.fields.every(field => !field.planned);
  get("live-copy").addEventListener("click", () => {
    const range = document.createRange();
    range.selectNodeContents(get("live-record"));
    getSelection().removeAllRanges();
    getSelection().addRange(range);
    // A page from a file may not use the newer way in every browser.
    if (!document.execCommand("copy") && navigator.clipboard) navigator.clipboard.writeText(get("live-record").textContent);
  });
  get("live").hidden = false;
  refresh();
})();
