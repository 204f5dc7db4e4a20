import { describe, expect, test } from "vitest";
import { findRung, otherScores, rungs } from "../../../lib/drill/index.js";
import { materials } from "../../reference/players/materials.js";
import { must } from "../../time/shorthand.js";

const named = (name: string) => {
  const { curriculum, score } = materials().find((material) => material.name === name)!;
  const rung = must(findRung(curriculum.drills.find((drill) => drill.name === score.drill)!, score.rung));
  return { rung, drills: curriculum.drills };
};

describe("otherScores()", () => {
  test("gives the other variants of a rung first, all else the same, and never the rung itself", () => {
    const { rung } = named("even eighths, 1 bar");
    const others = [...otherScores(rung)];
    expect(others.map((score) => score.rung)).toEqual(["dropout=1 bar,parts=bass+kit,tempo=84,variant=plain"]);
  });

  test("gives the other drills of a course too, at the rung's own tempo where they have it", () => {
    const { rung, drills } = named("even eighths, 1 bar");
    const others = [...otherScores(rung, drills)];
    expect(new Set(others.map(({ drill }) => drill)).size).toBe(drills.length);
    expect(others.filter((score) => score.drill === rung.drill.name)).toHaveLength(1);
    for (const other of others) {
      const has = drills.find(({ name }) => name === other.drill)!;
      const asked = findRung(has, other.rung.replace(/tempo=[\d.]+/, `tempo=${rung.settings.tempo}`));
      if (asked.ok) expect(other.rung).toContain(`tempo=${rung.settings.tempo}`);
    }
  });

  test("is read again from its start, and made only as far as it is read", () => {
    const { rung, drills } = named("even eighths, 1 bar");
    const others = otherScores(rung, drills);
    const first = (): string => {
      for (const score of others) return `${score.drill} ${score.rung}`;
      return "none";
    };
    expect(first()).toBe(first());
  });

  test("is empty for a drill of one variant alone", () => {
    const { rung } = named("quarters, 2 bars");
    expect([...otherScores(rungs(rung.drill).at(0))]).toEqual([]);
  });
});
