// The figures as a page: limits first, each kept or not, then every table with its bars.

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
];
const LEAST = [["performance", 95], ["accessibility", 100], ["best-practices", 100], ["seo", 100]];

const at = (rows, line, cpu) => rows.find((row) => row.line === line && row.cpu === cpu);
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

export function written(figures) {
  const judged = LIMITS.map(([name, of, limit, unit]) => {
    const value = of(figures);
    return [safe(name), `${value} ${unit}`, `at most ${limit} ${unit}`, value <= limit ? "kept" : "<b>missed</b>"];
  });
  for (const [sort, least] of LEAST) {
    const value = figures.lighthouse.scores[sort];
    judged.push([`Lighthouse, mobile: ${sort}`, value, `at least ${least}`, value >= least ? "kept" : "<b>missed</b>"]);
  }
  const start = (rows) => bars(["line", "processor", "painted, ms", "requests", "bytes", "usable, ms"], rows,
    (r) => [r.line, `a ${r.cpu}th`, r.painted, r.requests ?? "", r.bytes ?? ""], (r) => r.usable);
  return `<!doctype html>
<html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1"><title>On a slow phone</title>
<style>body{font:16px/1.5 system-ui;margin:2rem auto;max-width:64rem;padding:0 1rem;color:#222;background:#fffdf8}table{border-collapse:collapse;margin:1rem 0}
td,th{text-align:left;padding:.2rem .8rem .2rem 0;border-bottom:1px solid #ddd;vertical-align:top}rect{fill:#8a5a2b}text{font:11px system-ui}b{color:#a00}</style></head><body>
<h1>On a slow phone</h1>
<p>Medians of five. The processor is slowed by the browser, the line emulated by it. A bare page of the same framework stands beside, measured in the same run.</p>
<h2>Limits</h2>${table(["what", "measured", "limit", ""], judged)}
<h2>First visit</h2>${start(figures.cold)}
<h2>First visit of the bare page</h2>${start(figures.bare)}
<h2>Later visits</h2>${start(figures.kept)}
<h2>From a tap until it is painted</h2>${bars(["to", "processor", "taps", "middle, ms", "95 of 100, ms"], figures.taps, (t) => [t.to, `a ${t.cpu}th`, t.taps, t.middle], (t) => t.most)}
<h2>From page to page, kept on the device</h2>${bars(["to", "processor", "usable, ms"], figures.ways, (w) => [w.to, `a ${w.cpu}th`], (w) => w.usable)}
<h2>A photograph of twelve million pixels, until the card is placed</h2>${bars(["processor", "ms"], figures.photo, (p) => [`a ${p.cpu}th`], (p) => p.took)}
<h2>Heap of the script</h2>${bars(["after", "kB"], figures.memory, (m) => [m.after], (m) => m.heap)}
<h2>What Lighthouse found</h2><ul>${figures.lighthouse.missed.map((m) => `<li>${safe(m)}</li>`).join("") || "<li>Nothing.</li>"}</ul>
<h2>Bytes by file, packed</h2>${bars(["file", "bytes"], figures.weights, (w) => [w.file], (w) => w.bytes)}
</body></html>
`;
}
