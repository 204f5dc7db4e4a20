/** A stretch of the score as it is played: `from` sounds at second `at` of the context, and so on until `to`. */
export interface Passage {
  /** Seconds from bar 1 of the score; `to` is excluded. */
  readonly from: number;
  readonly to: number;
  readonly at: number;
}

/** What is still to be played after the last passage: stretches in turn, then one again and again. */
export interface Route {
  readonly passages: readonly Passage[];
  readonly ahead: readonly Stretch[];
  readonly again: Stretch | undefined;
}

export interface Stretch {
  readonly from: number;
  readonly to: number;
}

/** How far the cues have been handed over: the passage, and the cue that comes next in it. */
export interface Reached {
  readonly passage: number;
  readonly cue: number;
}

/** A cue with the second of the context at which it is to sound. */
export interface DueCue<Cue> {
  readonly cue: Cue;
  readonly when: number;
}

export interface Handed<Cue> {
  readonly due: readonly DueCue<Cue>[];
  /** Cues whose time has passed: they are not to be played, but told of. */
  readonly late: readonly DueCue<Cue>[];
  readonly route: Route;
  readonly reached: Reached;
}

/**
 * The cues that sound before `until`, each once: those from `now` on to be played, those whose time has passed as late. The route goes on through
 * `ahead` and `again` as far as needed. A function of its arguments alone; `cues` are in order of time.
 */
export function handOver<Cue extends { readonly at: number }>(
  cues: readonly Cue[],
  { route, reached }: { readonly route: Route; readonly reached: Reached },
  { now, until }: { readonly now: number; readonly until: number },
): Handed<Cue> {
  const due: DueCue<Cue>[] = [];
  const late: DueCue<Cue>[] = [];
  let [going, { passage, cue }] = [route, reached];
  for (;;) {
    const here = going.passages[passage]!;
    const next = cues[cue];
    if (next !== undefined && next.at < here.to) {
      const when = here.at + next.at - here.from;
      if (when >= until) break;
      (when < now ? late : due).push({ cue: next, when });
      cue++;
      continue;
    }
    const on = passage + 1 < going.passages.length ? going : goneOn(going);
    if (on === undefined || on.passages[passage + 1]!.at >= until) break;
    going = on;
    passage++;
    cue = firstFrom(cues, going.passages[passage]!.from);
  }
  return { due, late, route: going, reached: { passage, cue } };
}

/** Where a new start leads: the place that sounds at a second of the context, and the first cue from there on. */
export function reachedAt(cues: readonly { readonly at: number }[], { passages }: Route, seconds: number): Reached {
  const passage = Math.max(
    0,
    passages.findLastIndex(({ at }) => at <= seconds),
  );
  return { passage, cue: firstFrom(cues, placeIn(passages[passage]!, seconds)) };
}

/** The place of the score that sounds at a second of the context; `undefined` before the first passage. */
export function placeAt({ passages }: Route, seconds: number): number | undefined {
  const passage = passages.findLast(({ at }) => at <= seconds);
  return passage && placeIn(passage, seconds);
}

/** The second of the context at which the route ends; `Infinity` while something is repeated. */
export function endOf({ passages, ahead, again }: Route): number {
  if (again !== undefined) return Number.POSITIVE_INFINITY;
  const last = passages.at(-1)!;
  return ahead.reduce((at, { from, to }) => at + to - from, last.at + last.to - last.from);
}

function placeIn({ from, to, at }: Passage, seconds: number): number {
  return Math.min(to, from + seconds - at);
}

function goneOn({ passages, ahead, again }: Route): Route | undefined {
  const [next = again, ...rest] = ahead;
  const last = passages.at(-1)!;
  return next && { passages: [...passages, { ...next, at: last.at + last.to - last.from }], ahead: rest, again };
}

/** Half a nanosecond: scores state times to the nanosecond. */
const SAME = 5e-10;

function firstFrom(cues: readonly { readonly at: number }[], from: number): number {
  const index = cues.findIndex(({ at }) => at >= from - SAME);
  return index < 0 ? cues.length : index;
}
