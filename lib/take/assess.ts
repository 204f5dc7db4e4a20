import type { DropoutFinding, Finding, Probability, Reason, Score, Steadiness, Take } from "../schema/index.js";
import { type Counts, countNotes } from "./metrics/counts.js";
import { believeDrifts } from "./metrics/drift.js";
import { judgeDropouts } from "./metrics/dropouts.js";
import { landingsIn } from "./metrics/landing.js";
import { openFindings } from "./metrics/openBars.js";
import { playedIn } from "./metrics/played.js";
import { steadinessOf } from "./metrics/steadiness.js";
import { latencyStandardErrorOf, type PlayedOnsets, playedOnsets } from "./onsets.js";
import { type Explanation, otherExplanation } from "./reasons/explanations.js";
import { landingReasons } from "./reasons/landingReasons.js";
import { movedOnce, NO_OBSTACLE, reasonsAgainstVerdict } from "./reasons/reasons.js";
import { notThisRiff } from "./reasons/riff/notThisRiff.js";
import { otherTempoOf } from "./reasons/riff/otherTempo.js";
import { tooFewNotes } from "./reasons/tooFewNotes.js";
import { rounded } from "./rounding.js";
import { unmeasured } from "./say.js";
import { sentenceOf } from "./sentence.js";
import { readLandings, type TrackedReading, usualPlace } from "./state/landings.js";
import { logDensityOf, type Reading, type ReadingOptions, readTake } from "./state/reading.js";
import { type Step, stepIn, withoutStep } from "./state/step.js";
import { verdictOverAll } from "./verdict.js";

export interface AssessOptions {
  /** Instead of the score's own tolerance. */
  readonly tolerance?: Score["tolerance"];
  /** Scores that may have been played instead, such as those of `otherScores`: a take that is one of them is told so. Read only when the score does not fit. */
  readonly others?: Iterable<Score>;
}

/**
 * What a take shows of a score: which onset is which note, the drift in every dropout with its uncertainty, landings, steadiness, and a
 * verdict against the tolerance.
 *
 * Times in the score and the take are seconds; the finding is in milliseconds and per cent of tempo, positive late and slower. An empty take
 * is a finding too: everything missed, everything unmeasured, verdict `unclear`. Advice the take carries goes with it. Throws `RangeError` when a time is not a finite number.
 *
 * @example
 * assess(score, take).verdict // "within"
 */
export function assess(score: Score, take: Take, options: AssessOptions = {}): Finding {
  const played = playedOnsets(score, take);
  const strange = played.at.findIndex((at) => !Number.isFinite(at));
  if (strange >= 0)
    throw new RangeError(`onset ${played.given[strange]} of the take is not at a finite number of seconds`);
  const terms: Terms = {
    take,
    tolerance: options.tolerance ?? score.tolerance,
    others: options.others ?? [],
    reading: { floorMs: take.motorFloorMs ?? 0, latencyStandardErrorMs: latencyStandardErrorOf(take) },
  };
  return findingFrom(score, readPlayed(score, played, terms.reading), terms);
}

interface Terms {
  readonly take: Pick<Take, "id" | "advice">;
  readonly tolerance: Score["tolerance"];
  readonly others: Iterable<Score>;
  readonly reading: ReadingOptions;
}

/** A take read with its slips, its notes counted, and another explanation when one comes near. */
export interface Heard {
  readonly tracked: TrackedReading;
  readonly counts: Counts;
  /** What was missed and added before slips were looked for. */
  readonly countsAsRead: Counts;
  readonly other: Explanation | undefined;
  /** The onsets as they were read: without the step, where the take has one. */
  readonly played: PlayedOnsets;
  readonly step?: Step;
}

// What a step must make likelier before it is told: one take in a hundred has one, at any of its notes, of any size (our choice).
const LOG_STEP = 15;

export function readPlayed(score: Score, played: PlayedOnsets, options: ReadingOptions): Heard {
  const reading = readTake(score, played, options);
  const counts = countNotes(score, reading, played);
  const heard = readSlips(score, reading, { played, counts, options });
  const step = stepIn(score, reading, { played, counts });
  if (step === undefined || otherTempoOf(score, played, options) !== undefined) return heard;
  const without = withoutStep(played, step);
  const again = readTake(score, without, options);
  const counted = { played: without, counts: countNotes(score, again, without), options };
  const moved = readSlips(score, again, counted);
  // Another tempo passes for steps and slips: one step must explain the take by itself.
  const alone = moved.tracked.places === undefined && moved.other === undefined;
  return alone && densityOf(moved) > densityOf(heard) + LOG_STEP ? { ...moved, step } : heard;
}

const densityOf = ({ tracked: { logLikelihood, reading } }: Heard): number => logDensityOf(logLikelihood, reading);

function readSlips(
  score: Score,
  reading: Reading,
  asRead: { readonly played: PlayedOnsets; readonly counts: Counts; readonly options: ReadingOptions },
): Heard {
  const { played, counts: countsAsRead, options } = asRead;
  const elsewhere = otherExplanation(score, reading, asRead);
  const tracked = readLandings(score, reading, asRead);
  const startsElsewhere =
    elsewhere?.reason.code === "STARTS_ELSEWHERE" && elsewhere.logLikelihood > tracked.logLikelihood;
  if (tracked.places === undefined || startsElsewhere)
    return { tracked, played, counts: countsAsRead, countsAsRead, other: elsewhere };
  const counts = countNotes(score, tracked.reading, played);
  const other = otherExplanation(score, tracked.reading, { played, counts, options });
  return { tracked, played, counts, countsAsRead, other };
}

function findingFrom(
  score: Score,
  { tracked, counts, countsAsRead, other, played, step }: Heard,
  { take: { id, advice }, tolerance, others, reading: options }: Terms,
): Finding {
  const { reading } = tracked;
  const beliefs = believeDrifts(reading, played);
  const offset = usualPlace(reading);
  const landings = landingsIn(score, tracked, { played, offset });
  const doubts = doubtsOf(
    step === undefined ? other?.reason : movedOnce(score, step),
    notThisRiff(score, { tracked, played, counts, countsAsRead, options, others }),
    reasonsAgainstVerdict(score, {
      tracked,
      reading,
      played,
      counts,
      beliefs,
      landings,
    }),
  );
  const notes = playedIn(score, counts, tolerance.playedShare);
  const openBars = openFindings(score, reading, played);
  const dropouts = judgeDropouts(score, {
    tracked,
    played,
    offset,
    beliefs,
    landings,
    openBars,
    notes,
    reasons: doubts,
    tolerance,
  });
  const pitched = played.pitch.some((pitch) => !Number.isNaN(pitch));
  // Of a take that is in doubt as a whole nothing is said in detail.
  const told = doubts.some(({ dropout }) => dropout === undefined)
    ? []
    : [...landingReasons(score, { landings, dropouts, tolerance, pitched }), ...tooFewNotes(dropouts, tolerance)];
  // Two ways of finding the same say it once.
  const reasons = [...doubts, ...told].filter(
    ({ code, dropout }, k, all) => all.findIndex((each) => each.code === code && each.dropout === dropout) === k,
  );
  const steadiness = steadinessOf(reading, tolerance.steadinessMs);
  const nothing = counts.pairs.length === 0 ? unmeasured("take.unmeasured.nothing-expected-played") : undefined;
  const doubtful =
    nothing !== undefined || reasons.some(({ code, dropout }) => dropout === undefined && !NO_OBSTACLE.has(code));
  const body = {
    version: 1,
    ...(id === undefined ? {} : { take: id }),
    drill: score.drill,
    rung: score.rung,
    mix: score.mix,
    verdict: doubtful ? "unclear" : verdictOverAll([...dropouts, steadiness].map(({ verdict }) => verdict)),
    probability: nothing ?? probabilityOfAll([...dropouts, steadiness]),
    reasons,
    ...counts,
    offsetMs: nothing ?? rounded(offset.mean),
    dropouts,
    openBars,
    steadiness,
    ...(advice === undefined ? {} : { advice }),
  } satisfies Omit<Finding, "sentence" | "message">;
  const { says, message } = sentenceOf(score, body);
  return { ...body, sentence: says, ...(message === undefined ? {} : { message }) };
}

/** What a take is instead is told alone; another rate or start comes before notes that are others, and what fits nothing is told last. */
function doubtsOf(other: Reason | undefined, foreign: Reason | undefined, against: readonly Reason[]): Reason[] {
  if (foreign?.code === "ANOTHER_TEMPO" || foreign?.code === "ANOTHER_RUNG") return [foreign];
  const throughout = other !== undefined && other.dropout === undefined;
  const otherNotes = foreign?.code === "OTHER_NOTES" && !throughout ? [foreign] : [];
  const fitsNothing = foreign?.code === "NOT_THIS_RIFF" ? [foreign] : [];
  return [...(other === undefined ? [] : [other]), ...otherNotes, ...against, ...fitsNothing];
}

/** Probability that everything lies inside: the product, the dropouts taken as independent; unmeasured when one of them is. */
function probabilityOfAll(judged: readonly (DropoutFinding | Steadiness)[]): Probability {
  let product = 1;
  for (const { probability } of judged) {
    if (typeof probability !== "number") return probability;
    product *= probability;
  }
  return rounded(product, 4);
}
