import { type RawBuilder, sql } from "kysely";
import type { JournalSummary } from "../../progress/index.js";
import type { Standing } from "../../schema/index.js";
import type { JournalKey } from "../model.js";
import type { JournalRow } from "./tables.js";

/** A journal as it was when it was last read or written here: a copy to go on from, never the truth. */
export interface Held {
  readonly row: JournalRow;
  readonly standing: Standing | undefined;
  readonly summary: JournalSummary | undefined;
}

/**
 * Journals opened lately, so that a take need not read again what was read or written just before. Whoever goes on from one says to the database what it rests
 * on (`restsOn`), and the database compares: one that was changed, erased or begun anew meanwhile is read again.
 */
export interface Lately {
  get(key: JournalKey): Held | undefined;
  /** Holds it as the newest, and lets go of the oldest when there are too many; without one, forgets the journal. */
  set(key: JournalKey, held: Held | undefined): void;
  /** Holds what was just written. */
  written(key: JournalKey, held: Held): void;
  /** Counts another time that somebody was first in a journal, since it was last written here; gives how often. */
  overtaken(key: JournalKey): number;
  /** Forgets everything of a student. */
  forget(student: string): void;
}

/** Events of all journals that are held: our choice, some tens of megabytes. */
const EVENTS_HELD = 200_000;

/** Journals of which is counted how often somebody else was first: our choice, more than are written to at once. Whoever is forgotten waits a shorter while. */
const MOST_MISSES = 1000;

export function holdLately(most: number = EVENTS_HELD): Lately {
  // A map keeps the order in which its keys were set.
  const held = new Map<string, Held>();
  const misses = new Map<string, number>();
  let events = 0;
  const nameOf = ({ student, curriculum }: JournalKey): string => JSON.stringify([student, curriculum]);
  const drop = (name: string): void => {
    events -= held.get(name)?.row.events ?? 0;
    held.delete(name);
  };
  const set: Lately["set"] = (key, given) => {
    const name = nameOf(key);
    drop(name);
    if (given === undefined) return;
    held.set(name, given);
    events += given.row.events;
    for (const oldest of held.keys()) {
      if (events <= most || oldest === name) break;
      drop(oldest);
    }
  };
  return {
    get: (key) => held.get(nameOf(key)),
    set,
    overtaken: (key) => {
      const name = nameOf(key);
      const times = (misses.get(name) ?? 0) + 1;
      misses.delete(name);
      misses.set(name, times);
      for (const oldest of misses.keys()) if (misses.size > MOST_MISSES) misses.delete(oldest);
      return times;
    },
    written: (key, given) => {
      misses.delete(nameOf(key));
      set(key, given);
    },
    forget: (student) => {
      for (const name of [...held.keys(), ...misses.keys()]) {
        if ((JSON.parse(name) as [string])[0] !== student) continue;
        drop(name);
        misses.delete(name);
      }
    },
  };
}

/** Whether the row `j` of a journal is what it was, in SQL: a journal that was erased and begun anew may come to the same revision, but not to the same last event. */
export function restsOn({ revision, events, last_turn, last_at, last_id }: JournalRow): RawBuilder<boolean> {
  return sql<boolean>`(j.revision = ${revision} and j.events = ${events} and j.last_turn = ${last_turn}
    and j.last_at = ${last_at} and j.last_id = ${last_id})`;
}
