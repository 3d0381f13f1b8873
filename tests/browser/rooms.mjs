// The ways into the rooms for a sale and for measuring, as far as they have something to show: shared by the pictures and by
// the tests that look at every screen.
import { heard } from "./harness.mjs";
import { file, photograph, scene } from "./photograph.mjs";
import { button, card, key, tapOn, toFinding } from "./walk.mjs";

const desk = (page, name) => page.locator(".desks").getByRole("button", { name, exact: true });
const into = (page, title, name) => tapOn(page, card(page, title).getByRole("button", { name, exact: true }));

async function pay(page) {
  await toFinding(page);
  await into(page, "What it is worth", "What to pay");
  await button(page, "Show the money").first().tap();
  await page.getByLabel(/^Limit, all included/).fill("60");
  await page.getByLabel("Premium, %").fill("20");
  await page.locator(".big").waitFor();
}

async function sheet(page) {
  await pay(page);
  await button(page, "Put this piece on the sheet").tap();
  // The day is kept on the device: this one is the last of its lots.
  await page.locator(".lot-head").last().waitFor();
  await page.getByLabel(/^Budget of the day/).fill("250");
  await page.locator(".lot-head").last().tap();
}

/** Into the photo room. */
async function photo(page) {
  await heard(page, "whole-ready");
  await tapOn(page, button(page, "Measure in a photo"));
}

let jpeg;
/** A photograph with its card proposed. */
async function proposed(page) {
  await photo(page);
  jpeg ??= await photograph(page.context(), scene({ width: 1600, height: 1200, tilt: 5 }));
  await page.locator("#photo-file:enabled").setInputFiles(file(jpeg));
  await page.locator("#heading", { hasText: "Is this the card?" }).waitFor();
  await page.locator('.photo[aria-busy="false"]').waitFor();
}

async function height(page) {
  await proposed(page);
  await tapOn(page, button(page, "Yes, this is the card"));
}

/** Both ends of the sole tapped. */
async function ends(page) {
  await height(page);
  await tapOn(page, button(page, "The card is level with what I measure"));
  const what = scene({ width: 1600, height: 1200, tilt: 5 });
  for (const [x, y] of what.ends) {
    const frame = await page.locator(".picture").evaluate((svg) => {
      svg.scrollIntoView({ block: "center" });
      const { left, top, width, height } = svg.getBoundingClientRect();
      return [left, top, width, height];
    });
    await page.touchscreen.tap(frame[0] + x / what.width * frame[2], frame[1] + y / what.height * frame[3]);
    await page.locator(".loupe").waitFor();
  }
  await page.locator(".found").first().waitFor();
}

/** By name. */
export const ROOMS = {
  photo,
  ruler: async (page) => {
    await photo(page);
    await tapOn(page, button(page, "A ruler on the screen"));
  },
  "photo-card": proposed,
  "photo-height": height,
  "photo-ends": ends,
  "photo-outline": async (page) => {
    await ends(page);
    await tapOn(page, button(page, "Cut its outline"));
    await page.locator(".found", { hasText: "Nearest by shape" }).waitFor();
  },
  pay,
  condition: async (page) => {
    await pay(page);
    await desk(page, "Condition").tap();
    await page.getByRole("button", { name: /^Grip missing/ }).tap();
  },
  sheet,
  seen: async (page) => {
    await sheet(page);
    await button(page, "Won at this").tap();
    await desk(page, "Sales seen").tap();
    await button(page, "Show the invented sales").tap();
    await page.locator(".told").waitFor();
  },
  measures: async (page) => {
    await toFinding(page);
    await into(page, "Old or later", "Measure it");
    await page.locator("#air").waitFor();
    const press = (group, label) =>
      page.getByRole("group", { name: group, exact: true }).first().getByRole("button", { name: label, exact: true }).tap();
    await press("This piece was measured with", "calipers");
    await press("It is made of", "Cast iron");
    await page.locator("#piece-0").fill("98.5");
    await page.locator("#known-0").fill("100");
    await press("The known length is from", "calipers, in the hand");
    await page.locator(".says").first().waitFor();
  },
  worth: async (page) => {
    await ROOMS.condition(page);
    await tapOn(page, key(page, "See finding"));
  },
};
