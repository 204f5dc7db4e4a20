import { type Drill, parseSettings, rungs, type Settings } from "../../../drill/index.js";
import { compareEvents } from "../../../progress/index.js";
import type { JournalEvent, Verdict } from "../../../schema/index.js";
import { daysOf } from "../../../time/index.js";

/** The part of a curriculum that a climb chart needs. */
export interface Course {
  readonly name: string;
  readonly drills: readonly Drill[];
}

/** The history of one drill in a journal. Days are counted from 1 January 1970. */
export interface Track {
  readonly drill: Drill;
  /** Arrivals on rungs, in the order of the journal; days never decrease. */
  readonly moves: readonly { readonly at: number; readonly rung: number; readonly byTeacher: boolean }[];
  readonly takes: readonly { readonly at: number; readonly verdict: Verdict }[];
  readonly completedAt: number | undefined;
}

export interface Climb {
  readonly student: string | undefined;
  /** Drills of the course with takes or moves, in the order of the course. */
  readonly tracks: readonly Track[];
  /** First and last day of an event; `undefined` for an empty journal. */
  readonly days: readonly [first: number, last: number] | undefined;
  /** Drills in the journal that are not in the course. */
  readonly unknown: readonly string[];
}

interface Growing {
  moves: { at: number; rung: string; byTeacher: boolean }[];
  takes: { at: number; verdict: Verdict }[];
  completedAt: number | undefined;
}

/** The climb recorded in a journal. The order of `events` does not matter; each event counts once. */
export function climbOf(course: Course, events: readonly JournalEvent[]): Climb {
  const grown = new Map<string, Growing>();
  const trackOf = (drill: string): Growing => {
    const found = grown.get(drill) ?? { moves: [], takes: [], completedAt: undefined };
    grown.set(drill, found);
    return found;
  };
  const seen = new Set<string>();
  const takes = new Set<string>();
  let student: string | undefined;
  let first = Number.POSITIVE_INFINITY;
  let last = Number.NEGATIVE_INFINITY;
  for (const event of [...events].sort(compareEvents)) {
    const day = daysOf(event.at);
    if (seen.has(event.id) || Number.isNaN(day)) continue;
    seen.add(event.id);
    first = Math.min(first, day);
    last = Math.max(last, day);
    student ??= event.student;
    // The clocks of two devices may differ; the order of the journal is certain.
    const at = last;
    const arrive = (drill: string, rung: string, byTeacher = false): number =>
      trackOf(drill).moves.push({ at, rung, byTeacher });
    switch (event.kind) {
      case "take assessed":
        if (takes.has(event.take)) break;
        takes.add(event.take);
        trackOf(event.drill).takes.push({ at: day, verdict: event.verdict });
        break;
      case "drill opened":
      case "advanced":
      case "gone back":
        arrive(event.drill, event.to);
        break;
      case "set by teacher":
        arrive(event.drill, event.to, event.by === undefined);
        break;
      case "drill completed":
        trackOf(event.drill).completedAt ??= at;
        break;
      case "edition changed":
        for (const { from, to } of event.renamed) {
          const moved = grown.get(from);
          grown.delete(from);
          if (moved !== undefined) grown.set(to, moved);
        }
        for (const { drill, to } of event.moved) arrive(drill, to);
        for (const drill of event.reopened) trackOf(drill).completedAt = undefined;
        for (const drill of event.completeAgain ?? []) trackOf(drill).completedAt ??= at;
    }
  }
  const tracks = course.drills.flatMap((drill): Track[] => {
    const track = grown.get(drill.name);
    return track === undefined
      ? []
      : [{ drill, takes: track.takes, completedAt: track.completedAt, moves: onRungs(drill, track.moves) }];
  });
  const known = new Set(course.drills.map(({ name }) => name));
  return {
    student,
    tracks,
    days: seen.size === 0 ? undefined : [first, last],
    unknown: [...grown.keys()].filter((name) => !known.has(name)),
  };
}

/** Moves with the index of their rung. Rungs that are not in this edition of the drill are left out. */
function onRungs(drill: Drill, moves: Growing["moves"]): Track["moves"] {
  const all = rungs(drill);
  return moves.flatMap(({ at, rung, byTeacher }) => {
    const settings = parseSettings(rung);
    const index = settings.ok ? all.indexOf(settings.value as Settings) : undefined;
    return index === undefined ? [] : [{ at, rung: index, byTeacher }];
  });
}
