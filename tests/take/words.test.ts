import { describe, expect, test } from "vitest";
import type { Finding, Measure } from "../../lib/schema/index.js";
import { checkFinding } from "../../lib/schema/index.js";
import { assess, driftTrends } from "../../lib/take/index.js";
import { english, takeInEnglish, trendInEnglish, wordsOf } from "../../lib/words/index.js";
import { markedWords, unmarked } from "../words/marked.js";
import { plainScore, scatteredBy, slowerInSilence, takeOf, timesOf } from "./scores.js";

const words = wordsOf<"take" | "trend">(english, { ...takeInEnglish, ...trendInEnglish });
const marked = markedWords();

const score = plainScore({ phrases: 3, perBeat: 2, tolerance: { driftPercent: 2.5, landingMs: 90, steadinessMs: 30 } });
const inTime = timesOf(takeOf(score));
const played = (share: number): readonly number[] => timesOf(takeOf(score, slowerInSilence(score, share)));
const uneven = (onsets: readonly number[], ms: number): readonly number[] =>
  timesOf(scatteredBy({ onsets: [...onsets] }, ms, `${ms}`));
const silent = (at: number): boolean => score.dropouts.some(({ from, to }) => at > from + 0.1 && at < to - 0.1);

/** Takes that go wrong in every way that is told apart. */
const takes: Readonly<Record<string, readonly number[]>> = {
  perfect: inTime,
  "nothing at all": [],
  rushed: uneven(played(-0.06), 6),
  dragged: uneven(played(0.06), 6),
  "close to the limit": uneven(played(0.025), 12),
  unsteady: uneven(inTime, 55),
  "rested in each silence": inTime.filter((at) => !silent(at)),
  "one note in each silence": inTime.filter((at, i) => !silent(at) || i % 8 === 3),
  "a beat late after the first silence": inTime.map((at) =>
    at >= score.dropouts[0]!.to - 0.01 ? at + score.beat : at,
  ),
  "half a beat late there, and back later": inTime.map((at) =>
    at >= score.dropouts[0]!.to - 0.01 && at < score.dropouts[0]!.to + 2 ? at + score.beat / 2 : at,
  ),
  "one landing late": inTime.map((at) => (Math.abs(at - score.dropouts[1]!.to) < 0.01 ? at + 0.15 : at)),
  "landings left out": inTime.filter((at) => !score.dropouts.some(({ to }) => Math.abs(at - to) < 0.01)),
  "begun late": inTime.map((at) => at + 1.3),
  "twice as fast in a silence": inTime.flatMap((at) => (silent(at) ? [at, at + score.beat / 4] : [at])),
  "something else": Array.from({ length: 60 }, (_, i) => ((i * 7919) % 1000) * (score.duration / 1000)).sort(
    (a, b) => a - b,
  ),
  "a few notes": inTime.slice(0, 5),
};
const findings = Object.entries(takes).map(
  ([name, onsets]) => [name, assess(score, { id: name, zero: "bar-1", onsets: [...onsets] })] as const,
);

/** Every sentence in a finding with the message beside it, wherever it stands. */
function sentencesIn(value: unknown): { readonly says: string; readonly message: Finding["message"] }[] {
  if (typeof value !== "object" || value === null) return [];
  const { says, sentence, unmeasured, message } = value as Record<string, unknown>;
  const said = (says ?? sentence ?? unmeasured) as string | undefined;
  const own = said === undefined ? [] : [{ says: said, message: message as Finding["message"] }];
  const inside = Object.entries(value).flatMap(([key, each]) => (key === "message" ? [] : sentencesIn(each)));
  return [...own, ...inside];
}

describe.each(findings)("the words of a take that was played %s", (_, finding) => {
  test("are its messages in English, beside each sentence", () => {
    const said = sentencesIn(finding);
    expect(said.length).toBeGreaterThan(0);
    for (const { says, message } of said) {
      expect(message, says).toBeDefined();
      expect(words.word(message, "")).toBe(says);
    }
  });

  test("are all of the language they are asked for in, and hold no text of another", () => {
    for (const { says, message } of sentencesIn(finding)) {
      const { outside, names } = unmarked(marked.word(message, says));
      expect(outside, says).toBe("");
      expect(names, says).toEqual([]);
    }
  });

  test("stay with it through a file", () => {
    const read = checkFinding(JSON.parse(JSON.stringify(finding)));
    expect(read.ok && read.value).toEqual(JSON.parse(JSON.stringify(finding)));
  });

  test("do not contradict its figures", () => {
    const { sentence, verdict, dropouts } = finding;
    if (verdict === "unclear") expect(sentence).not.toMatch(/^(In time|You rushed|You dragged|Steady|Not steady)/);
    expect(sentence).not.toMatch(/\b0 ms (early|late)|\b0\.0 %/);
    const named = /(\d+) ms (early|late) after/.exec(sentence);
    if (named === null) return;
    const shown = dropouts.flatMap(({ driftMs, landing }): Measure[] => [
      driftMs,
      landing !== null && "ms" in landing ? landing.ms : 0,
    ]);
    const figures = shown.map((value) => (typeof value === "number" ? Math.round(value) : Number.NaN));
    expect(figures).toContain(named[2] === "early" ? -Number(named[1]) : Number(named[1]));
  });
});

test("the takes above say many different things", () => {
  const keys = new Set(findings.flatMap(([, finding]) => sentencesIn(finding).map(({ message }) => message?.key)));
  expect(keys.size).toBeGreaterThan(15);
});

test.each([
  ["perfect", "In time: less than 1 ms off after one bar of silence."],
  [
    "rested in each silence",
    /^You played 3 of 24 notes in 3 silences: too few to say whether you kept the time\. Play on/,
  ],
  ["begun late", /^Your take seems to begin 1\.\d s late\. Did the recording start with the count-in\?$/],
  [
    "unsteady",
    /^Not steady yet: on average \d+ ms \w+, and about \d+ ms either way from note to note \(limit 30 ms\)\.$/,
  ],
])("the sentence of a take that was played %s tells what decided", (name, sentence) => {
  expect(new Map(findings).get(name)!.sentence).toMatch(sentence);
});

test("a trend is worded by its message, without a bare sign", () => {
  const four = [0.08, 0.06, 0.04, 0.02].map((share) => assess(score, takeOf(score, slowerInSilence(score, share))));
  for (const { sentence, message } of driftTrends(four)) {
    expect(words.word(message, "")).toBe(sentence);
    expect(sentence).toMatch(
      /% slow to [\d.]+ % slow: closer to the tempo \(each take [\d.]+ % faster to [\d.]+ % faster/,
    );
    expect(unmarked(marked.word(message, ""))).toEqual({ outside: "", names: [] });
  }
});
