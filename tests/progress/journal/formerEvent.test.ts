import { expect, test } from "vitest";
import { currentEvent, fold, readEvent } from "../../../lib/progress/index.js";
import type { JournalEvent } from "../../../lib/schema/index.js";

const frame = { turn: 2, at: "2026-03-02T17:30:00Z", student: "tern", curriculum: "quayside" };
const take = {
  ...frame,
  kind: "take assessed",
  id: "take:1",
  take: "1",
  edition: "1.0.0",
  drill: "hold",
  rung: "tempo=84",
};

test("an event of version 1 is read with the names of version 2, and keeps its id", () => {
  const former = { ...take, version: 1, verdict: "beyond", measured: { driftMs: 12, reentryMs: 41 } };
  expect(readEvent(former)).toEqual({ ...former, version: 2, measured: { driftMs: 12, landingMs: 41 } });
  const back = {
    ...frame,
    id: "eased:1",
    drill: "hold",
    from: "tempo=88",
    to: "tempo=84",
    after: 1,
    evidence: ["1"],
    lapsed: [],
  };
  expect(readEvent({ ...back, version: 1, kind: "eased" })).toEqual({ ...back, version: 2, kind: "gone back" });
});

test("a fold of events of version 1 is that of the same events in version 2", () => {
  const enrolled = { ...frame, turn: 1, version: 1, kind: "enrolled", id: "enrolled:1", edition: "1.0.0" };
  const events = [
    enrolled,
    { ...take, version: 1, verdict: "within", measured: { reentryMs: 4 } },
  ] as unknown as JournalEvent[];
  const { standing, problems } = fold(events);
  expect(problems.map(({ code }) => code)).toEqual(
    fold(events.map(currentEvent) as JournalEvent[]).problems.map(({ code }) => code),
  );
  expect(standing).toEqual(fold(events.map(currentEvent) as JournalEvent[]).standing);
  expect(standing?.student).toBe("tern");
});

test("an old name in an event of version 2 is refused", () => {
  expect(readEvent({ ...take, version: 2, verdict: "within", measured: { reentryMs: 4 } })).toMatchObject({
    code: "EVENT_MALFORMED",
  });
});
