import type { DrillStanding, RungStanding } from "../../schema/index.js";
import type { JournalKey } from "../model.js";
import { keyText } from "./keyText.js";
import type { RungRow } from "./tables.js";

/** Takes of a full page: our choice, some kilobytes. */
const PAGE = 64;

type Page = Pick<RungStanding, "takes" | "outcomes" | "leftOut">;

/** The rows of a drill's rungs that are not as they were `before`; all of them without. Of rungs that were there, takes may only have been added at the end. */
export function rungRows(
  key: JournalKey,
  place: number,
  { drill, before }: { readonly drill: DrillStanding; readonly before: DrillStanding | undefined },
): readonly RungRow[] {
  const [student, curriculum] = [keyText(key.student), keyText(key.curriculum)];
  return drill.rungs.flatMap((held, rung): readonly RungRow[] => {
    const was = before?.rungs[rung];
    if (held === was) return [];
    const { takes, outcomes, leftOut, ...head } = held;
    const full = Math.floor(takes.length / PAGE);
    const rows: RungRow[] = [];
    const write = (number: number, body: object): void => {
      rows.push({ student, curriculum, place, rung, number, body: JSON.stringify(body) });
    };
    write(0, { ...head, ...pageOf(held, full) });
    for (let i = Math.floor((was?.takes.length ?? 0) / PAGE); i < full; i++) write(i + 1, pageOf(held, i));
    return rows;
  });
}

function pageOf({ takes, outcomes, leftOut }: RungStanding, number: number): Page {
  const [from, to] = [number * PAGE, (number + 1) * PAGE];
  return {
    takes: takes.slice(from, to),
    outcomes: outcomes.slice(from, to),
    ...(leftOut === undefined ? {} : { leftOut: leftOut.slice(from, to) }),
  };
}

/** The rungs of a drill from the texts of all their rows, in order. */
export function rungsOfRows(bodies: readonly (Page | RungStanding)[]): readonly RungStanding[] {
  const rungs: RungStanding[] = [];
  let pages: Page[] = [];
  let head: RungStanding | undefined;
  const finish = (): void => {
    if (head === undefined) return;
    // Full pages come after the row that has the last one.
    const all = [...pages, head];
    const { rung, from, credit, leftOut } = head;
    rungs.push({
      rung,
      takes: all.flatMap(({ takes }) => takes),
      outcomes: all.map(({ outcomes }) => outcomes).join(""),
      ...(leftOut === undefined
        ? {}
        : { leftOut: all.flatMap((page) => page.leftOut ?? page.takes.map(() => NOTHING_SAID)) }),
      from,
      ...(credit === undefined ? {} : { credit }),
    });
  };
  for (const body of bodies) {
    if (!("rung" in body)) pages.push(body);
    else {
      finish();
      [head, pages] = [body, []];
    }
  }
  finish();
  return rungs;
}

/** Of takes that came before any that says what was left out. */
const NOTHING_SAID = [0, 0, 0, 0] as const;
