import { compareEvents, compareKeys, type EventKey } from "../progress/index.js";
import type { JournalEvent } from "../schema/index.js";

/** New events of a journal, in its order. */
export interface OrderedEvents {
  readonly events: readonly JournalEvent[];
  /**
   * True when all new events belong after the last kept event and all ids are new: then the standing can continue from the one before.
   * Otherwise the whole journal must be folded again, because an event may change the effect of later ones, and of two events with one id
   * only one counts.
   */
  readonly follows: boolean;
}

/** Sorts new events and tells whether they all follow the last kept event. `last` is `undefined` for an empty journal. */
export function orderEvents(
  fresh: readonly JournalEvent[],
  last: EventKey | undefined,
  isKnown: (id: string) => boolean,
): OrderedEvents {
  const events = [...fresh].sort(compareEvents);
  const ids = new Set(events.map(({ id }) => id));
  const follows =
    ids.size === events.length &&
    (last === undefined || events.length === 0 || compareKeys(last, events[0]!) < 0) &&
    !events.some(({ id }) => isKnown(id));
  return { events, follows };
}
