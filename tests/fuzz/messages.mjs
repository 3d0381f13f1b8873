// `node messages.mjs <runs> <seed>`: hands so many messages to host and frame and prints how many.
import { tried } from "./protocol.mjs";

const [runs, seed] = process.argv.slice(2).map(Number);
try {
  console.log(tried(runs, seed));
} catch (error) {
  console.error(error.stack);
  process.exitCode = 1;
}
