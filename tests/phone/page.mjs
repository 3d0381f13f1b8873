// All figures of the bench as one page: limits first, each kept or not, then every table with its bars.
// Usage: page.mjs <folder with the figures, to write into>
import fs from "node:fs";
import path from "node:path";

const out = process.argv[2];
const told = (name) => JSON.parse(fs.readFileSync(path.join(out, `${name}.json`), "utf8"));

/** Bases: the project's own budgets where nothing else stands; "published" ones are named. */
const LIMITS = [
  ["First question painted, 400 kbit/s, 400 ms, a quarter of the speed", (f) => at(f.cold, "400 kbit/s, 400 ms", 4).painted, 2000, "ms"],
  ["First question usable, the same", (f) => at(f.cold, "400 kbit/s, 400 ms", 4).usable, 4500, "ms"],
  ["Usable from what the device keeps, a quarter of the speed", (f) => at(f.kept, "kept on the device, 400 kbit/s", 4).usable, 1000, "ms"],
  ["Usable without a server, a quarter of the speed", (f) => at(f.kept, "kept on the device, no server", 4).usable, 1000, "ms"],
  ["Requests up to the first usable question", (f) => at(f.cold, "400 kbit/s, 400 ms", 4).requests, 8, ""],
  ["Bytes up to the first usable question", (f) => at(f.cold, "400 kbit/s, 400 ms", 4).bytes, 140_000, "bytes"],
  ["Tap to next question painted, 95 of 100, a quarter of the speed", (f) => f.taps.find((t) => t.to === "question" && t.cpu === 4).most, 100, "ms"],
  ["Twelve million pixels measured, a quarter of the speed", (f) => f.photo.find((p) => p.cpu === 4).took, 2000, "ms"],
  ["Next question of 10,000 kinds, 95 of 100, a quarter of the speed", (f) => packs(f, 10_000, 4).most, 100, "ms"],
  ["Time for each kind at 10,000 kinds, beside that at 1,000", (f) => round(packs(f, 10_000, 4).each / packs(f, 1_000, 4).each), 2, "times"],
  ["Engines in which the main job or the start without a server fails", (f) => f.engines.filter((one) => !one.passed).length, 0, ""],
  ["Long use: memory at the end beside that after five minutes", (f) => round(f.soak.grown), 1.1, "times"],
  ["Long use: findings that differ from the native engine's", (f) => f.soak.differ, 0, ""],
  ["Long use: records lost or changed", (f) => f.soak.lost, 0, ""],
  ["Readers that some text or bytes upset", (f) => f.fuzz.filter((one) => one.found).length, 0, ""],
];
const LEAST = [
  ...["performance", "accessibility", "best-practices", "seo"].map((sort) =>
    [`Lighthouse, mobile: ${sort}`, (f) => f.lighthouse.scores[sort], sort === "performance" ? 95 : 100]),
  ["Engines tried", (f) => f.engines.length, 3],
  ["Long use, minutes", (f) => f.soak.minutes, 30],
  ["Texts and bytes given to the readers", (f) => sum(f.fuzz, "runs"), 5_000_000],
];

const at = (rows, line, cpu) => rows.find((row) => row.line === line && row.cpu === cpu);
const packs = (f, kinds, cpu) => f.kinds.find((one) => one.kinds === kinds && one.cpu === cpu);
const round = (number) => Math.round(number * 100) / 100;
const sum = (rows, what) => rows.reduce((all, one) => all + one[what], 0);
const safe = (text) => String(text).replace(/[&<>"]/g, (c) => ({ "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;" })[c]);
const row = (cells, tag = "td") => `<tr>${cells.map((cell) => `<${tag}>${cell}</${tag}>`).join("")}</tr>`;
const table = (head, rows) => `<table>${row(head.map(safe), "th")}${rows.map((cells) => row(cells)).join("")}</table>`;

/** A bar as wide as a value is of the largest. */
function bar(value, largest) {
  const wide = Math.max(1, Math.round((value / largest) * 240));
  return `<svg width="320" height="14" role="img" aria-label="${value}"><rect width="${wide}" height="14" rx="2"/><text x="${wide + 4}" y="11">${value}</text></svg>`;
}

function bars(head, rows, cells, value) {
  const largest = Math.max(...rows.map(value));
  return table(head, rows.map((one) => [...cells(one).map(safe), bar(value(one), largest)]));
}

function written(figures) {
  const judged = LIMITS.map(([name, of, limit, unit]) => {
    const value = of(figures);
    return [safe(name), `${value} ${unit}`, `at most ${limit} ${unit}`, value <= limit ? "kept" : "<b>missed</b>"];
  });
  for (const [name, of, least] of LEAST) {
    const value = of(figures);
    judged.push([safe(name), value, `at least ${least}`, value >= least ? "kept" : "<b>missed</b>"]);
  }
  const start = (rows) => bars(["line", "processor", "painted, ms", "requests", "bytes", "usable, ms"], rows,
    (r) => [r.line, `a ${r.cpu}th`, r.painted, r.requests ?? "", r.bytes ?? ""], (r) => r.usable);
  return `<!doctype html>
<html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1"><title>On a slow phone</title>
<style>body{font:16px/1.5 system-ui;margin:2rem auto;max-width:64rem;padding:0 1rem;color:#222;background:#fffdf8}table{border-collapse:collapse;margin:1rem 0}
td,th{text-align:left;padding:.2rem .8rem .2rem 0;border-bottom:1px solid #ddd;vertical-align:top}rect{fill:#8a5a2b}text{font:11px system-ui}b{color:#a00}</style></head><body>
<h1>On a slow phone</h1>
<p>${figures.day}. Medians of five. The processor is slowed by the browser, the line emulated by it. A bare page of the same framework stands beside, measured in the same run.</p>
<h2>Limits</h2>${table(["what", "measured", "limit", ""], judged)}
<h2>First visit</h2>${start(figures.cold)}
<h2>First visit of the bare page</h2>${start(figures.bare)}
<h2>Later visits</h2>${start(figures.kept)}
<h2>From a tap until it is painted</h2>${bars(["to", "processor", "taps", "middle, ms", "95 of 100, ms"], figures.taps, (t) => [t.to, `a ${t.cpu}th`, t.taps, t.middle], (t) => t.most)}
<h2>From page to page, kept on the device</h2>${bars(["to", "processor", "usable, ms"], figures.ways, (w) => [w.to, `a ${w.cpu}th`], (w) => w.usable)}
<h2>A photograph of twelve million pixels, until the card is placed</h2>${bars(["processor", "ms"], figures.photo, (p) => [`a ${p.cpu}th`], (p) => p.took)}
<h2>A cabinet of 5,000 pieces</h2>${bars(["processor", "a search, ms", "95 of 100, ms", "list stands, ms"], figures.cabinet, (c) => [`a ${c.cpu}th`, c.searched, c.most], (c) => c.opened)}
<h2>Next question of very large packs</h2>${bars(["kinds", "processor", "first, ms", "middle, ms", "95 of 100, ms"], figures.kinds, (k) => [k.kinds, `a ${k.cpu}th`, k.first, k.middle], (k) => k.most)}
<h2>Engines</h2>${table(["engine", "passed", "usable at first, ms", "usable without a server, ms", "finding"], figures.engines.map((e) => [e.engine + " " + e.version, e.passed ? "yes" : "<b>no</b>", e.cold, e.offline, safe(e.finding.marked[0])]))}
<h2>Long use</h2><p>${figures.soak.minutes} minutes: ${safe(Object.entries(figures.soak.counted).map(([what, many]) => `${many} ${what}`).join(", "))}.</p>
${bars(["minute", "heap, kB", "store, kB", "processes, kB"], figures.soak.watched, (w) => [w.minute, w.heap, w.stored], (w) => w.resident)}
<h2>Readers</h2>${bars(["reader", "seconds", "found", "given"], figures.fuzz, (r) => [r.target, r.seconds, r.found ?? "nothing"], (r) => r.runs)}
<h2>Heap of the script</h2>${bars(["after", "kB"], figures.memory, (m) => [m.after], (m) => m.heap)}
<h2>What Lighthouse found</h2><ul>${figures.lighthouse.missed.map((m) => `<li>${safe(m)}</li>`).join("") || "<li>Nothing.</li>"}</ul>
<h2>Bytes by file, packed</h2>${bars(["file", "bytes"], figures.weights, (w) => [w.file], (w) => w.bytes)}
</body></html>
`;
}

const figures = { ...told("figures"), engines: told("engines"), fuzz: told("fuzz"), soak: told("soak") };
fs.writeFileSync(path.join(out, "index.html"), written(figures));
