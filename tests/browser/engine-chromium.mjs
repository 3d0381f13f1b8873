// Chromium, driven by playwright.
import { folder, phone, remove } from "./harness.mjs";

export async function chromium() {
  const profile = folder();
  const complaints = [];
  let browser;
  let page;
  async function begin() {
    browser = await phone({ profile });
    page = browser.context.pages()[0] ?? await browser.context.newPage();
    browser.context.on("weberror", (problem) => complaints.push(String(problem.error())));
  }
  await begin();
  return {
    version: browser.context.browser().version(),
    evaluate: (what, word) => page.evaluate(what, word),
    press: (css, at = 0) => page.locator(css).nth(at).tap(),
    type: (css, text) => page.locator(css).first().pressSequentially(text),
    goto: (address) => page.goto(address),
    async restart() {
      await browser.close();
      await begin();
    },
    picture: (file) => page.screenshot({ path: file }),
    complaints: () => complaints,
    async close() {
      await browser.close();
      remove(profile);
    },
  };
}
