// @ts-check
// A whole consultation: questions as buttons, then the finding. Texts of a pack are only ever shown as texts.
import init, { Pack } from "./pressmark.js";

/**
 * An element with a text.
 * @param {string} tag
 * @param {string} text
 * @param {string} [name]
 */
function element(tag, text, name) {
  const made = document.createElement(tag);
  made.textContent = text;
  if (name) made.className = name;
  return made;
}

/**
 * Bytes of a file beside this page.
 * @param {string} name
 */
async function bytes(name) {
  const answer = await fetch(new URL(name, import.meta.url));
  if (!answer.ok) throw new Error(`${name} could not be loaded.`);
  return new Uint8Array(await answer.arrayBuffer());
}

/**
 * Shows the next question, or the finding.
 * @param {HTMLElement} place
 * @param {Pack} pack
 * @param {import("./pressmark.js").Consultation} piece
 */
function show(place, pack, piece) {
  const question = piece.next();
  if (!question) {
    place.replaceChildren(...finding(piece.finding()));
    return;
  }
  const heading = element("h1", question.ask);
  heading.tabIndex = -1;
  /** @param {string} label @param {string} answer */
  const key = (label, answer) => {
    const button = element("button", label);
    button.addEventListener("click", () => {
      piece.answer(question.id, answer);
      show(place, pack, piece);
    });
    return button;
  };
  const keys = question.choices.map((choice) => key(choice.label, choice.id));
  place.replaceChildren(heading, element("p", question.look), ...keys, key("Can't tell", "can't tell"));
  heading.focus();
}

/**
 * A finding as elements.
 * @param {import("./pressmark.js").Finding} found
 */
function finding(found) {
  const list = document.createElement("ul");
  list.append(...found.clues.map((clue) => element("li", `${clue.text} (${clue.words})`)));
  return [
    ...found.grave.map((text) => element("p", text, "grave")),
    ...(found.notice ? [element("p", found.notice, "notice")] : []),
    element("h1", found.title),
    element("p", `${found.likely}. ${found.make}.`),
    element("p", `Made ${found.years.half} (even chances), ${found.years.nine} (nine in ten).`),
    element("h2", "For and against"),
    list,
  ];
}

async function start() {
  const place = document.getElementById("consultation");
  if (!place) return;
  try {
    const [core, book] = await Promise.all([bytes("demo-core.pack"), bytes("demo-book.pack"), init()]);
    const pack = new Pack(core, book, new Date().getFullYear());
    show(place, pack, pack.begin());
  } catch (error) {
    place.replaceChildren(element("p", error instanceof Error ? error.message : "Something went wrong."));
  }
}

start();
