import type { JournalEvent, Standing } from "../../schema/index.js";
import type { Problem } from "../problem.js";
import type { Complaint } from "./complaint.js";
import { complaintProblem } from "./complaintProblem.js";
import { compareEvents, follows } from "./event/order.js";
import { examineEvent } from "./event/shape.js";
import { openReplay, type ReplayOptions } from "./replay.js";

export interface FoldOptions extends ReplayOptions {
  /** Line (1-based) of each event in its file, for the places of problems. */
  readonly lines?: readonly number[];
  readonly file?: string;
}

export interface Folding {
  /** `undefined` when nobody is enrolled. */
  readonly standing: Standing | undefined;
  /** Problems with the events: errors and advice, each with the id and the place of the event, in order of place. */
  readonly problems: readonly Problem[];
}

/**
 * Computes the standing from the events of a journal. Events may come in any order and more than once: the same events give the same
 * standing. Corrupt and foreign events are left out and reported; all others count. Without events the standing is `undefined`.
 *
 * Time and memory are proportional to the number of events (n log n when they are not in order). For a journal as text, `foldJournal`
 * needs less memory.
 *
 * @example
 * const { standing, problems } = fold(events);
 */
export function fold(events: readonly JournalEvent[], options: FoldOptions = {}): Folding {
  const found: { readonly index: number; readonly wrong: Complaint }[] = [];
  const order: number[] = [];
  const read: JournalEvent[] = [];
  let sorted = true;
  let before: JournalEvent | undefined;
  for (let index = 0; index < events.length; index++) {
    const event = examineEvent(events[index]);
    if ("code" in event) found.push({ index, wrong: event });
    else {
      order.push(index);
      read[index] = event;
      // Most journals are in order already, and this check is faster than sorting.
      sorted &&= before === undefined || follows(before, event);
      before = event;
    }
  }
  if (!sorted) order.sort((a, b) => compareEvents(read[a]!, read[b]!));
  const replay = openReplay(options);
  for (const index of order) for (const wrong of replay.count(read[index]!)) found.push({ index, wrong });
  found.sort((a, b) => a.index - b.index);
  const problems = found.map(({ index, wrong }) => ({ ...complaintProblem(wrong), where: placeIn(options, index) }));
  return { standing: replay.close(), problems };
}

/**
 * The standing after one more event, the next in the order of the journal: the same as a fold of the whole journal. An event that
 * belongs earlier does not change the standing (EVENT_BEHIND): fold the journal with that event in it. A standing knows the names of its
 * takes but not the ids of other events, so the caller must keep each id only once.
 */
export function apply(standing: Standing, event: JournalEvent): Folding & { readonly standing: Standing } {
  const { standing: next = standing, problems } = fold([event], { after: standing });
  return { standing: next, problems };
}

/** The place of the event with this index: its line, or else a JSON pointer into the given list. */
function placeIn({ lines, file }: FoldOptions, index: number): Problem["where"] {
  const line = lines?.[index];
  const where = line === undefined ? { pointer: `/${index}` } : { line };
  return file === undefined ? where : { file, ...where };
}
