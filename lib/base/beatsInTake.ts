/** What a score says of its tempo: seconds a beat, and where inside the take another tempo begins, in order of time; without `tempi` one holds throughout. */
export interface Beating {
  readonly beat: number;
  readonly tempi?: readonly { readonly at: number; readonly beat: number }[];
}

/** Times in a score are rounded to the nanosecond: seconds nearer than this are one instant. */
const SAME = 1e-6;

/** Seconds a beat at a time of a take, seconds from bar 1. Where a tempo begins it holds. */
export function beatAt({ beat, tempi }: Beating, at: number): number {
  return tempi?.findLast((tempo) => tempo.at <= at + SAME)?.beat ?? beat;
}

/** The beats of a take from `from` to `to` (excluded), seconds from bar 1: counted from the downbeat of bar 1 on, also through bars that they do not fill. */
export function beatsBetween(score: Beating, from: number, to: number): number[] {
  const tempi = score.tempi ?? [];
  const found: number[] = [];
  let counted = 0;
  const stretches = tempi.length === 0 ? [{ at: 0, beat: score.beat }] : tempi;
  stretches.forEach(({ at, beat }, i) => {
    const end = stretches[i + 1]?.at ?? Number.POSITIVE_INFINITY;
    // The first beat at or after the start of this tempo is a part of a beat behind it.
    const first = at + (Math.ceil(counted - SAME) - counted) * beat;
    const lowest = i === 0 ? Number.NEGATIVE_INFINITY : 0;
    const n = Math.max(lowest, Math.ceil((from - first) / beat - SAME));
    for (let k = n; first + k * beat < Math.min(to, end) - SAME; k++) found.push(first + k * beat + 0);
    counted += (end - at) / beat;
  });
  return found;
}

/** How many beats a stretch of a take lasts, seconds from bar 1. */
export function beatsOver(score: Beating, from: number, to: number): number {
  const { beat, tempi = [] } = score;
  if (tempi.length === 0) return (to - from) / beat;
  return tempi.reduce((beats, tempo, i) => {
    const begins = i === 0 ? from : Math.max(from, tempo.at);
    const ends = Math.min(to, tempi[i + 1]?.at ?? to);
    return beats + Math.max(0, ends - begins) / tempo.beat;
  }, 0);
}

/** Seconds a beat on average over a take of so many seconds. */
export function meanBeat(score: Beating, duration: number): number {
  return score.tempi === undefined || duration <= 0 ? score.beat : duration / beatsOver(score, 0, duration);
}
