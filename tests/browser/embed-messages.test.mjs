// The readers of messages between a host and the frame, told anything: what is right is heeded, what is not leaves no trace.
import { test } from "node:test";
import { tried } from "../fuzz/protocol.mjs";

test("any messages from either side", () => {
  const runs = process.env.PRESSMARK_DEEP ? 200_000 : 6000;
  console.log(`figure: messages between host and frame: ${tried(runs, 20_261_129)} tried`);
});
