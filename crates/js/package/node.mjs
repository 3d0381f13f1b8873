// @ts-check
// The same in Node: node node.mjs. Answers every question with its first choice and prints the finding.
import { readFile } from "node:fs/promises";
import init, { Pack } from "./pressmark.js";

/** @param {string} name */
const bytes = async (name) => new Uint8Array(await readFile(new URL(name, import.meta.url)));

await init({ module_or_path: await bytes("pressmark_bg.wasm") });
const pack = new Pack(await bytes("demo-core.pack"), await bytes("demo-book.pack"), 2026);
const piece = pack.begin();
for (let question = piece.next(); question; question = piece.next()) {
  console.log(`${question.ask} ${question.choices[0].label}`);
  piece.answer(question.id, question.choices[0].id);
}
const found = piece.finding();
console.log(`${found.notice}\n${found.title}: ${found.likely}. ${found.make}.`);
