import type { Problem } from "../base/index.js";
import type { JournalEvent, Standing } from "../schema/index.js";
import { type CountingOptions, openCounting } from "./counting.js";
import { compareEvents, follows } from "./eventOrder.js";
import { readEvent } from "./eventShape.js";

export interface FoldOptions extends CountingOptions {
  /** Line (1-based) of each event in its file, for the places of problems. */
  readonly lines?: readonly number[];
  readonly file?: string;
}

export interface Folding {
  /** `undefined` when nobody is enrolled. */
  readonly standing: Standing | undefined;
  /** What was refused (errors) or noticed (advice), each naming the event by id and place; in order of place. */
  readonly problems: readonly Problem[];
}

/**
 * The standing a journal amounts to. Events may come in any order and any number of times: the same events give the same standing.
 * What is corrupt or foreign is left out and named; the rest counts. No events: no standing.
 *
 * Time and memory grow in proportion to the number of events (n log n when they come out of order). A journal that is a text is
 * folded with less memory by `foldJournal`.
 *
 * @example
 * const { standing, problems } = fold(events);
 */
export function fold(events: readonly JournalEvent[], options: FoldOptions = {}): Folding {
  const found: { readonly index: number; readonly problem: Problem }[] = [];
  const order: number[] = [];
  let sorted = true;
  let before: JournalEvent | undefined;
  for (let index = 0; index < events.length; index++) {
    const event = readEvent(events[index]);
    if ("code" in event) found.push({ index, problem: event });
    else {
      order.push(index);
      // Most journals are in order already, and asking costs less than sorting.
      sorted &&= before === undefined || follows(before, event);
      before = event;
    }
  }
  if (!sorted) order.sort((a, b) => compareEvents(events[a]!, events[b]!));
  const counting = openCounting(options);
  for (const index of order) for (const problem of counting.count(events[index]!)) found.push({ index, problem });
  found.sort((a, b) => a.index - b.index);
  const problems = found.map(({ index, problem }) => ({ ...problem, where: placeIn(options, index) }));
  return { standing: counting.close(), problems };
}

/**
 * The standing after one more event, the next in the journal's order: the same as folding the whole journal again. An event that
 * belongs earlier leaves the standing as it is (EVENT_BEHIND): fold the journal with that event in it. A standing knows its takes but
 * not the ids of other events: whoever keeps the journal sees to it that an id is kept once.
 */
export function apply(standing: Standing, event: JournalEvent): Folding & { readonly standing: Standing } {
  const { standing: next = standing, problems } = fold([event], { after: standing });
  return { standing: next, problems };
}

/** The place of the event with this index: its line, or a pointer into the list it was given in. */
function placeIn({ lines, file }: FoldOptions, index: number): Problem["where"] {
  const line = lines?.[index];
  const where = line === undefined ? { pointer: `/${index}` } : { line };
  return file === undefined ? where : { file, ...where };
}
