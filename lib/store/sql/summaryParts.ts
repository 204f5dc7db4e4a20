import { canonicalJson, type JournalSummary, weekOf } from "../../progress/index.js";
import type { JournalEvent, Standing } from "../../schema/index.js";
import type { JournalKey } from "../model.js";
import { keyText } from "./keyText.js";
import type { SummaryRow } from "./tables.js";

/** What events may have changed of a summary: what it says of these drills, and of these weeks (their Mondays, ISO 8601). */
export interface Touched {
  readonly drills: ReadonlySet<string>;
  readonly weeks: ReadonlySet<string>;
}

/** What the events of a journal amount to. */
export interface Amount {
  readonly standing: Standing | undefined;
  readonly summary: JournalSummary | undefined;
  /** What of the summary is not as it was; all of it when left out. */
  readonly touched?: Touched;
}

/** What some events touch, by which these drills changed: a drill may be as it was, and a stay in it not. */
export function touchedBy(events: readonly JournalEvent[], changed: readonly string[]): Touched {
  const named = events.flatMap((event) => ("drill" in event ? [event.drill] : []));
  return { drills: new Set([...changed, ...named]), weeks: new Set(events.map(({ at }) => weekOf(at))) };
}

type Head = Pick<JournalSummary, "version" | "edition" | "enrolled" | "lastTake" | "takes">;

/** What a summary says of one drill, and the place of the drill in the standing. */
interface DrillPart {
  readonly place?: number;
  readonly complete?: true;
  readonly open?: Omit<JournalSummary["open"][number], "drill">;
  readonly stay?: Omit<JournalSummary["stays"][number], "drill">;
  readonly early?: JournalSummary["early"][number]["takes"];
}

/** Names of the parts: that of the whole, and what those of drills and of weeks begin with. */
const WHOLE = "";
const DRILL = "drill ";
const WEEK = "week ";

/** The rows of a summary, or of what was touched of it. */
export function summaryRows(
  key: JournalKey,
  {
    summary,
    standing,
    touched,
  }: { readonly summary: JournalSummary; readonly standing: Standing; readonly touched?: Touched },
): readonly SummaryRow[] {
  const [student, curriculum] = [keyText(key.student), keyText(key.curriculum)];
  const { version, edition, enrolled, lastTake, takes } = summary;
  const parts = new Map<string, object>([
    [WHOLE, { version, edition, enrolled, ...(lastTake === undefined ? {} : { lastTake }), takes } satisfies Head],
  ]);
  for (const [drill, part] of drillParts(summary, standing, touched?.drills)) parts.set(DRILL + drill, part);
  for (const { weeks, ...row } of summary.drift)
    for (const week of touched?.weeks ?? Object.keys(weeks))
      if (Object.hasOwn(weeks, week)) {
        const cells = (parts.get(WEEK + week) ?? []) as object[];
        parts.set(WEEK + week, [...cells, { ...row, cell: weeks[week] }]);
      }
  return [...parts].map(([part, body]) => ({ student, curriculum, part: keyText(part), body: canonicalJson(body) }));
}

function drillParts(
  summary: JournalSummary,
  standing: Standing,
  wanted: ReadonlySet<string> | undefined,
): ReadonlyMap<string, DrillPart> {
  const places = new Map(standing.drills.map(({ drill }, place) => [drill, place]));
  const parts = new Map<string, DrillPart>();
  const add = (drill: string, part: DrillPart): void => {
    if (wanted?.has(drill) === false) return;
    const place = places.get(drill);
    parts.set(drill, { ...(place === undefined ? {} : { place }), ...parts.get(drill), ...part });
  };
  for (const drill of summary.complete) add(drill, { complete: true });
  for (const { drill, ...open } of summary.open) add(drill, { open });
  for (const { drill, ...stay } of summary.stays) add(drill, { stay });
  for (const { drill, takes } of summary.early) add(drill, { early: takes });
  return parts;
}

/** The summary of all its parts, by their names as they are; `undefined` without that of the whole. */
export function summaryOfParts(
  parts: readonly { readonly part: string; readonly body: unknown }[],
): JournalSummary | undefined {
  let head: Head | undefined;
  const drills: (DrillPart & { readonly drill: string })[] = [];
  const drift = new Map<string, { weeks: Record<string, unknown> }>();
  for (const { part, body } of parts) {
    if (part === WHOLE) head = body as Head;
    else if (part.startsWith(DRILL)) drills.push({ ...(body as DrillPart), drill: part.slice(DRILL.length) });
    else
      for (const { cell, ...row } of body as {
        readonly cell: object;
        readonly length?: string;
        readonly told: string;
      }[]) {
        const name = JSON.stringify([row.length, row.told]);
        const held = drift.get(name) ?? { ...row, weeks: {} };
        held.weeks[part.slice(WEEK.length)] = cell;
        drift.set(name, held);
      }
  }
  const inOrder = drills.toSorted((a, b) => (a.place ?? drills.length) - (b.place ?? drills.length));
  const byName = drills.sort((a, b) => (a.drill < b.drill ? -1 : 1));
  return (
    head && {
      ...head,
      complete: inOrder.flatMap(({ drill, complete }) => (complete ? [drill] : [])),
      open: inOrder.flatMap(({ drill, open }) => (open === undefined ? [] : [{ drill, ...open }])),
      stays: byName.flatMap(({ drill, stay }) => (stay === undefined ? [] : [{ drill, ...stay }])),
      early: byName.flatMap(({ drill, early }) => (early === undefined ? [] : [{ drill, takes: early }])),
      drift: [...drift]
        .sort(([a], [b]) => (a < b ? -1 : 1))
        .map(([, row]) => row) as unknown as JournalSummary["drift"],
    }
  );
}
