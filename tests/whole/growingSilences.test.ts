import { readFileSync } from "node:fs";
import midiFile from "midi-file";
import { describe, expect, test } from "vitest";
import { compareEditions } from "../../lib/curriculum/index.js";
import { demandOf } from "../../lib/forecast/index.js";
import { assess, type Curriculum, type Drill, readCurriculum, rungs, scoreOf, settingsText } from "../../lib/index.js";
import { beginJournal, decide } from "../../lib/progress/index.js";
import { midiOf } from "../../lib/render/index.js";
import type { Finding, Score, Take, TakeAssessed } from "../../lib/schema/index.js";
import { must } from "../time/shorthand.js";

const TEXT = readFileSync(new URL("../../curricula/quayside-first-course.yaml", import.meta.url), "utf8");

function courseOf(text: string): Curriculum {
  const read = readCurriculum(text, { file: "course.yaml", readFile: () => undefined });
  if (!read.ok) throw new Error(read.problems.map(({ code, message }) => `${code} ${message}`).join("\n"));
  return read.value;
}

const COURSE = courseOf(TEXT);
const drillOf = (course: Curriculum): Drill => course.drills.find(({ name }) => name === "growing")!;
const DRILL = drillOf(COURSE);
const SCORE = scoreOf(rungs(DRILL).at(2));

/** A take that is exact but for a phase that changes by `drift` milliseconds over each silence of at least `from` seconds, and returns after it. */
function played(score: Score, { drift, from }: { drift: number; from: number }): Take {
  const phase = (at: number): number => {
    const silence = score.dropouts.find((each) => at >= each.from && at <= each.to);
    if (silence === undefined || silence.to - silence.from < from - 1e-6) return 0;
    return ((at - silence.from) / (silence.to - silence.from)) * (drift / 1000);
  };
  return { version: 1, zero: "bar-1", onsets: score.expected.map(({ at }) => ({ at: at + phase(at) })) };
}

const finding = (take: Take, name: string): Finding => ({ ...assess(SCORE, take), take: name });

describe("a workout whose silences grow", () => {
  test.each(Array.from({ length: rungs(DRILL).count }, (_, index) => index))(
    "rung %i: an exact take is within, silence by silence",
    (index) => {
      const score = scoreOf(rungs(DRILL).at(index));
      const { verdict, dropouts } = assess(score, played(score, { drift: 0, from: 0 }));
      expect([verdict, ...new Set(dropouts.map((each) => each.verdict))]).toEqual(["within", "within"]);
      expect(dropouts).toHaveLength(8);
      for (const { driftMs } of dropouts) expect(Math.abs(driftMs as number)).toBeLessThan(1);
    },
  );

  test("who rushes in the longest silences only is told of their length", () => {
    const two = finding(
      played(SCORE, { drift: -700, from: SCORE.dropouts.at(-1)!.to - SCORE.dropouts.at(-1)!.from }),
      "t",
    );
    expect(two.verdict).toBe("beyond");
    expect(two.sentence).toContain("2 bars of silence");
    expect(two.dropouts.slice(0, 6).map(({ verdict }) => verdict)).not.toContain("beyond");
  });

  test("the journal keeps the length of each silence", () => {
    const { standing } = beginJournal(COURSE, "tern", "2026-03-02T17:00:00Z");
    const events = decide(
      COURSE,
      standing,
      finding(played(SCORE, { drift: 0, from: 0 }), "t1"),
      "2026-03-02T17:30:00Z",
    ).events;
    expect((events[0] as TakeAssessed).lengths).toEqual(
      ["1/2 bar", "1 bar", "1 1/2 bars", "2 bars"].flatMap((length) => [length, length]),
    );
    const even = COURSE.drills.find(({ name }) => name === "two-bars")!;
    const score = scoreOf(rungs(even).at(0));
    const take = { ...assess(score, played(score, { drift: 0, from: 0 })), take: "t2" };
    expect(decide(COURSE, standing, take, "2026-03-02T17:30:00Z").events[0]).not.toHaveProperty("lengths");
  });

  test("a forecast sees each length twice, and allows drift by it", () => {
    const { silences } = demandOf(SCORE);
    expect(silences.map(({ count, beats }) => [count, Math.round(beats * 1e6) / 1e6])).toEqual([
      [2, 2],
      [2, 4],
      [2, 6],
      [2, 8],
    ]);
    for (const { limitMs, ms } of silences) expect(limitMs).toBeCloseTo(0.08 * ms, 9);
  });

  test("a MIDI file read by another program has the silences: no note of the band begins in them", () => {
    const { header, tracks } = midiFile.parseMidi(must(midiOf(SCORE)));
    const perWhole = 4 * header.ticksPerBeat!;
    const begins = tracks.slice(2).flatMap((track) => {
      let now = 0;
      return track.flatMap((event) => {
        now += event.deltaTime;
        return event.type === "noteOn" && event.velocity > 0 ? [now / perWhole] : [];
      });
    });
    // The count-in is a bar of 4/4: a whole note.
    const silent = [0.5, 0.5, 1, 1, 1.5, 1.5, 2, 2].map((length, i) => [5 + 4 * i - length, 5 + 4 * i] as const);
    expect(begins.length).toBeGreaterThan(100);
    for (const [from, to] of silent) {
      expect(begins.filter((at) => at > from - 1e-3 && at < to - 1e-3)).toEqual([]);
      expect(begins.some((at) => Math.abs(at - to) < 1e-3)).toBe(true);
    }
  });

  test("credit goes by the range that the settings name: the same range in other words keeps it, another one loses it", () => {
    const edited = (now: string): Curriculum =>
      courseOf(
        TEXT.replace("edition: 1.1.0", "edition: 1.2.0").replace(
          "{ from: 1/2 bar, by: 1/2 bar, each: 2 phrases }",
          now,
        ),
      );
    const lost = (course: Curriculum): number => {
      const change = compareEditions(COURSE, course).drills.find(({ drill }) => drill === "growing");
      return change === undefined ? 0 : change.rungs - change.kept;
    };
    expect(lost(edited('{ from: 2/4 bar, by: 2/4 bar, each: "2" }'))).toBe(0);
    expect(lost(edited("{ from: 1/2 bar, by: 1/2 bar, each: 3 phrases }"))).toBe(9);
    expect(settingsText(rungs(DRILL).at(2).settings)).toBe(
      "dropout=1/2 bar to 2 bars by 1/2 bar each 2 phrases,parts=bass+kit,tempo=76,variant=plain",
    );
  });
});
