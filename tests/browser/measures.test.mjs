// The measuring room: reached from the finding, filled by taps and typing, with its cautions before its fields, and without
// any effect on the finding.
import assert from "node:assert/strict";
import test from "node:test";
import { begin, button, card, heading, key, rows, tapOn, toFinding } from "./walk.mjs";

const field = (page, id) => page.locator(`#${id}`);
const group = (page, name) => page.getByRole("group", { name, exact: true });
const press = (page, name, label) => group(page, name).first().getByRole("button", { name: label, exact: true }).tap();

/** From the first question to the finding, and by its key into the room. */
async function enter(page) {
  await toFinding(page);
  const before = await rows(page);
  await tapOn(page, card(page, "Old or later").getByRole("button", { name: "Measure it", exact: true }));
  assert.equal(await heading(page), "Measure it");
  await field(page, "air").waitFor();
  return before;
}

test("lengths by calipers lean, and the finding stays as it was", async (t) => {
  const { page } = await begin(t);
  const before = await enter(page);
  assert.match(await page.locator(".measured").first().innerText(), /A ruler or a photo proves nothing here/);
  await press(page, "This piece was measured with", "calipers");
  await press(page, "It is made of", "Cast iron");
  await field(page, "piece-0").fill("98.5");
  await field(page, "known-0").fill("100,00");
  await press(page, "The known length is from", "calipers, in the hand");
  // 1.5 per cent is more than one shrinkage of cast iron (0.78 to 1.04 per cent: published, sources in the table).
  const says = page.locator(".says");
  await says.waitFor();
  assert.match(await says.innerText(), /Leans towards a recast: /);
  assert.match(await says.innerText(), /1\.5 % shorter, give or take 0\.\d %/);
  assert.match(await says.innerText(), /does not change the finding by itself/);
  await page.locator(".basis summary").first().tap();
  assert.match(await page.locator(".basis").first().innerText(), /0\.78 %, from a published source/);
  // The same numbers by ruler.
  await press(page, "This piece was measured with", "ruler");
  assert.match(await says.innerText(), /It proves nothing/);
  await tapOn(page, key(page, "See finding"));
  assert.deepEqual(await rows(page), before);
});

test("a fault is said beside its field, and lengths are added and removed", async (t) => {
  const { page } = await begin(t);
  await enter(page);
  await field(page, "piece-0").fill("iron");
  assert.match(await field(page, "piece-0-fault").innerText(), /is not a number/);
  assert.equal(await field(page, "piece-0").getAttribute("aria-invalid"), "true");
  await field(page, "piece-0").fill("9999");
  assert.match(await field(page, "piece-0-fault").innerText(), /too long for anything here/);
  await button(page, "One more length").tap();
  await field(page, "piece-1").fill("40.25");
  await button(page, "Remove length 1").tap();
  await field(page, "piece-1").waitFor({ state: "detached" });
  assert.equal(await field(page, "piece-0").inputValue(), "40.25");
});

test("two weighings name the metals that are left, cautions first", async (t) => {
  const { page } = await begin(t);
  await enter(page);
  const air = await field(page, "air").boundingBox();
  const care = page.locator(".measured").nth(1).locator(".care");
  assert.match((await care.allInnerTexts()).join(" "), /Never put a piece into water that has a cord/);
  for (const box of await care.evaluateAll((all) => all.map((one) => one.getBoundingClientRect().bottom + scrollY))) {
    assert.ok(box <= air.y + await page.evaluate(() => scrollY), "a caution stands after the fields");
  }
  await press(page, "The scales show steps of", "0.1 g");
  await field(page, "air").fill("200");
  await field(page, "second").fill("23.74");
  // Cast brass 8.4 g/cm3: published, Applied Science for Metal Workers; the gain by arithmetic.
  await page.locator(".left").waitFor();
  const text = await page.locator(".left").innerText();
  assert.match(text, /8\.40 g\/cm³, give or take 0\.0\d g\/cm³/);
  assert.match(text, /Brass/);
  // A thumb finds every field.
  for (const box of await page.locator(".measured input").evaluateAll((all) => all.map((i) => i.clientHeight))) {
    assert.ok(box >= 48, `a field of ${box} px`);
  }
  // What was typed stays when the browser goes back and forth.
  await tapOn(page, key(page, "See finding"));
  await page.goBack();
  await field(page, "air").waitFor();
  assert.equal(await field(page, "air").inputValue(), "200");
});
