import init from "./bare.js";

await init();
