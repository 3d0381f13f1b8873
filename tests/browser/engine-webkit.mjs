// WebKitGTK, driven by plain calls of W3C WebDriver, on a screen that nobody sees.
import { spawn } from "node:child_process";
import { once } from "node:events";
import fs from "node:fs";
import net from "node:net";
import path from "node:path";
import { setTimeout as sleep } from "node:timers/promises";
import { folder, given, remove } from "./harness.mjs";

// The least width of the browser's own buttons is more than a phone has.
const NARROW = "* { min-width: 0; min-height: 0; padding: 0; margin: 0; font-size: 2px; }\n";

// A process group of its own hears nothing of a signal to this process, so that one ends in the usual way first.
for (const signal of ["SIGINT", "SIGTERM", "SIGHUP"]) process.once(signal, () => process.exit(1));

/** A program that is ended with all that it began, also when this process ends before. */
function begun(program, words, options) {
  const child = spawn(program, words, { ...options, detached: true });
  const failed = once(child, "error").then(([reason]) => { throw reason; });
  failed.catch(() => {});
  const end = () => {
    try {
      process.kill(-child.pid, "SIGKILL");
    } catch {
      // It has ended by itself.
    }
  };
  process.once("exit", end);
  return {
    child,
    failed,
    async end() {
      process.off("exit", end);
      if (child.exitCode !== null || child.signalCode !== null) return;
      const gone = once(child, "exit");
      end();
      await gone;
    },
  };
}

/** A screen under a number that is free, which the server itself finds. */
async function screen() {
  const words = ["-displayfd", "3", "-screen", "0", "800x1000x24", "-nolisten", "tcp"];
  const server = begun(given("PRESSMARK_XVFB"), words, { stdio: ["ignore", "ignore", "ignore", "pipe"] });
  const said = once(server.child.stdio[3].setEncoding("utf8"), "data");
  const [number] = await Promise.race([said, server.failed]);
  return { name: `:${number.trim()}`, end: server.end };
}

async function freePort() {
  const server = net.createServer().listen(0, "127.0.0.1");
  await once(server, "listening");
  const { port } = server.address();
  server.close();
  await once(server, "close");
  return port;
}

/** A driver that can be called, and the way to call it. */
async function driver(display, home) {
  const port = await freePort();
  const server = begun(given("PRESSMARK_WEBKIT_DRIVER"), [`--port=${port}`], {
    stdio: "ignore",
    env: {
      PATH: process.env.PATH, HOME: home, XDG_CONFIG_HOME: home, XDG_RUNTIME_DIR: home, DISPLAY: display, NO_AT_BRIDGE: "1",
      LIBGL_ALWAYS_SOFTWARE: "1",
    },
  });
  async function call(method, where, body) {
    const answer = await fetch(`http://127.0.0.1:${port}${where}`, {
      method, body: body && JSON.stringify(body), headers: { "content-type": "application/json" }, signal: AbortSignal.timeout(60_000),
    });
    const { value } = await answer.json();
    if (!answer.ok) throw new Error(`${method} ${where}: ${value.error}: ${value.message}`);
    return value;
  }
  const ready = async () => {
    for (const until = Date.now() + 20_000; Date.now() < until; await sleep(50)) {
      if (await call("GET", "/status").catch(() => undefined)) return;
    }
    throw new Error("WebKitWebDriver did not answer within 20 s.");
  };
  await Promise.race([ready(), server.failed]);
  return { call, end: server.end };
}

const ELEMENT = "element-6066-11e4-a52e-4f735466cecf";

/**
 * The engine. Under a driver it keeps nothing beyond its process, so its restart is another window: the page and what runs it
 * are gone, the store and the worker are there.
 */
export async function webkit() {
  const home = folder();
  fs.mkdirSync(path.join(home, "gtk-3.0"));
  fs.writeFileSync(path.join(home, "gtk-3.0", "gtk.css"), NARROW);
  const ends = [() => remove(home)];
  const close = async () => {
    for (const end of ends.splice(0).reverse()) await end();
  };
  try {
    const display = await screen();
    ends.push(display.end);
    const { call, end } = await driver(display.name, home);
    ends.push(end);
    const wanted = {
      browserName: "MiniBrowser",
      "webkitgtk:browserOptions": { binary: given("PRESSMARK_WEBKIT"), args: ["--automation"] },
    };
    const { sessionId, capabilities } = await call("POST", "/session", { capabilities: { alwaysMatch: wanted } });
    const session = (method, where, body) => call(method, `/session/${sessionId}${where}`, body);
    const evaluate = (what, word) => session("POST", "/execute/sync", { script: `return (${what})(...arguments)`, args: word === undefined ? [] : [word] });
    /** A phone's width inside, whatever the browser has around the page. */
    async function sized() {
      await session("POST", "/window/rect", { width: 360, height: 740 });
      const missing = await evaluate(() => 740 - innerHeight);
      await session("POST", "/window/rect", { width: 360, height: 740 + missing });
    }
    await sized();
    /** An element in the middle of the screen: the driver itself would leave it under the bar. */
    async function element(css, at) {
      const found = (await session("POST", "/elements", { using: "css selector", value: css }))[at];
      await session("POST", "/execute/sync", { script: `arguments[0].scrollIntoView({ block: "center" })`, args: [found] });
      return found[ELEMENT];
    }
    return {
      version: capabilities.browserVersion,
      evaluate,
      press: async (css, at = 0) => session("POST", `/element/${await element(css, at)}/click`, {}),
      type: async (css, text) => session("POST", `/element/${await element(css, 0)}/value`, { text }),
      goto: (address) => session("POST", "/url", { url: address }),
      async restart() {
        const { handle } = await session("POST", "/window/new", { type: "tab" });
        await session("DELETE", "/window");
        await session("POST", "/window", { handle });
        await sized();
      },
      picture: async (file) => fs.writeFileSync(file, Buffer.from(await session("GET", "/screenshot"), "base64")),
      complaints: () => undefined,
      close,
    };
  } catch (reason) {
    await close();
    throw reason;
  }
}
