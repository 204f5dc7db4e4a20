import { describe, expect, test } from "vitest";
import { FAULTLESS } from "../grades.js";
import { phaseCorrection } from "../laws/index.js";
import { materials } from "../materials.js";
import { perform } from "../perform.js";
import type { Habit } from "../plan.js";
import { landingAlone, landingLeftOut, landingMoved } from "./landings.js";

const RUNGS = materials();

/** A faultless player with one habit, and how far off each of his notes is, milliseconds. */
function played(rung: (typeof RUNGS)[number], habit: Habit) {
  const performance = perform(rung.score, { law: phaseCorrection, temper: FAULTLESS, habits: [habit] }, [
    "exact",
    rung.name,
  ]);
  const off = Array.from(performance.sounded, (at, note) => 1000 * (at - rung.score.expected[note]!.at));
  return { ...performance, off };
}

describe.each(RUNGS)("landings on $name", (rung) => {
  test("alone: that note is off, every other is in time, and nothing drifts", () => {
    const { off, truths, stage } = played(rung, landingAlone("every", -250));
    const landings = stage.silences.map(({ landing }) => landing);
    for (const [note, ms] of off.entries()) expect(ms).toBeCloseTo(landings.includes(note) ? -250 : 0, 6);
    for (const { driftMs, landingMs, slipBeats } of truths) {
      expect([driftMs, slipBeats]).toEqual([0, 0]);
      expect(landingMs).toBeCloseTo(-250, 6);
    }
  });

  test("alone, one silence: one note is off", () => {
    const { off, truths } = played(rung, landingAlone("one", 200, 350));
    const away = off.filter((ms) => Math.abs(ms) > 1e-6);
    expect(away).toHaveLength(1);
    expect(away[0]).toBeGreaterThanOrEqual(200);
    expect(away[0]).toBeLessThanOrEqual(350);
    expect(truths.filter(({ landingMs }) => Math.abs(landingMs!) > 1e-6)).toHaveLength(1);
  });

  test("moved: the landing is off, the notes after it ever less, and those before it not at all; the pulse is off as well", () => {
    const { off, truths, stage } = played(rung, landingMoved("every", 240, 3));
    stage.silences.forEach(({ landing, to }, index) => {
      const landed = stage.at[to]!;
      const { expected } = rung.score;
      // A landing note after the return is struck when part of it has been taken back.
      const due = 240 * (1 - (expected[landing]!.at - landed) / (3 * stage.beat));
      expect(off[landing]).toBeCloseTo(due, 6);
      expect(off[landing - 1]).toBeCloseTo(0, 6);
      expect(truths[index]!.driftMs).toBeCloseTo(240, 6);
      expect(truths[index]!.landingMs).toBeCloseTo(due, 6);
      const next = stage.silences[index + 1];
      expected.forEach(({ at }, note) => {
        const beats = (at - landed) / stage.beat;
        if (beats >= 3 && (next === undefined || note < next.landing)) expect(off[note]).toBeCloseTo(0, 6);
      });
    });
  });

  test("moved early: notes sound in the order of the score, and what had no time before the landing is left out", () => {
    const { sounded, truths, stage } = played(rung, landingMoved("every", -250, 3));
    const heard = [...sounded.filter((at) => !Number.isNaN(at))];
    expect(heard).toEqual([...heard].sort((a, b) => a - b));
    const due = stage.silences.flatMap(({ to }) =>
      rung.score.expected.filter(({ at }) => at < stage.at[to]! - 1e-6 && at >= stage.at[to]! - 0.25 - 1e-6),
    );
    expect(sounded.length - heard.length).toBe(due.length);
    for (const { landingPlayed, driftMs } of truths) expect([landingPlayed, Math.round(driftMs)]).toEqual([true, -250]);
  });

  test("left out: nothing sounds from the return to the second beat, everything else does, in time", () => {
    const { off, truths, stage } = played(rung, landingLeftOut("every"));
    const silentNotes = [...off.keys()].filter((note) => Number.isNaN(off[note]!));
    for (const { landingPlayed, driftMs } of truths) expect([landingPlayed, driftMs]).toEqual([false, 0]);
    const wanted = stage.silences.flatMap(({ to, landing }) =>
      [...off.keys()].filter((note) => {
        const beats = (rung.score.expected[note]!.at - stage.at[to]!) / stage.beat;
        return note === landing || (beats > -1e-6 && beats < 1 - 1e-6);
      }),
    );
    expect(silentNotes).toEqual(wanted);
  });
});
