// Firefox, driven over WebDriver BiDi by puppeteer.
import { createRequire } from "node:module";
import path from "node:path";
import { folder, given, remove } from "./harness.mjs";

/** A page or a frame of puppeteer's, as a hand uses it. */
export const hands = (page) => ({
  evaluate: (what, word) => page.evaluate(what, word),
  async press(css, at = 0) {
    await (await page.$$(css))[at].click();
  },
  async type(css, text) {
    await (await page.$(css)).type(text);
  },
});

/** A process with this profile. */
function launched(profile) {
  const packages = createRequire(path.join(given("PRESSMARK_FIREFOX_DRIVER"), "package.json"));
  const puppeteer = packages("puppeteer-core");
  return (puppeteer.default ?? puppeteer).launch({
    browser: "firefox", executablePath: given("PRESSMARK_FIREFOX"), headless: true, userDataDir: profile,
    defaultViewport: { width: 360, height: 740 },
    env: { ...process.env, HOME: profile, MOZ_DISABLE_CONTENT_SANDBOX: "1" },
  });
}

/** The engine, with `page` as puppeteer has it for what is not the same in all of them. */
export async function firefox() {
  const profile = folder();
  const complaints = [];
  let browser;
  let page;
  async function begin() {
    browser = await launched(profile);
    page = await browser.newPage();
    page.on("pageerror", (reason) => complaints.push(String(reason)));
  }
  await begin();
  return {
    version: (await browser.version()).replace(/^firefox\//i, ""),
    page: () => page,
    evaluate: (what, word) => hands(page).evaluate(what, word),
    press: (css, at) => hands(page).press(css, at),
    type: (css, text) => hands(page).type(css, text),
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
