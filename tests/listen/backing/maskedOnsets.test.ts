import { describe, expect, test } from "vitest";
import { decideOnsets } from "../../../lib/listen/backing/maskedOnsets.js";

/** A hundred frames a second: what was left and what covers it, as functions of time. */
const frames = (left: (t: number) => number, cover: (t: number) => number) =>
  Array.from({ length: 400 }, (_, i) => ({ seconds: i / 100, left: left(i / 100), cover: cover(i / 100) }));
/** Onsets at these seconds, far stronger than it takes to count. */
const strong = (...times: readonly number[]) => times.map((at) => ({ at, strength: 10 }));
const near = (t: number, at: number): boolean => t >= at && t < at + 0.05;

describe("decideOnsets()", () => {
  test("keeps every onset where nothing covers the player", () => {
    const onsets = strong(0.5, 1.5);
    expect(
      decideOnsets(
        onsets,
        frames(
          () => 1,
          () => 0,
        ),
      ),
    ).toEqual({ onsets, undecidable: [] });
  });

  test("leaves out onsets weaker than what the backing leaves, and tells of those a player could have made", () => {
    const strength = (t: number): number =>
      near(t, 2) ? 0.2 : near(t, 3) ? 0.001 : near(t, 1) || near(t, 0.5) ? 1 : 0;
    const found = decideOnsets(
      strong(0.5, 1, 2, 3),
      frames(strength, (t) => (t > 1.5 ? 0.25 : 0)),
    );
    expect(found.onsets).toEqual(strong(0.5, 1));
    expect(found.undecidable).toHaveLength(1);
    expect(found.undecidable[0]!.from).toBe(2);
  });

  test("tells stretches in which a usual note would be hidden, as one when they are near", () => {
    const cover = (t: number): number => (near(t, 2) || near(t, 2.1) || near(t, 3.5) ? 2 : 0);
    const { onsets, undecidable } = decideOnsets(
      strong(1),
      frames(() => 1, cover),
    );
    expect(onsets).toHaveLength(1);
    expect(undecidable.map(({ from }) => Math.round(100 * from) / 100)).toEqual([2, 3.5]);
  });

  test("leaves out weak onsets a little above what the backing leaves, and tells of those further above, but of no strong ones", () => {
    const weak = [0.5, 1, 1.5].map((at) => ({ at, strength: 1.2 }));
    const cover = (t: number): number => (near(t, 0.5) ? 0.3 : near(t, 1) ? 0.03 : near(t, 2) ? 0.3 : 0);
    const onsets = [...weak, ...strong(2, 3)];
    const found = decideOnsets(
      onsets,
      frames(() => 1, cover),
    );
    expect(found.onsets).toEqual(onsets.slice(1));
    // The first is left out, and told of as it is as strong as the others; the second is kept.
    expect(found.undecidable.map(({ from }) => from)).toEqual([0.5, 1]);
  });

  test("tells nothing when nothing was heard", () => {
    expect(
      decideOnsets(
        [],
        frames(
          () => 0,
          () => 1,
        ),
      ),
    ).toEqual({ onsets: [], undecidable: [] });
  });
});
