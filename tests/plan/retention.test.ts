import { createEmptyCard, FSRSAlgorithm, fsrs, generatorParameters } from "ts-fsrs";
import { describe, expect, test } from "vitest";
import { historyOf, retentionChance, retentionIn } from "../../lib/plan/index.js";
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

describe("retentionChance()", () => {
  const day = dayOf("2026-03-02")!;
  const clean = { day, verdict: "within" as const };

  test("is 0 of what was never played clearly, and 1 on the day itself", () => {
    expect(retentionChance([], day)).toBe(0);
    expect(retentionChance([{ day, verdict: "unclear" }], day)).toBe(0);
    expect(retentionChance([clean], day)).toBe(1);
  });

  test("falls with the days, more slowly the more days it was shown on, and is lower after a failure", () => {
    const chances = [1, 2, 5, 20, 100].map((days) => retentionChance([clean], day + days));
    expect(chances).toEqual([...chances].sort((a, b) => b - a));
    expect(retentionChance([clean, { day: day + 3, verdict: "within" }], day + 13)).toBeGreaterThan(
      retentionChance([clean], day + 10),
    );
    expect(retentionChance([{ day, verdict: "beyond" }], day + 5)).toBeLessThan(
      retentionChance([clean, { day, verdict: "beyond" }], day + 5),
    );
    expect(retentionChance([clean, { day, verdict: "beyond" }], day + 5)).toBeLessThan(
      retentionChance([clean], day + 5),
    );
  });
});

describe("retentionIn()", () => {
  test("has the completed drills only, whether they still hold, and the most faded first", () => {
    const student = played("w".repeat(60));
    const at = (today: string): ReturnType<typeof retentionIn> =>
      retentionIn(FIRST_COURSE, student.standing, { history: historyOf(student.events), today: dayOf(today)! });
    const retention = at("2026-06-01");
    const complete = student.standing.drills.filter(({ state }) => state === "complete").map(({ drill }) => drill);
    expect(complete.length).toBeGreaterThan(1);
    expect(retention.map(({ rung }) => rung.drill.name).sort()).toEqual([...complete].sort());
    expect(retention.map(({ kept }) => kept)).toEqual(retention.map(({ kept }) => kept).sort((a, b) => a - b));
    expect(retention.every(({ held }) => held)).toBe(true);
    for (const { kept } of at("2026-03-08")) expect(kept).toBeGreaterThan(retention[0]!.kept);
  });
});
