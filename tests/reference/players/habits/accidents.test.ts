import { expect, test } from "vitest";
import { FAULTLESS } from "../grades.js";
import { phaseCorrection } from "../laws/index.js";
import { materials } from "../materials.js";
import { type Performance, perform } from "../perform.js";
import type { Habit } from "../plan.js";
import { adds, misses } from "./accidents.js";
import { doubledNotes, fills, graceNotes } from "./ornaments.js";
import { playsSome, reactsToReturn, restsInSilences, stopsHalfWay } from "./silences.js";
import { otherSwing } from "./swing.js";
import { randomPitches } from "./wrongNotes.js";

const RUNGS = materials();
const TAKES = 20;

function playedBy(habit: Habit): readonly (Performance & { readonly notes: number })[] {
  return RUNGS.flatMap(({ score, name }) =>
    Array.from({ length: TAKES }, (_, take) => ({
      ...perform(score, { law: phaseCorrection, temper: FAULTLESS, habits: [habit] }, ["exact", name, take]),
      notes: score.expected.length,
    })),
  );
}

/** Share of all notes; its standard error is at most √(p (1 - p) / notes), taken four times. */
function expectShare(found: number, of: number, wanted: number): void {
  expect(Math.abs(found / of - wanted)).toBeLessThan(4 * Math.sqrt((wanted * (1 - wanted)) / of));
}

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);
const leftOut = ({ sounded }: Performance): number => sounded.filter(Number.isNaN).length;

test.each([1, 3, 10, 30])("%i %% missed leaves out that share", (percent) => {
  const takes = playedBy(misses(percent));
  expectShare(sum(takes.map(leftOut)), sum(takes.map(({ notes }) => notes)), percent / 100);
});

test.each([1, 3, 10, 30])("%i %% added adds that share", (percent) => {
  const takes = playedBy(adds(percent));
  const added = sum(takes.map(({ take, notes }) => take.onsets.length - notes));
  expectShare(added, sum(takes.map(({ notes }) => notes)), percent / 100);
});

test.each([
  [graceNotes(25), -90, -35],
  [doubledNotes(25), 25, 70],
])("ornaments sound where they are said to, on a quarter of the notes", ({ name, apply }, least, most) => {
  const takes = playedBy({ name, apply });
  const added = takes.flatMap(({ take, sounded }) => {
    const times = new Set(sounded);
    const extra = take.onsets.map((onset) => (onset as { at: number }).at).filter((at) => !times.has(at));
    return extra.map(
      (at) =>
        1000 *
        Math.min(...Array.from(sounded, (note) => (at - note) * Math.sign(least)).filter((gap) => gap > 0)) *
        Math.sign(least),
    );
  });
  expectShare(added.length, sum(takes.map(({ notes }) => notes)), 0.25);
  for (const ms of added) {
    expect(ms).toBeGreaterThanOrEqual(least - 1e-6);
    expect(ms).toBeLessThanOrEqual(most + 1e-6);
  }
});

test("fills sound half-way between notes", () => {
  for (const { take, sounded } of playedBy(fills(30)).slice(0, 40)) {
    const times = new Set(sounded);
    const middles = Array.from(sounded)
      .slice(1)
      .map((at, i) => (at + sounded[i]!) / 2);
    const extra = take.onsets
      .map((onset) => (onset as { at: number }).at)
      .filter((at) => !times.has(at) && at < sounded.at(-1)!);
    for (const at of extra) expect(Math.min(...middles.map((middle) => Math.abs(middle - at)))).toBeLessThan(1e-9);
  }
});

test("who rests through silences plays nothing in them and every landing", () => {
  for (const { sounded, stage, truths } of playedBy(restsInSilences)) {
    stage.silences.forEach(({ from, to }, index) => {
      expect(truths[index]!.landingPlayed).toBe(true);
      stage.note.forEach((place, note) => {
        if (place >= from && place < to) expect(sounded[note]).toBeNaN();
      });
    });
  }
});

test.each([
  [1, 5],
  [1, 4],
  [1, 2],
  [3, 4],
])("who plays %i of %i notes in each silence does so", (plays, of) => {
  for (const { sounded, stage } of playedBy(playsSome(plays, of))) {
    for (const { from, to } of stage.silences) {
      const notes = [...stage.note.keys()].filter((note) => stage.note[note]! >= from && stage.note[note]! < to);
      const rest = notes.length % of;
      const wanted = plays * Math.floor(notes.length / of) + Math.ceil((plays * rest) / of);
      expect(notes.filter((note) => !Number.isNaN(sounded[note]!))).toHaveLength(wanted);
    }
    expect(
      [...stage.note.keys()].filter((note) => stage.silent[stage.note[note]!] === -1 && Number.isNaN(sounded[note]!)),
    ).toEqual([]);
  }
});

test("who reacts lands 190 ms late, out of nothing; who stops half-way plays nothing from there to a beat after the return", () => {
  for (const { truths } of playedBy(reactsToReturn).slice(0, 60))
    for (const { landingMs, driftMs } of truths) expect([Math.round(landingMs!), driftMs]).toEqual([190, 0]);
  for (const { sounded, stage, truths } of playedBy(stopsHalfWay).slice(0, 60)) {
    stage.silences.forEach(({ from, to }, index) => {
      expect(truths[index]!.landingPlayed).toBe(false);
      const middle = (stage.at[from]! + stage.at[to]!) / 2;
      stage.note.forEach((place, note) => {
        const at = stage.at[place]!;
        if (at > middle + 1e-6 && at < stage.at[to]! + stage.beat - 1e-6) expect(sounded[note]).toBeNaN();
        if (at >= stage.at[from]! && at < middle - 1e-6) expect(sounded[note]).toBeCloseTo(at, 6);
      });
    });
  }
});

test("random pitches change no time, and are right no oftener than chance has it", () => {
  for (const { take, sounded } of playedBy(randomPitches).slice(0, 20))
    expect(take.onsets.map((onset) => (onset as { at: number }).at)).toEqual([...sounded]);
});

test("the other swing moves the off-beats by a sixth of a beat and nothing else", () => {
  const straight = RUNGS.find(({ name }) => name === "even eighths, 1 bar")!;
  const swung = RUNGS.find(({ name }) => name === "swung busy, 2 bars")!;
  for (const [{ score }, way] of [
    [straight, 1],
    [swung, -1],
  ] as const) {
    const { sounded, truths } = perform(
      score,
      { law: phaseCorrection, temper: FAULTLESS, habits: [otherSwing("throughout")] },
      ["exact"],
    );
    const sixths = Array.from(sounded, (at, note) => (6 * way * (at - score.expected[note]!.at)) / score.beat);
    for (const each of sixths) expect(Math.min(Math.abs(each), Math.abs(each - 1))).toBeLessThan(1e-6);
    expect(sixths.filter((each) => each > 0.5).length).toBeGreaterThan(score.expected.length / 4);
    for (const { driftMs, landingMs } of truths) expect([driftMs, landingMs]).toEqual([0, 0]);
  }
});
