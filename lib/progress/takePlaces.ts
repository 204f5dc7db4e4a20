import type { Standing } from "../schema/index.js";

/** Where a take is: its drill, its rung, and its index in the list of the rung. */
export interface TakePlace {
  readonly drill: string;
  readonly rung: string;
  readonly place: number;
}

/**
 * The places of each take by its name, so that a take is found at once however many there are. Standings that follow from each other share one, so it may name places of another
 * standing that followed from the same one, or from before a drill was renamed: whoever is told of a place looks there.
 */
export type TakePlaces = Map<string, readonly TakePlace[]>;

const known = new WeakMap<Standing, TakePlaces>();

/** Where the takes of a standing are; worked out when it is first asked for. */
export function takePlaces(standing: Standing): TakePlaces {
  let found = known.get(standing);
  if (found === undefined) {
    found = new Map();
    for (const { drill, rungs } of standing.drills)
      for (const { rung, takes } of rungs)
        for (const [place, take] of takes.entries()) notePlace(found, take, { drill, rung, place });
    known.set(standing, found);
  }
  return found;
}

/** Adds a place of a take. */
export function notePlace(places: TakePlaces, take: string, { drill, rung, place }: TakePlace): void {
  const held = places.get(take) ?? [];
  if (!held.some((each) => each.place === place && each.rung === rung && each.drill === drill))
    places.set(take, [...held, { drill, rung, place }]);
}

/** The standing that follows from another one, with its places. */
export function withPlaces(standing: Standing, places: TakePlaces | undefined): Standing {
  if (places !== undefined) known.set(standing, places);
  return standing;
}

/** Where the takes of a standing are, when that was asked before. */
export function placesHeld(standing: Standing | undefined): TakePlaces | undefined {
  return standing && known.get(standing);
}
