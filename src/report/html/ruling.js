"use strict";
// What the rules say about an incident of which some facts are established, perhaps not all.
//
// A condition is true, false or neither. With facts missing it may be several of these, so what is worked
// out for it is a set of truths (bits below): never too few, sometimes too many, and exactly one where
// everything that it reads is established. From them follow the clauses that surely or perhaps are in
// force, and the rulings that can come of it. `possible` then tries incidents, cell by cell, until each
// ruling that is left has an incident of its own.
function rulesOf(data) {
  const T = 1, F = 2, N = 4, ANY = 7;
  const YES = 1, NO = 2, MAYBE = 3;
  const attributes = data.attributes, terms = data.terms, dimensions = data.dimensions, clauses = data.clauses;

  // The state that conditions are worked out in: what each attribute is (null: not established; of
  // `several` one entry an item, -1 where it is not known), whether it is asked, and what came of terms
  // and dimensions.
  let facts = [], asked = [], termTruths = [], outcomes = [];

  const bits = (indices) => indices.reduce((all, index) => all | (1n << BigInt(index)), 0n);
  const size = (set) => { let count = 0; for (let rest = set; rest; rest &= rest - 1n) count++; return count; };
  const of = (holds) => (holds ? T : F);
  const contrary = (truths) => (truths & N) | (truths & T ? F : 0) | (truths & F ? T : 0);

  // Conditions as functions from the state to a set of truths.
  function condition(it) {
    if (it === 1) return () => T;
    if (it === 0) return () => N;
    switch (it[0]) {
      case "f": return it[1] ? fact(it[2]) : negated(fact(it[2]));
      case "r": return it[1] ? ruling(it[2], it[3]) : negated(ruling(it[2], it[3]));
      case "t": { const id = it[1]; return () => term(id); }
      case "n": return negated(condition(it[1]));
      case "x": {
        const inner = condition(it[1]);
        return () => { const truths = inner(); return (truths & T ? F : 0) | (truths & (F | N) ? T : 0); };
      }
      case "a": return together(it.slice(1).map(condition), T, F);
      case "e": return together(it.slice(1).map(condition), F, T);
      case "c": return counted(it[1], it[2], it[3].map(condition));
    }
    throw new Error("unknown condition");
  }

  function negated(inner) { return () => contrary(inner()); }

  // All of the parts (`empty` true, `settling` false), or any of them (the other way round).
  function together(parts, empty, settling) {
    return () => {
      let allEmpty = true, someSettles = false, noneSettles = true, someNeither = false;
      for (const part of parts) {
        const truths = part();
        if (truths === settling) return settling;
        if (!(truths & empty)) allEmpty = false;
        if (truths & settling) someSettles = true;
        if (!(truths & (empty | N))) noneSettles = false;
        if (truths & N) someNeither = true;
      }
      return (allEmpty ? empty : 0) | (someSettles ? settling : 0) | (noneSettles && someNeither ? N : 0);
    };
  }

  function counted(least, most, parts) {
    return () => {
      // Every number of true and of false parts that there can be.
      let reached = new Set([0]);
      const width = parts.length + 1;
      for (const part of parts) {
        const truths = part(), next = new Set();
        for (const at of reached) {
          if (truths & T) next.add(at + width);
          if (truths & F) next.add(at + 1);
          if (truths & N) next.add(at);
        }
        reached = next;
      }
      let truths = 0;
      for (const at of reached) {
        const fewest = Math.floor(at / width), possible = parts.length - (at % width);
        truths |= fewest >= least && possible <= most ? T : possible < least || fewest > most ? F : N;
      }
      return truths;
    };
  }

  // A comparison of one attribute's value, or of what is left open of it.
  function reading(id, known) {
    return () => {
      if (asked[id] === NO) return N;
      const value = facts[id];
      const truths = value === null ? T | F : known(value);
      return asked[id] === YES ? truths : truths | N;
    };
  }

  function fact(test) {
    const id = test[1];
    switch (test[0]) {
      case "o": { const wanted = new Set(test[2]); return reading(id, (value) => of(wanted.has(value))); }
      case "w": return reading(id, (value) => of(value >= test[2] && value <= test[3]));
      case "i": {
        const [, , items, least, most] = test;
        return reading(id, (value) => {
          let surely = 0, perhaps = 0;
          for (const item of items) {
            if (value[item] === 1) surely++;
            else if (value[item] === -1) perhaps++;
          }
          const can = surely + perhaps >= least && surely <= most;
          const must = surely >= least && surely + perhaps <= most;
          return must ? T : can ? T | F : F;
        });
      }
      case "s": {
        const right = test[2], pairs = new Set(test[3].map(([one, other]) => one + " " + other));
        return several([id, right], ([one, other]) => pairs.has(one + " " + other));
      }
      case "l": {
        const [, parts, bound] = test;
        return several(parts.map((part) => part[1]), (values) =>
          values.reduce((sum, value, index) => sum + parts[index][0] * value, 0) <= bound);
      }
      case "L": {
        const parts = test[1].map(([weight, of]) => [BigInt(weight), of]), bound = BigInt(test[2]);
        return several(parts.map((part) => part[1]), (values) =>
          values.reduce((sum, value, index) => sum + parts[index][0] * BigInt(value), 0n) <= bound);
      }
    }
    throw new Error("unknown comparison");
  }

  // A comparison of several attributes.
  function several(ids, holds) {
    return () => {
      let neither = false, open = false;
      for (const id of ids) {
        if (asked[id] === NO) return N;
        if (asked[id] === MAYBE) neither = true;
        if (facts[id] === null) open = true;
      }
      const truths = open ? T | F : of(holds(ids.map((id) => facts[id])));
      return neither ? truths | N : truths;
    };
  }

  function ruling(dimension, test) {
    const items = bits(test[1]);
    const settles = dimensions[dimension].several === "all";
    const holds = test[0] === "o"
      ? (values) => (values & ~items) === 0n
      : (values) => { const count = size(values & items); return count >= test[2] && count <= test[3]; };
    return () => {
      const all = outcomes[dimension];
      if (!all) return ANY;
      let truths = 0;
      for (const { basis, values } of all.values()) {
        const settled = (basis === "clauses" || basis === "default") && (settles || size(values) === 1);
        truths |= settled ? of(holds(values)) : N;
      }
      return truths;
    };
  }

  const readings = terms.map((it) =>
    it.means !== undefined
      ? { means: condition(it.means) }
      : { narrow: condition(it.narrow), broad: condition(it.broad), reading: it.reading });

  function term(id) {
    if (termTruths[id] !== 0) return termTruths[id];
    const it = readings[id];
    let truths;
    if (it.means) truths = it.means();
    else {
      const narrow = it.narrow(), broad = it.broad();
      truths = narrow & T;
      if (narrow & (F | N)) {
        truths |= broad & (F | N);
        if (broad & T) {
          const read = facts[it.reading];
          truths |= read === null ? T | F : of(read !== 0);
        }
      }
    }
    return (termTruths[id] = truths);
  }

  const askedWhen = attributes.map((it) => {
    if (it.reading !== null) {
      const { narrow, broad } = readings[it.reading];
      return () => {
        const surely = narrow(), within = broad();
        const can = (surely & (F | N)) && (within & T);
        const must = !(surely & T) && within === T;
        return must ? YES : can ? MAYBE : NO;
      };
    }
    if (it.asked === null) return () => YES;
    const when = condition(it.asked);
    return () => { const truths = when(); return truths === T ? YES : truths & T ? MAYBE : NO; };
  });

  const background = data.background.map((line) => {
    const never = line.never !== undefined, when = condition(never ? line.never : line.always);
    const breaking = never ? T : F;
    // Whether it is surely broken (NO), surely kept (YES), or may be either.
    return { keeps: () => { const truths = when(); return truths === breaking ? NO : truths & breaking ? MAYBE : YES; },
      because: line.because, form: never ? line.never : line.always };
  });

  const met = clauses.map((clause) => condition(clause.when));
  const rules = clauses.map((clause) => new Map(clause.rules.map(([dimension, values]) => [dimension, bits(values)])));
  const speakers = dimensions.map((_, dimension) =>
    clauses.flatMap((_, clause) => (rules[clause].has(dimension) ? [clause] : [])));
  const prevailing = clauses.map((clause) => clause.yields);
  const due = dimensions.map((it) => (it.required === null ? null : condition(it.required)));
  const defaults = dimensions.map((it) => (it.otherwise === null ? null : bits(it.otherwise)));

  // How standing rulings come together.
  function combined(dimension, standing, isDue) {
    if (standing.length === 0) {
      if (isDue) return { basis: "gap", values: 0n };
      if (defaults[dimension] !== null) return { basis: "default", values: defaults[dimension] };
      return { basis: "silence", values: 0n };
    }
    const union = standing.reduce((all, values) => all | values, 0n);
    let values = union;
    switch (dimensions[dimension].several) {
      case "agree": values = standing.reduce((all, one) => all & one, union); break;
      case "highest": {
        const floor = Math.max(...standing.map(lowest));
        values = (union >> BigInt(floor)) << BigInt(floor);
        break;
      }
      case "lowest": {
        const ceiling = Math.min(...standing.map(highest));
        values = union & ((1n << BigInt(ceiling + 1)) - 1n);
        break;
      }
    }
    return values === 0n ? { basis: "contradiction", values: 0n } : { basis: "clauses", values };
  }

  function lowest(set) { let at = 0; while (!(set >> BigInt(at) & 1n)) at++; return at; }
  function highest(set) { return set.toString(2).length - 1; }
  const key = ({ basis, values }) => (basis === "clauses" || basis === "default" ? "ruled" : basis) + " " + values;

  // More different rulings than this that may or may not stand are not combined one by one.
  const MOST_OPEN = 7;

  // Works out everything that follows from the facts in the state.
  function evaluate() {
    termTruths = new Array(terms.length).fill(0);
    outcomes = new Array(dimensions.length).fill(null);
    // Whatever is read here stands before its reader in the order of asking, so that terms that are
    // worked out on the way stay as they are.
    asked = new Array(attributes.length).fill(MAYBE);
    const impossible = [];
    for (const id of data.asking) {
      const now = askedWhen[id]();
      if (facts[id] !== null) {
        if (now === NO) impossible.push({ attribute: id });
        asked[id] = YES;
      } else asked[id] = now;
    }
    const force = new Array(clauses.length).fill(F), metNow = new Array(clauses.length).fill(F);
    const standing = dimensions.map(() => []);
    for (const [what, id] of data.order) {
      if (what === "c") {
        const truths = met[id]();
        const can = (truths & T) !== 0, must = truths === T;
        metNow[id] = must ? T : can ? T | F : F;
        let surelyOff = false, perhapsOff = false;
        for (const other of clauses[id].off) {
          if (force[other] === T) surelyOff = true;
          if (force[other] & T) perhapsOff = true;
        }
        force[id] = !can || surelyOff ? F : must && !perhapsOff ? T : T | F;
      } else {
        const list = [];
        for (const clause of speakers[id]) {
          if (!(force[clause] & T)) continue;
          let surely = false, perhaps = false;
          for (const other of prevailing[clause]) {
            if (!rules[other].has(id)) continue;
            if (force[other] === T) surely = true;
            if (force[other] & T) perhaps = true;
          }
          if (!surely) list.push({ clause, must: force[clause] === T && !perhaps });
        }
        standing[id] = list;
        outcomes[id] = combinations(id, list);
      }
    }
    const lines = background.map((line) => line.keeps());
    lines.forEach((keeps, line) => { if (keeps === NO) impossible.push({ background: line }); });
    return { asked, met: metNow, force, standing, outcomes, lines, impossible };
  }

  // Every ruling that may come out, by its key; null where there are too many to list.
  function combinations(dimension, list) {
    const surely = [], open = new Map();
    for (const { clause, must } of list) {
      const values = rules[clause].get(dimension);
      if (must) surely.push(values);
      else open.set(values, values);
    }
    for (const values of surely) open.delete(values);
    const choices = [...open.values()];
    if (choices.length > MOST_OPEN) return null;
    const condition = due[dimension];
    let isDue = [defaults[dimension] === null];
    if (condition !== null) {
      const truths = condition();
      isDue = [];
      if (truths & T) isDue.push(true);
      if (truths & (F | N)) isDue.push(false);
    }
    const found = new Map();
    for (let pick = 0; pick < 1 << choices.length; pick++) {
      const all = surely.concat(choices.filter((_, index) => pick >> index & 1));
      for (const silenceIsGap of all.length === 0 ? isDue : [false]) {
        const one = combined(dimension, all, silenceIsGap);
        found.set(key(one), one);
      }
    }
    return found;
  }

  // ---- Trying incidents ----

  // What a condition reads, terms and rulings followed.
  const readBy = (() => {
    const ofTerm = new Array(terms.length), ofDimension = new Array(dimensions.length);
    function add(it, into) {
      if (it === 0 || it === 1) return into;
      switch (it[0]) {
        case "f": {
          const test = it[2];
          if (test[0] === "s") into.add(test[1]).add(test[2]);
          else if (test[0] === "l" || test[0] === "L") test[1].forEach((part) => into.add(part[1]));
          else into.add(test[1]);
          break;
        }
        case "t": {
          const id = it[1];
          if (!ofTerm[id]) {
            ofTerm[id] = new Set();
            const of = terms[id];
            if (of.means !== undefined) add(of.means, ofTerm[id]);
            else { add(of.narrow, ofTerm[id]); add(of.broad, ofTerm[id]); ofTerm[id].add(of.reading); }
          }
          ofTerm[id].forEach((one) => into.add(one));
          break;
        }
        case "r": break; // The clauses and the dimension that it depends on are looked at themselves.
        case "n": case "x": add(it[1], into); break;
        case "a": case "e": it.slice(1).forEach((part) => add(part, into)); break;
        case "c": it[3].forEach((part) => add(part, into)); break;
      }
      return into;
    }
    return (it) => add(it, new Set());
  })();

  const clauseReads = clauses.map((clause) => readBy(clause.when));
  const lineReads = background.map((line) => readBy(line.form));
  const dueReads = dimensions.map((it) => (it.required === null ? new Set() : readBy(it.required)));
  const askingReads = attributes.map((it) => {
    if (it.reading !== null) {
      const of = terms[it.reading];
      return new Set([...readBy(of.narrow), ...readBy(of.broad)]);
    }
    return it.asked === null ? new Set() : readBy(it.asked);
  });

  // The values of each attribute that some comparison tells apart, one of each sort.
  const cells = (() => {
    const tests = attributes.map(() => []);
    function gather(it) {
      if (it === 0 || it === 1) return;
      switch (it[0]) {
        case "f": {
          const test = it[2];
          if (test[0] === "s") { tests[test[1]].push(test); tests[test[2]].push(test); }
          else if (test[0] === "l" || test[0] === "L") test[1].forEach((part) => tests[part[1]].push(test));
          else tests[test[1]].push(test);
          break;
        }
        case "n": case "x": gather(it[1]); break;
        case "a": case "e": it.slice(1).forEach(gather); break;
        case "c": it[3].forEach(gather); break;
      }
    }
    clauses.forEach((clause) => gather(clause.when));
    terms.forEach((it) => [it.means, it.narrow, it.broad].forEach((one) => one !== undefined && gather(one)));
    data.background.forEach((line) => gather(line.never !== undefined ? line.never : line.always));
    dimensions.forEach((it) => it.required !== null && gather(it.required));
    attributes.forEach((it) => it.asked !== null && gather(it.asked));
    const MOST_VALUES = 4000;
    return attributes.map((it, id) => {
      const own = tests[id];
      if (it.kind === "several") {
        const items = new Set(own.flatMap((test) => test[2]));
        return { items: [...items].sort((one, other) => one - other), whole: true };
      }
      if (it.kind === "number") {
        const summed = own.some((test) => test[0] === "l" || test[0] === "L");
        if (summed && it.range.steps <= MOST_VALUES)
          return { values: Array.from({ length: it.range.steps + 1 }, (_, value) => value), whole: true };
        const starts = new Set([0]);
        if (summed) starts.add(it.range.steps);
        for (const test of own) if (test[0] === "w") { starts.add(test[2]); starts.add(test[3] + 1); }
        const values = [...starts].filter((value) => value >= 0 && value <= it.range.steps);
        return { values: values.sort((one, other) => one - other), whole: !summed };
      }
      const count = it.reading !== null || it.kind === "yes-no" ? 2 : it.values.length;
      const all = Array.from({ length: count }, (_, value) => value);
      // A reading is read by its term alone, without a comparison.
      if (it.reading !== null || own.some((test) => test[0] === "s")) return { values: all, whole: true };
      const seen = new Map();
      for (const value of all) {
        const sort = own.map((test) => (test[2].includes(value) ? "1" : "0")).join("");
        if (!seen.has(sort)) seen.set(sort, value);
      }
      return { values: [...seen.values()], whole: true };
    });
  })();

  const announced = dimensions.flatMap((it, dimension) => (it.intermediate ? [] : [dimension]));
  const askingPlace = new Array(attributes.length);
  data.asking.forEach((id, place) => (askingPlace[id] = place));

  const isOpen = (id) => {
    const value = facts[id];
    if (value === null) return true;
    return attributes[id].kind === "several" && cells[id].items.some((item) => value[item] === -1);
  };

  // What to establish next: the first in the order of asking of what is open and decides something.
  function nextOpen(now, rulingsOpen) {
    const wanted = new Set();
    const add = (reads) => reads.forEach((id) => {
      if (wanted.has(id) || now.asked[id] === NO) return;
      wanted.add(id);
      if (now.asked[id] === MAYBE) add(askingReads[id]);
    });
    now.lines.forEach((keeps, line) => { if (keeps === MAYBE) add(lineReads[line]); });
    if (rulingsOpen) {
      now.met.forEach((truths, clause) => { if (truths === (T | F)) add(clauseReads[clause]); });
      dueReads.forEach(add);
    }
    let best = -1;
    for (const id of wanted)
      if (now.asked[id] === YES && isOpen(id) && (best < 0 || askingPlace[id] < askingPlace[best])) best = id;
    return best;
  }

  // Tries incidents with the facts in `given`; yields after each step, and is told by what it yields
  // whether there is more to do. `found` fills with the rulings that some incident has.
  function* tried(given, found, stats) {
    function* below(state) {
      facts = state;
      const now = evaluate();
      stats.steps++;
      yield;
      if (now.impossible.length > 0) return;
      const news = announced.filter((dimension) => {
        const all = now.outcomes[dimension];
        if (all === null) return true;
        for (const one of all.keys()) if (!found[dimension].has(one)) return true;
        return false;
      });
      if (news.length === 0 && stats.some) return;
      const rulingsOpen = announced.some((dimension) => {
        const all = now.outcomes[dimension];
        return all === null || all.size > 1;
      });
      facts = state;
      const id = nextOpen(now, rulingsOpen);
      if (id < 0) {
        // Nothing is open that decides anything: an incident, and how it is ruled.
        stats.some = true;
        announced.forEach((dimension) => {
          const all = now.outcomes[dimension];
          if (all === null || all.size !== 1) { stats.whole = false; return; }
          const [[name, one]] = all;
          if (!found[dimension].has(name)) found[dimension].set(name, one);
        });
        return;
      }
      const it = attributes[id];
      if (it.kind === "several") {
        const value = state[id] === null ? it.values.map(() => -1) : state[id];
        if (cells[id].items.length === 0) { const next = state.slice(); next[id] = it.values.map(() => 0); yield* below(next); return; }
        const item = cells[id].items.find((one) => value[one] === -1);
        for (const there of [0, 1]) {
          const next = state.slice();
          next[id] = value.slice();
          next[id][item] = there;
          yield* below(next);
        }
        return;
      }
      if (!cells[id].whole) stats.whole = false;
      for (const value of cells[id].values) {
        const next = state.slice();
        next[id] = value;
        yield* below(next);
      }
    }
    yield* below(given);
  }

  // What is sure about these facts at once, and a search for what is possible, to be carried on by
  // calling `more` with a number of milliseconds.
  function about(given) {
    facts = given;
    const now = evaluate();
    const sure = Object.assign({}, now);
    const found = dimensions.map(() => new Map());
    const stats = { steps: 0, some: false, whole: true };
    const search = now.impossible.length > 0 ? null : tried(given, found, stats);
    const answer = {
      now: sure, found, stats, announced,
      done: search === null,
      more(milliseconds) {
        const end = performance.now() + milliseconds;
        while (!answer.done && performance.now() < end) answer.done = search.next().done === true;
        return answer.done;
      },
      // Whether nothing else is possible than what was found.
      exact: () => answer.done && stats.whole,
    };
    return answer;
  }

  const nothing = () => attributes.map(() => null);

  // Facts as written beside a finding: [attribute, "code"].
  function factsOf(list) {
    const all = nothing();
    for (const [id, code] of list) {
      const it = attributes[id];
      all[id] = it.kind === "several"
        ? it.values.map((_, item) => Number(BigInt(code) >> BigInt(item) & 1n))
        : Number(code);
    }
    return all;
  }

  return { about, factsOf, nothing, announced, data, YES, NO, MAYBE };
}
if (typeof module !== "undefined") module.exports = rulesOf;
