// Uses the page as people do: reads, searches, filters, tries a case, prints; at a desk and on a phone,
// in the light and in the dark, with the keyboard alone, and with an engine that checks accessibility.
import path from "node:path";
import { DESK, Faults, PHONE, NARROWEST, accessible, browser, fits, open, pages } from "./browser.mjs";

const folder = process.argv[2], faults = new Faults();
const file = (name) => path.join(folder, name);
const opened = await browser();

// Everything at every size.
for (const colorScheme of ["light", "dark"]) {
  for (const [name, viewport] of [["desk", DESK], ["phone", PHONE], ["narrowest", NARROWEST]]) {
    const context = await opened.newContext({ viewport, colorScheme });
    for (const which of ["draft.html", "clean.html", "hostile.html"]) {
      const page = await open(context, file(which), faults), what = `${which}, ${name}, ${colorScheme}`;
      await fits(faults, page, what);
      if (name !== "narrowest" && (which === "draft.html" || name === "desk")) await accessible(faults, page, what);
      await page.close();
    }
    await context.close();
  }
}

// A desk.
{
  const context = await opened.newContext({ viewport: DESK });
  const page = await open(context, file("draft.html"), faults);
  const ready = await page.evaluate(() => performance.getEntriesByType("navigation")[0].domContentLoadedEventEnd);
  console.log(`usable after ${Math.round(ready)} ms`);
  const text = (selector) => page.locator(selector).first().innerText();
  faults.expect((await text(".answer")).startsWith("No"), "the first screen does not say that there are faults");
  const answer = await page.locator(".answer").boundingBox();
  faults.expect(answer.y + answer.height < DESK.height, "the answer is not on the first screen");
  faults.expect((await text("footer")).includes("2031-04-02"), "the foot does not say the date");

  // By the keyboard: to the report, then to the search.
  await page.keyboard.press("Tab");
  faults.expect(await page.evaluate(() => document.activeElement.className) === "skip", "the first stop is not the link past the contents");
  await page.keyboard.press("Enter");
  faults.expect(await page.evaluate(() => document.activeElement.id) === "main", "the link past the contents does not lead to the report");
  await page.focus("#search-words");
  await page.keyboard.type("shoulder");
  faults.expect(/^\d+ place/.test(await text("#search-count")), "the search does not count");
  await page.keyboard.press("Enter");
  const label = await page.evaluate(() => document.activeElement.textContent);
  await page.keyboard.press("Enter");
  await page.waitForTimeout(100);
  const target = await page.evaluate(() => {
    const to = document.querySelector(location.hash), box = to.getBoundingClientRect();
    return { text: to.textContent.toLowerCase(), top: box.top };
  });
  faults.expect(target.text.includes("shoulder") && target.top >= 0 && target.top < DESK.height, `"${label}" leads to ${JSON.stringify(target.top)}`);
  faults.expect(await page.locator("#search-results").isHidden(), "what was found stays open");
  await page.fill("#search-words", "zzzz");
  faults.expect(await text("#search-count") === "nothing found", "a search in vain does not say so");
  await page.fill("#search-words", "");

  // Filters.
  const shown = () => page.locator(".card:visible").count();
  const all = await shown(), number = await page.locator(".card").count();
  faults.expect(all === number && all > 20, `${all} of ${number} findings are shown`);
  await page.uncheck("[name=group][value=faults]");
  faults.expect(await page.locator(".card.fault:not(.accepted):visible").count() === 0 && await shown() > 0, "faults are shown though they are not ticked");
  faults.expect((await text("#filter-count")).includes(" of "), "it is not said that some are hidden");
  // A link to a hidden finding shows it.
  await page.click(".gravest a >> nth=0");
  await page.waitForTimeout(100);
  faults.expect(await page.locator("#finding-1").isVisible(), "a link leads to a finding that stays hidden");
  await page.check("[name=order][value=clause]");
  const clauses = await page.locator("#by-clause h3").allInnerTexts();
  faults.expect(clauses.length > 5 && await shown() === number, `${clauses.length} headings in the order of clauses`);
  await accessible(faults, page, "in the order of clauses");
  await page.selectOption("[name=kind]", "contradiction");
  const kinds = await page.locator(".card:visible").evaluateAll((cards) => [...new Set(cards.map((card) => card.dataset.kind))]);
  faults.expect(kinds.join() === "contradiction", `of kind contradiction are shown ${kinds}`);
  await page.evaluate(() => document.getElementById("filters").reset());

  // A case: the one beside the first finding, then one of our own.
  await page.evaluate(() => document.getElementById("filters").dispatchEvent(new Event("change")));
  await page.click(".try-this >> nth=0");
  faults.expect((await text("#outcome-whole")).includes("a contradiction"), "the case of a contradiction is not ruled as one");
  faults.expect(await page.evaluate(() => document.activeElement.id) === "outcome", "trying a case does not lead to what follows");
  await accessible(faults, page, "a case");
  await page.click("text=Clear all facts");
  faults.expect(await page.locator("#facts .is-set").count() === 0, "facts are left after clearing");
  await page.selectOption("#facts select >> nth=0", { label: "a technique or a grip" });
  const took = await page.evaluate(() => {
    const field = [...document.querySelectorAll("#facts .fact:not([hidden]) select")].find((it) => it.options.length > 2 && it.value === "");
    field.value = field.options[1].value;
    const begin = performance.now();
    field.dispatchEvent(new Event("input", { bubbles: true }));
    return performance.now() - begin;
  });
  console.log(`a case answered in ${Math.round(took)} ms`);
  const first = await page.locator("#facts select >> nth=0").evaluate((field) => field.options[0].textContent);
  faults.expect(first === "not established", "a list does not begin with what is not established");
  faults.expect((await text("#outcome-whole")).length > 20, "a case in part says nothing");

  // Pictures: the whole book, then one clause and what is next to it; the same in sentences.
  await page.locator("#network").scrollIntoViewIfNeeded();
  await page.waitForSelector("#network-picture svg");
  const boxes = () => page.locator("#network-picture a").count();
  const sentences = () => page.locator("#network-told li").evaluateAll((all) => all.map((it) => it.textContent));
  const whole = await boxes();
  faults.expect(whole > 10 && (await sentences()).length > 10, `${whole} boxes are drawn of the whole book`);
  await page.selectOption("#network-look", { label: "16.1 After the call" });
  const near = await boxes(), said = await sentences();
  faults.expect(near > 3 && said.every((words) => words.includes("16.1")), `16.1 stands among ${near} boxes: ${said.slice(0, 3)}`);
  faults.expect(said.some((words) => words.startsWith("clause 16.1 (After the call) disapplies clause 10.")), "what 16.1 disapplies is not drawn");
  await page.selectOption("#network-far", "2");
  faults.expect(await boxes() > near, "two steps away is no more than one");
  await page.focus("#network-picture a.clause >> nth=0");
  faults.expect(await page.locator("#network-picture path.way").count() > 0, "the ways through a box are not marked");
  await page.keyboard.press("Enter");
  faults.expect((await page.inputValue("#network-look")) !== "whole", "a box that is chosen is not looked at");
  await page.selectOption("#network-look", "clauses");
  faults.expect(await boxes() > 60, "not all clauses are drawn");
  await accessible(faults, page, "pictures");
  faults.expect(await page.locator(".strip").count() > 2 && await page.locator(".matrix td span[aria-hidden]").count() > 10, "strips or pairs are missing");

  // On paper.
  for (const [format, most] of [["A4", 60], ["Letter", 60]]) {
    const number = await pages(page, format);
    console.log(`${number} pages of ${format}`);
    faults.expect(number >= 8 && number <= most, `${number} pages of ${format}`);
  }
  await page.emulateMedia({ media: "print" });
  faults.expect(await page.locator("#try").isHidden() && await page.locator(".contents").isHidden(), "what moves is printed");
  faults.expect(await page.locator(".caution >> nth=0").isVisible(), "the caution is not printed");
  await context.close();
}

// Without scripts.
{
  const context = await opened.newContext({ viewport: DESK, javaScriptEnabled: false });
  const page = await context.newPage();
  await page.goto("file://" + file("draft.html"));
  faults.expect(await page.locator(".card").first().isVisible() && await page.locator("#try").isHidden(), "without scripts the page is not whole");
  await context.close();
}

// Texts that would like to be code.
{
  const context = await opened.newContext({ viewport: DESK });
  const page = await open(context, file("hostile.html"), faults);
  faults.expect(await page.evaluate(() => window.broken === undefined), "a text was taken for code");
  const body = await page.innerText("body");
  for (const words of ["<script>window.broken = 'title'</script>", "<b>2031</b>", "<!-- not a comment", "{{ 7 * 7 }}", "&lt;already escaped&gt;", "\\u003cscript\\u003e", "\u05d7\u05d6\u05e7\u05d4", "б & в", "قاعدة"])
    faults.expect(body.includes(words), `not shown as it is: ${words}`);
  faults.expect(!/[\u202a-\u202e\u2066-\u2069]/.test(await page.content()), "a sign that turns words round is on the page");
  await page.selectOption("#facts select >> nth=0", { index: 1 });
  await page.click("text=Clear all facts");
  const scripts = await page.locator("script").count(), bases = await page.locator("base, textarea, img").count();
  faults.expect(scripts === 5 && bases === 0, `${scripts} scripts and ${bases} elements that a text has made`);
  await context.close();
}

await opened.close();
faults.end();
