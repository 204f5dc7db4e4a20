import { describe, expect, test } from "vitest";
import { takeChart, textStrip, textStripKey, textTake } from "../../../lib/render/chart/index.js";
import type { ChartWords } from "../../../lib/render/chart/words.js";
import { settingsWords } from "../../../lib/render/phrases.js";
import type { Finding, Score } from "../../../lib/schema/index.js";
import { assess } from "../../../lib/take/index.js";
import { chartInEnglish } from "../../../lib/words/index.js";
import { plainScore, slowerInSilence, takeOf } from "../../take/scores.js";
import { markedWords, unmarked } from "../../words/marked.js";
import { drillIn, FIRST, LONG, letteringOf, scoreAt, WIND } from "./material.js";

const said = new Set<string>();
const marked: ChartWords = markedWords();
const words: ChartWords = {
  ...marked,
  say: (key, ...given) => {
    said.add(key);
    return marked.say(key, ...given);
  },
};

/** What stands in a drawing: its title and description, and every text, wide enough that none is cut. */
function textsIn(svg: string): string {
  const spoken = [...svg.matchAll(/<(title|desc)>([^<]*)</g)].map(([, , text]) => text!);
  return [...spoken, ...letteringOf(svg).map(({ text }) => text)].join("\u0001");
}

/** Expects that all is worded by the catalogue but for numbers, signs, and the names and settings of the score. */
function expectWorded(text: string, { drill, rung, mix }: Score): void {
  const { outside, names } = unmarked(text);
  expect(outside.replaceAll("\u0001", " ")).toMatch(/^[\d\s?.│━─·~[\]●◂▸]*$/);
  const data = [drill, settingsWords(rung), mix, "tern"].map((name) => name.replaceAll(/\s/g, ""));
  for (const name of names) {
    const plain = name.replaceAll(/[\s\u0001]/g, "");
    if (!/^[\d.]*$/.test(plain)) expect(data).toContain(plain);
  }
}

const score = plainScore({ tolerance: { driftPercent: 4, landingMs: 60 } });
const loose = plainScore({ tolerance: {} });
const onsetsOf = (of: Score, slow: number): number[] => takeOf(of, slowerInSilence(of, slow)).onsets as number[];
const TAKES: readonly (readonly [string, Score, readonly number[]])[] = [
  ["in time", score, onsetsOf(score, 0)],
  ["early", score, onsetsOf(score, -0.06)],
  ["late", loose, onsetsOf(loose, 0.03)],
  [
    "with notes left out and added",
    score,
    [...onsetsOf(score, 0).filter((_, i) => i % 9 !== 5), 0.77].sort((a, b) => a - b),
  ],
  ["of nothing", score, []],
  ["of 601 bars", LONG, onsetsOf(LONG, 0)],
  ["with a part in the silences", scoreAt(drillIn(WIND, "lantern-dropouts")), []],
  ["with open bars", scoreAt(drillIn(WIND, "tidewater-open"), 4), []],
];

/** The same finding with a slip, a landing that was left out, or all landings far off: what these say is in no take above. */
function variantsOf(finding: Finding): readonly Finding[] {
  const withEach = (change: object): Finding => ({
    ...finding,
    dropouts: finding.dropouts.map((dropout) => ({ ...dropout, ...change })),
  });
  return [
    finding,
    { ...finding, take: "tern" },
    withEach({ slip: { beats: -1, stays: true } }),
    withEach({ slip: { beats: 1.5, stays: true } }),
    withEach({ landing: { leftOut: true } }),
    withEach({ landing: { ms: 200, standardErrorMs: 5 } }),
    withEach({ landing: { ms: 0.2, standardErrorMs: 5 } }),
    withEach({ standardErrorMs: { unmeasured: "tern" } }),
  ];
}

describe("charts and texts of a take say nothing that bypasses the catalogue", () => {
  test.each(TAKES)("%s", (_, of, onsets) => {
    const take = { onsets, zero: "bar-1" as const };
    for (const finding of variantsOf(assess(of, take))) {
      expectWorded(textTake(of, finding, words), of);
      expectWorded(textsIn(takeChart(of, take, finding, { width: 1000, words })), of);
    }
  });
});

describe("strips say nothing that bypasses the catalogue", () => {
  test.each([
    ["of a silence", scoreAt(drillIn(FIRST, "half-bar"))],
    ["of a silence of some parts", scoreAt(drillIn(WIND, "lantern-dropouts"))],
    ["with open bars", scoreAt(drillIn(WIND, "tidewater-open"), 4)],
  ])("%s", (_, of) => {
    expectWorded(textStrip(of, { words }), of);
    expectWorded(textStripKey(of, words), of);
  });
});

test("charts say everything that the catalogue has for them", () => {
  expect(Object.keys(chartInEnglish).filter((key) => !said.has(key))).toEqual([]);
});
