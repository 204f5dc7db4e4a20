import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { endOf, handOver, placeAt, type Reached, type Route, reachedAt } from "../../lib/browser/player/cueing.js";

interface Cue {
  readonly at: number;
  readonly name: number;
}

const HORIZON = 0.75;

/** Cues at random places of a score of ten seconds with a count-in of two. */
const cues = fc
  .array(fc.integer({ min: -2000, max: 9999 }), { maxLength: 80 })
  .map((times) => times.sort((a, b) => a - b).map((ms, name): Cue => ({ at: ms / 1000, name })));

/** Real seconds between two looks of the player: as a rule a tick, at times a page that is busy, or one in the background. */
const waits = fc.array(
  fc.oneof(
    { weight: 8, arbitrary: fc.constant(0.05) },
    { weight: 2, arbitrary: fc.double({ min: 0, max: 3, noNaN: true }) },
    { weight: 1, arbitrary: fc.constant(1) },
  ),
  { minLength: 300, maxLength: 400 },
);
/** Parts per million by which the clock of sound is off, and the looks at which it stands still. */
const clocks = fc.record({
  ppm: fc.integer({ min: -200, max: 200 }),
  frozen: fc.array(fc.integer({ min: 0, max: 300 }), { maxLength: 5 }),
});

const whole: Route = { passages: [{ from: -2, to: 0, at: 1 }], ahead: [{ from: 0, to: 10 }], again: undefined };

describe("handOver()", () => {
  test("hands each cue over once, or tells that it is late: whatever stalls, and however the clock goes", () => {
    fc.assert(
      fc.property(cues, waits, clocks, (all, pauses, { ppm, frozen }) => {
        let state: { route: Route; reached: Reached } = { route: whole, reached: reachedAt(all, whole, 1) };
        const played: number[] = [];
        const told: number[] = [];
        let now = 1;
        pauses.forEach((wait, look) => {
          if (!frozen.includes(look)) now += wait * (1 + ppm * 1e-6);
          const { due, late, ...next } = handOver(all, state, { now, until: now + HORIZON });
          state = next;
          // Nothing in the past is played, and nothing is told of that could have been.
          for (const { when } of due) expect(when).toBeGreaterThanOrEqual(now);
          for (const { when } of late) expect(when).toBeLessThan(now);
          for (const { cue, when } of [...due, ...late]) expect(when).toBeCloseTo(3 + cue.at, 9);
          played.push(...due.map(({ cue }) => cue.name));
          told.push(...late.map(({ cue }) => cue.name));
        });
        const reached = now + HORIZON > endOf(whole);
        const seen = [...played, ...told].sort((a, b) => a - b);
        expect(new Set(seen).size).toBe(seen.length);
        if (reached) expect(seen).toEqual(all.map(({ name }) => name));
      }),
    );
  });

  test("loses nothing while no look comes later than the horizon", () => {
    fc.assert(
      fc.property(
        cues,
        fc.array(fc.double({ min: 0.01, max: HORIZON, noNaN: true }), { minLength: 1500 }),
        (all, waits_) => {
          let state: { route: Route; reached: Reached } = { route: whole, reached: reachedAt(all, whole, 1) };
          let now = 0.9;
          const late: unknown[] = [];
          for (const wait of waits_) {
            const handed = handOver(all, state, { now, until: now + HORIZON });
            state = handed;
            late.push(...handed.late);
            now += wait;
            if (now > 14) break;
          }
          expect(late).toEqual([]);
        },
      ),
      { numRuns: 30 },
    );
  });

  test("a stretch that is repeated follows itself without a gap, and each cue of it sounds each time", () => {
    const all = [0, 1, 2, 3, 4].map((at) => ({ at, name: at }));
    const route: Route = { passages: [{ from: 0, to: 3, at: 10 }], ahead: [], again: { from: 1, to: 3 } };
    const { due, route: gone } = handOver(all, { route, reached: { passage: 0, cue: 0 } }, { now: 10, until: 16.5 });
    expect(due.map(({ cue, when }) => [cue.at, when])).toEqual([
      [0, 10],
      [1, 11],
      [2, 12],
      [1, 13],
      [2, 14],
      [1, 15],
      [2, 16],
    ]);
    expect(placeAt(gone, 13.5)).toBe(1.5);
    expect(endOf(gone)).toBe(Number.POSITIVE_INFINITY);
  });
});
