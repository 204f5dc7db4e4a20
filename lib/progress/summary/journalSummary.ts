import type { DrillStanding, JournalEvent, ReportTally, Standing, TakeAssessed } from "../../schema/index.js";
import { instantOf } from "../../time/index.js";
import type { Folding } from "../journal/fold.js";
import { rungStanding, stayVerdicts } from "../standing.js";
import { dateOf } from "./calendarDays.js";
import { type DriftCells, openCells } from "./driftCells.js";
import { applyToStays, type RungStay, type RungStays, type StayTake } from "./rungStay.js";

/**
 * All that a report needs of a journal, whatever its length: plain data, worked out from the events as the standing is, and kept beside it. It grows with drills and weeks;
 * an event changes what it says of one drill and of one week.
 */
export interface JournalSummary {
  readonly version: 2;
  readonly edition: string;
  /** When the student was enrolled, RFC 3339. */
  readonly enrolled: string;
  readonly lastTake?: string;
  readonly takes: ReportTally;
  /** Names of the drills that are complete, as the standing has them. */
  readonly complete: readonly string[];
  /** Drills that are open, each with the rung the student is on and the takes of this stay. */
  readonly open: readonly { readonly drill: string; readonly rung: string; readonly takes: ReportTally }[];
  /** By name of the drill. */
  readonly stays: readonly RungStay[];
  /** Takes of drills under names they do not have yet, by name. */
  readonly early: readonly { readonly drill: string; readonly takes: readonly StayTake[] }[];
  readonly drift: readonly DriftCells[];
}

export interface SummaryOptions {
  /** The summary before these events, when they follow all that it is of. */
  readonly before?: JournalSummary | undefined;
  /** Drills of which the standing has takes, with `before`; those of all others are as they were. All when left out. */
  readonly touched?: ReadonlySet<string> | undefined;
  /** First day whose takes are counted, and whose silences are; places rest on all takes. */
  readonly since?: string | undefined;
}

/**
 * The summary of a journal after some events, in its order, and what `fold` made of them; `undefined` while nobody is enrolled. Events without effect on the standing
 * have none here.
 *
 * @example
 * summarise(events, fold(events))?.takes.within // 1
 */
export function summarise(
  events: readonly JournalEvent[],
  { standing, problems }: Folding,
  { before, touched, since }: SummaryOptions = {},
): JournalSummary | undefined {
  if (standing === undefined) return undefined;
  const idle = new Set(
    problems.filter(({ code }) => code !== "JOURNAL_GAP").map(({ where }) => Number(where.pointer!.slice(1))),
  );
  const stays = staysOf(before);
  const takes = { within: 0, beyond: 0, unclear: 0, ...before?.takes };
  const drift = openCells(before?.drift);
  const open = new Map(before?.open.map((each) => [each.drill, each]));
  const seen = new Set<string>();
  let { enrolled = "", lastTake } = before ?? {};
  events.forEach((event, i) => {
    if (idle.has(i) || seen.has(event.id)) return;
    seen.add(event.id);
    applyToStays(stays, event);
    if (event.kind === "enrolled") enrolled = event.at;
    if (event.kind !== "take assessed") return;
    if (lastTake === undefined || instantOf(event.at) > instantOf(lastTake)) lastTake = event.at;
    if (since !== undefined && dateOf(event.at) < since) return;
    takes[event.verdict]++;
    drift.add(event);
  });
  return {
    version: 2,
    edition: standing.edition,
    enrolled,
    ...(lastTake === undefined ? {} : { lastTake }),
    takes,
    complete: standing.drills.filter(({ state }) => state === "complete").map(({ drill }) => drill),
    open: openIn(standing).map((held) =>
      touched === undefined || touched.has(held.drill)
        ? { drill: held.drill, rung: held.rung!, takes: stayTally(held) }
        : open.get(held.drill)!,
    ),
    stays: [...stays.of.values()].sort(byDrill),
    early: [...stays.early].map(([drill, early]) => ({ drill, takes: early })).sort(byDrill),
    drift: drift.close(),
  };
}

/** Takes by verdict. */
export function tallyOf(takes: Iterable<TakeAssessed["verdict"]>): ReportTally {
  const tally = { within: 0, beyond: 0, unclear: 0 };
  for (const verdict of takes) tally[verdict]++;
  return tally;
}

function openIn({ drills }: Standing): readonly DrillStanding[] {
  return drills.filter(({ state, withdrawn }) => state === "open" && withdrawn !== true);
}

function stayTally(held: DrillStanding): ReportTally {
  return tallyOf(stayVerdicts(rungStanding(held, held.rung!)!));
}

function staysOf(before: JournalSummary | undefined): RungStays {
  return {
    of: new Map(before?.stays.map((stay) => [stay.drill, stay])),
    early: new Map(before?.early.map(({ drill, takes }) => [drill, takes])),
  };
}

function byDrill(a: { readonly drill: string }, b: { readonly drill: string }): number {
  return a.drill < b.drill ? -1 : a.drill > b.drill ? 1 : 0;
}
