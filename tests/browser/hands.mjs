// What a hand does on a page, made of the three things that every driver can do: evaluate, press, type.
import { setTimeout as sleep } from "node:timers/promises";

/** The page, also able to wait and to find things by what they say. */
export function able(page) {
  async function waitFor(what, word, most = 20_000) {
    let refused;
    for (const until = Date.now() + most; Date.now() < until; await sleep(20)) {
      // Between two pages there is nothing to ask.
      const found = await page.evaluate(what, word).catch((reason) => { refused = reason; });
      if (found) return found;
    }
    throw new Error(`Not so within ${most} ms: ${what} ${JSON.stringify(word) ?? ""}`, { cause: refused });
  }
  async function tap(label, css = "button, a") {
    const find = ([label, css]) => [...document.querySelectorAll(css)].findIndex((one) => one.innerText.trim() === label) + 1;
    await page.press(css, await waitFor(find, [label, css]) - 1);
  }
  return Object.assign(page, { waitFor, tap });
}
