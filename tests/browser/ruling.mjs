// Holds what pages say of incidents against what the evaluator said: for each N.html of a folder the
// incidents in N.json.
import fs from "node:fs";
import path from "node:path";
import { Faults, browser, open } from "./browser.mjs";

const folder = process.argv[2], faults = new Faults();
const opened = await browser();
const context = await opened.newContext();
let wholes = 0, parts = 0, exact = 0;
for (const name of fs.readdirSync(folder).filter((name) => name.endsWith(".html"))) {
  const cases = JSON.parse(fs.readFileSync(path.join(folder, name.replace(".html", ".json")), "utf8"));
  const page = await open(context, path.join(folder, name), faults);
  const wrong = await page.evaluate(({ whole, partly }) => {
    const { rules } = window.evenhand, wrong = [];
    const same = (one, other) => JSON.stringify(one) === JSON.stringify(other);
    const indices = (all, holds) => all.flatMap((it, index) => (holds(it) ? [index] : []));
    for (const it of whole) {
      const { now } = rules.about(rules.factsOf(it.facts));
      const said = {
        facts: it.facts,
        met: indices(now.met, (truths) => truths === 1),
        inForce: indices(now.force, (truths) => truths === 1),
        standing: now.standing.map((all) => all.map(({ clause }) => clause).sort((one, other) => one - other)),
        rulings: now.outcomes.map((all) => [...all.keys()].join(" or ")),
      };
      const sure = now.impossible.length === 0 && now.met.every((truths) => truths !== 3)
        && now.standing.every((all) => all.every(({ must }) => must));
      if (!sure || !same(said, it)) wrong.push("whole: " + JSON.stringify({ said, expected: it }));
    }
    let exact = 0;
    for (const it of partly) {
      const answer = rules.about(rules.factsOf(it.facts));
      for (let round = 0; round < 20 && !answer.more(200); round++);
      if (answer.exact()) exact++;
      if (answer.now.impossible.length > 0) wrong.push("called impossible: " + JSON.stringify(it));
      for (const dimension of answer.announced) {
        const expected = it.possible[dimension], found = [...answer.found[dimension].keys()].sort();
        const outer = answer.now.outcomes[dimension];
        const within = found.every((one) => expected.includes(one));
        const covered = outer === null || expected.every((one) => outer.has(one));
        if (!within || !covered || (answer.exact() && !same(found, expected)))
          wrong.push("partly: " + JSON.stringify({ facts: it.facts, dimension, found, expected, outer: outer && [...outer.keys()] }));
      }
    }
    return { wrong, exact };
  }, cases);
  wrong.wrong.slice(0, 3).forEach((what) => faults.expect(false, name + ": " + what));
  wholes += cases.whole.length;
  parts += cases.partly.length;
  exact += wrong.exact;
  await page.close();
}
await opened.close();
console.log(`${wholes} whole incidents and ${parts} with facts missing ruled as the evaluator does, ${exact} of these exactly`);
faults.expect(exact * 10 >= parts * 9, "too few are exact");
faults.end();
