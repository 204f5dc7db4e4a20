import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { fraction } from "../../lib/base/index.js";
import { type Drill, type Ladder, rungs, scoreOf, settingsText } from "../../lib/drill/index.js";
import { demandOf, forecast } from "../../lib/forecast/index.js";
import { beginPlacing, firstTooHard, type Placing, placeAfter, resumePlacing } from "../../lib/plan/index.js";
import { beginJournal } from "../../lib/progress/index.js";
import { findingSummary } from "../../lib/progress/journal/findingSummary.js";
import { PLAYERS, playTake } from "../../lib/rehearsal/index.js";
import type { JournalEvent, TakeAssessed } from "../../lib/schema/index.js";
import { assess } from "../../lib/take/index.js";
import { drillNamed, FIRST_COURSE } from "./course.js";

function drillWith(counts: readonly (readonly [count: number, restart: "bottom" | number])[]): Drill {
  const parameters = ["tempo", "variant", "key"] as const;
  const ladders = counts.map(
    ([count, restart], i): Ladder => ({
      parameter: parameters[i]!,
      count,
      values: { kind: "tempi", from: fraction(60), by: fraction(1) },
      restart,
    }),
  );
  return { ...drillNamed("steady"), fixed: {}, ladders };
}

const digitsOf = (drill: Drill, index: number): readonly number[] =>
  drill.ladders.map(({ parameter }) => Number(rungs(drill).at(index).settings[parameter]) - 60);

describe("firstTooHard()", () => {
  test("finds what a search rung by rung finds, wherever no ladder gets easier upwards", () => {
    const ladder = fc.tuple(fc.integer({ min: 1, max: 7 }), fc.oneof(fc.constant("bottom" as const), fc.nat(6)));
    fc.assert(
      fc.property(
        fc.array(ladder, { maxLength: 3 }),
        fc.array(fc.double({ min: 0, max: 3, noNaN: true }), { minLength: 3, maxLength: 3 }),
        fc.double({ min: 0, max: 30, noNaN: true }),
        (counts, weights, limit) => {
          const drill = drillWith(counts);
          const hard = (index: number): boolean =>
            digitsOf(drill, index).reduce((sum, digit, i) => sum + weights[i]! * digit, 0) > limit;
          let wanted: number | undefined;
          for (let i = 0; i < rungs(drill).count && wanted === undefined; i++) if (hard(i)) wanted = i;
          expect(firstTooHard(drill, ({ index }) => hard(index))?.index).toBe(wanted);
        },
      ),
    );
  });

  test("asks some dozens of questions about a thousand million rungs", () => {
    const drill = drillWith([
      [1000, "bottom"],
      [1000, 999],
      [1000, 500],
    ]);
    let asked = 0;
    const found = firstTooHard(drill, ({ index }) => {
      asked++;
      return index >= 123_456_789;
    });
    expect(rungs(drill).count).toBeGreaterThan(5e8);
    expect(found?.index).toBe(123_456_789);
    expect(asked).toBeLessThan(60);
  });
});

/** Placed by what simulated takes show. */
function placed(drill: Drill, player: (typeof PLAYERS)["able"], seed: string): Placing {
  let placing = beginPlacing(drill);
  while (!placing.done) {
    const score = scoreOf(placing.rung);
    placing = placeAfter(
      placing,
      findingSummary(assess(score, playTake(score, player, `${seed}/${placing.tried.length}`).take)),
    );
  }
  return placing;
}

describe("placing a new student", () => {
  const drill = drillNamed("two-bars");

  test("ends on a rung that was played clean, in at most 12 takes, and says so", () => {
    for (const seed of ["a", "b", "c", "d"]) {
      const { rung, tried, says } = placed(drill, PLAYERS.seasoned, seed);
      expect(tried.length).toBeLessThanOrEqual(12);
      expect(tried).toContainEqual({ rung, verdict: "within" });
      expect(says).toMatch(/^Placed on .* after \d+ takes?: /);
    }
  });

  test("puts a seasoned player higher than a novice, and a wild one at the beginning", () => {
    const indices = (["seasoned", "wild"] as const).map((grade) => placed(drill, PLAYERS[grade], "x").rung.index);
    expect(indices[0]).toBeGreaterThan(indices[1]!);
    expect(indices[1]).toBe(0);
  });

  test("never ends on one take, however clean, and puts an able player above the first rung", () => {
    for (const name of ["steady", "one-bar", "half-bar"])
      for (const grade of ["able", "seasoned"] as const) {
        const { rung, tried } = placed(drillNamed(name), PLAYERS[grade], "x");
        expect(tried.length, name).toBeGreaterThan(1);
        expect(rung.index, `${name} ${grade}`).toBeGreaterThan(0);
      }
  });

  test("asks who is beyond at the first rung for nothing that only the forecast holds for easier, and says that there is none after two takes at least", () => {
    let placing = beginPlacing(drill);
    while (!placing.done) placing = placeAfter(placing, { verdict: "beyond" });
    expect(placing.rung.index).toBe(0);
    expect(placing.tried.length).toBeGreaterThan(1);
    expect(placing.tried.every(({ rung }) => rung.index === 0)).toBe(true);
    expect(placing.says).toContain("no easier rung");
  });

  test("wants one more clean take of who was beyond once", () => {
    const shown = (verdict: "within" | "beyond", driftMs: number) => ({
      verdict,
      measured: { driftMs, standardErrorMs: 5, accompaniedMs: 8 },
    });
    const last = rungs(drill).count - 1;
    const end = (verdicts: readonly ("within" | "beyond")[]): Placing => {
      let placing = { ...beginPlacing(drill), rung: rungs(drill).at(last) };
      for (const verdict of verdicts) {
        if (placing.done) break;
        placing = placeAfter(
          { ...placing, rung: rungs(drill).at(last) },
          shown(verdict, verdict === "within" ? 12 : 700),
        );
      }
      return placing;
    };
    expect(end(["within", "within"]).done).toBe(true);
    expect(end(["beyond", "within", "within"]).done).toBe(false);
  });

  test("learns more from the figures of a take than from its verdict alone", () => {
    const bare = placeAfter(beginPlacing(drill), { verdict: "within" });
    const measured = placeAfter(beginPlacing(drill), {
      verdict: "within",
      measured: { driftMs: 8, standardErrorMs: 5, accompaniedMs: 7 },
    });
    const at = (placing: Placing): number => forecast(placing.belief, demandOf(scoreOf(rungs(drill).at(0)))).clean;
    expect(at(measured)).toBeGreaterThan(at(bare));
  });

  test("gives up at the easiest rung after five takes that cannot be judged", () => {
    let placing = beginPlacing(drill);
    while (!placing.done) placing = placeAfter(placing, { verdict: "unclear" });
    expect([placing.tried.length, placing.rung.index]).toEqual([5, 0]);
    expect(() => placeAfter(placing, { verdict: "within" })).toThrow(RangeError);
  });

  test("refuses an aim that is no chance", () => {
    for (const target of [0, 1, Number.NaN]) expect(() => beginPlacing(drill, { target })).toThrow(RangeError);
  });
});

describe("resumePlacing()", () => {
  const drill = drillNamed("two-bars");
  const begun = beginJournal(FIRST_COURSE, "tern", "2026-03-01T17:00:00Z").events;
  const resumed = (events: readonly JournalEvent[]): Placing => resumePlacing(FIRST_COURSE, drill, { events });
  const common = (turn: number) =>
    ({ version: 2, turn, at: "2026-03-02T17:00:00Z", student: "tern", curriculum: FIRST_COURSE.name }) as const;
  const taken = (
    turn: number,
    of: Drill,
    index: number,
    shown: Pick<TakeAssessed, "verdict" | "measured">,
  ): TakeAssessed => ({
    ...common(turn),
    kind: "take assessed",
    id: `take:t${turn}`,
    take: `t${turn}`,
    drill: of.name,
    rung: settingsText(rungs(of).at(index).settings),
    edition: FIRST_COURSE.edition,
    finding: "0123456789abcdef",
    ...shown,
  });

  test("comes, from a journal in any order and twice over, to where it was left off", () => {
    let placing = beginPlacing(drill);
    const events: JournalEvent[] = [...begun];
    while (!placing.done) {
      const score = scoreOf(placing.rung);
      const shown = findingSummary(assess(score, playTake(score, PLAYERS.able, `resumed/${events.length}`).take));
      const event = taken(10 + events.length, drill, placing.rung.index, shown);
      events.push(event);
      placing = placeAfter(placing, event);
      expect(resumed([...events, ...events].reverse())).toEqual(placing);
    }
  });

  test("learns from takes of other rungs and drills, and asks for the same rung still", () => {
    const clean = { verdict: "within" as const, measured: { accompaniedMs: 6 } };
    const events = [...begun, taken(10, drillNamed("steady"), 3, clean), taken(11, drill, 5, clean)];
    const placing = resumed(events);
    expect(placing).toMatchObject({ done: false, tried: [], rung: beginPlacing(drill).rung });
    expect(placing.belief.takes).toBe(2);
  });

  test("begins anew when a teacher put the student somewhere, and when they played on after they were placed", () => {
    const events: JournalEvent[] = [...begun];
    for (let i = 0; !resumed(events).done; i++)
      events.push(taken(10 + i, drill, resumed(events).rung.index, { verdict: "unclear" }));
    const wish: JournalEvent = { ...common(50), kind: "set by teacher", id: "wish", drill: drill.name, to: "tempo=76" };
    const after = resumed([...events, wish]);
    expect(after).toMatchObject({ done: false, tried: [] });
    expect(after.belief.takes).toBe(resumed(events).belief.takes);
    const on = resumed([...events, taken(60, drill, 5, { verdict: "within" })]);
    expect(on).toMatchObject({ done: false, tried: [] });
    expect(on.belief.takes).toBe(resumed(events).belief.takes + 1);
  });
});
