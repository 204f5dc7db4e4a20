import { createEmptyCard, FSRSAlgorithm, fsrs, generatorParameters } from "ts-fsrs";
import { describe, expect, test } from "vitest";
import { fadingIn, historyOf, keptChance } from "../../lib/plan/index.js";
import { dayOf } from "../../lib/time/index.js";
import { FIRST_COURSE, played } from "./course.js";

describe("the scheduler for when to come back", () => {
  test("still gives the vectors of its own test suite", () => {
    // ts-fsrs, tests of version 5 with default parameters (from memory; both were reproduced by the library as installed).
    const algorithm = new FSRSAlgorithm(generatorParameters({ enable_fuzz: false }));
    let state: { stability: number; difficulty: number } | null = null;
    [0, 0, 1, 3, 8, 21].forEach((days, i) => {
      state = algorithm.next_state(state, days, i === 0 ? 1 : 3);
    });
    expect(state!.stability).toBeCloseTo(53.62691, 4);
    expect(state!.difficulty).toBeCloseTo(6.3574867, 4);
    const scheduler = fsrs({ enable_fuzz: false });
    let now = new Date(Date.UTC(2022, 10, 29, 12, 30));
    let card = createEmptyCard(now);
    const intervals = [3, 3, 3, 3, 3, 3, 1, 1, 3, 3, 3, 3, 3].map((grade) => {
      ({ card } = scheduler.next(card, now, grade as 1 | 3));
      now = card.due;
      return card.scheduled_days;
    });
    expect(intervals).toEqual([0, 2, 11, 46, 163, 498, 0, 0, 2, 4, 7, 12, 21]);
  });
});

describe("keptChance()", () => {
  const day = dayOf("2026-03-02")!;
  const clean = { day, verdict: "within" as const };

  test("is 0 of what was never played clearly, and 1 on the day itself", () => {
    expect(keptChance([], day)).toBe(0);
    expect(keptChance([{ day, verdict: "unclear" }], day)).toBe(0);
    expect(keptChance([clean], day)).toBe(1);
  });

  test("falls with the days, more slowly the more days it was shown on, and is lower after a failure", () => {
    const chances = [1, 2, 5, 20, 100].map((days) => keptChance([clean], day + days));
    expect(chances).toEqual([...chances].sort((a, b) => b - a));
    expect(keptChance([clean, { day: day + 3, verdict: "within" }], day + 13)).toBeGreaterThan(
      keptChance([clean], day + 10),
    );
    expect(keptChance([{ day, verdict: "beyond" }], day + 5)).toBeLessThan(
      keptChance([clean, { day, verdict: "beyond" }], day + 5),
    );
    expect(keptChance([clean, { day, verdict: "beyond" }], day + 5)).toBeLessThan(keptChance([clean], day + 5));
  });
});

describe("fadingIn()", () => {
  test("has the completed drills only, whether they still hold, and the most faded first", () => {
    const student = played("w".repeat(60));
    const at = (today: string): ReturnType<typeof fadingIn> =>
      fadingIn(FIRST_COURSE, student.standing, { history: historyOf(student.events), today: dayOf(today)! });
    const fading = at("2026-06-01");
    const complete = student.standing.drills.filter(({ state }) => state === "complete").map(({ drill }) => drill);
    expect(complete.length).toBeGreaterThan(1);
    expect(fading.map(({ rung }) => rung.drill.name).sort()).toEqual([...complete].sort());
    expect(fading.map(({ kept }) => kept)).toEqual(fading.map(({ kept }) => kept).sort((a, b) => a - b));
    expect(fading.every(({ held }) => held)).toBe(true);
    for (const { kept } of at("2026-03-08")) expect(kept).toBeGreaterThan(fading[0]!.kept);
  });
});
