import { describe, expect, test } from "vitest";
import { random } from "../../lib/base/index.js";
import type { PlayedOnset, Score, Take } from "../../lib/schema/index.js";
import { assess } from "../../lib/take/index.js";
import { improvised } from "../reference/players/improvised.js";
import { phaseCorrection } from "../reference/players/laws/index.js";
import { luckOf } from "../reference/players/luck.js";
import { materials, openMaterial } from "../reference/players/materials.js";
import { perform } from "../reference/players/perform.js";
import { openScore } from "./openTakes.js";

/** Eighths with two bars of four open, where the material before has one: an even line is like itself half a beat later. */
function twoOpenBars(): Score {
  const score = openScore("even", 3);
  const early = ({ from, to }: { from: number; to: number }): number => from - (to - from);
  const open = score.open.map((each) => ({ ...each, from: early(each), grid: undefined! }));
  const isOpen = (at: number): boolean => open.some(({ from, to }) => at >= from - 1e-6 && at < to - 1e-6);
  return {
    ...score,
    expected: score.expected.filter(({ at }) => !isOpen(at)),
    dropouts: score.dropouts.map((each) => ({ ...each, from: early(each) })),
    audible: score.audible.flatMap(({ from, to }) => {
      const next = open.find((each) => each.from > from - 1e-6 && each.from < to - 1e-6);
      return [{ from, to: next?.from ?? to }];
    }),
    open: open.map(({ grid: _, ...each }) => each),
  };
}

interface Improviser {
  /** Share of the beat by which each of the player's own beats is longer. */
  readonly slower: number;
  /** Seconds of the hand and, each beat, of the clock. */
  readonly noise: readonly [hand: number, clock: number];
  /** Beats between two notes of the open bars. */
  readonly every: number;
}

/** A take by a law of its own: at another tempo in open bars, back on the beat with the band, half of what was off taken back in each beat. */
function improvisedTake(score: Score, { slower, noise, every }: Improviser, seed: string): Take {
  const chance = random(seed);
  const isOpen = (at: number): boolean => score.open.some(({ from, to }) => at >= from - 1e-6 && at < to - 1e-6);
  const own = score.open.flatMap(({ from, to }) =>
    Array.from({ length: Math.round((to - from) / (every * score.beat)) }, (_, k) => from + k * every * score.beat),
  );
  const meant = [...score.expected.map(({ at }) => at), ...own].sort((a, b) => a - b);
  let late = 0;
  const onsets = meant.map((at, k): PlayedOnset => {
    const since = k === 0 ? 0 : at - meant[k - 1]!;
    const wasOpen = k > 0 && isOpen(meant[k - 1]!);
    late += noise[1] * Math.sqrt(since / score.beat) * chance.normal() + (wasOpen ? slower * since : 0);
    if (!isOpen(at)) late *= wasOpen ? 0.05 : 0.5 ** (since / score.beat);
    return { at: at - 0.02 + late + noise[0] * chance.normal() };
  });
  return { zero: "bar-1", onsets: onsets.sort((a, b) => a.at - b.at) };
}

const GRADES = { seasoned: [0.008, 0.006], able: [0.012, 0.01], novice: [0.02, 0.016] } as const;
const codesOf = (score: Score, take: Take): readonly string[] => assess(score, take).reasons.map(({ code }) => code);

describe("who improvises at a tempo of one's own", () => {
  test.each([
    ["two bars of even eighths", twoOpenBars()],
    ["one bar of even eighths", openScore("even", 4)],
    ["one swung bar", openScore("swung", 4)],
    ["the open bar of a shipped course", openMaterial().score],
  ])("is never told of another start: %s", (_, score) => {
    const told: string[] = [];
    for (const [grade, noise] of Object.entries(GRADES))
      for (const percent of [-12, -10, -8, -5, 0, 5, 8, 10, 12])
        for (const every of [0.5, 1]) {
          const seed = `${grade} ${percent} ${every}`;
          const take = improvisedTake(score, { slower: percent / 100, noise, every }, seed);
          if (codesOf(score, take).includes("STARTS_ELSEWHERE")) told.push(seed);
        }
    expect(told).toEqual([]);
  });

  test("is told of a start a bar later than the take says, which the bars with the band show", () => {
    for (const [grade, noise] of Object.entries(GRADES)) {
      const { score } = openMaterial();
      const take = improvisedTake(score, { slower: -0.05, noise, every: 0.5 }, grade);
      const late = take.onsets.map((onset) => ({ at: (onset as { at: number }).at + 4 * score.beat }));
      expect(codesOf(score, { ...take, onsets: late })).toContain("STARTS_ELSEWHERE");
    }
  });
});

describe("a whole take that begins elsewhere than it says", () => {
  const able = { law: phaseCorrection, temper: "able" } as const;
  /** Takes that begin so much later, seconds, by the notes alone; `latencyMs` where a latency is told. */
  const findings = (score: Score, delay: number, latencyMs?: number) =>
    [1, 2, 3].map((take) => {
      const address = ["elsewhere", score.drill, take];
      const meant = score.open.length > 0 ? improvised(score, luckOf(...address)) : score;
      const played = perform(meant, { ...able, recording: { delay } }, address).take;
      return assess(score, latencyMs === undefined ? played : { ...played, latencyMs });
    });

  test.each([0.5, -0.5, 1, -1])("by %d beats is told so where there are open bars, and not judged", (beats) => {
    for (const score of [openMaterial().score, openScore("swung", 4)])
      for (const { verdict, reasons, dropouts } of findings(score, beats * score.beat)) {
        expect(verdict).toBe("unclear");
        expect(dropouts.map((each) => each.verdict)).not.toContain("within");
        expect(reasons.length).toBeGreaterThan(0);
      }
  });

  test("by a beat is told so where every note is written, whatever the rhythm shows", () => {
    // A beat of fewer than 500 ms may be a latency; an even line a beat later is nearly itself.
    const found = materials()
      .filter(({ score: { beat } }) => beat > 0.53)
      .flatMap(({ name, score }) => findings(score, score.beat).map(({ verdict }) => `${name}: ${verdict}`));
    // 9 of 66 before; two takes of the even line of sevens are left.
    expect(found.filter((each) => !each.endsWith("unclear")).length, found.join()).toBeLessThanOrEqual(2);
  });

  test("by less than that is a latency, unless one was told", () => {
    const { score } = materials().find(({ name }) => name === "quarters, 2 bars")!;
    const codes = (latencyMs?: number): string[] =>
      findings(score, 0.3, latencyMs).flatMap(({ reasons }) => reasons.map(({ code }) => code));
    expect(codes()).not.toContain("STARTS_ELSEWHERE");
    expect(codes(300)).not.toContain("STARTS_ELSEWHERE");
    expect(codes(20).filter((code) => code === "STARTS_ELSEWHERE")).toHaveLength(3);
  });
});
