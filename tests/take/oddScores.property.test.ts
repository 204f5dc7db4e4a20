import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { playTake } from "../../lib/rehearsal/index.js";
import { checkFinding, checkScore, type Score } from "../../lib/schema/index.js";
import { assess } from "../../lib/take/index.js";

const BEAT = 0.5;
const eighths = fc.integer({ min: 0, max: 64 });

/** Stretches that neither touch nor overlap (a curriculum with touching ones is refused), on eighths of a 32-beat take. */
const stretches = fc.uniqueArray(eighths, { maxLength: 8 }).map((edges) => {
  const sorted = [...edges].sort((a, b) => a - b);
  const pairs: { from: number; to: number }[] = [];
  for (let i = 0; i + 1 < sorted.length; i += 2)
    pairs.push({ from: (sorted[i]! * BEAT) / 2, to: (sorted[i + 1]! * BEAT) / 2 });
  return pairs;
});

const oddScore: fc.Arbitrary<Score> = fc
  .record({
    dropouts: stretches.chain((all) =>
      fc.tuple(fc.subarray(all), fc.array(fc.boolean(), { minLength: 8, maxLength: 8 })),
    ),
    open: stretches.chain((all) => fc.subarray(all)),
    notes: fc.array(
      fc.oneof(
        eighths.map((n) => (n * BEAT) / 2),
        fc.double({ min: -0.5, max: 16, noNaN: true }),
      ),
      { maxLength: 50 },
    ),
    countIn: fc.constantFrom(0, 2),
    tolerance: fc.constantFrom<Score["tolerance"]>(
      {},
      { driftPercent: 2.5 },
      { driftMs: 30, landingMs: 40, steadinessMs: 20 },
      { driftPercent: 1e-6, steadinessMs: 1e-6 },
    ),
  })
  .map(({ dropouts: [silences, silent], open, notes, countIn, tolerance }) => ({
    version: 1 as const,
    drill: "odd",
    rung: "odd=1",
    mix: "alone",
    duration: 16,
    countIn,
    beat: BEAT,
    bars: [],
    expected: [...notes]
      .sort((a, b) => a - b)
      .filter((at) => !open.some(({ from, to }) => at >= from && at < to))
      .map((at) => ({ position: "0", at: at + 0, part: "lead", bar: 1 })),
    dropouts: silences.map(({ from, to }, i) => ({
      from,
      to,
      parts: ["kit"],
      silent: silent[i]!,
      landing: to < 16 ? to : null,
    })),
    // What sounds: the rest of the take, and the dropouts in which something is left.
    audible: [
      { from: -countIn, to: silences[0]?.from ?? 16 },
      ...silences.map(({ to }, i) => ({ from: to, to: silences[i + 1]?.from ?? 16 })),
      ...silences.filter((_, i) => !silent[i]!),
    ]
      .filter(({ from, to }) => to > from)
      .sort((a, b) => a.from - b.from),
    open: open.map((each) => ({
      ...each,
      bars: [1],
      scale: "D dorian",
      pitchClasses: [2, 4, 5],
      subdivision: BEAT / 4,
    })),
    parts: [],
    tolerance,
  }));

const player = {
  clockMs: 10,
  motorMs: 12,
  biasPercent: 1.2,
  correction: 0.35,
  offsetMs: -20,
  missing: 0.05,
  adding: 0.05,
};

/** Three notes at one time are all a silence holds: there is no line through them. */
const CHORD_IN_A_SILENCE: Score = {
  version: 1,
  drill: "odd",
  rung: "odd=1",
  mix: "alone",
  duration: 16,
  countIn: 0,
  beat: BEAT,
  bars: [],
  expected: [0, 0, 0].map((at) => ({ position: "0", at, part: "lead", bar: 1 })),
  dropouts: [{ from: 0, to: 0.25, parts: ["kit"], silent: true, landing: 0.25 }],
  audible: [{ from: 0.25, to: 16 }],
  open: [],
  parts: [],
  tolerance: {},
};

/** The same, but for the last digit of one of them. */
const NEARLY_A_CHORD: Score = {
  ...CHORD_IN_A_SILENCE,
  expected: CHORD_IN_A_SILENCE.expected.map((note, i) => ({ ...note, at: i === 2 ? 5e-324 : 0 })),
};

describe("assess(), whatever the score", () => {
  test("gives a finding of the published schema for silences at the start and at the end, for open bars across them, and for chords", () => {
    fc.assert(
      fc.property(oddScore, fc.nat(), (score, seed) => {
        expect(checkScore(score)).toMatchObject({ ok: true });
        const { take } = playTake(score, player, seed);
        const finding = assess(score, take);
        expect(checkFinding(finding)).toMatchObject({ ok: true });
        expect(JSON.parse(JSON.stringify(finding))).toEqual(finding);
        expect(finding.dropouts).toHaveLength(score.dropouts.length);
        expect(finding.openBars).toHaveLength(score.open.length);
        expect(finding.pairs.length + finding.missed.length).toBe(score.expected.length);
        for (const { standardErrorMs } of finding.dropouts) {
          if (typeof standardErrorMs === "number") expect(standardErrorMs).toBeGreaterThan(0);
        }
      }),
      {
        numRuns: 150,
        examples: [
          [CHORD_IN_A_SILENCE, 0],
          [NEARLY_A_CHORD, 0],
        ],
      },
    );
  });
});
