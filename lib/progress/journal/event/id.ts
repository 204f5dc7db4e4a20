import type { JournalEvent, TakeAssessed } from "../../../schema/index.js";
import { canonicalJson } from "../canonicalJson.js";
import { fingerprint } from "../fingerprint.js";

/** The id of the event of a take. A take that is assessed again gets the same id. */
export function takeEventId(take: string): string {
  return `take:${take}`;
}

/** Kinds without evidence: the same content at another time is another event. */
const TIMED_KINDS: readonly JournalEvent["kind"][] = ["set by teacher", "edition changed"];

/**
 * The id of an event: its kind and a fingerprint of its content; for a take, the name of the take. The time is part of the fingerprint only
 * for kinds without evidence, so the same decision asked for again later gets the same id. It is that of version 1, so that a decision has the id
 * it had when it was first written.
 */
export function eventId(event: Omit<JournalEvent, "id">): string {
  if (event.kind === "take assessed") return takeEventId((event as TakeAssessed).take);
  const { at, ...rest } = event;
  const said = TIMED_KINDS.includes(event.kind) ? { ...rest, at } : rest;
  return `${event.kind.replaceAll(" ", "-")}:${fingerprint({ ...said, version: 1, id: undefined })}`;
}

/** Whether two events with one id have the same content. Takes: same drill, rung and verdict. Other kinds: equal except for turn and time. */
export function saysTheSame(a: JournalEvent, b: JournalEvent): boolean {
  if (a.kind === "take assessed" && b.kind === "take assessed")
    return a.take === b.take && a.drill === b.drill && a.rung === b.rung && a.verdict === b.verdict;
  return canonicalJson({ ...a, turn: 0, at: "" }) === canonicalJson({ ...b, turn: 0, at: "" });
}
