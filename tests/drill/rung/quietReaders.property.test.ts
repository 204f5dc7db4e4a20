import fc from "fast-check";
import { expect, test } from "vitest";
import { canonicalSetting, PARAMETERS, parseSettings, readSettings } from "../../../lib/drill/rung/settings.js";
import { parseSilenceLengths, readSilenceLengths } from "../../../lib/drill/silenceLengths.js";
import { parseKey, readKey } from "../../../lib/pattern/index.js";
import { parseSpan, parseTempo, readSpan, readTempo } from "../../../lib/time/index.js";

/** Pieces of which settings are made, right and wrong ones; texts are chance rows of them. */
const PIECES = [
  ..."1 2 64 65 0 96 1001 1/2 1.5 - + , = D Bb c# dorian major lydian bar bars beat note phrases each to by then of none".split(
    " ",
  ),
  ...["3/8", "1/1000", "1 1/2 bars", "1/2 bar to 2 bars by 1/2 bar", "blues minor", "kit+bass", "constructor"],
  ...PARAMETERS.map((parameter) => `${parameter}=`),
];
const texts = fc
  .array(fc.constantFrom(...PIECES), { maxLength: 8 })
  .chain((pieces) => fc.constantFrom("", " ").map((between) => pieces.join(between)));

/** Whether a text is taken but for the name of its scale: who reads what was read before looks none up. */
const isUnknownScale = (codes: readonly string[]): boolean =>
  codes.length > 0 && codes.every((code) => code === "SCALE_UNKNOWN");

const QUIET_ON_SCALES = { readKey: [readKey, parseKey], readSettings: [readSettings, parseSettings] } as const;

for (const [name, [read, parse]] of Object.entries(QUIET_ON_SCALES))
  test(`${name}() reads what the reader that explains reads, and beyond that only scales that are unknown`, () => {
    fc.assert(
      fc.property(texts, (text) => {
        const parsed = parse(text);
        if (parsed.ok) expect(read(text)).toEqual(parsed.value);
        else expect(read(text) !== undefined).toBe(isUnknownScale(parsed.problems.map(({ code }) => code)));
      }),
      { numRuns: 2000 },
    );
  });

const READERS = {
  readSilenceLengths: [readSilenceLengths, parseSilenceLengths],
  readSpan: [readSpan, parseSpan],
} as const;

for (const [name, [read, parse]] of Object.entries(READERS))
  test(`${name}() reads what the reader that explains reads, and nothing else`, () => {
    fc.assert(
      fc.property(texts, (text) => {
        const parsed = parse(text);
        expect(read(text)).toEqual(parsed.ok ? parsed.value : undefined);
      }),
      { numRuns: 2000 },
    );
  });

test("readTempo() reads a tempo without a unit of its own, and nothing else", () => {
  for (const text of ["96", " 96 ", "96.5", "1", "1000", "1001", "0", "", ".", "1.2.3", "60 of 3/8", "96 bpm", "-4"]) {
    const parsed = parseTempo(text);
    expect(readTempo(text)).toEqual(parsed.ok && parsed.value.beat === undefined ? parsed.value.perMinute : undefined);
  }
});

test("canonicalSetting() gives a value or says why there is none", () => {
  fc.assert(
    fc.property(fc.constantFrom(...PARAMETERS), texts, (parameter, text) => {
      const read = canonicalSetting(parameter, text);
      if (read.ok) expect(canonicalSetting(parameter, read.value)).toEqual(read);
      else expect(read.problems.length).toBeGreaterThan(0);
    }),
    { numRuns: 2000 },
  );
});
