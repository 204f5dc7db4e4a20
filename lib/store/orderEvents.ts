import { compareEvents, compareKeys, type EventKey } from "../progress/index.js";
import type { JournalEvent } from "../schema/index.js";

/** Events about to be added to a journal, in its order. */
export interface OrderedEvents {
  readonly events: readonly JournalEvent[];
  /**
   * All belong after what is there and none has an id that is there: the standing can go on from the one before. Otherwise the whole
   * journal has to be folded again, as an event may change what later ones amount to, and of two with one id only one counts.
   */
  readonly follows: boolean;
}

/** Puts new events in order and finds out whether they simply follow the last one (`undefined`: the journal is empty). */
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
