// What a hand does on a page, made of the three things that every driver can do: evaluate, press, type; and an engine whose store
// lies on the disk.
import { setTimeout as sleep } from "node:timers/promises";
import { folder, remove } from "./harness.mjs";

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

/**
 * An engine as a process with a profile, begun anew with it. `begin(profile, complaints)` starts it and gives `page`, `close` and
 * `version`; `hands(page)` is what the driver does on its page.
 */
export async function onDisk(begin, hands) {
  const profile = folder();
  const complaints = [];
  let now = await begin(profile, complaints);
  return {
    version: now.version,
    page: () => now.page,
    evaluate: (what, word) => hands(now.page).evaluate(what, word),
    press: (css, at) => hands(now.page).press(css, at),
    type: (css, text) => hands(now.page).type(css, text),
    goto: (address) => now.page.goto(address),
    async restart() {
      await now.close();
      now = await begin(profile, complaints);
    },
    picture: (file) => now.page.screenshot({ path: file }),
    complaints: () => complaints,
    async close() {
      await now.close();
      remove(profile);
    },
  };
}
