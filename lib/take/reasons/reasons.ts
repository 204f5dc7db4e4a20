import type { Reason, Score } from "../../schema/index.js";
import type { Counts } from "../metrics/counts.js";
import { type Belief, RIVAL_WEIGHT, rivalOf } from "../metrics/drift.js";
import type { Landing } from "../metrics/landing.js";
import type { PlayedOnsets } from "../onsets.js";
import { offBy, reasonOf, say } from "../say.js";
import { offsetIn } from "../state/fit.js";
import type { TrackedReading } from "../state/landings.js";
import type { Reading } from "../state/reading.js";
import type { Step } from "../state/step.js";
import { SURE } from "../verdict.js";
import { confusionIn, MOST_CONFUSION } from "./confusion.js";
import { passagesOf, playedOtherwise } from "./passages.js";

/** Codes of the reasons a finding can carry, with what each means. */
export const REASONS = {
  NOTHING_PLAYED: "the take holds no onset",
  TOO_LITTLE_PLAYED: "fewer than half of the expected notes were found",
  TWO_PAIRINGS: "two pairings explain the take almost equally well and differ in what they say",
  DOUBLE_RATE: "the notes fit twice the rate about as well as the score, or better",
  HALF_RATE: "the notes fit half the rate about as well as the score, or better",
  SLIPPED: "in a silence or at its landing the player slipped by a part of a beat, beats or bars",
  MAYBE_SLIPPED: "the take fits such a slip about as well as the score",
  STILL_AWAY: "at this landing the player was displaced by an earlier slip",
  LANDED_OFF: "the landing note alone was early or late",
  LANDING_LEFT_OUT: "the note on which the band returns was left out",
  TOO_FEW_NOTES: "so few notes of a silence were played that it does not show whether the time was kept",
  NOT_THIS_RIFF: "what was played fits the score no better than chance",
  ANOTHER_TEMPO: "the riff was played at another tempo throughout",
  ANOTHER_RUNG: "what was played is another rung's riff, such as another variant",
  OTHER_NOTES:
    "in phrase after phrase the same notes were left out, added or played at another pitch: another tune, or another variant",
  STARTS_ELSEWHERE: "the take fits about as well, or better, when it starts earlier or later than it says",
  MOVED_ONCE: "while accompanied everything moved once, and stayed so: the sound of the take was interrupted",
  POORLY_EXPLAINED: "many notes of a silence were missed and many added: what was played is not what is written",
  GUIDED:
    "something sounded through a silence: it is judged by how the player kept to that, and shows nothing of keeping time alone",
  NOTES_TOO_CLOSE: "the notes lie too close together, for this player, to tell which is which",
} as const;
export type ReasonCode = keyof typeof REASONS;

/** Codes that say what happened and do not stand against a verdict: the probabilities know it already. */
export const NO_OBSTACLE: ReadonlySet<string> = new Set<ReasonCode>([
  "SLIPPED",
  "MAYBE_SLIPPED",
  "STILL_AWAY",
  "LANDED_OFF",
  "LANDING_LEFT_OUT",
  "GUIDED",
  "TOO_FEW_NOTES",
]);

const FEWEST_FOUND = 0.5;
// Further from where players usually are than so many standard deviations of that, which is half a second for takes without a told latency and a quarter with one,
// a whole take begins elsewhere than it says; where open bars hide that half a beat was meant, as soon as it is nearly that. Our choice.
const STRANGE_OFFSET = 8;
const OPEN_BEATS = 0.4;

/** Reasons for giving no verdict, on the whole take (no `dropout`) or on one dropout. */
export function reasonsAgainstVerdict(
  score: Score,
  {
    reading,
    played,
    counts,
    beliefs,
    landings,
    tracked,
  }: {
    readonly tracked: TrackedReading;
    readonly reading: Reading;
    readonly played: PlayedOnsets;
    readonly counts: Counts;
    readonly beliefs: readonly Belief[];
    readonly landings: readonly (Landing | null)[];
  },
): Reason[] {
  if (played.at.length === 0) return [reasonOf("NOTHING_PLAYED", say("take.nothing-played"))];
  const doubts: Reason[] = [];
  const found = counts.pairs.length;
  if (found < FEWEST_FOUND * score.expected.length) {
    const said = say("take.too-little-played", { found, notes: score.expected.length });
    doubts.push(reasonOf("TOO_LITTLE_PLAYED", said));
  }
  const late = offsetIn(reading.fit).mean - reading.prior.mean;
  const furthest =
    score.open.length > 0 ? OPEN_BEATS * reading.guide.beatMs : STRANGE_OFFSET * reading.assumed.prior.sd;
  const startsAt = tracked.startsAt ?? (Math.abs(late) > furthest ? late : 0);
  if (startsAt !== 0) doubts.push(startsElsewhere(startsAt));
  const shift = wholeShift(reading);
  if (shift !== undefined) doubts.push(reasonOf("TWO_PAIRINGS", say("take.two-places", { side: shift })));
  // What a slip explains is not unexplained.
  const explained = (dropout: number): boolean => (landings[dropout]?.away ?? 0) >= SURE;
  const pitched = played.pitch.some((pitch) => !Number.isNaN(pitch));
  const confusion = confusionIn(score, reading, pitched);
  for (const { dropout, notes, missed, added } of passagesOf(score, played, counts).filter(playedOtherwise)) {
    if (dropout === undefined || missed === notes || explained(dropout)) continue;
    const silence = dropout + 1;
    const said =
      added < missed / 2
        ? say("take.few-played", { silence, played: notes - missed, notes })
        : say("take.not-as-written", { silence, missed, notes, added });
    doubts.push(reasonOf("POORLY_EXPLAINED", said, dropout));
  }
  score.dropouts.forEach(({ silent }, dropout) => {
    if (!silent) doubts.push(reasonOf("GUIDED", say("take.guided", { silence: dropout + 1 }), dropout));
  });
  beliefs.forEach((belief, dropout) => {
    const rival = rivalOf(belief);
    if (rival !== undefined && !explained(dropout)) {
      const one = say("take.off", offBy(belief.parts[0]!.mean)).message;
      const other = say("take.off", offBy(rival)).message;
      doubts.push(reasonOf("TWO_PAIRINGS", say("take.two-readings", { silence: dropout + 1, one, other }), dropout));
    }
    if (confusion[dropout]! > MOST_CONFUSION) {
      doubts.push(reasonOf("NOTES_TOO_CLOSE", say("take.notes-too-close", { silence: dropout + 1 }), dropout));
    }
    const { from, to } = reading.guide.stretches[dropout]!;
    const rate = otherRateIn(belief.mean / (to - from), dropout);
    if (rate !== undefined) doubts.push(rate);
  });
  return doubts;
}

/**
 * Says so when a drift, as a share of tempo, lies nearer to twice or half the rate than to the tempo: an interval below 1 / sqrt(2) or above
 * sqrt(2) of the written one. Continuation over a minute stays within 11.5 % (Stevens 1886).
 */
function otherRateIn(share: number, dropout: number): Reason | undefined {
  const given = { silence: dropout + 1, percent: Math.abs(100 * share) };
  if (1 + share < Math.SQRT1_2) return reasonOf("DOUBLE_RATE", say("take.double-rate", given), dropout);
  if (1 + share > Math.SQRT2) return reasonOf("HALF_RATE", say("take.half-rate", given), dropout);
  return undefined;
}

/** A take that fits better when it is moved as a whole. */
export function startsElsewhere(shiftMs: number): Reason {
  const side = shiftMs > 0 ? "late" : "early";
  return reasonOf("STARTS_ELSEWHERE", say("take.starts-elsewhere", { seconds: Math.abs(shiftMs) / 1000, side }));
}

/** A take of which everything comes later, or earlier, from one onset on. */
export function movedOnce({ bars, beat }: Score, { from, ms }: Step): Reason {
  const at = (from - ms) / 1000 + beat / 4;
  const bar = bars.findLast((each) => each.at <= at)?.bar ?? 1;
  return reasonOf("MOVED_ONCE", say("take.moved-once", { bar, ...offBy(ms) }));
}

/** Where every note would lie when the whole take can be read shifted by a note or more; `undefined` when it cannot. */
function wholeShift({ paired, guide }: Reading): "early" | "late" | undefined {
  const rival = paired.rivals.find(({ logWeight, changes }) => {
    return Math.exp(logWeight) >= RIVAL_WEIGHT && changes.length > FEWEST_FOUND * guide.expected.length;
  });
  if (rival === undefined) return undefined;
  const moved = rival.changes.find(([place, onset]) => onset >= 0 && paired.onsets[place]! >= 0);
  const later = moved === undefined || moved[1] > paired.onsets[moved[0]]!;
  return later ? "early" : "late";
}
