import { describe, expect, test } from "vitest";
import {
  changeEdition,
  decide,
  drillStanding,
  effectOfEdition,
  fold,
  placeByTeacher,
  rungStanding,
} from "../../../lib/progress/index.js";
import { at, courseOf, type DrillSketch, findingOf, timeOf } from "../course.js";
import { beginLessons, play, playRow } from "../lessons.js";

const two = { kind: "in a row", count: 2 } as const;
const steady = (...tempi: [number, number, number]): DrillSketch => ({ name: "steady", tempi, gate: two });
const old = courseOf([steady(80, 4, 4), { name: "next", tempi: [60, 5, 2], gate: two, needs: ["steady"] }]);
/** On tempo 88, with credit for 80 and 84. */
const begun = () => {
  const lessons = beginLessons(old);
  playRow(lessons, old, { drill: "steady", takes: "wwww" });
  return lessons;
};
const edition = (drills: readonly DrillSketch[], formerly = {}) => courseOf(drills, { edition: "2.0.0", formerly });

describe("changeEdition()", () => {
  test("refuses another edition than that of the standing as the one before: its rungs have another order", () => {
    const lessons = begun();
    const now = edition([steady(80, 8, 3)]);
    for (const before of [now, { ...old, edition: "0.9.0" }, { ...old, name: "elsewhere" }]) {
      expect(() => changeEdition(now, lessons.standing, { at: timeOf(999), before })).toThrow(RangeError);
      expect(() => effectOfEdition(now, lessons.standing, { at: timeOf(999), before })).toThrow(RangeError);
    }
  });

  test("leaves a student on a rung whose settings stand, with the evidence so far", () => {
    const lessons = begun();
    play(lessons, old, { drill: "steady", verdict: "within" });
    const now = edition([steady(72, 2, 20), { name: "next", tempi: [60, 5, 2], needs: ["steady"] }]);
    const { standing, events } = changeEdition(now, lessons.standing, { at: timeOf(999), before: old });
    expect(events).toMatchObject([{ kind: "edition changed", from: "1.0.0", to: "2.0.0", moved: [], lost: [] }]);
    expect(drillStanding(standing, "steady")!.rungs).toEqual(drillStanding(lessons.standing, "steady")!.rungs);
    lessons.standing = standing;
    expect(play(lessons, now, { drill: "steady", verdict: "within" })).toMatchObject({
      what: "advance",
      evidence: ["t5", "t6"],
    });
  });

  test("moves a student whose rung is gone to the nearest lower rung that stands, and lists what lost its credit", () => {
    const lessons = begun();
    const now = edition([steady(80, 10, 3), { name: "next", tempi: [60, 5, 2], needs: ["steady"] }]);
    const { events, standing } = changeEdition(now, lessons.standing, { at: timeOf(999), before: old });
    expect(events).toMatchObject([
      {
        moved: [{ drill: "steady", from: at(88), to: at(80) }],
        lost: [{ drill: "steady", rung: at(84) }],
        withdrawn: [],
      },
    ]);
    expect(rungStanding(drillStanding(standing, "steady")!, at(84))!.credit).toBeDefined();
    expect(rungStanding(drillStanding(standing, "steady")!, at(80))!.credit).toBeDefined();
  });

  test("never moves a student up, though a higher rung stands", () => {
    const lessons = beginLessons(old);
    playRow(lessons, old, { drill: "steady", takes: "ww" });
    // On tempo 84; of the tempi 80, 84, 88, 92 the new edition has 80 and 88.
    const { events } = changeEdition(edition([steady(80, 8, 3)]), lessons.standing, { at: timeOf(999), before: old });
    expect(events).toMatchObject([{ moved: [{ drill: "steady", from: at(84), to: at(80) }] }]);
  });

  test("lets one clean take confirm a rung that was earned before", () => {
    const lessons = begun();
    const now = edition([steady(80, 10, 3)]);
    lessons.standing = changeEdition(now, lessons.standing, { at: timeOf(999), before: old }).standing;
    const confirmed = play(lessons, now, { drill: "steady", verdict: "within" });
    expect(confirmed).toMatchObject({ what: "advance", from: at(80), to: at(90), evidence: ["t1", "t2", "t5"] });
    expect(confirmed.events.at(-1)).toMatchObject({
      credit: lessons.journal.find(({ kind }) => kind === "advanced")!.id,
    });
    expect(playRow(lessons, now, { drill: "steady", takes: "w" }).what).toBe("hold");
  });

  test("goes by credit when the edition before is not at hand, and to the first rung when no credit stands", () => {
    const { standing } = begun();
    const at84 = changeEdition(edition([steady(64, 20, 3)]), standing, { at: timeOf(999) });
    expect(at84.events).toMatchObject([{ moved: [{ to: at(84) }] }]);
    const bottom = changeEdition(edition([steady(61, 3, 3)]), standing, { at: timeOf(999) });
    expect(bottom.events).toMatchObject([{ moved: [{ to: at(61) }], lost: [{ rung: at(80) }, { rung: at(84) }] }]);
  });

  test("keeps everything known of a withdrawn drill, and gives it back when it returns", () => {
    const lessons = begun();
    const without = edition([{ name: "next", tempi: [60, 5, 2], gate: two }]);
    const gone = changeEdition(without, lessons.standing, { at: timeOf(999), before: old });
    expect(gone.events).toMatchObject([{ withdrawn: ["steady"] }, { kind: "drill opened", drill: "next" }]);
    const back = changeEdition({ ...old, edition: "3.0.0" }, gone.standing, { at: timeOf(1999), before: without });
    expect(drillStanding(back.standing, "steady")).toEqual(drillStanding(lessons.standing, "steady"));
  });

  test("carries a drill to its new name with all that was shown", () => {
    const lessons = begun();
    const now = edition([{ name: "calm", tempi: [80, 4, 4], gate: two }], { steady: "calm" });
    const { events, standing } = changeEdition(now, lessons.standing, { at: timeOf(999), before: old });
    expect(events[0]).toMatchObject({ renamed: [{ from: "steady", to: "calm" }], moved: [], lost: [], withdrawn: [] });
    expect(drillStanding(standing, "calm")).toEqual({ ...drillStanding(lessons.standing, "steady"), drill: "calm" });
    expect(drillStanding(standing, "steady")).toBeUndefined();
    const late = decide(now, standing, findingOf("late", "steady", at(88), "within"), timeOf(1000));
    expect(late).toMatchObject({ what: "hold", drill: "calm", evidence: ["late"] });
  });

  test("reopens a completed drill that has grown, while what needed it stays open and the need stays met", () => {
    const lessons = begun();
    playRow(lessons, old, { drill: "steady", takes: "wwww" });
    const third: DrillSketch = { name: "third", tempi: [60, 5, 2], needs: ["steady"] };
    const now = edition([steady(80, 4, 6), { name: "next", tempi: [60, 5, 2], needs: ["steady"] }, third]);
    const { events, standing } = changeEdition(now, lessons.standing, { at: timeOf(999), before: old });
    expect(events).toMatchObject([{ reopened: ["steady"] }, { kind: "drill opened", drill: "third" }]);
    expect(drillStanding(standing, "next")!.state).toBe("open");
    lessons.standing = standing;
    expect(play(lessons, now, { drill: "steady", verdict: "within" })).toMatchObject({ what: "advance", to: at(96) });
  });

  test("leaves a completed drill complete when its top is cut off", () => {
    const lessons = begun();
    playRow(lessons, old, { drill: "steady", takes: "wwww" });
    const { events, standing } = changeEdition(edition([steady(80, 4, 2)]), lessons.standing, {
      at: timeOf(999),
      before: old,
    });
    expect(events[0]).toMatchObject({ moved: [{ to: at(84) }], reopened: [], withdrawn: ["next"] });
    expect(drillStanding(standing, "steady")!.state).toBe("complete");
  });

  test("puts a student back when an edition has their rung again, and the takes of that stay count on", () => {
    const lessons = begun();
    play(lessons, old, { drill: "steady", verdict: "within" });
    const now = edition([steady(80, 10, 3), { name: "next", tempi: [60, 5, 2], needs: ["steady"] }]);
    lessons.standing = changeEdition(now, lessons.standing, { at: timeOf(999), before: old }).standing;
    expect(drillStanding(lessons.standing, "steady")).toMatchObject({
      rung: at(80),
      takenFrom: { rung: at(88), state: "open" },
    });
    const third = { ...old, edition: "3.0.0" };
    const back = changeEdition(third, lessons.standing, { at: timeOf(1999), before: now });
    expect(back.events).toMatchObject([{ moved: [{ drill: "steady", from: at(80), to: at(88) }] }]);
    lessons.standing = back.standing;
    expect(drillStanding(back.standing, "steady")!.takenFrom).toBeUndefined();
    expect(play(lessons, third, { drill: "steady", verdict: "within" })).toMatchObject({
      what: "advance",
      evidence: ["t5", "t6"],
    });
  });

  test("leaves a student who has gone on meanwhile where they have come to", () => {
    const lessons = begun();
    const now = edition([steady(80, 10, 3)]);
    lessons.standing = changeEdition(now, lessons.standing, { at: timeOf(999), before: old }).standing;
    play(lessons, now, { drill: "steady", verdict: "within" });
    const wider = courseOf([steady(80, 2, 20)], { edition: "3.0.0" });
    const back = changeEdition(wider, lessons.standing, { at: timeOf(1999), before: now });
    expect(drillStanding(back.standing, "steady")).toMatchObject({ rung: at(90) });
  });

  test("completes a drill again that an edition had reopened when the further rungs are gone", () => {
    const lessons = begun();
    playRow(lessons, old, { drill: "steady", takes: "wwww" });
    const longer = edition([steady(80, 4, 6), { name: "next", tempi: [60, 5, 2], needs: ["steady"] }]);
    const open = changeEdition(longer, lessons.standing, { at: timeOf(999), before: old });
    expect(drillStanding(open.standing, "steady")).toMatchObject({
      state: "open",
      takenFrom: { rung: at(92), state: "complete" },
    });
    const back = changeEdition(old, open.standing, { at: timeOf(1999), before: longer });
    expect(back.events).toMatchObject([{ kind: "edition changed", completeAgain: ["steady"] }]);
    expect(drillStanding(back.standing, "steady")).toEqual(drillStanding(lessons.standing, "steady"));
    // What a teacher has asked for anew is not completed by an edition.
    const placed = placeByTeacher(longer, open.standing, { drill: "steady", rung: at(92), at: timeOf(1500) });
    const after = changeEdition(old, placed.ok ? placed.value.standing : open.standing, {
      at: timeOf(1999),
      before: longer,
    });
    expect(drillStanding(after.standing, "steady")!.state).toBe("open");
  });

  test("completes nothing again of which the journal has no completion, whatever the event says", () => {
    const lessons = begun();
    playRow(lessons, old, { drill: "steady", takes: "wwww" });
    const longer = edition([steady(80, 4, 6), { name: "next", tempi: [60, 5, 2], needs: ["steady"] }]);
    const open = changeEdition(longer, lessons.standing, { at: timeOf(999), before: old });
    const back = changeEdition(old, open.standing, { at: timeOf(1999), before: longer });
    expect(back.events).toMatchObject([{ kind: "edition changed", completeAgain: ["steady"] }]);
    const journal = [...lessons.journal, ...open.events, ...back.events];
    const holed = journal.filter(({ kind }) => kind !== "drill completed");
    expect(drillStanding(fold(journal).standing!, "steady")!.state).toBe("complete");
    expect(drillStanding(fold(holed).standing!, "steady")).toMatchObject({ state: "open" });
    expect(drillStanding(fold(holed).standing!, "steady")).not.toHaveProperty("completed");
  });

  test("keeps the first of two drills that go on as one, and withdraws the other with all that was shown in it", () => {
    const pair = courseOf([steady(80, 4, 4), { ...steady(80, 4, 4), name: "calm" }]);
    const lessons = beginLessons(pair);
    playRow(lessons, pair, { drill: "steady", takes: "ww" });
    playRow(lessons, pair, { drill: "calm", takes: "ww" });
    const joined = edition([{ ...steady(80, 4, 4), name: "even" }], { steady: "even", calm: "even" });
    const { events, standing } = changeEdition(joined, lessons.standing, { at: timeOf(999), before: pair });
    expect(events).toMatchObject([
      {
        renamed: [{ from: "steady", to: "even" }],
        withdrawn: ["calm"],
        lost: [{ drill: "calm", rung: at(80) }],
      },
    ]);
    expect(drillStanding(standing, "calm")).toMatchObject({ withdrawn: true, rungs: [{ takes: ["t3", "t4"] }, {}] });
  });

  test("follows a drill back to its former name", () => {
    const lessons = begun();
    const now = edition([{ name: "calm", tempi: [80, 4, 4], gate: two }], { steady: "calm" });
    const there = changeEdition(now, lessons.standing, { at: timeOf(999), before: old });
    const back = changeEdition(old, there.standing, { at: timeOf(1999), before: now });
    expect(back.events[0]).toMatchObject({ renamed: [{ from: "calm", to: "steady" }], withdrawn: [] });
    expect(drillStanding(back.standing, "steady")).toEqual(drillStanding(lessons.standing, "steady"));
  });

  test("changes nothing when nothing changed, and is found to be needed by decide()", () => {
    const lessons = begun();
    expect(changeEdition(old, lessons.standing, { at: timeOf(999) }).events).toEqual([]);
    const now = edition([steady(80, 4, 3)]);
    const decision = decide(now, lessons.standing, findingOf("n", "steady", at(88), "within"), timeOf(999));
    expect(decision.events.map(({ kind }) => kind)).toEqual(["edition changed", "take assessed"]);
    expect(fold([...lessons.journal, ...decision.events])).toEqual({ standing: decision.standing, problems: [] });
    // Rungs taken away without a new edition number: the student is moved all the same.
    const silent = decide(
      courseOf([steady(80, 4, 2)]),
      lessons.standing,
      findingOf("n", "steady", at(84), "within"),
      timeOf(999),
    );
    expect(silent.events.map(({ kind }) => kind)).toEqual(["edition changed", "take assessed", "drill completed"]);
  });

  test("refuses a standing in another curriculum", () => {
    expect(() => changeEdition({ ...old, name: "other" }, begun().standing, { at: timeOf(9) })).toThrow(RangeError);
  });
});
