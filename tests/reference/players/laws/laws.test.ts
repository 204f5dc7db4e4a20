import { variance } from "simple-statistics";
import { describe, expect, test } from "vitest";
import { FAULTLESS } from "../grades.js";
import { luckOf, normals } from "../luck.js";
import { materials } from "../materials.js";
import { perform } from "../perform.js";
import { stageOf } from "../stage.js";
import {
  accelerating,
  heldOut,
  lurch,
  oscillator,
  periodCorrection,
  phaseCorrection,
  turning,
  wanderingTempo,
  wobble,
} from "./index.js";

const LAWS = [
  phaseCorrection,
  periodCorrection,
  wanderingTempo,
  oscillator,
  wobble,
  accelerating,
  lurch,
  turning,
  heldOut,
];
const RUNGS = materials();
/** No clock and no hand: what the pulse does can be read off the onsets. */
const DRIFTING = { ...FAULTLESS, bias: 0.02 };
const SAME = 1e-6;

describe.each(LAWS)("$name", (law) => {
  test("claims the drift that its onsets show, where notes stand at both ends of a silence", () => {
    let shown = 0;
    for (const { score } of RUNGS) {
      const { truths, sounded, usual } = perform(score, { law, temper: DRIFTING }, ["tern", score.drill, 1]);
      const off = (time: number): number | undefined => {
        const note = score.expected.findIndex(({ at }) => Math.abs(at - time) < SAME);
        return note < 0 ? undefined : 1000 * (sounded[note]! - usual - score.expected[note]!.at);
      };
      score.dropouts.forEach(({ from, to }, index) => {
        const [start, end] = [off(from), off(to)];
        if (start === undefined || end === undefined) return;
        shown++;
        expect(truths[index]!.driftMs).toBeCloseTo(end - start, 6);
      });
    }
    expect(shown).toBeGreaterThan(20);
  });

  test("keeps a player with the band while it sounds: before the last silence no note is off by a quarter of a beat", () => {
    for (const { score } of RUNGS) {
      const last = score.expected.findLastIndex(({ at }) => at < score.dropouts.at(-1)!.from - SAME);
      for (let take = 0; take < 8; take++) {
        const { sounded, usual, stage } = perform(score, { law, temper: "able" }, ["tern", score.drill, take]);
        expect(Math.abs(sounded[last]! - usual - score.expected[last]!.at)).toBeLessThan(stage.beat / 4);
      }
    }
  });

  test("drifts more in the silences of a novice than of a seasoned player", () => {
    const deviation = (temper: "seasoned" | "novice"): number =>
      variance(
        RUNGS.flatMap(({ score }) =>
          Array.from({ length: 10 }, (_, take) =>
            perform(score, { law, temper }, ["tern", score.drill, take]).truths.map(({ driftMs }) => driftMs),
          ).flat(),
        ),
      );
    expect(deviation("novice")).toBeGreaterThan(2 * deviation("seasoned"));
  });
});

test("first-order correction settles at the variance of the pulse (clock² + α² hand²) / (α (2 - α))", () => {
  // Vorberg & Schulze 2002, from memory; in our tests of the method computed another way. Quarter notes fall on every beat but one of a phrase's sixteen
  // (the last rest), so the rung is given a note on each.
  const { score } = RUNGS[0]!;
  const everyBeat = score.bars.flatMap(({ at, bar }) =>
    [0, 1, 2, 3].map((beat) => ({ position: "0", at: at + beat * score.beat, part: "lead", bar })),
  );
  const heard = {
    ...score,
    expected: everyBeat.filter(({ at }) => at < score.duration - SAME),
    dropouts: [],
    audible: [{ from: -score.countIn, to: score.duration }],
  };
  const stage = stageOf(heard);
  const temper = { hand: 0.012, clock: 0.01, bias: 0 };
  const share = 0.4;
  const pulses = Array.from({ length: 1500 }, (_, take) => {
    const luck = luckOf("settled", take);
    const { late } = phaseCorrection.play(stage, temper, {
      draws: (purpose, count) => normals(luck, purpose, count),
      traits: () => 0.5,
    });
    return [20, 35, 50].map((note) => late[stage.note[note]!]!);
  }).flat();
  const wanted = (temper.clock ** 2 + share ** 2 * temper.hand ** 2) / (share * (2 - share));
  // 4500 values, of which three of a take are all but independent: the variance's own standard error is √(2 / 4500), taken four times.
  expect(Math.abs(variance(pulses) / wanted - 1)).toBeLessThan(4 * Math.sqrt(2 / 4500));
});
