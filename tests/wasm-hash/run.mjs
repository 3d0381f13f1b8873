// Prints the hash of random consultations over a pack, in wasm. Usage: run.mjs <bound wasm module> <core> <book> <n> <seed>
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";

const [bound, core, book, n, seed] = process.argv.slice(2);
const { wander } = createRequire(import.meta.url)(bound);
const walk = wander(readFileSync(core), readFileSync(book), Number(n), Number(seed));
console.log(`${walk.consultations} ${walk.answers} ${walk.hash}`);
