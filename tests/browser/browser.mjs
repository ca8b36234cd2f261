// A browser of this machine, without anything that it would do on its own.
import { chromium } from "playwright-core";

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
