import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { apply, fold, foldJournal, journalText, readJournal, standingText } from "../../../lib/progress/index.js";
import type { Standing } from "../../../lib/schema/index.js";
import { inOrder, YEARS, year } from "../history.js";

const text = (standing: Standing | undefined): string => standingText(standing!);

describe("a take counts once", () => {
  test("the same events give the same bytes, however often and in whatever order they are delivered", () => {
    fc.assert(
      fc.property(year, fc.infiniteStream(fc.nat()), ({ journal }, chance) => {
        const repeated = [...journal, ...journal.filter(() => chance.next().value! % 4 === 0)];
        const shuffled = repeated
          .map((event) => ({ event, key: chance.next().value! }))
          .sort((a, b) => a.key - b.key)
          .map(({ event }) => event);
        const standing = text(fold(journal).standing);
        expect(text(fold(shuffled).standing)).toBe(standing);
        const journalBytes = journalText(shuffled);
        expect(text(foldJournal(journalBytes).standing)).toBe(standing);
        const { events, lines } = readJournal(journalBytes);
        expect(foldJournal(journalBytes)).toEqual(fold(events, { lines }));
      }),
      YEARS,
    );
  });

  test("event by event gives what the whole journal gives, and so does going on from any standing on the way", () => {
    fc.assert(
      fc.property(year, fc.nat(), (history, cut) => {
        const { events } = inOrder(history);
        let standing = fold(events.slice(0, 1)).standing!;
        for (const event of events.slice(1)) standing = apply(standing, event).standing;
        expect(text(standing)).toBe(text(fold(events).standing));
        const half = 1 + (cut % (events.length - 1));
        const kept = JSON.parse(text(fold(events.slice(0, half)).standing)) as Standing;
        expect(text(fold(events.slice(half), { after: kept }).standing)).toBe(text(standing));
        expect(text(fold(events, { after: kept }).standing)).toBe(text(standing));
      }),
      YEARS,
    );
  });

  test("no take stands in two places of a standing, and every take stands in one", () => {
    fc.assert(
      fc.property(year, (history) => {
        const standing = fold(history.journal).standing!;
        const held = standing.drills.flatMap(({ rungs }) => rungs.flatMap(({ takes }) => takes));
        const played = new Set(
          history.journal.flatMap((event) => (event.kind === "take assessed" ? [event.take] : [])),
        );
        expect([...held].sort()).toEqual([...played].sort());
      }),
      YEARS,
    );
  });
});
