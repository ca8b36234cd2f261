// A browser of this machine, without anything that it would do on its own.
import fs from "node:fs";
import { createRequire } from "node:module";
import { chromium } from "playwright-core";

const axe = fs.readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
// The success criteria of WCAG 2.2 at levels A and AA, by the names that axe gives them.
const CRITERIA = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"];
export const DESK = { width: 1280, height: 900 }, PHONE = { width: 390, height: 844 }, NARROWEST = { width: 320, height: 640 };

export const browser = () => chromium.launch({
  executablePath: "/usr/bin/chromium",
  args: ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
    "--disable-component-update", "--disable-sync"],
});

// What went wrong, told at the end, all at once.
export class Faults {
  #all = [];
  expect(holds, what) {
    if (!holds) this.#all.push(what);
  }
  end() {
    for (const fault of this.#all.slice(0, 40)) console.error("FAULT: " + fault);
    if (this.#all.length > 0) process.exitCode = 1;
  }
}

// Opens a page, and notes whatever it complains of or asks the network for.
export async function open(context, file, faults) {
  const page = await context.newPage();
  page.on("console", (message) => faults.expect(!["error", "warning"].includes(message.type()), file + ": " + message.text()));
  page.on("pageerror", (error) => faults.expect(false, file + ": " + error.message));
  page.on("request", (request) => {
    const url = request.url();
    faults.expect(url.startsWith("file:") && url.split("#")[0].endsWith(".html") || url === "data:,", file + " asks for " + url);
  });
  page.on("dialog", (dialog) => { faults.expect(false, file + ": a dialog"); dialog.dismiss(); });
  await page.goto("file://" + file);
  return page;
}

// Whether an engine finds nothing that shuts somebody out.
export async function accessible(faults, page, what) {
  await page.evaluate(axe);
  const { violations } = await page.evaluate((values) => window.axe.run(document, { runOnly: { type: "tag", values } }), CRITERIA);
  for (const { id, nodes } of violations)
    faults.expect(false, `${what}: ${id}: ${nodes.length} times, as ${nodes[0].html.slice(0, 160)}: ${nodes[0].failureSummary}`);
}

// Whether nothing is wider than the screen.
export async function fits(faults, page, what) {
  const over = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
  faults.expect(over <= 0, `${what}: ${over} pixels wider than the screen`);
}

// How many sheets of paper it takes.
export async function pages(page, format) {
  const pdf = (await page.pdf({ format, preferCSSPageSize: false })).toString("latin1");
  return (pdf.match(/\/Type\s*\/Page\b/g) || []).length;
}
