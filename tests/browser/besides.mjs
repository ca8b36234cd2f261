// What stands on the page where it is asked for: a draft, a case book, questions, an order of questions.
import path from "node:path";
import { DESK, Faults, PHONE, NARROWEST, accessible, browser, fits, open, pages } from "./browser.mjs";

const folder = process.argv[2], faults = new Faults();
const file = (name) => path.join(folder, name);
const opened = await browser();
const all = ["draft", "hostile", "whole"];

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
  // What the draft touches leads to its words there.
  const leads = await page.evaluate(() => {
    const touched = new Map([...document.querySelectorAll("#draft .thing")].map((it) => [it.querySelector("h4").textContent.replace(/^Clause (\S+):.*$/s, "$1"), "#" + it.id]));
    const all = [...document.querySelectorAll("#draft .card .kind a")];
    return { number: all.length, touched: all.filter((it) => touched.has(it.textContent.split(" ")[0])).length,
      astray: all.filter((it) => { const to = touched.get(it.textContent.split(" ")[0]); return !document.querySelector(it.hash) || (to && to !== it.hash); }).map((it) => it.textContent + " " + it.hash) };
  });
  faults.expect(leads.number > 0 && leads.touched > 0 && leads.astray.length === 0, "findings of the draft lead to " + JSON.stringify(leads));
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

// A case book.
{
  const page = await open(context, file("whole.html"), faults);
  const book = await page.innerText("#cases");
  for (const words of ["Of 10 cases 6 agree with the text, 2 disagree and 2 can't be decided.", "the text rules otherwise", "by the text: caution",
    "would help most", "Cites clause 9.7, which the ruleset does not have", "1 pair of cases disagrees with each other", "How far officials agree", "Fleiss' kappa"])
    faults.expect(book.includes(words), `the case book does not say: ${words}`);
  await page.click("#cases .case a >> nth=0");
  faults.expect(/^#clause-\d+$/.test(new URL(page.url()).hash), "a clause that says otherwise does not lead to the rules");
  await page.click("#cases .try-this >> nth=0");
  faults.expect(await page.locator("#facts .is-set").count() > 3, "the facts of a case are not taken over");
  faults.expect((await page.innerText("#outcome-whole")).includes("caution"), "a case of the book is not ruled as the book says that the text does");

  // Clause against clause: overlaps, in the picture and in words.
  faults.expect(await page.locator(".matrix td span[aria-hidden]", { hasText: "∩" }).count() > 0, "no clauses overlap in the picture");
  await page.click("text=The same in words");
  faults.expect(/overlaps with \S+ on /.test(await page.innerText("#pictures")), "overlaps are not told in words");

  // From question to ruling: folded, unfolded by the keyboard, and by a link to what is folded.
  faults.expect((await page.innerText("#pictures")).includes("From question to ruling: Penalty to the athlete"), "the order of questions is missing");
  const steps = await page.locator(".chart .ask").count(), seen = () => page.locator(".chart .ask:visible").count();
  const before = await seen();
  faults.expect(steps > 20 && before > 0 && before < steps, `${before} of ${steps} questions are unfolded`);
  await page.focus(".chart summary >> nth=0");
  await page.keyboard.press("Enter");
  faults.expect(await seen() > before, "what is folded does not open by the keyboard");
  await page.evaluate(() => (location.hash = document.querySelector(".chart details:not([open]) .ask").id));
  await page.waitForTimeout(100);
  faults.expect(await page.evaluate(() => document.querySelector(location.hash).checkVisibility()), "a link leads to a question that stays folded");

  // Questions, one answer after the other, by the keyboard alone.
  const shown = () => page.locator(".shown:not(:empty)").count(), status = () => page.innerText("#quiz-status");
  const number = await page.locator(".reveal").count();
  faults.expect(number > 6 && await shown() === 0 && await page.locator("#key").isHidden(), "answers are shown before anybody asks");
  await page.focus(".reveal >> nth=1");
  await page.keyboard.press("Enter");
  faults.expect(await shown() === 1, "a button does not show its answer");
  const one = page.locator(".reveal").nth(1);
  faults.expect(await one.getAttribute("aria-expanded") === "true", "the state of a button is not told");
  const region = page.locator("#" + await one.getAttribute("aria-controls"));
  faults.expect(await region.getAttribute("aria-live") === "polite" && (await region.innerText()).length > 10, "an answer that comes is not told to those who listen");
  const answer = (await region.innerText()).trim(), key = (await page.locator("#" + await one.getAttribute("data-key")).textContent()).replace(/\s+/g, " ");
  faults.expect(key.includes(answer.split("\n")[0].trim()), "what is shown is not what the key says");
  await page.focus("#next-answer");
  await page.keyboard.press("Space");
  faults.expect(await shown() === 2 && await page.evaluate(() => document.activeElement === document.querySelector(".reveal")), "the next answer is not that of the first part");
  faults.expect(await status() === `2 of ${number} answers shown`, `it is not said how many answers are shown: ${await status()}`);
  await accessible(faults, page, "with answers shown");
  await page.keyboard.press("Enter");
  faults.expect(await shown() === 1, "a button does not hide its answer again");
  await page.click("#hide-answers");
  faults.expect(await shown() === 0 && await status() === "", "not all answers are hidden");
  await page.click("#whole-key");
  faults.expect(await page.locator("#key").isVisible() && await page.locator("#whole-key").getAttribute("aria-expanded") === "true", "the whole key does not open");
  await accessible(faults, page, "with the key");
  await page.click("#whole-key");

  // On paper: the sheet and the key on pages of their own, what is folded unfolded.
  await page.focus("#next-answer");
  await page.keyboard.press("Enter");
  await page.emulateMedia({ media: "print" });
  const breaks = await page.evaluate(() => ["cases", "quiz", "key"].map((id) => getComputedStyle(document.getElementById(id)).breakBefore));
  faults.expect(breaks.every((it) => it === "page"), `no page of their own: ${breaks}`);
  faults.expect(await page.locator("#key").isVisible() && await page.locator(".shown:visible").count() === 0 && await page.locator(".reveal:visible").count() === 0, "the sheet on paper is not a sheet");
  await page.emulateMedia({ media: null });
  for (const format of ["A4", "Letter"]) {
    const sheets = await pages(page, format);
    console.log(`${sheets} pages of ${format}`);
    faults.expect(sheets >= 20 && sheets <= 80, `${sheets} pages of ${format}`);
  }
  const folded = await page.locator(".chart details:not([open])").count();
  faults.expect(folded > 0, "what was unfolded for paper stays so");
  await page.evaluate(() => window.dispatchEvent(new Event("beforeprint")));
  faults.expect(await page.locator("details:not([open])").count() === 0, "something stays folded on paper");
  await page.close();
}

// Without scripts the key is there, behind the questions.
{
  const without = await opened.newContext({ viewport: DESK, javaScriptEnabled: false });
  const page = await without.newPage();
  await page.goto("file://" + file("whole.html"));
  faults.expect(await page.locator("#key").isVisible() && await page.locator(".reveal").first().isHidden(), "without scripts the key is not there");
  await without.close();
}

// Texts that would like to be code.
{
  const page = await open(context, file("hostile.html"), faults);
  faults.expect(await page.evaluate(() => window.broken === undefined), "a text was taken for code");
  const body = await page.innerText("body");
  for (const words of ["</h3><script>window.broken = 'draft'</script> & קבוצה", "<i>2032</i>", "طلب", "{{ 7 * 8 }}", "</dd><b>8</b>", "</dd><script>window.broken = 'source'</script> קבוצה",
    "<img src=x onerror=\"window.broken='case'\">", "Cites clause </li><script>window.broken = 'cited'</script>", "onload=\"window.broken='inserted'\""])
    faults.expect(body.includes(words), `not shown as it is: ${words}`);
  for (const button of await page.locator(".reveal").all()) await button.click();
  faults.expect((await page.innerText("#quiz")).includes("<script>window.broken = 'dimension'</script>"), "a question does not show a text as it is");
  faults.expect(!/[\u202a-\u202e\u2066-\u2069]/.test(await page.content()), "a sign that turns words round is on the page");
  const fresh = await page.locator("#draft .card").count();
  for (const box of await page.locator("[name=group]").all()) await box.uncheck();
  faults.expect(fresh > 0 && await page.locator("#draft .card:visible").count() === fresh, "the filters hide what is new in the draft");
  faults.expect(await page.locator("main img, main script, main textarea, main svg:not(#network-picture svg)").count() === 0, "a text has made elements");
  await page.close();
}

await context.close();
await opened.close();
faults.end();
