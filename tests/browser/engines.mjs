// Three makes of browser behind one interface, so that one description of a job goes over all of them. Each is a phone's
// width, with a fresh profile, and is used by what its own driver presses and types, not by calls into the page.
//
// A page as a hand uses it:
//   evaluate(what, word)     what the function returns or promises in the page; `word` is anything that JSON can carry
//   press(css, at)           presses the element of this number among those that match
//   type(css, text)          types into the first that matches
//   waitFor(what, word)      until the function returns something true, and returns that
//   tap(label, css)          presses what says exactly this, once it is there
// An engine is such a page, and more:
//   name, version            as people say them
//   goto(address)            by the address line, until it has loaded
//   restart()                as near as it comes to being closed and opened again with all that it has kept
//   picture(file)            what stands on the screen, as PNG
//   complaints()             what the page said of faults; undefined where the driver hears none
//   close()                  ended, and nothing of it left
import { chromium } from "./engine-chromium.mjs";
import { firefox } from "./engine-firefox.mjs";
import { webkit } from "./engine-webkit.mjs";
import { able } from "./hands.mjs";

/** Begins an engine by its name. */
export const ENGINES = Object.fromEntries(
  Object.entries({ Chromium: chromium, Firefox: firefox, WebKitGTK: webkit })
    .map(([name, begin]) => [name, async () => able({ name, ...await begin() })]),
);
