import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { rungs, settingsText } from "../../../lib/drill/index.js";
import { changeEdition, decide } from "../../../lib/progress/index.js";
import type { JournalEvent } from "../../../lib/schema/index.js";
import { sample } from "../../samples.js";
import { at, courseOf, type DrillSketch, findingOf, timeOf } from "../course.js";
import { EDITIONS, type Happening, happening, historyOf } from "../history.js";
import { beginLessons, playRow } from "../lessons.js";

const steady: DrillSketch = { name: "steady", tempi: [80, 4, 4], gate: { kind: "clean of last", clean: 4, of: 4 } };
const course = courseOf([steady]);

/** Where decisions put the student; the edition and the list of events are no places. */
const moves = (events: readonly JournalEvent[]): readonly string[] =>
  events.map(({ kind }) => kind).filter((kind) => !["take assessed", "drill opened"].includes(kind));

describe("a take that is handed in again moves nobody", () => {
  test("by the relaxed gate of a later edition", () => {
    const lessons = beginLessons(course);
    playRow(lessons, course, { drill: "steady", takes: "ww" });
    const relaxed = courseOf([{ ...steady, gate: { kind: "in a row", count: 2 } }], { edition: "1.1.0" });
    const again = findingOf("t2", "steady", at(80), "within");
    expect(decide(relaxed, lessons.standing, again, timeOf(900))).toMatchObject({ what: "hold", events: [] });
    const over = changeEdition(relaxed, lessons.standing, { at: timeOf(800), before: course });
    expect(decide(relaxed, over.standing, again, timeOf(900))).toMatchObject({ what: "hold", events: [] });
  });

  test("by a lower rung that a later edition adds", () => {
    const back: DrillSketch = { ...steady, goBack: { after: 2, by: 1 } };
    const lessons = beginLessons(courseOf([back]));
    playRow(lessons, courseOf([back]), { drill: "steady", takes: "bb" });
    const lower = courseOf([{ ...back, tempi: [76, 4, 5] }], { edition: "1.1.0" });
    const again = findingOf("t2", "steady", at(80), "beyond");
    expect(decide(lower, lessons.standing, again, timeOf(900))).toMatchObject({ what: "hold", events: [] });
    const over = changeEdition(lower, lessons.standing, { at: timeOf(800), before: courseOf([back]) });
    expect(decide(lower, over.standing, again, timeOf(900))).toMatchObject({ what: "hold", events: [] });
  });

  test("in any edition, after any history on one device, whatever its finding says now", () => {
    const lessons = fc.array(happening, { minLength: 20, maxLength: 80 }).map((all: readonly Happening[]) => ({
      ...historyOf(all.filter(({ what }) => what !== "other device")),
    }));
    fc.assert(
      fc.property(lessons, fc.nat(), fc.nat(), happening, ({ journal, standing }, pick, next, { verdict, level }) => {
        const takes = journal.filter((event) => event.kind === "take assessed");
        fc.pre(takes.length > 0);
        const { take, drill } = takes[pick % takes.length]!;
        const edition = EDITIONS[next % EDITIONS.length]!;
        const now = edition.drills.find(({ name }) => name === drill) ?? edition.drills[0]!;
        const rung = settingsText(rungs(now).at(level % rungs(now).count).settings);
        const again = decide(edition, standing, findingOf(take, now.name, rung, verdict), timeOf(1e6));
        expect(again.known).toBe(true);
        expect(moves(again.events)).toEqual([]);
        if (edition.edition !== standing.edition) expect(again.events).toEqual([]);
      }),
      { numRuns: sample({ suite: 300, proof: 20_000 }) },
    );
  });
});
