// The bundled pack as its plain files stand: what a label on the screen is called in the data, and what it needs.
import fs from "node:fs";
import { fileURLToPath } from "node:url";

/** The folder of the pack. */
export const PACK = fileURLToPath(new URL("../../data/packs/irons/", import.meta.url));

/** `[[name]]` blocks of a file as objects of their one-line text and true/false fields, in order. */
function blocks(file) {
  const found = [];
  for (const line of fs.readFileSync(file, "utf8").split("\n")) {
    const head = line.match(/^\[\[([\w.]+)\]\]/);
    if (head) found.push({ block: head[1] });
    const field = line.match(/^(\w+) = (?:"(.*)"|(true|false))\s*$/);
    if (field && found.length > 0) found.at(-1)[field[1]] = field[2] ?? field[3] === "true";
  }
  return found;
}

/** The questions by their headings: `{ id, picture, choices: label to id }`. */
export function questions() {
  const all = new Map();
  let last;
  for (const file of fs.readdirSync(`${PACK}questions`).sort()) {
    for (const block of blocks(`${PACK}questions/${file}`)) {
      if (block.block === "question") {
        last = { id: block.id, picture: block.picture === true, choices: new Map() };
        all.set(block.ask, last);
      } else if (block.block === "question.choice") {
        last.choices.set(block.label, block.id);
      }
    }
  }
  return all;
}

/** Places by name. */
export function places() {
  const named = blocks(`${PACK}pack.toml`).filter((block) => block.block === "place");
  return new Map(named.map((place) => [place.name, place.id]));
}
