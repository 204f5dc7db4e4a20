import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { problemsIn } from "../../../lib/base/index.js";
import { drillCodes, findRung, rungs, scoreOf, settingsText } from "../../../lib/drill/index.js";
import { patternCodes } from "../../../lib/pattern/index.js";
import { type DrillDocument, pathOf } from "../../../lib/schema/index.js";
import { timeCodes } from "../../../lib/time/index.js";
import { compiled, JETTY } from "../material.js";

/** Lengths a teacher, a slip of the keyboard or somebody with bad intentions writes. */
const length = fc.oneof(
  fc.constantFrom(
    "1/2 bar",
    "1 bar",
    "2 bars",
    "3 beats",
    "1/8 note",
    "none",
    "",
    "bar",
    "-1 bar",
    "0 bars",
    "NaN bars",
    "1e9 bars",
  ),
  fc
    .tuple(
      fc.integer({ min: 0, max: 999_999_999 }),
      fc.integer({ min: 0, max: 999_999_999 }),
      fc.constantFrom("bar", "beats", "note", "weeks"),
    )
    .map(([n, d, unit]) => `${n}/${d} ${unit}`),
  fc
    .tuple(fc.integer({ min: 1, max: 10_000 }), fc.integer({ min: 1, max: 96 }), fc.constantFrom("bar", "beat", "note"))
    .map(([n, d, unit]) => `${n}/${d} ${unit}`),
);
const tempo = fc.oneof(
  fc.integer({ min: 1, max: 1000 }),
  fc.double({ min: 1, max: 1000, noNaN: true }),
  fc.constantFrom(1e-7, 0.000001, 88),
);
const name = fc.constantFrom(
  "lead",
  "kit",
  "bass",
  "plain",
  "busy",
  "play",
  "jetty",
  "swell",
  "tide",
  "shuffle",
  "constructor",
  "D dorian",
  "",
);
const bars = fc.array(fc.integer({ min: 1, max: 128 }), { maxLength: 5 });
const by = fc.oneof(
  fc.double({ min: -1000, max: 1000, noNaN: true }),
  fc.integer({ min: -20, max: 20 }),
  fc.constantFrom("5 %", "-5 %", "-100 %", "0.01 %", "x"),
);
const ladder = fc.record(
  {
    dropout: fc.oneof(fc.record({ from: length, to: length, by: length }), fc.array(length, { maxLength: 4 })),
    tempo: fc.oneof(fc.record({ from: tempo, to: tempo, by }), fc.array(tempo, { maxLength: 4 })),
    variant: fc.array(name, { maxLength: 3 }),
    key: fc.array(name, { maxLength: 3 }),
    parts: fc.array(fc.array(name, { maxLength: 3 }), { maxLength: 3 }),
    mix: fc.array(name, { maxLength: 3 }),
    open: fc.array(bars, { maxLength: 3 }),
    restart: fc.constantFrom("bottom", "0 rungs back", "1 rung back", "999999999999999 rungs back", "up"),
  },
  { requiredKeys: [] },
);
const one = fc.oneof(
  ladder,
  ladder.map((all) => Object.fromEntries(Object.entries(all).slice(0, 1))),
);
const share = fc.constantFrom("90 %", "60 %", "0 %", "100 %", "x");
const changes = fc.record(
  {
    pattern: fc.oneof(
      { weight: 5, arbitrary: fc.constantFrom("jetty", "swell", "tide", "shuffle") },
      { weight: 1, arbitrary: name },
    ),
    student: fc.oneof({ weight: 5, arbitrary: fc.constant("lead") }, { weight: 1, arbitrary: name }),
    phrases: fc.integer({ min: 1, max: 64 }),
    "count-in": length,
    outro: length,
    beat: fc.constantFrom("1/4 note", "3/8", "1/8", "7/13"),
    tempo,
    variant: name,
    key: fc.constantFrom("G dorian", "Cb major", "H"),
    dropout: fc.record(
      {
        length,
        at: fc.oneof(fc.constantFrom("end" as const, "start" as const, "random" as const), bars),
        seed: fc.nat(),
        parts: fc.array(name, { maxLength: 3 }),
      },
      { requiredKeys: [] },
    ),
    open: fc.record({ bars, scale: name, subdivision: length }, { requiredKeys: [] }),
    ladders: fc.array(one, { maxLength: 4 }),
    mixes: fc.dictionary(
      name,
      fc.dictionary(name, fc.constantFrom("plays" as const, "drops" as const, "off" as const)),
    ),
    tolerance: fc.record(
      {
        drift: fc.constantFrom("2 %", "30 ms", "1 ms", "x"),
        landing: fc.constantFrom("40 ms", "4 %"),
        steadiness: fc.constantFrom("25 ms", "0 ms"),
      },
      { requiredKeys: [] },
    ),
    gate: fc.record(
      {
        clean: fc.nat(5),
        of: fc.nat(5),
        "in-a-row": fc.nat(3),
        sequential: fc.record({ able: share, unready: share }),
      },
      { requiredKeys: [] },
    ),
    "go-back": fc.record({ after: fc.nat(3), by: fc.constantFrom("1 rung", "0 rungs", "some") }),
    players: fc.array(
      fc.oneof(
        fc.constantFrom("trumpet", "tuba", "kazoo"),
        fc.record({ instrument: fc.constant("tuba"), octave: fc.integer({ min: -4, max: 4 }) }),
      ),
    ),
  },
  { requiredKeys: [] },
);
const document = changes.map((changed) => ({ ...JETTY, ...changed }) as unknown as DrillDocument);

const CODES = new Set([drillCodes, patternCodes, timeCodes].flatMap((catalogue) => Object.keys(catalogue)));

describe("compileDrill()", () => {
  test("answers whatever is written with a drill or with problems at places the document has, and never throws", () => {
    fc.assert(
      fc.property(document, (written) => {
        const result = compiled(written);
        if (!result.ok) expect(result.problems.some(({ severity }) => severity === "error")).toBe(true);
        for (const problem of problemsIn(result)) {
          expect(CODES).toContain(problem.code);
          let place: unknown = written;
          const path = pathOf(problem.where.pointer ?? "");
          // A key that a problem asks for may itself be missing.
          for (const key of path.slice(0, -1)) {
            expect(place).toHaveProperty([key]);
            place = (place as Record<string, unknown>)[key];
          }
        }
      }),
      { numRuns: 500 },
    );
  });

  test("gives drills whose first, middle and last rung have a score and are found again", () => {
    fc.assert(
      fc.property(document, (written) => {
        const result = compiled(written);
        if (!result.ok) return;
        const all = rungs(result.value);
        for (const index of new Set([0, Math.floor(all.count / 2), all.count - 1])) {
          const rung = all.at(index);
          expect(scoreOf(rung).rung).toBe(settingsText(rung.settings));
          const again = findRung(result.value, settingsText(rung.settings));
          expect(again.ok && again.value.index).toBe(index);
        }
      }),
      { numRuns: 500 },
    );
  });
});
