// Firefox, driven over WebDriver BiDi by puppeteer.
import { createRequire } from "node:module";
import path from "node:path";
import { onDisk } from "./hands.mjs";
import { given } from "./harness.mjs";

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
export const firefox = () => onDisk(async (profile, complaints) => {
  const browser = await launched(profile);
  const page = await browser.newPage();
  page.on("pageerror", (reason) => complaints.push(String(reason)));
  const version = (await browser.version()).replace(/^firefox\//i, "");
  return { page, close: () => browser.close(), version };
}, hands);
