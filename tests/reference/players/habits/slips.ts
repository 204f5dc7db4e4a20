import type { Habit, Plan } from "../plan.js";
import type { Stage, StageSilence } from "../stage.js";
import { chosenSilences, type Often } from "./chosen.js";

/** Sizes in beats or bars. Those that nobody plans for are at the end. */
const SIZES = {
  "half a beat": { beats: 1 / 2 },
  "a beat": { beats: 1 },
  "half a bar": { bars: 1 / 2 },
  "a bar": { bars: 1 },
  "a third of a beat": { beats: 1 / 3 },
  "three quarters of a beat": { beats: 3 / 4 },
  "two bars": { bars: 2 },
} as const;

export type SlipSize = keyof typeof SIZES;
/** Skipped: the player is early from there on; waited: late. */
export type SlipWay = "skips" | "waits";
export type SlipPlace = "in the silence" | "at the landing";
/** Bars after the landing at which the player is back with the band, or not before the end. */
export type SlipEnd = 1 | 2 | "kept";

const SAME = 1e-6;

export interface Slip {
  readonly way: SlipWay;
  readonly size: SlipSize;
  readonly place: SlipPlace;
  readonly end: SlipEnd;
  readonly often: Often;
}

/**
 * A slip: the player goes on at another place of the music. Who skips leaves out the notes jumped over and is early; who waits plays nothing for that long and is
 * late. Taken back, the early player waits for the band, the late one leaves out what he has not come to; that is at a bar line, or a beat before the next silence
 * if it comes sooner. Slips that are kept add up.
 *
 * His pulse goes on answering the band as if he were in place. Needs silences at least as long as the slip, and time to play at the wrong place before the player is back.
 */
export function slip({ way, size, place, end, often }: Slip): Habit {
  const back = end === "kept" ? "kept" : `back after ${end} bar${end === 1 ? "" : "s"}`;
  return {
    name: `${way} ${size} ${place}, ${back}, ${often}`,
    fits: (stage) => {
      const seconds = secondsOf(size, stage);
      const lasts = end === "kept" ? Infinity : end * stage.bar;
      return stage.silences.every(({ length, to }, index) => {
        const next = stage.silences[index + 1];
        const room = next === undefined ? lasts : Math.min(lasts, stage.at[next.from]! - stage.at[to]! - stage.beat);
        return length >= seconds - SAME && (end === "kept" || room > (way === "waits" ? seconds : 0) + SAME);
      });
    },
    apply(plan, luck) {
      const moves: Move[] = [];
      const stream = luck("where in the silence");
      const shift = (way === "skips" ? -1 : 1) * secondsOf(size, plan.stage);
      let kept = 0;
      for (const index of chosenSilences(plan, luck, often)) {
        const silence = plan.stage.silences[index]!;
        const by = kept + shift;
        // Where the first note after the slip stands in the score; what a skipping player jumps over lies before it.
        const inside = insideSilence(plan.stage, silence, shift, stream.uniform());
        moves.push({ from: place === "at the landing" ? plan.stage.at[silence.to]! : inside, by });
        if (end === "kept") kept = by;
        else moves.push({ from: backAt(plan, index, end), by: 0 });
      }
      move(plan, moves);
    },
  };
}

/** From the place `from` of the score on (seconds), the player is off by `by` seconds. */
interface Move {
  readonly from: number;
  readonly by: number;
}

/** Writes the moves in the plan: notes that one place of the music leaves no time for before the next begins are not played. */
function move(plan: Plan, moves: readonly Move[]): void {
  const { expected } = plan.score;
  const regimes: readonly Move[] = [{ from: -Infinity, by: 0 }, ...moves];
  expected.forEach(({ at }, note) => {
    const regime = regimes.findLastIndex(({ from }) => at >= from - SAME);
    const next = regimes[regime + 1];
    plan.slip[note]! += regimes[regime]!.by;
    if (next !== undefined && at + regimes[regime]!.by >= next.from + next.by - SAME) plan.played[note] = 0;
  });
  const inForce = (at: number): number => regimes.findLast(({ from }) => at >= from - SAME)!.by;
  plan.stage.silences.forEach(({ from, to }, index) => {
    // A slip at the very start of a silence is of that silence.
    plan.silences[index]!.slipAtStart += inForce(plan.stage.at[from]! - 2 * SAME);
    plan.silences[index]!.slipAtReturn += inForce(plan.stage.at[to]!);
  });
}

/** A beat line of the silence, so that what is jumped over lies inside it, and not its very start when there is another. */
function insideSilence(stage: Stage, { from, to }: StageSilence, shift: number, luck: number): number {
  const [start, end] = [stage.at[from]!, stage.at[to]!];
  const jumped = Math.max(0, -shift);
  const step = Math.min(stage.beat, Math.abs(shift));
  const lines = Math.floor((end - start - jumped) / step + SAME);
  // Where the first note after the slip stands: start + jumped + k steps, before the landing when there is room.
  const first = lines > 1 ? 1 : 0;
  const last = Math.max(first, lines - 1);
  return start + jumped + step * (first + Math.floor(luck * (last - first + 1)));
}

function backAt({ stage, score }: Plan, index: number, bars: number): number {
  const landed = stage.at[stage.silences[index]!.to]!;
  const after = score.bars.filter(({ at }) => at > landed + SAME);
  const line = after[bars - 1]?.at ?? score.duration;
  const next = stage.silences[index + 1];
  return next === undefined ? line : Math.min(line, stage.at[next.from]! - stage.beat);
}

function secondsOf(size: SlipSize, { beat, bar }: Stage): number {
  const length = SIZES[size];
  return "beats" in length ? length.beats * beat : length.bars * bar;
}
