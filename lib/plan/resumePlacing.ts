import { type Curriculum, drillCalled } from "../curriculum/index.js";
import { type Drill, rungCalled } from "../drill/index.js";
import { demandCache, observationOf, updateBelief } from "../forecast/index.js";
import { compareEvents } from "../progress/index.js";
import type { JournalEvent } from "../schema/index.js";
import { beginPlacing, type Placing, type PlacingOptions, placeAfter } from "./placement.js";

/**
 * State of a student's placement in a drill, from the journal alone, so that nothing else has to be kept. Takes on the rung asked for lead to
 * the next step; all other takes only update the posterior. When the student was put on a rung of the drill, or went on playing in it after
 * the placement was done, the placement begins anew with what is known by then. No events: the beginning.
 *
 * Throws `RangeError` as `beginPlacing` does.
 * @example
 * resumePlacing(curriculum, drill, { events }).rung // what to play next, or where to begin when it is `done`
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
