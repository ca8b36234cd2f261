// What stands on the page where it is asked for: a draft, a case book, questions, an order of questions.
import path from "node:path";
import { DESK, Faults, PHONE, NARROWEST, accessible, browser, fits, open, pages } from "./browser.mjs";

const folder = process.argv[2], faults = new Faults();
const file = (name) => path.join(folder, name);
const opened = await browser();
const all = ["draft", "hostile"];

// At a desk, on a phone, on the narrowest of screens, and at a desk with everything twice as large.
const SIZES = [["desk", DESK, "light"], ["phone", PHONE, "dark"], ["narrowest", NARROWEST, "light"], ["zoomed", { width: 640, height: 450 }, "light"]];
for (const [name, viewport, colorScheme] of SIZES) {
  const context = await opened.newContext({ viewport, colorScheme, deviceScaleFactor: name === "zoomed" ? 2 : 1 });
  for (const which of all) {
    const page = await open(context, file(`${which}.html`), faults), what = `${which}, ${name}, ${colorScheme}`;
    await fits(faults, page, what);
    if (name === "desk" || name === "phone") await accessible(faults, page, what);
    await page.close();
  }
  await context.close();
}

const context = await opened.newContext({ viewport: DESK });
context.setDefaultTimeout(20_000);

// A draft.
{
  const page = await open(context, file("draft.html"), faults);
  const text = (selector) => page.locator(selector).first().innerText();
  const draft = await text("#draft");
  for (const words of ["What the drafts change", "“Fewer strokes on the serve” alone:", "outside the scope",
    "the point: to the receiving side before, to the serving side after", "In which direction", "Findings that are gone",
    "Clauses untouched in their words that do something else", "Everything else is ruled as before."])
    faults.expect(draft.toLowerCase().includes(words.toLowerCase()), `the draft does not say: ${words}`);
  const decoration = (selector) => page.locator(selector).first().evaluate((it) => getComputedStyle(it).textDecorationLine);
  faults.expect(await decoration(".redline del .words") === "line-through", "what goes is not struck");
  faults.expect(await decoration(".redline ins .words") === "underline", "what comes is not underlined");
  const marked = (await page.locator(".redline").first().textContent()).replace(/\s+/g, " ");
  faults.expect(marked.includes("[− struck out: 3 −]; [+ new: 2 +]"), `what goes and comes is not told by signs and in words: ${marked}`);
  // Ways from the draft to the rules, from a change to its effect.
  await page.click(".thing h4 a >> nth=0");
  faults.expect(/^#clause-\d+$/.test(new URL(page.url()).hash), "a clause that changes does not lead to the rules");
  await page.click(".thing .quiet a >> nth=0");
  const target = await page.evaluate(() => document.querySelector(location.hash).querySelector("table").rows.length);
  faults.expect(target >= 2, "an effect does not lead to the rulings before and after");
  // What is new in the draft is no finding about the rules as they are.
  faults.expect(await page.locator("#draft .card").count() > 0, "no finding is new");
  faults.expect(await page.locator("#draft .card .try-this").count() === 0, "a case of the draft can be tried with the rules as they are");
  faults.expect(await page.locator("#draft .card a").count() === 0, "a finding of the draft leads into the rules as they are");
  await page.fill("#search-words", "most_strokes");
  faults.expect((await text("#search-results")).includes("Change"), "the search does not find what changes");
  await page.fill("#search-words", "");
  const number = await pages(page, "A4");
  faults.expect(number >= 8 && number <= 20, `${number} pages with a draft`);
  await page.emulateMedia({ media: "print" });
  const colours = await page.evaluate(() => [...document.querySelectorAll("del, ins")].map((it) => getComputedStyle(it).color));
  faults.expect(colours.every((colour) => colour === "rgb(0, 0, 0)"), "what goes and comes is printed in colours");
  await page.close();
}

// Texts that would like to be code.
{
  const page = await open(context, file("hostile.html"), faults);
  faults.expect(await page.evaluate(() => window.broken === undefined), "a text was taken for code");
  const body = await page.innerText("body");
  for (const words of ["</h3><script>window.broken = 'draft'</script> & קבוצה", "<i>2032</i>", "طلب", "{{ 7 * 8 }}", "</dd><b>8</b>", "onload=\"window.broken='inserted'\""])
    faults.expect(body.includes(words), `not shown as it is: ${words}`);
  faults.expect(!/[\u202a-\u202e\u2066-\u2069]/.test(await page.content()), "a sign that turns words round is on the page");
  const fresh = await page.locator("#draft .card").count();
  for (const box of await page.locator("[name=group]").all()) await box.uncheck();
  faults.expect(fresh > 0 && await page.locator("#draft .card:visible").count() === fresh, "the filters hide what is new in the draft");
  faults.expect(await page.locator("#draft img, #draft svg, #draft script, #draft textarea").count() === 0, "a text has made elements");
  await page.close();
}

await context.close();
await opened.close();
faults.end();
