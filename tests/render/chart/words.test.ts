import { describe, expect, test } from "vitest";
import { type Drill, PARAMETERS, rungs, settingsText } from "../../../lib/drill/index.js";
import {
  ladderChart,
  soundChart,
  stripChart,
  takeChart,
  textStrip,
  textStripKey,
  textTake,
} from "../../../lib/render/chart/index.js";
import type { ChartWords } from "../../../lib/render/chart/words.js";
import type { Finding, Score } from "../../../lib/schema/index.js";
import { assess } from "../../../lib/take/index.js";
import { chartInEnglish } from "../../../lib/words/index.js";
import { plainScore, slowerInSilence, takeOf } from "../../take/scores.js";
import { markedWords, unmarked } from "../../words/marked.js";
import { drillIn, FIRST, HUGE, LONG, letteringOf, pictureOf, scoreAt, WIND } from "./material.js";

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
  const spoken = [...svg.matchAll(/<(title|desc)>([^<]*)</g)].map(([, , text]) => text!.replaceAll("&gt;", ">"));
  return [...spoken, ...letteringOf(svg).map(({ text }) => text)].join("\u0001");
}

/** Expects that all is worded by the catalogue but for numbers, signs, and what the score or the course calls its things. */
function expectWorded(text: string, own: readonly string[]): void {
  const { outside, names } = unmarked(text);
  const isOwn = (name: string): boolean => own.some((each) => each.toLowerCase() === name.toLowerCase());
  const strays = outside.split("\u0001").filter((piece) => !isOwn(piece) && !/^[\d\s?.,:│━─·~[\]●◂▸]*$/.test(piece));
  expect(strays).toEqual([]);
  for (const name of names)
    if (!/^[\d.:/,\s]*$/.test(name)) expect(own.map((each) => each.toLowerCase())).toContain(name.toLowerCase());
}

/** The values of a rung's settings, and names that no ladder has; the names of ladders are words. */
const valuesOf = (rung: string): readonly string[] =>
  rung.split(/[,=]/).filter((each) => !PARAMETERS.some((parameter) => parameter === each));

/** The names in a score, the values of its settings, and its scales. */
function namesIn({ drill, rung, mix, parts, open, beatUnit = "" }: Score): readonly string[] {
  return [
    drill,
    ...valuesOf(rung),
    mix,
    beatUnit,
    ...parts.map(({ name }) => name),
    ...open.map(({ scale }) => scale),
    "tern",
  ];
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
      expectWorded(textTake(of, finding, words), namesIn(of));
      expectWorded(textsIn(takeChart(of, take, finding, { width: 1000, words })), namesIn(of));
    }
  });
});

describe("strips say nothing that bypasses the catalogue", () => {
  const half = scoreAt(drillIn(FIRST, "half-bar"));
  const { drill, bars, ...rest } = half;
  const withEach = (change: object, of: Score = half): Score => ({
    ...of,
    dropouts: of.dropouts.map((dropout) => ({ ...dropout, ...change })),
  });
  test.each<readonly [string, Score]>([
    ["of a silence", half],
    ["of a silence of some parts", scoreAt(drillIn(WIND, "lantern-dropouts"))],
    ["with open bars", scoreAt(drillIn(WIND, "tidewater-open"), 4)],
    ["without silences", scoreAt(drillIn(FIRST, "steady"))],
    ["in which a part is not heard", scoreAt(drillIn(FIRST, "half-bar"), 0, "alone")],
    ["of 601 bars", LONG],
    ["of unlike phrases", { ...LONG, expected: LONG.expected.filter((_, i) => i % 23 !== 0) }],
    ["that nothing comes back in", withEach({ landing: null })],
    [
      "of silences of unlike lengths",
      { ...half, dropouts: half.dropouts.map((each, i) => (i === 0 ? { ...each, from: each.from - 0.4 } : each)) },
    ],
    [
      "without bars, tempo and count-in",
      { ...rest, drill, bars: [], tempo: undefined, countIn: 0 } as unknown as Score,
    ],
    [
      "of a tempo that rises",
      {
        ...half,
        tempi: [
          half.tempi?.[0] ?? { position: "0", at: 0, tempo: 76, beat: 60 / 76 },
          { position: "4", at: half.bars[4]!.at, tempo: 80, beat: 0.75 },
        ],
      } as Score,
    ],
    ["of a beat without a name", { ...half, beatUnit: undefined } as unknown as Score],
  ])("%s", (_, of) => {
    expectWorded(textStrip(of, { words }).replaceAll("\n", "\u0001"), namesIn(of));
    expectWorded(textStripKey(of, words), namesIn(of));
    expectWorded(textsIn(stripChart(of, { width: 1000, words })), namesIn(of));
  });
});

describe("charts of the ladders of a drill say nothing that bypasses the catalogue", () => {
  const fixed = { tempo: "76", dropout: "1/2 bar", parts: "bass+kit", variant: "plain" };
  const still: Drill = { ...drillIn(FIRST, "half-bar"), name: "still", ladders: [], fixed };
  const drills = [...FIRST.drills, ...WIND.drills, HUGE, still];
  test.each(drills.map((drill) => [drill.name, drill] as const))("%s", (_, drill) => {
    const { title = "", fixed, ladders } = drill;
    const all = rungs(drill);
    const settings = [all.at(0), all.at(all.count - 1)].map((rung) => settingsText(rung.settings));
    const own = [drill.name, title, ...settings.flatMap(valuesOf)].join(" ");
    const known = new Set(
      `${own} ${JSON.stringify([Object.values(fixed), ladders.map((each) => ({ ...each, parameter: undefined }))])}`
        .toLowerCase()
        .match(/[\p{L}-]+/gu),
    );
    for (const at of [undefined, 0, all.count - 1]) {
      const text = textsIn(ladderChart(drill, { width: 2000, words, ...(at === undefined ? {} : { at }) }));
      const { outside, names } = unmarked(text);
      for (const piece of [outside, ...names])
        for (const word of piece.toLowerCase().match(/[\p{L}-]+/gu) ?? []) expect(known).toContain(word);
    }
  });
});

describe("charts of a recording say nothing that bypasses the catalogue", () => {
  test.each([
    ["of seconds", pictureOf(3, 0.5)],
    ["of minutes", pictureOf(90, 0.5)],
    ["of silence", { ...pictureOf(3, 1), onsets: [] }],
  ])("%s", (_, picture) => {
    const { advice: _unworded, ...rest } = picture;
    expectWorded(textsIn(soundChart(rest, { width: 1000, words })), [rest.name, `${rest.name}.`, `${rest.name}. `]);
  });
});

test("charts say everything that the catalogue has for them", () => {
  // Beside a chart in a terminal: `tests/cli/output/reasonsOnce.test.ts` reads it.
  const beside = "chart.few-played-in";
  // In a strip with bars of rest: `text.test.ts` reads it.
  const resting = "chart.band-rests";
  expect(
    Object.keys(chartInEnglish)
      .filter((key) => !said.has(key))
      .toSorted(),
  ).toEqual([resting, beside]);
});
