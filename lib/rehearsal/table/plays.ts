import { notesLeftOut } from "../../progress/index.js";
import type { Score } from "../../schema/index.js";
import { assess } from "../../take/index.js";
import { playTake } from "../player.js";
import { luckOf, PURPOSES } from "../students/luck.js";
import { layOf, omissionChances, playerOf } from "../students/player.js";
import type { Students } from "../students/population.js";
import { noiseShare } from "../students/practice.js";
import { type Student, studentBy } from "../students/student.js";
import { featuresAt, fixedPoint, noiseCoordinate } from "./coordinates.js";
import { OUTCOMES, outcomeOf, UNCLEAR } from "./outcome.js";
import type { Case } from "./regression.js";

/** Takes of one rung, played by students of all kinds at all stages of practice and assessed. All of it plain data, so that it can be kept. */
export interface RungPlays {
  /** Takes without a slip: features and outcome of each. */
  readonly straight: readonly PlainCase[];
  /** Takes with a slip: how many came to each of `OUTCOMES`. */
  readonly slipped: readonly number[];
  /** What the findings of takes without a slip say was left out, beside what the players' chances made to be expected: of clean takes, and of those beyond. */
  readonly leftOut: { readonly clean: LeftOut; readonly beyond: LeftOut };
}
/** Landings left out and expected to be, other notes left out and expected to be. */
export type LeftOut = readonly [landings: number, expectedLandings: number, notes: number, expectedNotes: number];
type PlainCase = readonly [outcome: number, features: readonly number[]];

/** How many takes a rung is played before the table is made of them. */
export interface PlayingTerms {
  readonly students: Students;
  readonly seed: string;
  /** Standard error of the share of clean takes at which a rung has been played enough. */
  readonly error: number;
  readonly most: number;
}

/** Takes played before anybody asks whether they are enough. Our choice: a quarter of them in each quarter of the population. */
const ROUND = 32;
/** Takes with a slip, in rungs with room for one. Our choice: hardly any is clean, and slips are rare. */
const SLIPPED = 12;
/** Takes of practice that the players of a table may have behind them, at most: our choice, far along every usual learning curve. */
const MOST_PRACTICE = 400;

/** Plays a rung by its score, in rounds, until the share of clean takes is known well enough. The same score, students and seed give the same plays. */
export function playRung(score: Score, terms: PlayingTerms): RungPlays {
  const straight: PlainCase[] = [];
  const leftOut = { clean: [0, 0, 0, 0], beyond: [0, 0, 0, 0] } satisfies Record<
    string,
    [number, number, number, number]
  >;
  let clean = 0;
  for (let n = 0; n < terms.most; n++) {
    if (n >= 2 * ROUND && n % ROUND === 0) {
      // One success and one failure added (Agresti & Coull 1998 add two; from memory), so that a row without failures is no certainty.
      const share = (clean + 1) / (n + 2);
      if (Math.sqrt((share * (1 - share)) / (n + 2)) <= terms.error) break;
    }
    const { outcome, features, omitted } = playOne(score, terms, { nth: n, slips: false });
    if (outcome === 0) clean++;
    straight.push([outcome, [...features]]);
    if (outcome !== UNCLEAR)
      omitted.forEach((count, i) => {
        leftOut[outcome === 0 ? "clean" : "beyond"][i]! += count;
      });
  }
  const slipped = OUTCOMES.map(() => 0);
  if (layOf(score).silences.length > 0)
    for (let n = 0; n < SLIPPED; n++) slipped[playOne(score, terms, { nth: n, slips: true }).outcome]!++;
  return { straight, slipped, leftOut };
}

function playOne(
  score: Score,
  { students, seed }: PlayingTerms,
  { nth, slips }: { readonly nth: number; readonly slips: boolean },
): { readonly outcome: number; readonly features: Float64Array; readonly omitted: LeftOut } {
  const luck = luckOf(seed, nth, slips ? "slipped" : "straight");
  const student = studentBy(students, luck);
  // As many beginners as practised students, evenly over the logarithm of their takes.
  const takes = MOST_PRACTICE ** luck.uniform(0, PURPOSES.practises) - 1;
  const share = noiseShare(student, Math.exp(-student.rate * takes));
  const lay = layOf(score);
  const played = { ...student, slips: 0 } satisfies Student;
  let player = playerOf(played, lay, share);
  if (slips) {
    const chance = 1 / lay.silences.length;
    player = { ...player, habits: { ...player.habits, slips: { ...player.habits!.slips!, chance } } };
  }
  let truth = playTake(score, player, `${seed}/${nth}/${slips}`);
  // The first of these takes that has a slip in it.
  for (let again = 1; slips && truth.truth.slipBeats.every((beats) => beats === 0) && again < 50; again++)
    truth = playTake(score, player, `${seed}/${nth}/${slips}/${again}`);
  const finding = assess(score, truth.take);
  const outcome = OUTCOMES.indexOf(outcomeOf(finding, score));
  const standpoint = { noise: noiseCoordinate(player.motorMs), fixed: fixedPoint(student, lay) };
  const [landings, landingsAsked, notes, notesAsked] = notesLeftOut(finding) ?? [0, 0, 0, 0];
  const chances = omissionChances(student);
  return {
    outcome,
    features: featuresAt(standpoint),
    omitted: [landings, landingsAsked * chances.landing, notes, notesAsked * chances.note],
  };
}

export function casesOf({ straight }: RungPlays): readonly Case[] {
  return straight.map(([outcome, features]) => ({ outcome, features: Float64Array.from(features) }));
}
