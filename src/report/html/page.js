"use strict";
// What moves on the page: search, filters, and the place where cases are tried. Without scripts all that
// was found stands on the page all the same. Words of the ruleset are only ever set as text.
(() => {
  const $ = (id) => document.getElementById(id);
  const make = (name, words, attributes) => {
    const element = document.createElement(name);
    if (words !== undefined && words !== null) element.textContent = words;
    Object.entries(attributes || {}).forEach(([key, value]) => element.setAttribute(key, value));
    return element;
  };
  const counted = (number, one, many) => (number === 1 ? "1 " + one : number + " " + (many || one + "s"));
  document.documentElement.classList.add("scripted");

  // Whatever a link leads to is unfolded.
  const unfold = () => {
    let around = location.hash.length > 1 ? $(decodeURIComponent(location.hash.slice(1))) : null;
    while ((around = around && around.parentElement.closest("details"))) around.open = true;
  };
  window.addEventListener("hashchange", unfold);

  // What is folded on the screen is printed.
  let unfolded = [];
  window.addEventListener("beforeprint", () => {
    unfolded = Array.from(document.querySelectorAll("details:not([open])"));
    unfolded.forEach((it) => (it.open = true));
  });
  window.addEventListener("afterprint", () => {
    unfolded.forEach((it) => (it.open = false));
    unfolded = [];
  });

  // ---- Search ----
  const findable = Array.from(document.querySelectorAll("[data-find]"));
  let index = null;
  const nameOf = (element) => {
    const head = element.querySelector("h3, h4, .term, dt");
    const name = head ? head.textContent.trim() : "";
    if (element.dataset.find !== "Principle") return name;
    const wording = element.querySelector(".wording, .promise");
    return name + " " + (wording ? wording.textContent.trim() : "");
  };
  function search() {
    const words = $("search-words").value.toLocaleLowerCase().split(/\s+/).filter(Boolean);
    const list = $("search-results");
    list.replaceChildren();
    if (words.length === 0) { list.hidden = true; $("search-count").textContent = ""; return; }
    index ||= findable.map((element) => ({ element, name: nameOf(element), text: element.textContent.toLocaleLowerCase() }));
    const hits = index.filter(({ text }) => words.every((word) => text.includes(word)));
    const inName = ({ name }) => words.every((word) => name.toLocaleLowerCase().includes(word));
    hits.sort((one, other) => inName(other) - inName(one));
    for (const { element, name } of hits.slice(0, 60)) {
      const item = make("li");
      item.append(make("span", element.dataset.find + " "), make("a", name || element.id, { href: "#" + element.id, dir: "auto" }));
      list.append(item);
    }
    list.hidden = hits.length === 0;
    $("search-count").textContent = hits.length === 0 ? "nothing found" : counted(hits.length, "place") + (hits.length > 60 ? ", the first 60 shown" : "");
  }
  $("search").addEventListener("submit", (event) => {
    event.preventDefault();
    const first = $("search-results").querySelector("a");
    if (first) { first.focus(); }
  });
  $("search-words").addEventListener("input", search);
  const closeSearch = () => { $("search-results").hidden = true; };
  $("search").addEventListener("keydown", (event) => {
    if (event.key === "Escape") { closeSearch(); $("search-words").focus(); }
  });
  $("search").addEventListener("focusout", (event) => {
    if (event.relatedTarget && !$("search").contains(event.relatedTarget)) closeSearch();
  });
  $("search-words").addEventListener("focus", () => { if ($("search-words").value) search(); });
  $("search-results").addEventListener("click", (event) => {
    if (!event.target.closest("a")) return;
    closeSearch();
    showAll(event.target.closest("a").hash.slice(1));
  });

  // ---- Findings ----
  const cards = Array.from(document.querySelectorAll("#findings .card"));
  const filters = $("filters");
  let showAll = () => {};
  if (filters) {
    const home = new Map(cards.map((card) => [card, card.parentElement]));
    const clauseNames = Array.from(document.querySelectorAll("article.clause[id^='clause-']"), (element) =>
      element.querySelector("h4").textContent.trim());
    const clausesOf = new Map(cards.map((card) => [card, card.dataset.clauses.split(" ").filter(Boolean).map(Number)]));
    const kinds = [...new Set(cards.map((card) => card.dataset.kind))];
    kinds.forEach((kind) => filters.elements.kind.append(make("option", kind, { value: kind })));
    const named = [...new Set([...clausesOf.values()].flat())].sort((one, other) => one - other);
    named.forEach((clause) => filters.elements.clause.append(make("option", clauseNames[clause], { value: clause })));
    const filtered = () => {
      const groups = new Set(Array.from(filters.querySelectorAll("[name=group]:checked"), (box) => box.value));
      const kind = filters.elements.kind.value, clause = filters.elements.clause.value;
      let shown = 0;
      for (const card of cards) {
        const fits = groups.has(home.get(card).id) && (kind === "" || card.dataset.kind === kind)
          && (clause === "" || clausesOf.get(card).includes(Number(clause)));
        card.hidden = !fits;
        if (fits) shown++;
      }
      const byClause = filters.elements.order.value === "clause", place = $("by-clause");
      place.replaceChildren();
      if (byClause) {
        let last = null;
        const first = (card) => (clausesOf.get(card).length ? clausesOf.get(card)[0] : Infinity);
        for (const card of cards.slice().sort((one, other) => first(one) - first(other))) {
          if (!card.hidden && first(card) !== last) {
            last = first(card);
            place.append(make("h3", last === Infinity ? "Of no single clause" : clauseNames[last]));
          }
          place.append(card);
        }
      } else cards.forEach((card) => home.get(card).append(card));
      place.hidden = !byClause;
      new Set(home.values()).forEach((group) => {
        group.hidden = byClause || !cards.some((card) => home.get(card) === group && !card.hidden);
      });
      $("filter-count").textContent = shown === cards.length ? "" : shown + " of " + counted(cards.length, "finding") + " shown";
    };
    filters.addEventListener("change", filtered);
    filters.addEventListener("submit", (event) => event.preventDefault());
    // A link to a finding that the filters hide shows it.
    showAll = (id) => {
      const target = $(id);
      if (!target || !(target.hidden || target.closest("[hidden]"))) return;
      filters.reset();
      filtered();
      target.scrollIntoView();
    };
    window.addEventListener("hashchange", () => showAll(location.hash.slice(1)));
    window.addEventListener("pageshow", filtered);
  }

  // ---- Try a case ----
  const rules = rulesOf(JSON.parse($("rules-data").textContent));
  const { attributes, clauses, dimensions } = rules.data;
  let given = rules.nothing(), answer = null, timer = 0;
  const form = $("facts");

  const rows = attributes.map((it, id) => {
    const row = make(it.kind === "several" ? "fieldset" : "div", null, { class: "fact" });
    const hint = it.judged ? "judged" : "";
    const state = { row, id };
    if (it.kind === "several") {
      const legend = make("legend", it.title + " ");
      if (hint) legend.append(make("span", hint, { class: "hint" }));
      const choice = make("select", null, { "aria-label": it.title });
      choice.append(make("option", "not established", { value: "" }), make("option", "established: what is ticked", { value: "set" }));
      const items = make("div", null, { class: "items" });
      const boxes = it.values.map((name) => {
        const label = make("label"), box = make("input", null, { type: "checkbox" });
        label.append(box, " " + name);
        items.append(label);
        return box;
      });
      row.append(legend, choice, items);
      state.read = () => (choice.value === "" ? null : boxes.map((box) => Number(box.checked)));
      state.write = (value) => {
        choice.value = value === null ? "" : "set";
        boxes.forEach((box, item) => (box.checked = value !== null && value[item] === 1));
        items.hidden = value === null;
      };
    } else {
      const label = make("label", it.title + " ", { for: "fact-of-" + id });
      if (hint) label.append(make("span", hint, { class: "hint" }));
      let field;
      if (it.kind === "number" && it.values.length === 0) {
        const { low, high, step, unit, steps } = it.range;
        field = make("input", null, { type: "text", inputmode: "decimal", autocomplete: "off", placeholder: "not established", "aria-describedby": "range-of-" + id });
        const range = make("span", low + " to " + high + (it.range.orMore ? " or more" : "") + (unit ? " " + unit : "") + ", by " + step, { class: "hint", id: "range-of-" + id });
        label.append(range);
        const places = Math.max(...[low, high, step].map((number) => (number.split(".")[1] || "").length));
        const whole = (text) => {
          const [, sign, before, after] = /^(-?)(\d+)(?:[.,](\d+))?$/.exec(text) || [];
          if (before === undefined || (after || "").length > places) return null;
          const number = BigInt(before + (after || "").padEnd(places, "0"));
          return sign ? -number : number;
        };
        state.read = () => {
          const text = field.value.trim(), number = whole(text);
          const above = number === null ? null : number - whole(low);
          let code = above !== null && above >= 0n && above % whole(step) === 0n ? Number(above / whole(step)) : null;
          if (code !== null && code > steps) code = it.range.orMore ? steps : null;
          field.setAttribute("aria-invalid", String(text !== "" && code === null));
          return code;
        };
        state.write = (value) => {
          if (value === null) { field.value = ""; return; }
          const number = whole(low) + BigInt(value) * whole(step), negative = number < 0n;
          const digits = (negative ? -number : number).toString().padStart(places + 1, "0");
          field.value = (negative ? "-" : "") + digits.slice(0, digits.length - places) + (places ? "." + digits.slice(-places) : "");
        };
      } else {
        field = make("select");
        field.append(make("option", "not established", { value: "" }));
        it.values.forEach((name, code) => field.append(make("option", name, { value: code })));
        state.read = () => (field.value === "" ? null : Number(field.value));
        state.write = (value) => (field.value = value === null ? "" : value);
      }
      field.id = "fact-of-" + id;
      row.append(label, field);
    }
    row.hidden = true;
    state.write(null);
    form.append(row);
    return state;
  });
  const more = make("p", "", { class: "hint" });
  const buttons = make("div", null, { class: "buttons" });
  const clear = make("button", "Clear all facts", { type: "button" });
  buttons.append(clear);
  form.append(more, buttons);

  const words = (dimension, { basis, values }) => {
    const it = dimensions[dimension];
    const named = it.values.filter((_, value) => values >> BigInt(value) & 1n);
    if (basis === "gap") return "no ruling, though one is due";
    if (basis === "silence") return "no ruling";
    if (basis === "contradiction") return "a contradiction: the rulings that stand have nothing in common";
    if (named.length === 0) return "nothing";
    if (it.several === "all") return named.join(", ");
    return named.length === 1 ? named[0] : named.join(" or ") + ", as the official decides";
  };
  const clauseLink = (clause) => {
    const link = make("a", clauses[clause].id, { href: "#clause-" + clause });
    const item = make("li");
    item.append(link, clauses[clause].title ? " " + clauses[clause].title : "");
    return item;
  };
  const list = (title, items, open) => {
    if (items.length === 0) return [];
    const inner = make("ul");
    inner.append(...items);
    if (open) return [make("h3", title), inner];
    const details = make("details");
    details.append(make("summary", title + " (" + items.length + ")"), inner);
    return [details];
  };

  function tell() {
    const { now, found, announced } = answer, place = make("div"), short = [];
    if (now.impossible.length > 0) {
      place.append(make("h3", "No such incident"));
      for (const { attribute, background } of now.impossible) {
        const because = background === undefined
          ? "“" + attributes[attribute].title + "” is not asked in such an incident."
          : rules.data.background[background].because || "The background of the rules does not allow these facts together.";
        place.append(make("p", because, { dir: "auto" }));
      }
      $("outcome-short").textContent = "No such incident.";
      $("outcome-whole").replaceChildren(place);
      return;
    }
    if (given.every((value) => value === null)) {
      place.append(make("p", "Nothing is established yet. Choose a fact, and what follows from it stands here.", { class: "aside" }));
      $("outcome-short").textContent = "";
      $("outcome-whole").replaceChildren(place);
      return;
    }
    const never = answer.exact() && !answer.stats.some;
    if (never) place.append(make("p", "No incident has all these facts: the background of the rules does not allow it."));
    for (const dimension of never ? [] : announced) {
      const all = now.outcomes[dimension], it = dimensions[dimension];
      place.append(make("h3", it.title, { dir: "auto" }));
      const seen = [...found[dimension].values()];
      if (all !== null && all.size === 1) {
        const said = words(dimension, [...all.values()][0]);
        place.append(make("p", said, { class: "ruling", dir: "auto" }));
        short.push(it.title + ": " + said);
        continue;
      }
      if (answer.exact() && seen.length === 1) {
        const said = words(dimension, seen[0]);
        place.append(make("p", said, { class: "ruling", dir: "auto" }));
        short.push(it.title + ": " + said);
        continue;
      }
      const items = seen.map((one) => make("li", words(dimension, one), { dir: "auto" }));
      const inner = make("ul");
      inner.append(...items);
      if (items.length > 0) place.append(make("p", "still possible:", { class: "aside" }), inner);
      if (!answer.exact()) {
        const rest = all === null ? null : [...all].filter(([key]) => !found[dimension].has(key)).map(([, one]) => words(dimension, one));
        const perhaps = rest === null ? "perhaps others; there are too many to list"
          : rest.length > 0 ? "not settled, perhaps: " + rest.join("; ") : "";
        if (perhaps) place.append(make("p", perhaps, { class: "aside", dir: "auto" }));
      }
      short.push(it.title + ": " + (items.length === 1 ? "one ruling found so far" : counted(items.length, "ruling") + " possible"));
    }
    if (!never) {
      const surely = new Set(), perhaps = new Set(), displaced = [];
      now.standing.forEach((all) => all.forEach(({ clause, must }) => (must ? surely : perhaps).add(clause)));
      surely.forEach((clause) => perhaps.delete(clause));
      clauses.forEach((clause, id) => {
        if (now.met[id] !== 1) return;
        const off = clause.off.filter((other) => now.force[other] === 1);
        if (now.force[id] === 2) {
          const item = clauseLink(id);
          item.append(": disapplied by ", off.map((other) => clauses[other].id).join(", ") || "another clause");
          displaced.push(item);
          return;
        }
        if (now.force[id] !== 1) return;
        clause.rules.forEach(([dimension]) => {
          const by = clause.yields.filter((other) => now.force[other] === 1 && clauses[other].rules.some(([on]) => on === dimension));
          if (by.length === 0) return;
          const item = clauseLink(id);
          item.append(" yields to " + by.map((other) => clauses[other].id).join(", ") + " on " + dimensions[dimension].title.toLocaleLowerCase());
          displaced.push(item);
        });
      });
      place.append(
        ...list("Clauses that stand", [...surely].sort((one, other) => one - other).map(clauseLink), true),
        ...list("Displaced", displaced, true),
        ...list("Clauses that may still count", [...perhaps].sort((one, other) => one - other).map(clauseLink), false));
      place.append(make("p", answer.exact()
        ? "Every incident with these facts was looked at: nothing else is possible."
        : answer.done ? "Not every incident with these facts could be looked at: sums of numbers are tried at their thresholds only."
        : "There are too many incidents with these facts to look at all of them at once. More facts settle more.", { class: "aside" }));
    }
    $("outcome-short").textContent = short.join(". ") + ".";
    const opened = $("outcome-whole").querySelector("details[open]") !== null;
    $("outcome-whole").replaceChildren(place);
    if (opened) place.querySelectorAll("details").forEach((details) => (details.open = true));
  }

  // At once for so long, then in pieces beside whatever else the page does, and not for ever.
  const AT_ONCE = 12, PIECE = 12, PIECES = 250;
  function ask() {
    clearTimeout(timer);
    // What is not asked any more is not established any more.
    for (let round = 0; round <= attributes.length; round++) {
      answer = rules.about(given);
      const gone = answer.now.impossible.filter((it) => it.attribute !== undefined);
      if (gone.length === 0) break;
      gone.forEach(({ attribute }) => { given[attribute] = null; });
    }
    let open = 0;
    rows.forEach(({ row, id, write, read }) => {
      const asked = answer.now.asked[id];
      row.hidden = asked !== rules.YES;
      if (row.hidden) { if (given[id] === null) write(null); if (asked === rules.MAYBE) open++; }
      row.classList.toggle("is-set", given[id] !== null);
    });
    more.textContent = open === 0 ? "" : counted(open, "more question") + " may come up, as the answers fall.";
    answer.more(AT_ONCE);
    tell();
    let pieces = 0;
    const go = () => {
      if (answer.done || pieces++ >= PIECES) { tell(); return; }
      answer.more(PIECE);
      timer = setTimeout(go, 0);
    };
    if (!answer.done) timer = setTimeout(go, 0);
  }
  form.addEventListener("input", () => {
    rows.forEach(({ row, id, read, write }) => {
      if (row.hidden) return;
      given[id] = read();
      if (attributes[id].kind === "several") write(given[id]);
    });
    ask();
  });
  form.addEventListener("submit", (event) => event.preventDefault());
  const take = (facts) => {
    given = facts;
    rows.forEach(({ id, write }) => write(given[id]));
    ask();
  };
  clear.addEventListener("click", () => take(rules.nothing()));
  document.querySelectorAll(".try-this").forEach((button) =>
    button.addEventListener("click", () => {
      take(rules.factsOf(JSON.parse(button.dataset.facts)));
      $("try").scrollIntoView();
      $("outcome").focus({ preventScroll: true });
    }));
  ask();
  window.evenhand = { rules, take };
})();
