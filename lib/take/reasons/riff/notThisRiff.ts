import type { MessageText } from "../../../base/index.js";
import type { Reason, Score } from "../../../schema/index.js";
import { settingPhrases } from "../../../words/index.js";
import type { Counts } from "../../metrics/counts.js";
import { median } from "../../metrics/statistics.js";
import type { PlayedOnsets } from "../../onsets.js";
import { reasonOf, say } from "../../say.js";
import type { TrackedReading } from "../../state/landings.js";
import { logDensityOf, type ReadingOptions, readTake } from "../../state/reading.js";
import { settledVariance } from "../../state/space.js";
import { type OtherNotes, otherNotesIn } from "./otherNotes.js";
import { otherTempoOf } from "./otherTempo.js";

/** A take as it was read, and what else it may be. */
export interface Foreign {
  readonly tracked: TrackedReading;
  readonly played: PlayedOnsets;
  readonly counts: Counts;
  /** What was missed and added before slips were looked for; the same as `counts` when none was found. */
  readonly countsAsRead: Counts;
  readonly options: ReadingOptions;
  /** Scores of other rungs that may have been played instead, such as the other variants of the riff; none when left out. */
  readonly others: Iterable<Score>;
}

// What is the riff explains the take about as well as "as many onsets, anywhere" or better: at worst by so much less on each expected note, natural
// logarithm (our choice: of 1,056 takes of random onsets and speech the best came to -0.41; players who leave out half of the notes, rest in the
// silences or add fills come below in 1 to 2 takes of 100, and only without pitches).
const LEAST_AGAINST_CHANCE = -0.4;
// Another rung, or the riff at another tempo, gains so much on each note against "every onset is an addition" (our choice).
const FITS_AT_ALL = 1;
// Slips that were looked for because of another tune gain less than this on each note over the reading without slips; slips of players 0.65 at
// least (measured). Then what was left out and added is asked of that reading.
const SLIPS_GAIN = 0.5;
// Notes that scatter by more than this share of the distance between neighbours are found wherever they fall: equal chances over the distance
// have 1 / sqrt(12) = 0.29. With so many notes missed or added besides, the riff explains nothing (our choice).
const SCATTERS = 0.25;
const SCATTERED_WRONG = 0.2;
// Another rung explains a take by so much better on each note than the riff at another tempo, or the tempo is told: the same riff in another drill,
// at a tempo that comes near, is no other riff (our choice).
const OTHER_RUNG_GAINS = 0.25;
// Another tempo is looked for where a note gains less than this, more with pitches, which saves time and no more: in time it is 4 to 6 (measured).
const FITS_WELL = 4.5;
const PITCH_GAINS = 2.4;
// Other notes are looked for there too, and where more than this share of the notes was missed or added: two places of a phrase are more.
const FEW_WRONG = 0.05;
// Another way of playing throughout: how rare it is, and how near it may come before it leaves doubt; as for other explanations (our choice).
const LOG_UNUSUAL = Math.log(0.01);
const LEAVES_DOUBT = 3;
// Notes left out and others added are another tune from this share of the places on; of one kind alone, which may be breaths or ornaments, from
// this; other pitches from this. And never fewer than so many places. Our choice.
const OTHER_RHYTHM = { share: 0.05, fewest: 2 } as const;
const OF_ONE_KIND = { share: 0.2, fewest: 3 } as const;
const OTHER_PITCHES = { share: 0.33, fewest: 3 } as const;

// When so much of what is missed and added is the same in every phrase, the take is a tune, though not this one (our choice: speech that keeps
// to places by chance does so with under two thirds of it).
const MOSTLY_HABITS = 0.75;
// More places than this with an added note, for each written one, are met in every phrase by whoever speaks fast enough (our choice).
const MOST_ADDED_PLACES = 1.5;

/** Why a whole take is not the riff of the score, by name; `undefined` when it is. Nothing of such a take is counted. */
export function notThisRiff(score: Score, foreign: Foreign): Reason | undefined {
  const { tracked, played, counts, countsAsRead, options } = foreign;
  if (score.open.length > 0 || counts.pairs.length === 0) return undefined;
  const notes = score.expected.length;
  const gain = tracked.logLikelihood / notes;
  const pitched = played.pitch.some((pitch) => !Number.isNaN(pitch));
  const likelier = (logLikelihood: number, written: number): boolean =>
    logLikelihood >= FITS_AT_ALL * written && logLikelihood + LOG_UNUSUAL > tracked.logLikelihood - LEAVES_DOUBT;
  const wrong = counts.missed.length + counts.added.length;
  const fitsWell = gain >= FITS_WELL + (pitched ? PITCH_GAINS : 0);
  const slipped = tracked.logLikelihood - tracked.reading.paired.logLikelihood >= SLIPS_GAIN * notes;
  const rhythm =
    fitsWell && !pitched && wrong < FEW_WRONG * notes
      ? undefined
      : otherNotesIn(score, played, slipped ? counts : countsAsRead);
  const isOther = rhythm !== undefined && hasOtherNotes(rhythm);
  const scatters = wrong > SCATTERED_WRONG * notes && deviationOverGap(tracked) > SCATTERS;
  const fitsNothing = gainOverChance(tracked, played, score) < LEAST_AGAINST_CHANCE * notes || scatters;
  // In a dense line a tempo of one's own passes for slips.
  const tempo = !fitsWell || isOther || tracked.places !== undefined ? otherTempoOf(score, played, options) : undefined;
  const atTempo = tempo !== undefined && likelier(tempo.logLikelihood, notes) ? tempo : undefined;
  if (isOther || fitsNothing) {
    // Much of another riff coincides with this one at another tempo: what counts is which of them explains the take best.
    const most = atTempo === undefined ? Number.NEGATIVE_INFINITY : atTempo.logDensity + OTHER_RUNG_GAINS * notes;
    const other = likeliestOf(score.drill, foreign, likelier);
    if (other !== undefined && other.logDensity > most) return isAnotherRung(score, other.score);
  }
  if (atTempo !== undefined) return isAtAnotherTempo(score, atTempo.factor);
  const isHabit =
    isOther && rhythm.habitual >= MOSTLY_HABITS * rhythm.wrong && rhythm.added <= MOST_ADDED_PLACES * rhythm.written;
  if (fitsNothing && !isHabit) return reasonOf("NOT_THIS_RIFF", say("take.not-this-riff"));
  if (!isOther) return undefined;
  const places = rhythm.leftOut + rhythm.added + rhythm.otherPitch;
  return reasonOf("OTHER_NOTES", say("take.other-notes", { places }));
}

interface OtherScore {
  readonly score: Score;
  readonly logDensity: number;
}

/** Of the scores that may have been played instead, the one that explains the take best; of the same drill, where no other is clearly better. `undefined` when none may be it. */
function likeliestOf(
  drill: string,
  { others, played, options }: Foreign,
  mayBe: (logLikelihood: number, written: number) => boolean,
): OtherScore | undefined {
  const ahead = ({ score, logDensity }: OtherScore): number =>
    logDensity + (score.drill === drill ? OTHER_RUNG_GAINS * score.expected.length : 0);
  let best: OtherScore | undefined;
  for (const score of others) {
    const reading = readTake(score, played, options);
    if (!mayBe(reading.paired.logLikelihood, score.expected.length)) continue;
    const found = { score, logDensity: logDensityOf(reading.paired.logLikelihood, reading) };
    if (best === undefined || ahead(found) > ahead(best)) best = found;
  }
  return best;
}

/** How much likelier the take is as the riff than as onsets that fall anywhere, as many as were played, natural logarithm. */
function gainOverChance({ reading, logLikelihood }: TrackedReading, { at }: PlayedOnsets, { duration }: Score): number {
  return logDensityOf(logLikelihood, reading) - at.length * Math.log(at.length / (1000 * duration));
}

/** Standard deviation of the notes of a player with the accompaniment, over the usual distance between neighbouring notes. */
function deviationOverGap({ reading: { guide, fit } }: TrackedReading): number {
  const { noise } = fit.points[0];
  const gaps = Array.from(guide.expected.subarray(1), (at, k) => at - guide.expected[k]!);
  return Math.sqrt(settledVariance(noise) + noise.motor ** 2) / median(gaps);
}

function hasOtherNotes({ written, leftOut, added, pitched, otherPitch }: OtherNotes): boolean {
  const over = (
    count: number,
    of: number,
    { share, fewest }: { readonly share: number; readonly fewest: number },
  ): boolean => count >= fewest && count >= share * of;
  const both = leftOut > 0 && added > 0;
  return over(leftOut + added, written, both ? OTHER_RHYTHM : OF_ONE_KIND) || over(otherPitch, pitched, OTHER_PITCHES);
}

function isAtAnotherTempo({ beat }: Score, factor: number): Reason {
  const [yours, asked] = [60 / (factor * beat), 60 / beat];
  // Tempi that round to the same number are told with a decimal.
  const scale = Math.round(yours) === Math.round(asked) ? 10 : 1;
  const rounded = (tempo: number): number => Math.round(scale * tempo) / scale;
  return reasonOf("ANOTHER_TEMPO", say("take.another-tempo", { yours: rounded(yours), asked: rounded(asked) }));
}

function isAnotherRung(score: Score, other: Score): Reason {
  const differs = (one: Score, than: Score): string =>
    one.rung
      .split(",")
      .filter((setting) => !than.rung.split(",").includes(setting))
      .join(",");
  const [theirs, ours] = [differs(other, score), differs(score, other)];
  const told = (one: Score, settings: string): MessageText =>
    settings === "" || other.drill !== score.drill ? rungOf(one) : settingPhrases(settings);
  return reasonOf("ANOTHER_RUNG", say("take.another-rung", { asked: told(score, ours), other: told(other, theirs) }));
}

function rungOf({ drill, rung }: Score): MessageText {
  return [{ key: "take.drill", parameters: { drill } }, ...settingPhrases(rung)];
}
