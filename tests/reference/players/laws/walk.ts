import type { Stage } from "../stage.js";

/** What moves a pulse. */
export interface Walk {
  /** Lateness at the first moment, seconds. */
  readonly start: number;
  /** How much later the pulse is at the next moment: `gap` is the time between, seconds; `silence` the one it lies in, -1 for none. */
  readonly pass: (place: number, gap: number, silence: number) => number;
  /** How much of its lateness the pulse takes back after this moment, seconds; called where a beat or a stroke is heard. */
  readonly answer: (late: number, place: number) => number;
}

/** The lateness of a pulse at every moment of the stage, before that moment is answered. */
export function walk(stage: Stage, { start, pass, answer }: Walk): Float64Array {
  const { at, tick, stroke, silent } = stage;
  const late = new Float64Array(at.length);
  let now = start;
  for (let place = 0; place < at.length; place++) {
    late[place] = now;
    if (tick[place] === 1 || stroke[place] === 1) now -= answer(now, place);
    if (place + 1 < at.length) now += pass(place, at[place + 1]! - at[place]!, silent[place]!);
  }
  return late;
}
