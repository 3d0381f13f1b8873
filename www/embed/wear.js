// Wears the colours of the page around, as far as everything can still be read in them.

/** By the name of each colour: the tokens of www/styles that it takes the place of. */
const TOKENS = {
  ink: ["--soot", "--ash", "--iron"],
  paper: ["--linen"],
  card: ["--starch"],
  accent: ["--scorch"],
  line: ["--seam", "--hair"],
};
/** Least contrasts: of text 4.5 to 1, of frames and drawings 3 to 1 (WCAG 2.2, 1.4.3 and 1.4.11). */
const LEAST = [
  ["--soot", "--linen", 4.5], ["--soot", "--starch", 4.5], ["--scorch", "--linen", 4.5], ["--scorch", "--starch", 4.5],
  ["--seam", "--linen", 3], ["--seam", "--starch", 3], ["--iron", "--body", 3], ["--scorch", "--body", 3],
];
/** A ground of less light than this is worn over the dark theme: black and white text stand out from it alike. */
const DUSK = 0.179;

/** What a colour may be called. */
export const COLOURS = Object.keys(TOKENS);

const page = document.documentElement;

/** Red, green and blue of `#rgb` or `#rrggbb`. */
const parts = (colour) => {
  const digits = colour.trim().slice(1);
  const each = digits.length === 3 ? digits.replace(/./g, "$&$&") : digits;
  return [0, 2, 4].map((at) => Number.parseInt(each.slice(at, at + 2), 16));
};

/** Relative luminance (WCAG 2.2), 0 to 1. */
function light(colour) {
  const [red, green, blue] = parts(colour)
    .map((part) => part / 255)
    .map((part) => (part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4));
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}

function contrast(one, other) {
  const [high, low] = [light(one), light(other)].sort((a, b) => b - a);
  return (high + 0.05) / (low + 0.05);
}

/**
 * Wears the colours of `look`, each as `#rrggbb`, over a theme; a sentence when something could not be read in them, and then none of them is
 * worn.
 */
export function wear(look, asked) {
  for (const token of Object.values(TOKENS).flat()) page.style.removeProperty(token);
  page.dataset.theme = asked;
  const colours = Object.fromEntries(COLOURS.filter((name) => look[name]).map((name) => [name, look[name]]));
  // In the sun it is black and white, whatever the page around looks like.
  if (asked === "sun" || Object.keys(colours).length === 0) return undefined;
  if (colours.paper) {
    colours.card ??= colours.paper;
    if (asked === "phone") page.dataset.theme = light(colours.paper) < DUSK ? "dark" : "light";
  }
  const theme = getComputedStyle(page);
  const names = Object.keys(colours);
  const source = (token) => names.find((name) => TOKENS[name].includes(token));
  const value = (token) => colours[source(token)] ?? theme.getPropertyValue(token).trim();
  for (const [token, ground, least] of LEAST) {
    const ratio = contrast(value(token), value(ground));
    if (ratio >= least) continue;
    const said = (one) => `${source(one) ? `--pressmark-${source(one)}` : `its own ${one}`} ${value(one)}`;
    page.dataset.theme = asked;
    return `Pressmark does not wear the colours of this page: ${said(token)} on ${said(ground)} has a contrast of `
      + `${Math.floor(ratio * 100) / 100} to 1, and ${least} is the least.`;
  }
  for (const name of names) for (const token of TOKENS[name]) page.style.setProperty(token, colours[name]);
  return undefined;
}
