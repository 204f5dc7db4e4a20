import type { Curriculum } from "../../lib/curriculum/index.js";
import { type Drill, rungs, settingsText } from "../../lib/drill/index.js";
import type { Standing, Verdict } from "../../lib/schema/index.js";

/** What was played to a rung, in order, and how many of it before the present stay. */
export interface Played {
  takes: { readonly take: string; readonly verdict: Verdict }[];
  from: number;
}

/** Where a student is in a drill, as the referee keeps it: with nothing of the library's own counting. */
export interface Place {
  state: "closed" | "open" | "complete";
  rung: string | undefined;
  by: string | undefined;
  completed: string | undefined;
  /** Where a new edition took the student from, until something else moves them. */
  takenFrom: { readonly rung: string; readonly state: "open" | "complete" } | undefined;
  readonly credits: Map<string, { readonly event: string; readonly evidence: readonly string[] }>;
  readonly played: Map<string, Played>;
}

export interface Board {
  edition: string;
  readonly places: Map<string, Place>;
  readonly takes: Map<string, { drill: string; readonly rung: string; readonly verdict: Verdict }>;
  /** Last takes of decisions. */
  readonly decided: Set<string>;
}

/** The place in a drill, made when it is first heard of. */
export function placeIn(board: Board, drill: string): Place {
  let place = board.places.get(drill);
  if (place === undefined) {
    place = {
      state: "closed",
      rung: undefined,
      by: undefined,
      completed: undefined,
      takenFrom: undefined,
      credits: new Map(),
      played: new Map(),
    };
    board.places.set(drill, place);
  }
  return place;
}

export function playedTo(place: Place, rung: string): Played {
  const played = place.played.get(rung) ?? { takes: [], from: 0 };
  place.played.set(rung, played);
  return played;
}

/** The takes of the present stay that are clear, in order. */
export function clearStay(place: Place, rung: string): Played["takes"] {
  const { takes, from } = playedTo(place, rung);
  return takes.slice(from).filter(({ verdict }) => verdict !== "unclear");
}

/** Puts the student on a rung: a stay begins. */
export function put(place: Place, rung: string, by: string): void {
  const played = playedTo(place, rung);
  played.from = played.takes.length;
  place.rung = rung;
  place.by = by;
  place.state = "open";
  place.takenFrom = undefined;
}

const listed = new WeakMap<Drill, readonly string[]>();

/** Settings of every rung of a drill, the easiest first: these drills are small. */
export function ladderOf(drill: Drill): readonly string[] {
  let texts = listed.get(drill);
  if (texts === undefined) {
    const all = rungs(drill);
    texts = Array.from({ length: all.count }, (_, i) => settingsText(all.at(i).settings));
    listed.set(drill, texts);
  }
  return texts;
}

/** What a board and a standing have in common, in one form to be compared. */
export function seen(source: Board | Standing): unknown {
  const drills =
    "places" in source
      ? [...source.places].map(([drill, { state, rung, by, completed, credits, played }]) => ({
          drill,
          state,
          rung,
          by,
          completed,
          credits: [...credits].map(([earned, { event }]) => `${earned} ${event}`).sort(),
          takes: [...played]
            .filter(([, { takes }]) => takes.length > 0)
            .map(([to, { takes }]) => `${to}: ${takes.map(({ take, verdict }) => `${take} ${verdict[0]}`).join()}`)
            .sort(),
          stay: rung && clearStay(source.places.get(drill)!, rung).map(({ take }) => take),
        }))
      : source.drills.map(({ drill, state, rung, by, completed, rungs: held }) => ({
          drill,
          state,
          rung,
          by,
          completed: completed?.event,
          credits: held.flatMap(({ rung: earned, credit }) => (credit ? [`${earned} ${credit.event}`] : [])).sort(),
          takes: held
            .filter(({ takes }) => takes.length > 0)
            .map(({ rung: to, takes, outcomes }) => `${to}: ${takes.map((take, i) => `${take} ${outcomes[i]}`).join()}`)
            .sort(),
          stay:
            rung &&
            held
              .filter((each) => each.rung === rung)
              .flatMap(({ takes, outcomes, from }) => takes.filter((_, i) => i >= from && outcomes[i] !== "u")),
        }));
  return { edition: source.edition, drills: drills.sort((a, b) => (a.drill < b.drill ? -1 : 1)) };
}

/** Every edition a school has had, by its number. */
export type Editions = ReadonlyMap<string, Curriculum>;

export function drillIn(course: Curriculum | undefined, name: string): Drill | undefined {
  return course?.drills.find((drill) => drill.name === name);
}
