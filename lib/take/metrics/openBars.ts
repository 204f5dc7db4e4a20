import type { Measure, OpenFinding, OpenStretch, Score, Unmeasured } from "../../schema/index.js";
import type { PlayedOnsets } from "../onsets.js";
import { confusionIn, MOST_CONFUSION } from "../reasons/confusion.js";
import { rounded, roundedMeasure } from "../rounding.js";
import { unmeasured } from "../say.js";
import { pitchClass } from "../state/evidence.js";
import { passOver } from "../state/filter.js";
import { offsetIn } from "../state/fit.js";
import { guideOf, type Stretch } from "../state/guide.js";
import type { Reading } from "../state/reading.js";
import { type Belief, believeDrifts, rivalOf } from "./drift.js";
import { type PulseTest, pulseTest } from "./pulse.js";

// Fewer notes than this leave the pulse of a stretch unmeasured (our choice: four would have to lie within a tenth of the grid to tell), and a pulse is
// claimed only where random onsets would show one at most once in twenty.
const FEWEST_NOTES = 5;
const CHANCE_OF_FALSE_PULSE = 0.05;

/** What every stretch of open bars showed: the player's pulse through it, from whatever was played, and how much of it was in the scale. */
export function openFindings(score: Score, reading: Reading, played: PlayedOnsets): OpenFinding[] {
  if (score.open.length === 0) return [];
  const offset = offsetIn(reading.fit).mean;
  const stretches = score.open.map(({ from, to }): Stretch => ({ from: from * 1000, to: to * 1000, silent: false }));
  const guide = guideOf(score, stretches);
  const [first, ...others] = reading.fit.points.map((point) => ({
    ...point,
    passed: passOver(guide, reading.asynchrony, point.noise, reading.prior),
  }));
  const marked: Reading = { ...reading, guide, fit: { ...reading.fit, points: [first!, ...others] } };
  const beliefs = believeDrifts(marked, played);
  const confusion = confusionIn(score, marked, false);
  return score.open.map((open, index) => {
    const stretch = stretches[index]!;
    const notes: number[] = [];
    played.at.forEach((at, onset) => {
      if (at - offset >= stretch.from - reach(open.subdivision) && at - offset < stretch.to - reach(open.subdivision))
        notes.push(onset);
    });
    const belief = beliefs[index]!;
    const heard = notes.map((onset) => (played.at[onset]! - offset) / 1000);
    const pulse = pulseOf(open, heard);
    const noPulse = "unmeasured" in pulse ? pulse : whyNoPulse(open, pulse, { belief, confusion: confusion[index]! });
    const measured = (value: number): Measure => noPulse ?? value;
    return {
      from: open.from,
      to: open.to,
      notes: notes.length,
      driftMs: roundedMeasure(measured(belief.mean)),
      driftPercent: roundedMeasure(measured((100 * belief.mean) / (stretch.to - stretch.from)), 3),
      standardErrorMs: roundedMeasure(measured(belief.sd)),
      lockP: "unmeasured" in pulse ? pulse : rounded(pulse.p, 4),
      inScale: shareInScale(notes, open.pitchClasses, played),
    };
  });
}

/** The subdivisions of open bars, seconds: as the score lists them, or even ones; the end of the stretch closes the last. */
function gridOf({ from, to, subdivision, grid }: OpenStretch): number[] {
  const count = Math.round((to - from) / subdivision);
  return [...(grid ?? Array.from({ length: count }, (_, i) => from + i * subdivision)), to];
}

function pulseOf(open: OpenStretch, onsets: readonly number[]): PulseTest | Unmeasured {
  if (onsets.length < FEWEST_NOTES) return unmeasured("take.unmeasured.few-for-pulse", { notes: onsets.length });
  return pulseTest(onsets, gridOf(open));
}

function whyNoPulse(
  open: OpenStretch,
  { p, percent }: PulseTest,
  { belief, confusion }: { readonly belief: Belief; readonly confusion: number },
): Unmeasured | undefined {
  if (p > CHANCE_OF_FALSE_PULSE) return unmeasured("take.unmeasured.no-pulse");
  if (confusion > MOST_CONFUSION) return unmeasured("take.unmeasured.subdivisions-too-close");
  const rival = rivalOf(belief);
  if (rival !== undefined) return twoDrifts(belief.parts[0]!.mean, rival);
  // The periodogram knows nothing of the notes around; where it puts the pulse half a subdivision elsewhere, neither is to be believed.
  const apart = Math.abs(belief.mean - percent * 10 * (open.to - open.from));
  if (apart < reach(open.subdivision)) return undefined;
  return unmeasured("take.unmeasured.two-tempi");
}

function twoDrifts(one: number, other: number): Unmeasured {
  const side = (ms: number): "early" | "late" => (ms < 0 ? "early" : "late");
  const sides = `${side(one)}-${side(other)}` as const;
  return unmeasured("take.unmeasured.two-drifts", { sides, one: Math.abs(one), other: Math.abs(other) });
}

/** Half a subdivision, ms: a note belongs to the stretch whose first subdivision it is nearest to. */
const reach = (subdivision: number): number => subdivision * 500;

function shareInScale(notes: readonly number[], pitchClasses: readonly number[], played: PlayedOnsets): Measure {
  const known = notes.map((onset) => played.pitch[onset]!).filter((pitch) => !Number.isNaN(pitch));
  if (known.length === 0)
    return unmeasured(notes.length === 0 ? "take.unmeasured.nothing-played" : "take.unmeasured.no-pitches");
  const inside = known.filter((pitch) => pitchClasses.includes(pitchClass(pitch)));
  return roundedMeasure(inside.length / known.length, 4);
}
