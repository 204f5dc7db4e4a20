import { describe, expect, test } from "vitest";
import { handOf } from "./laws/hand.js";
import { heldOut } from "./laws/heldOut.js";
import { type Law, phaseCorrection, wanderingTempo } from "./laws/index.js";
import { luckOf } from "./luck.js";
import { materials } from "./materials.js";
import { oracleOf } from "./oracle.js";
import { perform, temperOf, traitsOf } from "./perform.js";
import { stageOf } from "./stage.js";

const { score } = materials()[2]!;
const stage = stageOf(score);
const temper = { hand: 0.012, clock: 0, bias: 0.01 };

/** Nothing but a tempo of its own in each silence, forgotten at its end. */
const tempoAlone: Law = {
  name: "a tempo in each silence",
  linearWithin: Infinity,
  play(on, { bias, ...rest }, { draws }) {
    const tempo = draws("tempo", on.silences.length);
    const late = Float64Array.from(on.at, (at, place) => {
      const index = on.silences.findIndex(({ from, to }) => place > from && place <= to);
      return index < 0 ? 0 : bias * tempo[index]! * (at - on.at[on.silences[index]!.from]!);
    });
    return { late, hand: handOf(on, { bias, ...rest }, draws) };
  },
};

describe("the best estimate of drift", () => {
  test("of a tempo of its own is regression through the start with a prior: Σ x y / (Σ x² + hand² / bias²)", () => {
    const luck = luckOf("ridge");
    const late = Float64Array.from(score.expected, () => 0.02 * luck("any numbers").normal());
    const stream = luck("numbers");
    late.forEach((_, note) => {
      late[note] = note % 7 === 3 ? Number.NaN : 0.02 * stream.normal();
    });
    const found = oracleOf(tempoAlone, stage, { temper, traits: () => 0.5 }).drifts(late);
    stage.silences.forEach(({ from, to, length }, index) => {
      const notes = [...stage.note.keys()].filter(
        (note) => stage.note[note]! > from && stage.note[note]! <= to && !Number.isNaN(late[note]!),
      );
      const x = notes.map((note) => score.expected[note]!.at - stage.at[from]!);
      const xy = notes.reduce((sum, note, k) => sum + x[k]! * late[note]!, 0);
      const xx = x.reduce((sum, each) => sum + each * each, 0);
      const slope = xy / (xx + (temper.hand / temper.bias) ** 2);
      expect(found[index]).toBeCloseTo(1000 * slope * length, 5);
    });
  });

  test.each([phaseCorrection, wanderingTempo])(
    "is right on average and errs less than the plain difference of two notes: $name",
    (law) => {
      const able = temperOf({ law, temper: "able" });
      const errors = Array.from({ length: 60 }, (_, take) => {
        const address = ["oracle", law.name, take];
        const { sounded, usual, truths } = perform(score, { law, temper: "able" }, address);
        const late = sounded.map((at, note) => at - score.expected[note]!.at - usual);
        const best = oracleOf(law, stage, { temper: able, traits: traitsOf(luckOf(...address)) }).drifts(late);
        return stage.silences.map(({ from, landing }, index) => {
          const before = stage.note.findLastIndex((place) => place < from);
          const plain = 1000 * (late[landing]! - late[before]!);
          return { best: best[index]! - truths[index]!.driftMs, plain: plain - truths[index]!.driftMs };
        });
      }).flat();
      const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;
      const square = mean(errors.map(({ best }) => best ** 2));
      expect(Math.abs(mean(errors.map(({ best }) => best)))).toBeLessThan(4 * Math.sqrt(square / errors.length));
      expect(square).toBeLessThan(0.7 * mean(errors.map(({ plain }) => plain ** 2)));
    },
  );

  test("heavy tails: a note far off counts for less, so the drift moves less than without them", () => {
    const late = new Float64Array(score.expected.length);
    late[stage.silences[1]!.landing] = 0.2;
    const oracle = oracleOf(tempoAlone, stage, { temper, traits: () => 0.5 });
    const [normal, heavy] = [oracle.drifts(late), oracle.drifts(late, 3)];
    expect(Math.abs(heavy[1]!)).toBeLessThan(0.3 * Math.abs(normal[1]!));
    expect(normal[0]).toBeCloseTo(0, 6);
  });

  test("is refused for a law it cannot be computed for", () => {
    expect(() => oracleOf(heldOut, stage, { temper, traits: () => 0.5 })).toThrow(RangeError);
  });
});
