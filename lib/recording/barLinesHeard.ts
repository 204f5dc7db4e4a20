import { lineThrough } from "./lineThrough.js";

/** How much of its way to a stroke the time that is followed moves, and its tempo; our choices: half, and a tenth, so that a stroke that is early by itself pulls little. */
const FOLLOWS = 0.5;
const FOLLOWS_TEMPO = 0.1;
/** A stroke further than this share of an eighth from every eighth is between them: our choice, half the way to a sixteenth. */
const BETWEEN = 0.25;
/** Furthest the tempo is followed from the stated one, either way; our choice, more than a drummer drifts by. */
const FURTHEST = 0.15;
/** Fewest strokes about a bar line that tell where it is; our choice. */
const FEWEST = 3;

/** A stroke, and how many eighths after bar 1 it belongs. */
interface Placed {
  readonly at: number;
  readonly place: number;
}

/**
 * The seconds of each bar line of a recording that does not keep its tempo, and of the end of its last bar, from the times of its strokes; `undefined` where a bar line has too few strokes about it.
 *
 * `strokes`: seconds, in order, from where bar 1 is stated to be; `eighth`, `beat` and `bar`: seconds at the stated tempo; `bars`: how many. The strokes are followed from eighth to eighth, then a straight line goes through
 * those within half a bar of each bar line (a bar where they are few), by least squares: through the beats alone where they are enough, as what lies between may be swung.
 *
 * @example
 * barLinesHeard([0, 0.5, 1], { eighth: 0.25, beat: 0.5, bar: 2, bars: 1 }) // undefined: nothing is heard about the second bar line
 */
export function barLinesHeard(
  strokes: readonly number[],
  {
    eighth,
    beat,
    bar,
    bars,
  }: { readonly eighth: number; readonly beat: number; readonly bar: number; readonly bars: number },
): readonly number[] | undefined {
  const placed = followed(strokes, eighth);
  const [inBeat, inBar] = [Math.round(beat / eighth), bar / eighth];
  const lines: number[] = [];
  for (let line = 0; line <= bars; line++) {
    const within = (reach: number): readonly Placed[] => {
      const about = placed.filter(({ place }) => Math.abs(place - line * inBar) <= reach);
      const onBeats = about.filter(({ place }) => place % inBeat === 0);
      return onBeats.length >= FEWEST ? onBeats : about;
    };
    const near = within(inBar / 2);
    const through = near.length >= FEWEST ? near : within(inBar);
    if (through.length < FEWEST) return undefined;
    const { start, slope } = lineThrough(
      through.map(({ place }) => place - line * inBar),
      through.map(({ at }) => at),
    );
    if (!(slope > 0)) return undefined;
    lines.push(start);
  }
  return lines;
}

function followed(strokes: readonly number[], stated: number): readonly Placed[] {
  const placed: Placed[] = [];
  let eighth = stated;
  let last: Placed = { at: 0, place: 0 };
  for (const stroke of strokes) {
    const steps = Math.round((stroke - last.at) / eighth);
    const due = last.at + steps * eighth;
    const late = stroke - due;
    if (Math.abs(late) > BETWEEN * eighth) continue;
    const place = last.place + steps;
    placed.push({ at: stroke, place });
    last = { at: due + FOLLOWS * late, place };
    const tempo = eighth + (FOLLOWS_TEMPO * late) / Math.max(1, steps);
    eighth = Math.min((1 + FURTHEST) * stated, Math.max((1 - FURTHEST) * stated, tempo));
  }
  return placed;
}
