import { describe, expect, test } from "vitest";
import { fraction } from "../../lib/base/index.js";
import {
  barLength,
  FASTEST_SUBDIVISION,
  FASTEST_SUBDIVISION_EVER,
  parseMeter,
  parseSpan,
  resolveSpan,
  SLOWEST_BEAT,
  secondsOf,
  tempoIn,
} from "../../lib/time/index.js";
import { must } from "../time/shorthand.js";

describe("tempo units", () => {
  // music21 10.5.0, MetronomeMark.getEquivalentByReferent, as read there.
  test.each([
    [60, fraction(3, 8), fraction(1, 4), 90],
    [60, fraction(3, 8), fraction(1, 2), 45],
    [60, fraction(1, 4), fraction(1, 16), 240],
  ])("%d of %o is in beats of %o: %d", (perMinute, beat, other, expected) => {
    expect(tempoIn(other, { perMinute: fraction(perMinute), beat })).toEqual({
      perMinute: fraction(expected),
      beat: other,
    });
  });

  test("half a bar of 4/4 at 92 lasts 1304.348 ms (computed: 2 * 60000 / 92)", () => {
    const half = resolveSpan(must(parseSpan("1/2 bar")), must(parseMeter("4/4")));
    // Half of the last digit given.
    expect(Math.abs(secondsOf(half, { tempo: fraction(92), beat: fraction(1, 4) }) * 1000 - 1304.348)).toBeLessThan(
      0.0005,
    );
  });

  test("a bar of 6/8 at 60 dotted quarters lasts 2000 ms (computed: two beats of a second)", () => {
    const bar = barLength(must(parseMeter("6/8")));
    expect(secondsOf(bar, { tempo: fraction(60), beat: fraction(3, 8) })).toBe(2);
  });
});

describe("limits of synchronisation", () => {
  test("are those of Repp 2006, Adv. Cogn. Psychol. 2, 163-181 (abstract)", () => {
    // Slow limit about 0.56 Hz = 1800 ms; fastest auditory rate 8 to 10 Hz = 100 to 125 ms.
    expect(SLOWEST_BEAT).toBe(1800);
    expect(1000 / FASTEST_SUBDIVISION).toBe(8);
    expect(1000 / FASTEST_SUBDIVISION_EVER).toBe(10);
  });
});
