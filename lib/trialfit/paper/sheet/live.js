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

  const measureAgain = ": measure again.";
  const readCut = (field, value) => {
    if (value < field.least || value - field.half_width <= 0)
      return "So little is left? " + told(field.bounds[0].nominal) + " must remain" + measureAgain;
    if (value - field.half_width > field.most + ROUNDING)
      return "It was at most " + told(field.most) + " before, and metal does not grow" + measureAgain;
    return "";
  };
  const readSkim = (field, value) => {
    const [before, far] = field.bore ? [field.least, field.most] : [field.most, field.least];
    const way = field.bore ? 1 : -1;
    if (way * (value - before) + field.half_width < -ROUNDING)
      return "It was " + told(before) + " before, and metal does not grow" + measureAgain;
    if (way * (value - far) > ROUNDING) return "So much is off? It is " + told(field.now) + " now" + measureAgain;
    return "";
  };
  const readUpTo = (words, field, value) => value > field.most + ROUNDING ? words + told(field.most) + measureAgain : "";
  // Of each kind of field but shims: what is wrong with a length, and what it stands for there.
  const KINDS = {
    cut: {wrong: readCut},
    skim: {wrong: readSkim},
    take: {wrong: (field, value) => value - field.half_width <= 0 ? "So little may be nothing at all."
      : readUpTo("It must keep more than is left after ", field, value)},
    lap: {wrong: (field, value) => readUpTo("The most that may be lapped off is ", field, value), half: () => 0},
    // Anything from nothing to what is left.
    centring: {wrong: (field, value) => readUpTo("The clearance was at most ", field, value),
               middle: value => value / 2, half: (field, value) => value / 2},
  };
  const readLength = (field, text) => {
    const value = number(text), kind = KINDS[field.kind];
    if (!Number.isFinite(value)) return wrong("Write a length as a number, as in " + told(field.now || field.most) + ".");
    const fault = kind.wrong(field, value);
    if (fault) return wrong(fault);
    const half = kind.half ? kind.half(field, value) : field.half_width;
    return {text: text.replace(",", "."), value, middle: kind.middle ? kind.middle(value) : value, half, squares: half ** 2};
  };
  const readShims = (field, text) => {
    if (text === "none") return {text, middle: 0, half: 0, squares: 0};
    const all = text.split("+").map(piece => number(piece.trim()));
    if (!all.every(Number.isFinite)) return wrong("Write the shims as 0.5 + 0.3, or none.");
    if (all.some(each => each - field.half_width <= 0)) return wrong("A shim so thin may be nothing at all.");
    const thickest = Math.max(...all);
    if (thickest > ABSURD * field.most)
      return wrong("A shim of " + told(thickest) + "? The thickest in the file is " + told(field.most) + measureAgain);
    return {text: text.split("+").map(each => each.trim().replace(",", ".")).join(" + "),
            middle: all.reduce((a, b) => a + b, 0), half: all.length * field.half_width,
            squares: all.length * field.half_width ** 2};
  };
  const read = f => {
    const text = inputs[f].value.trim();
    if (!text) return null;
    return (data.fields[f].kind === "shims" ? readShims : readLength)(data.fields[f], text);
  };

  // A figure is nominal, middle and worst case, and where the page is judged by it the RSS range.
  const middleOf = at => (at[RSS] + at[RSS + 1]) / 2, squareOf = at => ((at[RSS + 1] - at[RSS]) / 2) ** 2;
  const withRss = (at, middle, square) => {
    const half = Math.sqrt(Math.max(0, square));
    return [...at.slice(0, RSS), middle - half, middle + half];
  };
  // What a choice of fields changes of a blank page comes on top of what others change.
  const added = (to, blank, choice) => {
    const out = to.map((each, i) => each + choice[i] - blank[i]);
    return judged === WORST ? out : withRss(out, middleOf(to) + middleOf(choice) - middleOf(blank),
                                            squareOf(to) + squareOf(choice) - squareOf(blank));
  };
  const figureAdded = (to, blank, choice) => {
    if (!to || !blank || !choice) return null;
    const out = {at: added(to.at, blank.at, choice.at), by: {...to.by, ...choice.by}};
    for (const end of ["least", "greatest"])
      if (to[end]) out[end] = added(to[end], blank[end], choice[end]);
    return out;
  };
  // The figures of a finding for the fields filled in, group by group.
  const figuresOf = (finding, typed) => {
    let out = null;
    for (const group of finding.groups) {
      const choice = group.fields.reduce((mask, f, g) => mask + (typed[f] ? 2 ** g : 0), 0);
      if (choice === 0) continue;
      const here = group.of[choice], before = out;
      out = {...(before || here)};
      if (before)
        for (const list of ["value", "over", "under", "within"])
          if (out[list]) out[list] = before[list].map((each, i) => figureAdded(each, finding.blank[list][i], here[list][i]));
    }
    return out || finding.blank;
  };
  // A figure at what is typed: it moves, and what is typed widens or narrows its ranges.
  const moved = (at, by, typed) => {
    let shift = 0, wider = 0, squares = 0;
    for (const [f, gain] of Object.entries(by)) {
      const [middle, half, square] = data.fields[f].reference;
      shift += gain * (typed[f].middle - middle);
      wider += Math.abs(gain) * (typed[f].half - half);
      squares += (data.inflate * gain) ** 2 * (typed[f].squares - square);
    }
    const out = at.map(each => each + shift);
    out[WORST] -= wider;
    out[WORST + 1] += wider;
    return judged === WORST || squares === 0 ? out : withRss(out, middleOf(out), squareOf(out) + squares);
  };
  const ofAll = (all, pick) => all.reduce((a, b) => a.map((value, i) => pick(value, b[i])));
  // The least of several figures, or the greatest, with the ends between which play moves it.
  const value = (figures, typed, pick = Math.min) => {
    const at = (each, which) => moved(each[which] || each.at, each.by, typed);
    const out = {stated: ofAll(figures.map(each => at(each, "at")), pick)};
    out.least = ofAll(figures.map(each => at(each, "least")), pick);
    out.greatest = ofAll(figures.map(each => at(each, "greatest")), pick);
    if (figures.some(each => each.least))
      for (const range of judged === WORST ? [WORST] : [WORST, RSS]) {
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
  const known = figures => !figures.not_judged && figures.value.every(each => each);
  // Nothing where two rings do not lie over one another.
  const found = (finding, typed) => {
    const figures = figuresOf(finding, typed);
    if (!known(figures)) return {verdict: NOT_JUDGED, margin: Infinity};
    if (figures.within && figures.within.some(each => each && moved(each.at, each.by, typed)[WORST + 1] <= ROUNDING)) return null;
    const out = {value: value(figures.value, typed, finding.widest ? Math.max : Math.min), verdict: HOLDS, margin: Infinity};
    const hold = (limit, instead, lower) => {
      const of = instead ? value(instead, typed) : out.value;
      const demand = lower ? {least: limit.limit, most: Infinity, more_than: limit.more_than}
                           : {least: -Infinity, most: limit.limit};
      out.verdict = Math.max(out.verdict, verdict(of, demand));
      out.margin = Math.min(out.margin, lower ? of.least[judged] - limit.limit : limit.limit - of.greatest[judged + 1]);
    };
    if (finding.at_least) hold(finding.at_least, figures.over, true);
    if (finding.at_most) hold(finding.at_most, figures.under, false);
    if (figures.may_miss && out.verdict !== HOLDS) out.verdict = NOT_JUDGED;
    return out;
  };

  // Of each finding the state that decides: the worst verdict and the least to spare.
  const rows = typed => {
    const all = new Map();
    for (const finding of data.findings) {
      const answer = found(finding, typed);
      if (!answer) continue;
      const here = {...finding, ...answer};
      const key = (finding.check ? "check " : "") + finding.name;
      const before = all.get(key);
      if (!before || before.verdict < here.verdict ||
          (before.verdict === here.verdict && here.margin < before.margin)) all.set(key, here);
    }
    return [...all.values()];
  };
  // Whether a limit of the work is passed.
  const kept = (field, typed) => !typed ? HOLDS : field.kind === "take" ? NOT_JUDGED : Math.max(HOLDS, ...field.bounds.map(bound => {
    const way = bound.is_most ? -1 : 1;
    if (way * (typed.value - bound.nominal) < -ROUNDING) return FAILS;
    return way * (typed.value - bound.worst) - field.half_width < -ROUNDING ? DOUBTFUL : HOLDS;
  }));
  const limitOf = field => {
    const ends = field.bounds.map(bound => bound.nominal);
    return field.kind === "cut" ? field.what + " must keep " + told(ends[0])
      : field.what + (field.bore ? " must not go over " + told(Math.min(...ends)) : " must not go under " + told(Math.max(...ends)));
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
    const asked = of => of.share
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
  const asRead = (field, each) => each.text + (field.read_by ? " by " + field.read_by : "");
  const asTurned = (field, each) => field.read_by ? asRead(field, each)
    : field.half_width > 0 ? each.text + " \u00b1" + field.half_width : each.text + " exact";
  // What `check --with` and `record` are told of a field.
  const SUPPOSED = {
    cut: (field, each) => field.what + "=" + asRead(field, each),
    take: (field, each) => field.what + "=" + asRead(field, each),
    shims: (field, each) => field.what + ".shims=" + each.text,
    skim: (field, each) => field.what + "=" + asTurned(field, each),
    lap: (field, each) => field.what + "=" + +(field.dia + field.dia_sign * each.value).toFixed(9),
    centring: (field, each) => field.what + ".clearance=" + each.text,
  };
  const DONE = {
    cut: (field, each) => ["--cut", field.what + "=" + asRead(field, each)],
    take: (field, each) => ["--take", field.what + "=" + asRead(field, each)],
    shims: (field, each) => ["--shim", field.what + "=" + each.text],
    skim: (field, each) => ["--cut", field.what.replace(/\.[^.]*$/, "") + "=" + asTurned(field, each)],
    lap: (field, each) => ["--lap", field.what + "=" + each.text],
    centring: (field, each) => ["--centred", field.what + "=" + each.text],
  };
  // What a reading ought to be with every part on its seat; a typed one is held against that. It
  // binds the sizes once it is recorded, which is for the program to work out.
  const readingsTaken = typed => data.readings.map((reading, r) => {
    const text = readingInputs[r].value.trim(), of = reading.should && figuresOf(reading.should, typed);
    const out = get("live-reads-" + r);
    readingInputs[r].setAttribute("aria-invalid", "false");
    if (!of || !known(of)) return void (out.textContent = "What it should read is not known.");
    const should = value(of.value, typed), low = should.stated[WORST], high = should.stated[WORST + 1];
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
    get("live-command").textContent = "trialfit check " + data.file +
      ("entries_done" in data ? " --as-of " + data.entries_done : "") +
      data.fields.map((field, f) => !typed[f] ? "" : (field.kind === "take" ? " --take " : " --with ") +
        quoted(SUPPOSED[field.kind](field, typed[f]))).join("");
    const done = data.fields.map((field, f) => typed[f] && DONE[field.kind](field, typed[f])).filter(Boolean);
    get("live-recording").hidden = done.length + measured.length === 0;
    get("live-record").textContent = "trialfit record " + data.file + " --in-place" +
      done.map(([option, word]) => " " + option + " " + quoted(word)).join("") +
      measured.map(each => " --measured " + each.word).join("");
  };

  const answer = (typed, all, measured) => {
    const limits = data.fields.map((field, f) => kept(field, typed[f]));
    const apart = data.apart.of[data.apart.fields.reduce((mask, f, g) => mask + (typed[f] ? 2 ** g : 0), 0)];
    let worst = Math.max(apart, ...limits, ...all.map(each => each.verdict));
    const left = data.left_out.filter(each => each.caps).map(each => each.words).join("; ");
    const off = measured.some(each => !each.inside);
    if ((left || off) && worst === HOLDS) worst = NOT_JUDGED;
    const passed = data.fields.filter((field, f) => field.bounds.length > 0 && limits[f] !== HOLDS)
      .map(field => limitOf(field) + ". ").join("");
    const head = worst === FAILS ? "Does not fit with this."
      : worst === DOUBTFUL ? "Doubtful with this."
      : worst === HOLDS ? "All that was asked holds with this."
      : limits.includes(NOT_JUDGED) ? "Not judged as a whole: nobody has measured what must remain."
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
    const all = rows(typed), few = shown(all);
    get("live-rows").append(...few.map(row));
    const more = all.length - few.length;
    if (more > 0) get("live-more").textContent = more + (more === 1 ? " clearance" : " clearances") + " with more room left out.";
    const measured = readingsTaken(typed);
    answer(typed, all, measured);
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
