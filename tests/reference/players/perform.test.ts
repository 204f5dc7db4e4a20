import { describe, expect, test } from "vitest";
import { FAULTLESS } from "./grades.js";
import { adds, misses } from "./habits/accidents.js";
import { landingAlone } from "./habits/landings.js";
import { phaseCorrection } from "./laws/index.js";
import { materials, openMaterial } from "./materials.js";
import { perform, withoutPitch } from "./perform.js";

const RUNGS = [...materials(), openMaterial()];

describe("a take of a simulated player", () => {
  test.each(RUNGS)(
    "of a faultless one has every note where it is written, and nothing truly off: $name",
    ({ score }) => {
      const { take, truths } = perform(score, { law: phaseCorrection, temper: FAULTLESS }, ["exact"]);
      expect(take.onsets.map((onset) => (onset as { at: number }).at)).toEqual(score.expected.map(({ at }) => at));
      expect(truths).toHaveLength(score.dropouts.length);
      for (const truth of truths)
        expect(truth).toEqual({ driftMs: 0, landingMs: 0, landingPlayed: true, slipBeats: 0, aloneMs: 0 });
    },
  );

  test("is the same for the same address and another for another", () => {
    const { score } = RUNGS[0]!;
    const played = (...address: string[]): string =>
      JSON.stringify(perform(score, { law: phaseCorrection, temper: "able" }, address));
    expect(played("tern", "1")).toBe(played("tern", "1"));
    expect(played("tern", "1")).not.toBe(played("tern", "2"));
    expect(played("tern", "11")).not.toBe(played("tern1", "1"));
  });

  test("keeps its timing when a habit is taken up: the notes both takes have sound at the same times", () => {
    const { score } = RUNGS[1]!;
    const [plain, careless] = [[], [misses(10), adds(10)]].map((habits) =>
      perform(score, { law: phaseCorrection, temper: "novice", habits }, ["tern", 3]),
    );
    const both = [...careless!.sounded.keys()].filter((note) => !Number.isNaN(careless!.sounded[note]!));
    expect(both.length).toBeLessThan(score.expected.length);
    for (const note of both) expect(careless!.sounded[note]).toBe(plain!.sounded[note]);
    expect(careless!.truths.map(({ driftMs }) => driftMs)).toEqual(plain!.truths.map(({ driftMs }) => driftMs));
  });

  test("does not count the recording in the truth: a delay and a fast clock move the onsets alone", () => {
    const { score } = RUNGS[0]!;
    const exact = { law: phaseCorrection, temper: FAULTLESS, recording: { delay: 0.3, skew: 2e-4 } };
    const { take, truths, usual } = perform(score, exact, ["exact"]);
    expect(usual).toBe(0.3);
    take.onsets.forEach((onset, note) => {
      expect((onset as { at: number }).at).toBeCloseTo(1.0002 * (score.expected[note]!.at + 0.3), 12);
    });
    for (const { driftMs, landingMs } of truths) expect([driftMs, landingMs]).toEqual([0, 0]);
  });

  test("truly lands where its landing note sounded, the usual place taken off, with every error there is", () => {
    for (const { score } of RUNGS) {
      const player = { law: phaseCorrection, temper: "novice", habits: [landingAlone("every", 200, 350)] } as const;
      const { truths, stage, sounded, usual } = perform(score, player, ["tern", score.drill, 1]);
      stage.silences.forEach(({ landing }, index) => {
        const off = 1000 * (sounded[landing]! - usual - score.expected[landing]!.at);
        expect(truths[index]!.landingMs).toBeCloseTo(off, 8);
      });
    }
  });

  test("has the same times without pitches", () => {
    const { take } = perform(RUNGS[2]!.score, { law: phaseCorrection, temper: "able" }, ["tern"]);
    expect(withoutPitch(take).onsets).toEqual(take.onsets.map((onset) => (onset as { at: number }).at));
  });
});
