import { describe, expect, test } from "vitest";
import { findRung, otherScores } from "../../lib/drill/index.js";
import type { Finding, Score, Take } from "../../lib/schema/index.js";
import { assess, traceTake } from "../../lib/take/index.js";
import { misses } from "../reference/players/habits/accidents.js";
import { phaseCorrection, wanderingTempo } from "../reference/players/laws/index.js";
import { type Material, materials } from "../reference/players/materials.js";
import { perform, withoutPitch } from "../reference/players/perform.js";
import { must } from "../time/shorthand.js";
import { plainScore, takeOf, timesOf } from "./scores.js";

const MATERIALS = materials();

/** The take as a recording has it that loses or gains some time at one moment; what sounds while it loses is not heard. */
function interrupted(take: Take, at: number, ms: number): Take {
  const moved = take.onsets.flatMap((onset) => {
    const each = typeof onset === "number" ? { at: onset } : onset;
    if (each.at > at && each.at <= at - ms / 1000) return [];
    return [{ ...each, at: each.at > at ? each.at + ms / 1000 : each.at }];
  });
  return { ...take, onsets: moved };
}

/** Half-way through what is accompanied before a silence. */
function middleOf({ dropouts }: Score, silence: number): number {
  const from = silence === 0 ? 0 : dropouts[silence - 1]!.to;
  return (from + dropouts[silence]!.from) / 2;
}

function assessAmong({ score, curriculum }: Material, take: Take): Finding {
  const drill = curriculum.drills.find(({ name }) => name === score.drill)!;
  return assess(score, take, { others: otherScores(must(findRung(drill, score.rung)), curriculum.drills) });
}

describe("a take that moves once while accompanied, and stays so", () => {
  test.each([100, -100, 180, -250])("by %i ms: nearly all are told so, with the size, and unclear", (ms) => {
    let [takes, told, right, elsewhere] = [0, 0, 0, 0];
    for (const material of MATERIALS) {
      const { name, score } = material;
      score.dropouts.forEach((_, silence) => {
        const { take } = perform(score, { law: phaseCorrection, temper: "seasoned" }, ["moves once", name, silence]);
        const whole = silence % 2 === 0 ? take : withoutPitch(take);
        const { reasons, verdict, sentence } = assessAmong(material, interrupted(whole, middleOf(score, silence), ms));
        takes++;
        const found = reasons.find(({ dropout }) => dropout === undefined);
        if (found?.code === "MOVED_ONCE") {
          told++;
          expect([verdict, sentence]).toEqual(["unclear", found.says]);
          expect(reasons.filter(({ code }) => code === "SLIPPED" || code === "STILL_AWAY")).toEqual([]);
          const [, size, side] = /everything comes (\d+) ms (earlier|later) than before, and stays so/.exec(sentence)!;
          // A seasoned player wanders by 20 ms or so himself.
          if (Math.abs(Number(size) * (side === "later" ? 1 : -1) - ms) < 50) right++;
        } else if (found !== undefined) elsewhere++;
      });
    }
    expect(told / takes).toBeGreaterThan(0.85);
    // In an even line without pitches a step by another note's place is the same but for the ends.
    expect(right / told).toBeGreaterThan(0.95);
    expect(elsewhere / takes).toBeLessThan(0.05);
  });

  test("by an exact player it is told to the millisecond, with the bar, what it may be and what to do", () => {
    const score = plainScore({ perBeat: 2 });
    const late = takeOf(score, (at) => (at < 10 ? at : at + 0.1));
    expect(assess(score, late).sentence).toBe(
      "From bar 6 on everything comes 100 ms later than before, and stays so: it looks as if the sound was interrupted. Record the take again.",
    );
    expect(
      assess(
        score,
        takeOf(score, (at) => (at < 10 ? at : at - 0.1)),
      ).sentence,
    ).toMatch(/^From bar 6 on everything comes 100 ms earlier /);
  });

  test("the figures of the silences are those of a take without the step, and the trace shows it", () => {
    const score = plainScore({ perBeat: 2 });
    const { dropouts, pairs, offsetMs } = assess(
      score,
      takeOf(score, (at) => (at < 10 ? at : at + 0.1)),
    );
    for (const { driftMs, verdict } of dropouts) {
      expect(Math.abs(driftMs as number)).toBeLessThan(2);
      expect(verdict).toBe("unclear");
    }
    expect(pairs).toHaveLength(score.expected.length);
    expect(Math.abs(offsetMs as number)).toBeLessThan(2);
    const trace = traceTake(
      score,
      takeOf(score, (at) => (at < 10 ? at : at + 0.1)),
    );
    for (const { at, asynchronyMs } of trace) expect(Math.abs(asynchronyMs - (at < 10 ? 0 : 100))).toBeLessThan(5);
  });

  test("players who keep their place are not suspected, however they wander, drift, slip back or leave notes out", () => {
    for (const law of [phaseCorrection, wanderingTempo])
      for (const { name, score } of MATERIALS)
        for (const temper of ["seasoned", "novice"] as const) {
          const { take } = perform(score, { law, temper, habits: [misses(5)] }, ["keeps", name]);
          expect(assess(score, take).reasons.map(({ code }) => code)).not.toContain("MOVED_ONCE");
        }
  });

  test("a step in a silence is a matter of the silence", () => {
    const score = plainScore({ perBeat: 2 });
    const { from, to } = score.dropouts[1]!;
    const inside = timesOf(takeOf(score)).map((at) => (at <= (from + to) / 2 ? at : at + 0.1));
    const { reasons } = assess(score, { onsets: inside, zero: "bar-1" });
    expect(reasons.map(({ code }) => code)).not.toContain("MOVED_ONCE");
  });
});
