import { lineThrough } from "./lineThrough.js";

/** What a recording's strokes say of its time. */
export interface TempoHeard {
  /** Its tempo as a share of the stated one: 0.996 runs at 95.6 where 96 is stated. */
  readonly ratio: number;
  /** Seconds by which bar 1 begins later than stated; negative earlier. Known but for whole eighths. */
  readonly late: number;
  /** The bar, counted from the first one taken, that lies furthest from an even tempo from bar 1 on, and by how many seconds later. */
  readonly furthest: { readonly bar: number; readonly late: number };
}

/** Fewest strokes that a tempo is told from, and the least share of them that must agree on it; our choices. */
const FEWEST = 12;
const AGREE = 0.5;
/** How far the tempo may be from the stated one, and in which steps it is looked for; our choices: a tenth either way, as a guess is, in steps that move the last stroke of eight bars by less than a thirty-second note. */
const WIDEST = 0.1;
const STEP = 0.0005;

/**
 * The tempo at which a recording runs, where its bar 1 is, and how evenly it goes, by the times of its strokes; `undefined` where they are too few, or lie on no grid of eighths near
 * the stated tempo.
 *
 * `strokes`: seconds from where bar 1 is stated to be; `eighth` and `bar`: seconds of an eighth and of a bar at the stated tempo. The tempo is where the strokes agree best on the phase of an eighth (length of the mean vector
 * of circular statistics, Mardia and Jupp, Directional Statistics, 2000), then a straight line through them by least squares.
 *
 * @example
 * tempoHeard([0, 0.5, 1], { eighth: 0.25, bar: 2 }) // undefined: three strokes tell no tempo
 */
export function tempoHeard(
  strokes: readonly number[],
  { eighth, bar }: { readonly eighth: number; readonly bar: number },
): TempoHeard | undefined {
  if (strokes.length < FEWEST) return undefined;
  const agreement = (ratio: number): number => {
    let [cos, sin] = [0, 0];
    for (const at of strokes) {
      cos += Math.cos((2 * Math.PI * at * ratio) / eighth);
      sin += Math.sin((2 * Math.PI * at * ratio) / eighth);
    }
    return Math.hypot(cos, sin) / strokes.length;
  };
  const steps = Math.round(WIDEST / STEP);
  const ratios = Array.from({ length: 2 * steps + 1 }, (_, i) => 1 + (i - steps) * STEP);
  const best = ratios.reduce((a, b) => (agreement(b) > agreement(a) ? b : a));
  if (agreement(best) < AGREE) return undefined;
  // From stroke to stroke, so that a first one that is early does not move all the others to the next eighth.
  const places = strokes.map((at) => Math.round((at * best) / eighth));
  const { start, slope } = lineThrough(places, strokes);
  const off = new Map<number, number[]>();
  for (const [i, at] of strokes.entries()) {
    const number = 1 + Math.floor((places[i]! * eighth) / bar + 1e-6);
    off.set(number, [...(off.get(number) ?? []), at - start - slope * places[i]!]);
  }
  // Bar 1 is where the strokes of the first bar say, also where what follows drifts away from it.
  const first = median([...off.values()][0]!);
  const bars = [...off].map(([number, values]) => ({ bar: number, late: median(values) - first }));
  const furthest = bars.reduce((a, b) => (Math.abs(b.late) > Math.abs(a.late) ? b : a));
  return { ratio: eighth / slope, late: start + first, furthest };
}

function median(values: readonly number[]): number {
  const ordered = [...values].sort((a, b) => a - b);
  return ordered[Math.floor(ordered.length / 2)]!;
}
