// A photograph by a known camera, made by the browser: a card and a sole on a table, as polygons whose corners are projected
// by hand, then packed as a real JPEG with EXIF as a phone writes it. All figures of the scene are invented; the card's are
// those of ISO/IEC 7810 ID-1 (published): 85.60 x 53.98 mm, corners of 3.18 mm.

const CARD = [85.6, 53.98];
const ROUND = 3.18;
/** The sole's length, mm, along its axis from heel to toe. */
export const LENGTH = 92;

/** The corners of a rounded rectangle round a middle. */
function card([x, y]) {
  const points = [];
  const [w, h] = CARD.map((side) => side / 2 - ROUND);
  [[w, h], [-w, h], [-w, -h], [w, -h]].forEach(([cx, cy], quarter) => {
    for (let i = 0; i <= 8; i += 1) {
      const a = (quarter + i / 8) * Math.PI / 2;
      points.push([x + cx + ROUND * Math.cos(a), y + cy + ROUND * Math.sin(a)]);
    }
  });
  return points;
}

/** So many points on the rim of a coin of 2 euro (Council Regulation (EU) No 729/2014: 25.75 mm). */
const rim = ([x, y], n) => Array.from({ length: n }, (_, i) => {
  const a = 2 * Math.PI * i / n;
  return [x + 25.75 / 2 * Math.cos(a), y + 25.75 / 2 * Math.sin(a)];
});

/** A sole with one point to the right; its heel lies at x = -46, its toe at x = 46. */
function sole([x, y]) {
  const half = (t) => (t < 0.04 ? 22 * Math.sqrt(t / 0.04) : 22 * (1 - ((t - 0.04) / 0.96) ** 2.2));
  const side = Array.from({ length: 101 }, (_, i) => [i / 100, half(i / 100)]);
  const points = side.map(([t, h]) => [x - LENGTH / 2 + LENGTH * t, y + h]);
  return [...points, ...side.reverse().map(([t, h]) => [x - LENGTH / 2 + LENGTH * t, y - h])];
}

/**
 * Where everything lies in a picture of this size. The camera has 26 mm for 35 mm film (diagonal 43.267 mm) and stands
 * `distance` mm from the middle of the table, leaning by `tilt` degrees; a coin may lie in place of the card.
 */
export function scene({ width = 4000, height = 3000, distance = 380, tilt = 12, high = 0, coin = false } = {}) {
  const focal = 26 / 43.2666 * Math.hypot(width, height);
  const [c, s] = [Math.cos(tilt * Math.PI / 180), Math.sin(tilt * Math.PI / 180)];
  const shows = ([x, y], up = 0) => {
    const [cy, cz] = [y * c + up * s, distance + y * s - up * c];
    return [width / 2 + focal * x / cz, height / 2 + focal * cy / cz];
  };
  const [at, on] = [[0, -38], [0, 40]];
  const [w, h] = CARD.map((side) => side / 2);
  const corners = [[-w, -h], [w, -h], [w, h], [-w, h]].map(([x, y]) => [x + at[0], y + at[1]]);
  const edges = corners.flatMap((a, i) => [0.15, 0.85].map((t) => {
    const b = corners[(i + 1) % 4];
    return shows([a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])]);
  }));
  return {
    width,
    height,
    card: (coin ? rim(at, 180) : card(at)).map((p) => shows(p)),
    rim: rim(at, 8).map((p) => shows(p)),
    sole: sole(on).map((p) => shows(p, high)),
    /** Two points on each edge, in turn. */
    edges,
    /** Heel and toe. */
    ends: [[on[0] - LENGTH / 2, on[1]], [on[0] + LENGTH / 2, on[1]]].map((p) => shows(p, high)),
  };
}

/** The scene as a JPEG, drawn in a page of the browser that is closed again. */
export async function photograph(context, what = scene(), { turned = 1 } = {}) {
  const page = await context.newPage();
  const base64 = await page.evaluate(async ({ width, height, card, sole, turned }) => {
    const side = turned === 6;
    const canvas = new OffscreenCanvas(side ? height : width, side ? width : height);
    const draw = canvas.getContext("2d");
    // Turned by a quarter clockwise when shown: so it is stored turned back.
    if (side) draw.setTransform(0, -1, 1, 0, 0, width);
    const fill = (points, colour) => {
      draw.fillStyle = colour;
      draw.beginPath();
      points.forEach(([x, y], i) => (i ? draw.lineTo(x, y) : draw.moveTo(x, y)));
      draw.fill();
    };
    draw.fillStyle = "#c9bfae";
    draw.fillRect(0, 0, width, height);
    // The grain of a cloth, the same in every run.
    let seed = 7;
    for (let i = 0; i < 4000; i += 1) {
      seed = (seed * 1103515245 + 12345) % 2147483648;
      const [x, y] = [seed % width, Math.floor(seed / 7) % height];
      draw.fillStyle = i % 2 ? "#cec5b5" : "#c4baa8";
      draw.fillRect(x, y, 9, 3);
    }
    fill(card, "#28487c");
    fill(sole, "#3a3634");
    const bytes = new Uint8Array(await (await canvas.convertToBlob({ type: "image/jpeg", quality: 0.9 })).arrayBuffer());
    let text = "";
    for (const byte of bytes) text += String.fromCharCode(byte);
    return btoa(text);
  }, { ...what, turned });
  await page.close();
  return withExif(Buffer.from(base64, "base64"), turned);
}

/** Puts EXIF behind the start of a JPEG: how it is turned, a focal length of 26 mm, and a place (invented). */
function withExif(jpeg, turned) {
  const tiff = Buffer.alloc(8 + 2 + 3 * 12 + 4 + 2 + 12 + 4 + 2 + 2 * 12 + 4 + 24);
  let at = 0;
  const two = (n) => { at = tiff.writeUInt16BE(n, at); };
  const four = (n) => { at = tiff.writeUInt32BE(n, at); };
  const entry = (tag, type, count, value) => {
    two(tag);
    two(type);
    four(count);
    if (type === 3) { two(value); two(0); } else four(value);
  };
  tiff.write("MM\0*", 0, "latin1");
  at = 4;
  four(8);
  const [exif, gps, degrees] = [50, 68, 98];
  two(3);
  entry(0x0112, 3, 1, turned);
  entry(0x8769, 4, 1, exif);
  entry(0x8825, 4, 1, gps);
  four(0);
  two(1);
  entry(0xa405, 3, 1, 26);
  four(0);
  two(2);
  two(1); two(2); four(2); tiff.write("N\0\0\0", at, "latin1"); at += 4;
  entry(2, 5, 3, degrees);
  four(0);
  for (const n of [51, 1, 28, 1, 0, 1]) four(n);
  const head = Buffer.from("Exif\0\0", "latin1");
  const marker = Buffer.from([0xff, 0xe1, 0, 0]);
  marker.writeUInt16BE(2 + head.length + tiff.length, 2);
  return Buffer.concat([jpeg.subarray(0, 2), marker, head, tiff, jpeg.subarray(2)]);
}

/** A file for a field. */
export const file = (buffer) => ({ name: "iron.jpg", mimeType: "image/jpeg", buffer });
