// Runs the package as a stranger's program would, and writes what it hands out as typed literals: the compiler of
// TypeScript then finds a field that the types lack, and one that they promise in vain.
//   node check.mjs <package> <folder to write into>
import assert from "node:assert/strict";
import { readFile, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { pathToFileURL } from "node:url";

const [folder, out] = process.argv.slice(2);
const bytes = async (name) => new Uint8Array(await readFile(join(folder, name)));
const { default: init, Pack, Consultation } = await import(pathToFileURL(join(folder, "pressmark.js")).href);
await init({ module_or_path: await bytes("pressmark_bg.wasm") });

const refused = (work, code) => {
  assert.throws(work, (error) => {
    assert.ok(error instanceof Error && error.name === "PressmarkError", String(error));
    assert.equal(error.code, code);
    assert.match(error.message, /^\S.*[.]$/s);
    return true;
  });
};

const core = await bytes("demo-core.pack");
const book = await bytes("demo-book.pack");
refused(() => new Pack(new Uint8Array(), new Uint8Array(), 2026), "pack");
refused(() => new Pack(book, core, 2026), "pack");
// Every part of the core, and every byte of its beginning changed: refused or opened, but never a crash.
for (let end = 0; end < core.length; end += 7) refused(() => new Pack(core.slice(0, end), book, 2026), "pack");
for (let at = 0; at < 300; at++) {
  const changed = core.slice();
  changed[at] ^= 0x55;
  try {
    new Pack(changed, book, 2026).free();
  } catch (error) {
    assert.equal(error.name, "PressmarkError", String(error));
  }
}

const pack = new Pack(core, book, 2026);
const about = pack.about();
assert.equal(about.id, "buttons");
assert.equal(about.kinds.length, 11);

const piece = pack.begin();
assert.ok(piece instanceof Consultation);
const first = piece.next();
piece.answer("stuff", "glass");
piece.answer("back", "shank ?");
piece.answer("across", "15 mm");
piece.place("tin");
const found = piece.finding();
assert.equal(found.title, "Glass flower with a loop");
assert.equal(found.notice, "Everything in this pack is invented.");
assert.deepEqual(piece.answers(), [["stuff", "glass"], ["back", "shank ?"], ["across", "15 mm"]]);
assert.match(piece.link(), /^1\/buttons\//);
refused(() => piece.answer("stuff", "gold"), "answer");
refused(() => piece.answer("moon", "full"), "unknown");
refused(() => piece.marks("PAT"), "tables");
refused(() => pack.drawing("view=moon"), "unknown");
refused(() => pack.learnMarks(new Uint8Array([1, 2, 3])), "tables");
// Whatever is typed, an error with a code comes back and the consultation goes on.
const odd = ["", " ", "\u0000", "\u202e", "<script>", "| |", "?", "1e999 mm", "-1 mm", "9".repeat(399), "x".repeat(100000), "\ud800"];
for (const question of [...about.questions.map((q) => q.id), ...odd]) {
  for (const answer of odd) {
    try {
      piece.answer(question, answer);
    } catch (error) {
      assert.equal(error.name, "PressmarkError", `${question} ${answer}: ${error}`);
    }
  }
}
assert.ok(piece.finding().title);
piece.takeBack("stuff");
let asked = 0;
const other = pack.begin();
for (let q = other.next(); q; q = other.next()) {
  assert.ok(++asked <= about.questions.length, "it ends");
  other.answer(q.id, "can't tell");
}

const literal = (name, type, value) => `export const ${name}: ${type} = ${JSON.stringify(value, null, 1)};\n`;
const link = JSON.stringify(join(folder, "pressmark.js"));
await writeFile(
  join(out, "values.ts"),
  `import { Pack, type About, type Question, type Finding, type PressmarkError } from ${link};\n` +
    literal("about", "About", about) +
    literal("question", "Question", first) +
    literal("finding", "Finding", found) +
    literal("none", "Finding", pack.begin().finding()) +
    `export function use(core: Uint8Array, book: Uint8Array): string {
  const pack = new Pack(core, book, 2026);
  const piece = pack.begin();
  const question: Question | null = piece.next();
  if (question) piece.answer(question.id, question.choices[0].id);
  const answers: [string, string][] = piece.answers();
  // @ts-expect-error an answer is a text
  piece.answer("stuff", 3);
  // @ts-expect-error a question may be missing
  piece.next().id;
  // @ts-expect-error there is no such field
  piece.finding().verdict;
  const error = new Error() as PressmarkError;
  const code: "pack" | "tables" | "answer" | "unknown" = error.code;
  return \`\${piece.finding().title} \${answers.length} \${code} \${pack.drawing("").paths.map((p) => p.d).join()}\`;
}
`,
);
console.log("package: values, refusals and odd answers hold");
