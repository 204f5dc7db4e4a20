import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  beginJournal,
  decide,
  drillStanding,
  fold,
  journalText,
  readJournal,
  standingText,
} from "../../../lib/progress/index.js";
import type { Finding, JournalEvent, Standing } from "../../../lib/schema/index.js";
import { at, courseOf, findingOf, timeOf } from "../course.js";

const course = courseOf([{ name: "mooring", tempi: [80, 4, 3] }]);

/** A clean take of four silences on 64 notes: so many landings and so many other notes left out. */
function cleanTake(take: string, rung: string, { landings, notes }: { landings: number; notes: number }): Finding {
  const finding = findingOf(take, "mooring", rung, "within");
  const dropouts = [0, 1, 2, 3].map((k) => ({
    from: 6 + 8 * k,
    to: 8 + 8 * k,
    driftMs: 3,
    driftPercent: 0.1,
    standardErrorMs: 8,
    landing: k < landings ? ({ leftOut: true } as const) : { ms: 4, standardErrorMs: 3 },
    recoveryBeats: 0,
    verdict: "within" as const,
    probability: 0.99,
  }));
  const missed = Array.from({ length: landings + notes }, (_, k) => k);
  const pairs = Array.from({ length: 64 - missed.length }, (_, k): [number, number] => [missed.length + k, k]);
  return { ...finding, dropouts, pairs, missed };
}

function playAll(takes: readonly { landings: number; notes: number }[]): {
  readonly standing: Standing;
  readonly reasons: readonly string[];
  readonly events: readonly JournalEvent[];
} {
  const begun = beginJournal(course, "tern", timeOf(0));
  let { standing } = begun;
  const events: JournalEvent[] = [...begun.events];
  const reasons = takes.map((take, k) => {
    const rung = drillStanding(standing, "mooring")!.rung!;
    const decision = decide(course, standing, cleanTake(`t${k}`, rung, take), timeOf(60 * (k + 1)));
    standing = decision.standing;
    events.push(...decision.events);
    return decision.reason;
  });
  return { standing, reasons, events };
}
const rungAfter = (takes: readonly { landings: number; notes: number }[]): string | undefined =>
  drillStanding(playAll(takes).standing, "mooring")!.rung;
const times = (count: number, take: { landings: number; notes: number }) => Array.from({ length: count }, () => take);

describe("landings left out, over takes", () => {
  test("who leaves out one landing in every take is not let on, however many are clean", () => {
    expect(rungAfter(times(20, { landings: 1, notes: 0 }))).toBe(at(80));
    expect(rungAfter(times(20, { landings: 1, notes: 1 }))).toBe(at(80));
    const { reasons } = playAll(times(3, { landings: 1, notes: 0 }));
    expect(reasons[2]).toBe(
      "This take was clean. Over these takes you left out 3 of 12 landings, and 0 of 180 other notes, so that it is unclear whether you land with the band: play the note on which it returns, even softly.",
    );
  });

  test("landings left out are named only where the gate is met by clean takes and would let the student on", () => {
    const { reasons, standing } = playAll(times(3, { landings: 1, notes: 0 }));
    expect(reasons[1]).toBe("This take was clean. You need 3 clean takes out of your last 4; you have 2.");
    // Three of the last four takes are still clean: the one beyond tolerance is what is said.
    const beyond = decide(course, standing, findingOf("b", "mooring", at(80), "beyond"), timeOf(600));
    expect(beyond.what).toBe("hold");
    expect(beyond.reason).toBe(
      "This take was outside the limits. You need 3 clean takes out of your last 4; you have 3.",
    );
    const clean = decide(course, standing, cleanTake("c", at(80), { landings: 1, notes: 0 }), timeOf(600));
    expect(clean.what).toBe("hold");
    expect(clean.evidence).toEqual(["t0", "t1", "t2", "c"]);
  });

  test("who leaves out landings as rarely or as often as other notes is let on", () => {
    expect(rungAfter(times(3, { landings: 0, notes: 0 }))).toBe(at(84));
    expect(rungAfter([{ landings: 1, notes: 2 }, ...times(2, { landings: 0, notes: 2 })])).toBe(at(84));
    expect(rungAfter(times(3, { landings: 1, notes: 12 }))).toBe(at(84));
  });

  test("who then plays the landings is let on by those takes", () => {
    const before = times(6, { landings: 1, notes: 0 });
    expect(rungAfter([...before, ...times(2, { landings: 0, notes: 0 })])).toBe(at(80));
    expect(rungAfter([...before, ...times(3, { landings: 0, notes: 0 })])).toBe(at(84));
  });

  test("the journal carries what is needed, and gives the standing again; events that do not say it are read on", () => {
    fc.assert(
      fc.property(
        fc.array(fc.record({ landings: fc.integer({ min: 0, max: 4 }), notes: fc.integer({ min: 0, max: 30 }) }), {
          maxLength: 12,
        }),
        (takes) => {
          const { events, standing } = playAll(takes);
          const read = readJournal(journalText(events));
          expect(standingText(fold(read.events).standing!)).toBe(standingText(standing));
          for (const event of events) {
            if (event.kind !== "take assessed") continue;
            const { landings, notes } = takes[Number(event.take.slice(1))]!;
            expect(event.leftOut).toEqual([landings, 4, notes, 60]);
          }
          const silent = events.map((event) => {
            if (event.kind !== "take assessed") return event;
            const { leftOut: _, ...older } = event;
            return older;
          });
          expect(fold(silent).problems).toEqual([]);
        },
      ),
      { numRuns: 60 },
    );
  });
});
