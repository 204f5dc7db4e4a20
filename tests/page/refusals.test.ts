import { expect, test } from "vitest";
import { isForNow } from "../../lib/page/app/school/school.js";
import { ANSWERED_CODES, statusOf } from "../../lib/server/answer/problemAnswer.js";

/** Codes with which a take stays in the outbox and is sent again: the same request may be taken later. */
const WAITS = [
  "KEY_MISSING",
  "KEY_UNKNOWN",
  "ROLE_REFUSED",
  "STUDENT_PAUSED",
  "ORIGIN_FOREIGN",
  "REQUEST_LATE",
  "TOO_MANY_REQUESTS",
  "HEARING_BUSY",
  "SCHOOL_DEFECT",
  "SCHOOL_STORE_FAILED",
  "EDITION_BEHIND",
  "ANSWER_TOO_SLOW",
];

test("a take waits after every refusal that may be another one later, and after none that will stay", () => {
  const waiting = ANSWERED_CODES.filter((code) => isForNow({ status: statusOf(code) }));
  expect([...waiting].sort()).toEqual([...WAITS].sort());
  // Not reached at all.
  expect(isForNow({ status: 0 })).toBe(true);
});
