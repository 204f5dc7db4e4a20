import { Resvg } from "@resvg/resvg-js";
import { beforeAll, describe, expect, test } from "vitest";
import { SIZE, widthOf } from "../../../lib/render/chart/lettering.js";
import { INK } from "../../../lib/render/chart/palette.js";
import { verdictMark } from "../../../lib/render/chart/symbols.js";
import { listLanguages, loadWords, type Words } from "../../../lib/words/index.js";
import { CHARTS, letteringOf, sizeOf } from "./material.js";

// The narrowest allowed, a phone, a page, and the widest allowed.
const WIDTHS = [280, 360, 720, 2000] as const;
const cases = Object.entries(CHARTS).flatMap(([name, draw]) => WIDTHS.map((width) => [name, width, draw] as const));

const drawings = new Map<string, string>();

function drawn(name: string, width: number): string {
  const key = `${name} ${width}`;
  const known = drawings.get(key) ?? CHARTS[name]!(width);
  drawings.set(key, known);
  return known;
}

describe("every chart", () => {
  test.each(cases)("%s at %d px: no lettering is cut off, none runs into another, none is too small", (name, width) => {
    const svg = drawn(name, width);
    const { width: right, height } = sizeOf(svg);
    expect(right).toBe(width);
    const lettering = letteringOf(svg);
    expect(lettering.length).toBeGreaterThan(1);
    for (const each of lettering) {
      expect(each.size, each.text).toBeGreaterThanOrEqual(SIZE.small);
      expect(each.left, each.text).toBeGreaterThanOrEqual(0);
      expect(each.right, each.text).toBeLessThanOrEqual(width);
      expect(each.top, each.text).toBeGreaterThanOrEqual(0);
      expect(each.bottom, each.text).toBeLessThanOrEqual(height);
    }
    const collisions = lettering.flatMap((a, i) =>
      lettering
        .slice(i + 1)
        .filter((b) => a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom)
        .map((b) => `${a.text} | ${b.text}`),
    );
    expect(collisions).toEqual([]);
  });

  test.each(cases)("%s at %d px: says its finding as a title, and what it holds as a description", (name, width) => {
    const svg = drawn(name, width);
    expect(svg).toMatch(
      /^<svg xmlns="http:\/\/www\.w3\.org\/2000\/svg" [^>]*role="img"[^>]*><title>[^<]{8,}\.<\/title><desc>[^<]{8,}<\/desc>/,
    );
  });

  test.each(cases)("%s at %d px: is the same text each time and bounded in size", (name, width, draw) => {
    const svg = drawn(name, width);
    expect(draw(width)).toBe(svg);
    // Bounded by the pixels drawn on, whatever is drawn: our bound is 300 bytes for each column of pixels of the at most six rows.
    expect(svg.length, name).toBeLessThan(6 * 300 * Math.max(width, 360));
  });
});

describe.each(listLanguages())("in $name, at the width of a phone", ({ tag }) => {
  let words: Words;
  beforeAll(async () => {
    const loaded = await loadWords(tag);
    if (!loaded.ok) throw new Error(tag);
    words = loaded.value;
  });

  test.each(Object.keys(CHARTS))("%s: no heading or label is shortened, runs off the paper or into another", (name) => {
    const lettering = letteringOf(CHARTS[name]!(360, words));
    expect(lettering.filter(({ text }) => text.endsWith("…"))).toEqual([]);
    expect(lettering.filter(({ left, right }) => left < 0 || right > 360)).toEqual([]);
    const collisions = lettering.flatMap((a, i) =>
      lettering
        .slice(i + 1)
        .filter((b) => a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom)
        .map((b) => `${a.text} | ${b.text}`),
    );
    expect(collisions).toEqual([]);
  });
});

describe("lettering", () => {
  // resvg has no opinion on missing fonts: it draws nothing.
  const font = "DejaVu Sans";
  const inked = (text: string, bold: boolean): number => {
    const svg = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 4000 60"><text x="20" y="40" font-family="${font}" font-size="20" ${bold ? 'font-weight="bold"' : ""}>${text}</text></svg>`;
    return new Resvg(svg, { font: { loadSystemFonts: true } }).getBBox()?.width ?? 0;
  };
  const installed = inked("quay", false) > 0;
  const samples = [
    "You rushed: 411 ms early after 2 bars of silence",
    "WWWMMM@@%%",
    "rung 701 298 999",
    "illicit jilt",
    "+12 ms −7 ms ± ↑ ↓ ♭♯",
    "à 1000, désaccentuée, compás, länge ÄÖÜ ß ñ ç ã",
  ];

  test.each(samples)("widthOf() is no narrower than the widest common font: %s", (text) => {
    if (!installed) {
      console.log(`skipped: ${font} is not installed here`);
      return;
    }
    // What is drawn has no side bearings: up to a tenth of the size on either side.
    expect(widthOf(text, { size: 20 })).toBeGreaterThanOrEqual(inked(text, false));
    expect(widthOf(text, { size: 20, bold: true })).toBeGreaterThanOrEqual(inked(text, true));
  });
});

describe("inks", () => {
  // Relative luminance and contrast ratio: WCAG 2.2, definitions (https://www.w3.org/TR/WCAG22/#dfn-relative-luminance), from memory; its worked
  // bounds are checked below: black on white is 21:1, a colour on itself 1:1.
  const luminance = (hex: string): number => {
    const [r, g, b] = [1, 3, 5].map((i) => {
      const c = Number.parseInt(hex.slice(i, i + 2), 16) / 255;
      return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
    }) as [number, number, number];
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  const contrast = (a: string, b: string): number => {
    const [high, low] = [luminance(a), luminance(b)].sort((p, q) => q - p) as [number, number];
    return (high + 0.05) / (low + 0.05);
  };

  test("the measure is right at its ends", () => {
    expect(contrast("#000000", "#ffffff")).toBeCloseTo(21, 9);
    expect(contrast(INK.within, INK.within)).toBe(1);
  });

  test.each([
    ["ink", "paper"],
    ["muted", "paper"],
    ["within", "paper"],
    ["beyond", "paper"],
    ["ink", "open"],
    ["ink", "still"],
  ] as const)("lettering in %s on %s has 4.5:1 at least", (text, ground) => {
    expect(contrast(INK[text], INK[ground])).toBeGreaterThanOrEqual(4.5);
  });

  test.each([
    ["sound", "paper"],
    ["hatch", "paper"],
    ["hatch", "still"],
    ["hatch", "open"],
    ["openEdge", "open"],
    ["within", "band"],
    ["within", "still"],
    ["ink", "band"],
  ] as const)("marks in %s on %s have 3:1 at least", (mark, ground) => {
    expect(contrast(INK[mark], INK[ground])).toBeGreaterThanOrEqual(3);
  });

  test("verdicts differ with every colour taken away", () => {
    const shapes = (["within", "beyond", "unclear"] as const).map((verdict) =>
      verdictMark(verdict, 10, 10).replaceAll(/#[0-9a-f]{6}/g, "grey"),
    );
    expect(new Set(shapes).size).toBe(3);
  });
});
