import { describe, expect, test } from "vitest";
import { climbChart } from "../../../lib/render/chart/index.js";
import { FIRST, letteringOf, termOf } from "../chartMaterial.js";

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

  test("an empty journal is said to be empty", () => {
    expect(climbChart(FIRST, [])).toContain("<title>Nothing is in the journal yet.</title>");
  });
});
