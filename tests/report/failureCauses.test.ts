import { describe, expect, test } from "vitest";
import { milliseconds, percent } from "../../lib/base/index.js";
import { failureCauses } from "../../lib/report/failureCauses.js";
import { stickingWords } from "../../lib/report/stickingWords.js";
import { ENGLISH } from "../../lib/report/words.js";
import type { TakeAssessed } from "../../lib/schema/index.js";
import { takeEvent } from "./journals.js";

const TOLERANCE = {
  drift: { percent: percent(6) },
  landing: milliseconds(120),
  steadiness: milliseconds(35),
};
let count = 0;
const beyond = (take: Partial<TakeAssessed>): TakeAssessed =>
  takeEvent({ take: `t${count++}`, verdict: "beyond", rung: "dropout=1 bar,tempo=76", ...take });
const said = (takes: readonly TakeAssessed[]): readonly string[] =>
  failureCauses(takes, TOLERANCE).map((each) => stickingWords(each, ENGLISH));

describe("what somebody is stuck on", () => {
  test("is drift, with its side, when the drift left its tolerance, even if the landing after it lies further out", () => {
    const takes = [-7, -8, -6.5, 2].map((percent) =>
      beyond({
        silences: [
          [percent * 31, 12, percent, percent * 60],
          [0, 12, 0, 4],
        ],
      }),
    );
    expect(said(takes.slice(0, 3))).toEqual(["drift in silences of 1 bar, rushing: 3 takes, median 217 ms early"]);
    const late = takes.slice(0, 2).map((take) => ({
      ...take,
      silences: [[250, 12, 8, 200] as const],
    }));
    expect(said([...late, ...takes.slice(0, 2)])).toEqual(["drift in silences of 1 bar, both ways: 4 takes"]);
  });

  test("is the landing when the drift alone would have done, with that drift beside it", () => {
    const takes = [130, 150, 170].map((landing) => beyond({ silences: [[100, 12, 3, landing]] }));
    expect(said(takes)).toEqual([
      "landing after silences of 1 bar, late: 3 takes, median 150 ms late (drift 100 ms late)",
    ]);
  });

  test("is steadiness when that is furthest out, and has a size but no side", () => {
    const takes = [50, 60].map((accompaniedMs) =>
      beyond({ silences: [[10, 12, 0.3, 20]], measured: { accompaniedMs } }),
    );
    expect(said(takes)).toEqual(["steadiness with the band: 2 takes, median 55 ms"]);
  });

  test("is told from what older journals kept, too", () => {
    const take = beyond({ measured: { driftMs: 220, driftPercent: 7, standardErrorMs: 12, landingMs: 240 } });
    expect(said([take])).toEqual(["drift in silences of 1 bar, dragging: 1 take, median 220 ms late"]);
  });

  test("is a slip when the player came in elsewhere, and not kept when the journal has no figure", () => {
    expect(said([beyond({ reasons: ["SLIPPED"], silences: [[900, 9, 30, 900]] }), beyond({})])).toEqual([
      "beyond tolerance, on a figure the journal does not have: 1 take",
      "came in beats or bars early or late after silences of 1 bar: 1 take",
    ]);
  });

  test("is for each reason why takes are unclear, the most frequent first; clean takes are passed over", () => {
    const unclear = (take: Partial<TakeAssessed>): TakeAssessed => beyond({ verdict: "unclear", ...take });
    const measured = { accompaniedMs: 20 };
    expect(
      said([
        unclear({ reasons: ["TWO_PAIRINGS"], silences: [[1, 1, 1, 1]], measured }),
        unclear({ silences: [[null, null, null, null]], measured }),
        unclear({ silences: [[150, 40, 5, 100]], measured }),
        unclear({ silences: [[160, 40, 5, 100]], measured }),
        beyond({ verdict: "within", silences: [[1, 1, 1, 1]] }),
        unclear({ reasons: ["SOMETHING_NEW"] }),
      ]),
    ).toEqual([
      "unclear, too close to the tolerance to tell: 2 takes",
      "unclear, too little was played to tell: 1 take",
      "unclear, SOMETHING_NEW: 1 take",
      "unclear, two pairings explain the take almost equally well and differ in what they say: 1 take",
    ]);
    expect(said([])).toEqual([]);
  });
});
