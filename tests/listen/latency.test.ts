import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { random } from "../../lib/base/index.js";
import { CALIBRATION_CLICKS, latencyFrom } from "../../lib/listen/index.js";

const { first, apart, count } = CALIBRATION_CLICKS;

/** Onsets that follow the clicks by `delay` seconds, with this standard deviation. */
function following(delay: number, sd: number, seed: number): number[] {
  const chance = random(seed);
  return Array.from({ length: count }, (_, i) => first + i * apart + delay + sd * chance.normal());
}

describe("latencyFrom()", () => {
  test("gives back a constant delay, with the 3 ms of a single recording as its standard error", () => {
    for (const delay of [-0.1, 0, 0.0123, 0.3]) {
      const found = latencyFrom([following(delay, 0, 1)], { way: "loop" });
      expect(found).toMatchObject({ ok: true, value: { onsets: count } });
      if (!found.ok) return;
      expect(found.value.latencyMs).toBeCloseTo(1000 * delay, 6);
      expect(found.value.latencyStandardErrorMs).toBeCloseTo(3, 6);
    }
  });

  test("finds the delay within its own error, whatever was missed or added", () => {
    fc.assert(
      fc.property(
        fc.double({ min: -0.08, max: 0.3, noNaN: true }),
        fc.nat(1e6),
        fc.array(fc.double({ min: 0, max: 30, noNaN: true }), { maxLength: 8 }),
        (delay, seed, added) => {
          const played = following(delay, 0.015, seed).filter((_, i) => i % 7 !== 3);
          const found = latencyFrom([[...played, ...added].sort((a, b) => a - b)], { way: "clap" });
          if (!found.ok) throw new Error(JSON.stringify(found.problems));
          // Five standard errors of a median of 41 normal values with 15 ms, and what eight strangers can pull it by.
          expect(Math.abs(found.value.latencyMs - 1000 * delay)).toBeLessThan((5 * 1.25 * 15) / Math.sqrt(41) + 8);
          expect(found.value.latencyStandardErrorMs).toBeGreaterThan(20);
        },
      ),
    );
  });

  test("takes the deviation between recordings where there are several", () => {
    const found = latencyFrom(
      [0.01, 0.02, 0.03].map((delay) => following(delay, 0, 1)),
      { way: "loop" },
    );
    expect(found.ok && found.value.latencyMs).toBeCloseTo(20, 6);
    // Sample standard deviation of 10, 20 and 30.
    expect(found.ok && found.value.latencyStandardErrorMs).toBeCloseTo(10, 6);
  });

  test("LATENCY_UNCLEAR: refuses onsets that follow no clicks, too few, or none", () => {
    const chance = random(5);
    const anywhere = Array.from({ length: 48 }, () => 30 * chance.uniform()).sort((a, b) => a - b);
    for (const onsets of [[], following(0, 0, 1).slice(0, 5), anywhere])
      expect(latencyFrom([onsets], { way: "loop" })).toMatchObject({
        ok: false,
        problems: [{ code: "LATENCY_UNCLEAR" }],
      });
    expect(latencyFrom([], { way: "loop" }).ok).toBe(false);
  });
});
