import { describe, expect, test } from "vitest";
import { apply, beginJournal, decide, fold, silencesOf, standingText } from "../../../lib/progress/index.js";
import type { DropoutFinding, Finding, JournalEvent, TakeAssessed } from "../../../lib/schema/index.js";
import { checkEvent } from "../../../lib/schema/index.js";
import { at, courseOf, findingOf, timeOf } from "../course.js";

const COURSE = courseOf([{ name: "quay", tempi: [80, 4, 4] }]);
const nothing = { unmeasured: "no expected note was played in this silence or on its landing" };

function dropout(figures: Partial<DropoutFinding>): DropoutFinding {
  return {
    from: 8,
    to: 10,
    driftMs: nothing,
    driftPercent: nothing,
    standardErrorMs: nothing,
    landing: null,
    recoveryBeats: null,
    verdict: "within",
    probability: 0.97,
    ...figures,
  };
}

const FINDING: Finding = {
  ...findingOf("t1", "quay", at(80), "unclear"),
  dropouts: [
    dropout({
      driftMs: -38.449,
      driftPercent: -1.6049,
      standardErrorMs: 9.12,
      landing: { ms: -0.01, standardErrorMs: 3 },
    }),
    dropout({}),
    dropout({ driftMs: 4, driftPercent: 0.2, standardErrorMs: 7, landing: { unmeasured: "no note" } }),
  ],
  reasons: [
    { code: "TWO_PAIRINGS", says: "Two ways.", dropout: 0 },
    { code: "TWO_PAIRINGS", says: "Two ways.", dropout: 2 },
    { code: "GUIDED", says: "Something sounded." },
  ],
};

function takeOf(finding: Finding): TakeAssessed {
  const { standing } = beginJournal(COURSE, "tern", timeOf(0));
  const [event] = decide(COURSE, standing, finding, timeOf(60)).events;
  return event as TakeAssessed;
}

describe("a journal's take", () => {
  test("keeps each silence in a row, rounded, with null for what was not measured, and each reason's code once", () => {
    const event = takeOf(FINDING);
    expect(event.silences).toEqual([
      [-38.4, 9.1, -1.6, 0],
      [null, null, null, null],
      [4, 7, 0.2, null],
    ]);
    expect(event.reasons).toEqual(["TWO_PAIRINGS", "GUIDED"]);
    expect(checkEvent(JSON.parse(JSON.stringify(event)))).toMatchObject({ ok: true });
  });

  test("says nothing of silences and reasons when there are none", () => {
    const event = takeOf({ ...FINDING, dropouts: [], reasons: [] });
    expect(event).not.toHaveProperty("silences");
    expect(event).not.toHaveProperty("reasons");
    expect(silencesOf(event)).toBeUndefined();
  });

  test("leads to the same standing with its silences and without them, as older journals are", () => {
    const { events, standing } = beginJournal(COURSE, "tern", timeOf(0));
    const event = takeOf(FINDING);
    const { silences: _silences, reasons: _reasons, ...older } = event;
    const whole = fold([...events, event]);
    expect(standingText(fold([...events, older]).standing!)).toBe(standingText(whole.standing!));
    // One take, however it was told: the first counts, and nothing is wrong.
    expect(fold([...events, event, older] as JournalEvent[])).toEqual(whole);
    expect(standingText(apply(standing, older).standing)).toBe(standingText(whole.standing!));
  });
});

describe("silencesOf()", () => {
  const rung = "dropout=1/2 bar,tempo=84";

  test("gives each silence with the length the rung says", () => {
    expect(silencesOf({ rung, silences: [[-38.4, 9.1, -1.6, null]] })).toEqual({
      length: "1/2 bar",
      told: "each silence",
      silences: [{ length: "1/2 bar", driftMs: -38.4, standardErrorMs: 9.1, driftPercent: -1.6, landingMs: undefined }],
    });
    expect(silencesOf({ rung: "long ago", silences: [] })).toEqual({
      length: undefined,
      told: "each silence",
      silences: [],
    });
  });

  test("gives each silence its own length where they grow inside the take", () => {
    const silences = [
      [-38.4, 9.1, -1.6, null],
      [12, 9.1, 0.5, 20],
    ] as const;
    const grown = "dropout=1/2 bar to 1 bar by 1/2 bar each 1 phrase,tempo=84";
    const kept = silencesOf({ rung: grown, silences, lengths: ["1/2 bar", "1 bar"] });
    expect(kept?.silences.map(({ length, driftMs }) => [length, driftMs])).toEqual([
      ["1/2 bar", -38.4],
      ["1 bar", 12],
    ]);
    expect(kept?.length).toBe("1/2 bar to 1 bar by 1/2 bar each 1 phrase");
  });

  test("gives the largest drift of an older journal, and says that it is", () => {
    const measured = { driftMs: -38.44, driftPercent: -1.6, standardErrorMs: 9.12, landingMs: -41 };
    expect(silencesOf({ rung, measured })).toEqual({
      length: "1/2 bar",
      told: "largest of a take",
      silences: [{ length: "1/2 bar", ...measured }],
    });
    expect(silencesOf({ rung })?.silences).toEqual([
      {
        length: "1/2 bar",
        driftMs: undefined,
        driftPercent: undefined,
        standardErrorMs: undefined,
        landingMs: undefined,
      },
    ]);
  });

  test("is undefined for a take without silences", () => {
    expect(silencesOf({ rung: "tempo=84" })).toBeUndefined();
    expect(silencesOf({ rung: "tempo=84", measured: { accompaniedMs: 12 } })).toBeUndefined();
  });
});
