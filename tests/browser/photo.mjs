// The way into the photo room, and a picture put into it.
import assert from "node:assert/strict";
import { heard } from "./harness.mjs";
import { file } from "./photograph.mjs";
import { button, heading, tapOn } from "./walk.mjs";

/** From the first question into the room. */
export async function enter(page) {
  await heard(page, "whole-ready");
  await tapOn(page, button(page, "Measure in a photo"));
  assert.equal(await heading(page), "Measure in a photo");
}

/** Chooses a picture and waits until it stands there and a card was looked for. */
export async function choose(page, picture) {
  await page.locator("#photo-file:enabled").setInputFiles(typeof picture === "string" ? picture : file(picture));
  await page.locator(".picture image").waitFor({ timeout: 20_000 });
  await page.locator('.photo[aria-busy="false"]').waitFor({ timeout: 20_000 });
}
