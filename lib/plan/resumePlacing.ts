import type { Curriculum } from "../curriculum/index.js";
import type { Drill } from "../drill/index.js";
import { demandCache, drillCalled, observationOf, rungCalled, updateBelief } from "../forecast/index.js";
import { compareEvents } from "../progress/index.js";
import type { JournalEvent } from "../schema/index.js";
import { beginPlacing, type Placing, type PlacingOptions, placeAfter } from "./placement.js";

/**
 * How far finding a student's rung in a drill has come, by their journal alone, so that nothing else has to be kept: the takes of the drill
 * that were played to the rung asked for lead on, all others are learnt from. When the student was put on a rung of the drill, or
 * went on playing in it after their rung was found, it begins anew with what is known by then. No events: the beginning.
 *
 * Throws `RangeError` as `beginPlacing` does.
 * @example
 * resumePlacing(curriculum, drill, events).rung // what to play next, or where to begin when it is `done`
 */
export function resumePlacing(
  curriculum: Curriculum,
  drill: Drill,
  { events, ...options }: PlacingOptions & { readonly events: Iterable<JournalEvent> },
): Placing {
  const demands = demandCache();
  const heard = new Set<string>();
  let placing = beginPlacing(drill, options);
  const anew = (): Placing => beginPlacing(drill, { ...options, belief: placing.belief });
  for (const event of [...events].sort(compareEvents)) {
    if (event.kind === "set by teacher" && drillCalled(curriculum, event.drill) === drill) placing = anew();
    if (event.kind !== "take assessed" || heard.has(event.take)) continue;
    heard.add(event.take);
    const home = drillCalled(curriculum, event.drill);
    const rung = rungCalled(home, event.rung);
    if (home === drill && placing.done) placing = anew();
    if (home === drill && rung?.index === placing.rung.index) placing = placeAfter(placing, event);
    else if (rung !== undefined) {
      const belief = updateBelief(placing.belief, observationOf(demands.of(rung).demand, event));
      // The rung asked for stays: the student may be playing it by now.
      placing = { ...placing, belief };
    }
  }
  return placing;
}
