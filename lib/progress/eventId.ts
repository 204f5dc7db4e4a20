import type { JournalEvent, TakeAssessed } from "../schema/index.js";
import { canonicalJson } from "./canonicalJson.js";
import { fingerprint } from "./fingerprint.js";

/** The id of the event that counts a take: one take, one id, however often it is assessed. */
export function takeEventId(take: string): string {
  return `take:${take}`;
}

/** Kinds that rest on nothing but somebody's wish: the same wish at another time is another event. */
const WISHES: readonly JournalEvent["kind"][] = ["set by teacher", "edition changed"];

/**
 * The id of an event: what happened and, except for takes, a fingerprint of all it says. The time counts only where nothing else tells
 * two such events apart, so that asking again later gives the same id.
 */
export function eventId(event: Omit<JournalEvent, "id">): string {
  if (event.kind === "take assessed") return takeEventId((event as TakeAssessed).take);
  const { at, ...rest } = event;
  const said = WISHES.includes(event.kind) ? { ...rest, at } : rest;
  return `${event.kind.replaceAll(" ", "-")}:${fingerprint({ ...said, id: undefined })}`;
}

/** Whether two events with one id say the same: a take the same verdict on the same rung, anything else the same but for turn and time. */
export function saysTheSame(a: JournalEvent, b: JournalEvent): boolean {
  if (a.kind === "take assessed" && b.kind === "take assessed")
    return a.take === b.take && a.drill === b.drill && a.rung === b.rung && a.verdict === b.verdict;
  return canonicalJson({ ...a, turn: 0, at: "" }) === canonicalJson({ ...b, turn: 0, at: "" });
}
