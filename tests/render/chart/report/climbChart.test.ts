import { describe, expect, test } from "vitest";
import { rungs, settingsText } from "../../../../lib/drill/index.js";
import { climbChart } from "../../../../lib/render/chart/index.js";
import type { JournalEvent } from "../../../../lib/schema/index.js";
import { drillIn, FIRST, letteringOf, termOf } from "../material.js";

describe("climbChart()", () => {
  const journal = termOf(120);

  test("is the same in whatever order and however often the events come", () => {
    const svg = climbChart(FIRST, journal);
    expect(climbChart(FIRST, [...journal].reverse())).toBe(svg);
    expect(climbChart(FIRST, [...journal, ...journal.slice(10, 40)])).toBe(svg);
  });

  test("says how the takes went, as the journal has them", () => {
    const takes = journal.filter((event) => event.kind === "take assessed");
    const within = takes.filter(({ verdict }) => verdict === "within").length;
    expect(climbChart(FIRST, journal).replaceAll("\u00a0", " ")).toContain(
      `${takes.length} takes: ${within} within tolerance`,
    );
  });

  test("draws only drills the journal tells of, and names those this edition does not have", () => {
    const less = { name: FIRST.name, drills: FIRST.drills.slice(1) };
    const svg = climbChart(less, journal);
    const texts = letteringOf(svg).map(({ text }) => text);
    expect(texts).not.toContain("Steady on the quay");
    expect(texts.join(" ")).toContain("Not in this edition: steady.");
  });

  test("marks where a teacher decided, and not where a placement test did", () => {
    const { version, turn, at, student, curriculum } = journal.at(-1)!;
    const rung = settingsText(rungs(drillIn(FIRST, "steady")).at(2).settings);
    const wish: JournalEvent = {
      ...{ version, at, student, curriculum, drill: "steady", to: rung },
      kind: "set by teacher",
      id: "wish",
      turn: turn + 1,
    };
    const legend = (events: readonly JournalEvent[]): boolean =>
      letteringOf(climbChart(FIRST, events)).some(({ text }) => text.includes("set by the teacher"));
    expect(legend([...journal, wish])).toBe(true);
    expect(legend([...journal, { ...wish, by: "placement test" }])).toBe(false);
  });

  test("an empty journal is said to be empty", () => {
    expect(climbChart(FIRST, [])).toContain("<title>Nothing is in the journal yet.</title>");
  });
});
