"use strict";
// Draws what rests on what. What is rested on stands to the left of what rests on it; whatever is drawn
// stands below the drawing in sentences.
(() => {
  const place = document.getElementById("network");
  if (!place) return;
  const { things, edges, groups } = JSON.parse(document.getElementById("network-data").textContent);
  const SVG = "http://www.w3.org/2000/svg";
  const draw = (name, attributes, words) => {
    const element = document.createElementNS(SVG, name);
    Object.entries(attributes).forEach(([key, value]) => element.setAttribute(key, value));
    if (words !== undefined) element.textContent = words;
    return element;
  };
  const make = (name, words, attributes) => {
    const element = document.createElement(name);
    if (words) element.textContent = words;
    Object.entries(attributes || {}).forEach(([key, value]) => element.setAttribute(key, value));
    return element;
  };
  const short = (words, most) => (Array.from(words).length > most ? Array.from(words).slice(0, most - 1).join("") + "…" : words);
  const called = (thing) => thing.word + " " + thing.name + (thing.title ? " (" + thing.title + ")" : "");

  const look = document.getElementById("network-look"), far = document.getElementById("network-far");
  const picture = document.getElementById("network-picture"), told = document.getElementById("network-told");
  const status = document.getElementById("network-count");

  // What may be looked at: the whole book, a group, or one thing.
  const option = (parent, value, words) => parent.append(make("option", words, { value }));
  option(look, "whole", "the whole book, clauses folded");
  option(look, "clauses", "all clauses and what they decide");
  const kinds = new Map();
  things.forEach((thing, index) => {
    if (!kinds.has(thing.word)) kinds.set(thing.word, []);
    kinds.get(thing.word).push(index);
  });
  for (const word of ["clause", "term", "attribute", "dimension", "quantity", "background line", "principle"]) {
    if (!kinds.has(word)) continue;
    const part = make("optgroup", null, { label: word + "s" });
    kinds.get(word).forEach((index) => option(part, "thing " + index, things[index].name + (things[index].title ? " " + things[index].title : "")));
    look.append(part);
  }

  // A picture is made of boxes (label, hint, where it leads, what it stands for) and lines between them.
  function folded() {
    const boxes = new Map(), lines = new Map();
    const boxOf = (index) => {
      const thing = things[index], group = thing.word === "clause" ? thing.group : null;
      if (thing.word === "attribute" || thing.word === "quantity" || thing.word === "background line") return null;
      const key = group === null ? "thing " + index : "group " + group;
      if (!boxes.has(key)) boxes.set(key, { key, label: group === null ? thing.name : groups[group], hint: group === null ? called(thing) : groups[group], word: group === null ? thing.word : "heading", to: group === null ? thing.to : null, count: 0 });
      boxes.get(key).count++;
      return key;
    };
    const keys = things.map((_, index) => boxOf(index));
    for (const [, , , under, above] of edges) {
      const from = keys[under], to = keys[above];
      if (from === null || to === null || from === to) continue;
      const key = from + "\n" + to;
      lines.set(key, { from, to, count: (lines.get(key)?.count || 0) + 1 });
    }
    for (const box of boxes.values()) if (box.word === "heading") box.label = short(box.label, 22) + " [" + box.count + "]";
    return { boxes: [...boxes.values()], lines: [...lines.values()].map((line) => ({ ...line, words: line.count + (line.count === 1 ? " way" : " ways") })) };
  }
  const box = (index) => ({ key: "thing " + index, label: things[index].name, hint: called(things[index]), word: things[index].word, to: things[index].to });
  const line = ([from, relation, to, under, above]) => ({
    from: "thing " + under, to: "thing " + above,
    words: called(things[from]) + " " + relation + " " + called(things[to]),
  });
  function clausesOnly() {
    const wanted = new Set(things.flatMap((thing, index) => (["clause", "dimension"].includes(thing.word) ? [index] : [])));
    const all = edges.filter(([, , , under, above]) => wanted.has(under) && wanted.has(above));
    const touched = new Set(all.flatMap(([, , , under, above]) => [under, above]));
    return { boxes: [...wanted].filter((index) => touched.has(index)).map(box), lines: all.map(line) };
  }
  // One thing, and what it rests on and what rests on it, so many steps away.
  function around(index, steps) {
    const wanted = new Map([[index, 0]]), kept = [];
    for (const [one, other, way] of [[3, 4, 1], [4, 3, -1]]) {
      let edge = [index];
      for (let step = 1; step <= steps; step++) {
        const next = [];
        for (const it of edges) if (edge.includes(it[one])) {
          if (!kept.includes(it)) kept.push(it);
          if (!wanted.has(it[other])) { wanted.set(it[other], way * step); next.push(it[other]); }
        }
        edge = next;
      }
    }
    return { boxes: [...wanted].map(([at, rank]) => ({ ...box(at), rank })), lines: kept.map(line), centre: "thing " + index };
  }

  // Columns: where they are not given, a box stands one behind the last that it rests on.
  function ranked(boxes, lines) {
    if (boxes.every((it) => it.rank !== undefined)) return;
    const under = new Map(boxes.map((it) => [it.key, []])), ranks = new Map(), open = new Set();
    lines.forEach(({ from, to }) => under.get(to).push(from));
    const rank = (key) => {
      if (ranks.has(key)) return ranks.get(key);
      if (open.has(key)) return 0; // A circle of folded headings: the line runs back.
      open.add(key);
      const found = Math.max(-1, ...under.get(key).map(rank)) + 1;
      open.delete(key);
      ranks.set(key, found);
      return found;
    };
    boxes.forEach((it) => (it.rank = rank(it.key)));
  }

  const WIDE = 190, HIGH = 24, GAP = 9, BETWEEN = 90;
  function show({ boxes, lines, centre }) {
    ranked(boxes, lines);
    const ranks = [...new Set(boxes.map((it) => it.rank))].sort((one, other) => one - other);
    const columns = ranks.map((rank) => boxes.filter((it) => it.rank === rank));
    const by = new Map(boxes.map((it) => [it.key, it]));
    columns.forEach((column, x) => column.forEach((it, y) => Object.assign(it, { x, y, near: [] })));
    lines.forEach(({ from, to }) => { by.get(from).near.push(by.get(to)); by.get(to).near.push(by.get(from)); });
    // A few sweeps that put each box beside the middle of what it is joined to.
    for (let sweep = 0; sweep < 6; sweep++)
      for (const column of columns) {
        const middle = (it) => (it.near.length ? it.near.reduce((sum, other) => sum + other.y, 0) / it.near.length : it.y);
        column.map((it) => [middle(it), it]).sort((one, other) => one[0] - other[0]).forEach(([, it], y) => (it.y = y));
      }
    const most = Math.max(1, ...columns.map((column) => column.length));
    const width = columns.length * WIDE + (columns.length - 1) * BETWEEN, height = most * (HIGH + GAP) + GAP;
    const left = (it) => it.x * (WIDE + BETWEEN), top = (it) => GAP + (it.y + (most - columns[it.x].length) / 2) * (HIGH + GAP);
    const svg = draw("svg", { width, height, viewBox: `0 0 ${width} ${height}`, role: "group", "aria-label": "What rests on what; the same in sentences below" });
    const paths = lines.map((it) => {
      const from = by.get(it.from), to = by.get(it.to);
      const [x, y, u, v] = [left(from) + WIDE, top(from) + HIGH / 2, left(to), top(to) + HIGH / 2];
      const bend = from.x === to.x ? 60 : Math.max(40, Math.abs(u - x) / 2);
      const path = draw("path", { d: from.x === to.x ? `M${x} ${y}C${x + bend} ${y} ${u + WIDE + bend} ${v} ${u + WIDE} ${v}` : `M${x} ${y}C${x + bend} ${y} ${u - bend} ${v} ${u} ${v}` });
      path.append(draw("title", {}, it.words));
      svg.append(path);
      return { ...it, path };
    });
    // Every way through a box, to and fro.
    const ways = (key) => {
      const found = new Set();
      for (const [one, other] of [["from", "to"], ["to", "from"]]) {
        const seen = new Set([key]);
        for (const at of seen) paths.forEach((it) => { if (it[one] === at) { found.add(it); seen.add(it[other]); } });
      }
      return found;
    };
    const highlight = (key) => {
      const found = key === null ? new Set() : ways(key);
      svg.classList.toggle("some", found.size > 0);
      paths.forEach((it) => it.path.classList.toggle("way", found.has(it)));
    };
    boxes.forEach((it) => {
      const shown = short(it.label, 27);
      const target = draw("a", { href: it.key.startsWith("thing") ? "#network" : it.to ? "#" + it.to : "#network", "aria-label": shown + ": " + it.hint, class: it.word.replace(" ", "-") + (it.key === centre ? " centre" : "") });
      target.append(draw("title", {}, it.hint), draw("rect", { x: left(it), y: top(it), width: WIDE, height: HIGH, rx: it.word === "clause" || it.word === "heading" ? 0 : HIGH / 2 }),
        draw("text", { x: left(it) + 10, y: top(it) + HIGH - 7 }, shown));
      target.addEventListener("click", (event) => {
        event.preventDefault();
        if (it.key.startsWith("thing")) { look.value = it.key; update(); look.focus(); }
        else foldOut(Number(it.key.split(" ")[1]));
      });
      ["mouseenter", "focus"].forEach((kind) => target.addEventListener(kind, () => highlight(it.key)));
      ["mouseleave", "blur"].forEach((kind) => target.addEventListener(kind, () => highlight(null)));
      svg.append(target);
    });
    picture.replaceChildren(svg);
    status.textContent = boxes.length + (boxes.length === 1 ? " box, " : " boxes, ") + lines.length + (lines.length === 1 ? " line" : " lines");
    const list = make("ul");
    const by_folding = (it) => (by.get(it.from).word === "heading" || by.get(it.to).word === "heading")
      ? by.get(it.to).hint + " rests on " + by.get(it.from).hint + " in " + it.words : it.words;
    [...new Set(lines.map(by_folding))].forEach((words) => list.append(make("li", words, { dir: "auto" })));
    told.replaceChildren(list);
  }
  // A heading folded out: its clauses and everything next to them.
  function foldOut(group) {
    const own = new Set(things.flatMap((thing, index) => (thing.group === group ? [index] : [])));
    const kept = edges.filter(([, , , under, above]) => own.has(under) || own.has(above));
    const touched = new Set([...own, ...kept.flatMap(([, , , under, above]) => [under, above])]);
    show({ boxes: [...touched].map(box), lines: kept.map(line) });
    status.textContent = groups[group] + ": " + status.textContent;
  }
  function update() {
    const value = look.value, one = value.startsWith("thing ");
    far.disabled = !one;
    if (value === "whole") show(folded());
    else if (value === "clauses") show(clausesOnly());
    else show(around(Number(value.split(" ")[1]), Number(far.value)));
  }
  look.addEventListener("change", update);
  far.addEventListener("change", update);
  document.getElementById("network-form").addEventListener("submit", (event) => event.preventDefault());
  // Drawn when it is first seen: a long rulebook is not to wait for it.
  new IntersectionObserver((seen, watch) => {
    if (seen.some((it) => it.isIntersecting)) { watch.disconnect(); update(); }
  }, { rootMargin: "600px" }).observe(place);
  window.evenhand.network = { update };
})();
