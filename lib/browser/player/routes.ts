import type { Score } from "../../schema/index.js";
import { placeAt, type Route, type Stretch } from "./cueing.js";

/** Phrases of a score, counted from 1 as its bars do, as a stretch of it. Throws `RangeError` for phrases it does not have. */
export function stretchOf(score: Score, { from, to }: { readonly from: number; readonly to: number }): Stretch {
  const first = score.bars.find(({ phrase }) => phrase === from);
  const last = score.bars.findLast(({ phrase }) => phrase === to);
  if (first === undefined || last === undefined || from > to)
    throw new RangeError(`the phrases of the score are 1 to ${score.bars.at(-1)?.phrase ?? 0}; got ${from} to ${to}`);
  const after = score.bars[score.bars.indexOf(last) + 1];
  return { from: first.at, to: after?.at ?? score.duration };
}

/** The way from a place to the end, or into what is repeated; before it the count-in, if it is `counted`. */
export function routeFrom(
  score: Score,
  {
    at,
    from,
    counted,
    again,
  }: { readonly at: number; readonly from: number; readonly counted: boolean; readonly again: Stretch | undefined },
): Route {
  const isBefore = again === undefined || from < again.to;
  const begin = isBefore ? from : again.from;
  const main = { from: begin, to: again?.to ?? score.duration };
  const stretches = counted && score.countIn > 0 && begin >= 0 ? [{ from: -score.countIn, to: 0 }, main] : [main];
  const [first, ...ahead] = stretches;
  return { passages: [{ ...first!, at }], ahead, again };
}

/** The same way with something else repeated from a second of the context on, or nothing. */
export function withRepeat(
  route: Route,
  { again, from, end }: { readonly again: Stretch | undefined; readonly from: number; readonly end: number },
): Route {
  const place = placeAt(route, from) ?? route.passages[0]!.from;
  const before = route.passages.filter(({ at }) => at <= from);
  const current = before.pop() ?? route.passages[0]!;
  // In the count-in, what comes after it is what changes.
  const later = route.passages.slice(before.length + 1);
  const isCountIn = current.to <= 0 && current.from < 0;
  if (isCountIn) {
    const target = (later[0] ?? route.ahead[0])?.from ?? 0;
    return { passages: [...before, current], ahead: [partTo(target, again, end)], again };
  }
  const rest = partTo(place, again, end);
  const goesOn = rest.from === place;
  const passages = goesOn
    ? [...before, { ...current, to: rest.to }]
    : [...before, { ...current, to: place }, { ...rest, at: from }];
  return { passages, ahead: [], again };
}

function partTo(place: number, again: Stretch | undefined, end: number): Stretch {
  if (again === undefined) return { from: place, to: end };
  return place < again.to ? { from: place, to: again.to } : again;
}
