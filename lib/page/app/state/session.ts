import { keep, recall, storage } from "./students.js";

/** The practice of today: how many minutes there were, and since when. Kept for as long as the window is open. */
export interface Session {
  readonly minutes: number;
  /** When its first take began, RFC 3339; absent before. */
  readonly began?: string;
}

const PLACE = "leeway.session";
/** Minutes asked for when nobody said: our choice, as one practises beside lessons. */
const USUAL = 20;
const MINUTE = 60_000;

export function session(): Session {
  const found = recall<Session>(PLACE, storage("sessionStorage"));
  return found !== undefined && found.minutes > 0 ? found : { minutes: USUAL };
}

/** Begins anew with so many minutes. */
export function chooseMinutes(minutes: number): void {
  keep(PLACE, { minutes } satisfies Session, storage("sessionStorage"));
}

/** Notes that a take begins. */
export function beginSession(now: Date): void {
  const { minutes, began = now.toISOString() } = session();
  keep(PLACE, { minutes, began } satisfies Session, storage("sessionStorage"));
}

/** Minutes that are left: whole ones, at least 1; all of them when the day changed or they are long over. */
export function minutesLeft(now: Date): number {
  const { minutes, began } = session();
  const gone = began === undefined ? 0 : (now.getTime() - Date.parse(began)) / MINUTE;
  if (!(gone >= 0 && gone < 2 * minutes)) return minutes;
  return Math.max(1, Math.round(minutes - gone));
}

/** A day as the student's calendar has it: "2026-03-12". */
export function dayOf(now: Date): string {
  const two = (value: number): string => `${value}`.padStart(2, "0");
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}
