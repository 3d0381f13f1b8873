// Chromium, driven by playwright.
import { onDisk } from "./hands.mjs";
import { phone } from "./harness.mjs";

const hands = (page) => ({
  evaluate: (what, word) => page.evaluate(what, word),
  press: (css, at = 0) => page.locator(css).nth(at).tap(),
  type: (css, text) => page.locator(css).first().pressSequentially(text),
});

export const chromium = () => onDisk(async (profile, complaints) => {
  const { context, close } = await phone({ profile });
  context.on("weberror", (problem) => complaints.push(String(problem.error())));
  return { page: context.pages()[0] ?? await context.newPage(), close, version: context.browser().version() };
}, hands);
