import type { DropoutFinding, Finding, Probability, Reason, Score, Steadiness, Take } from "../schema/index.js";
import { type Counts, countNotes } from "./metrics/counts.js";
import { believeDrifts } from "./metrics/drift.js";
import { judgeDropouts } from "./metrics/dropouts.js";
import { openFindings } from "./metrics/openBars.js";
import { steadinessOf } from "./metrics/steadiness.js";
import { latencySpreadOf, type PlayedOnsets, playedOnsets } from "./onsets.js";
import { type Explanation, otherExplanation } from "./reasons/explanations.js";
import { reasonsAgainstVerdict } from "./reasons/reasons.js";
import { rounded } from "./rounding.js";
import { sentenceOf } from "./sentence.js";
import { offsetIn } from "./state/fit.js";
import { type Reading, type ReadingOptions, readTake } from "./state/reading.js";
import { verdictOverAll } from "./verdict.js";

export interface AssessOptions {
  /** Instead of the score's own tolerance. */
  readonly tolerance?: Score["tolerance"];
}

/**
 * What a take shows of a score: which onset is which note, the drift in every dropout with its uncertainty, re-entries, steadiness, and a
 * verdict against the tolerance.
 *
 * Times in the score and the take are seconds; the finding is in milliseconds and per cent of tempo, positive late and slower. An empty take
 * is a finding too: everything missed, everything unmeasured, verdict `unclear`. Advice the take carries goes with it. Throws `RangeError` when a time is not a finite number.
 */
export function assess(score: Score, take: Take, options: AssessOptions = {}): Finding {
  const played = playedOnsets(score, take);
  const strange = played.at.findIndex((at) => !Number.isFinite(at));
  if (strange >= 0)
    throw new RangeError(`onset ${played.given[strange]} of the take is not at a finite number of seconds`);
  const terms: Terms = {
    take,
    tolerance: options.tolerance ?? score.tolerance,
    reading: { floorMs: take.motorFloorMs ?? 0, latencySpreadMs: latencySpreadOf(take) },
  };
  const reading = readTake(score, played, terms.reading);
  const counts = countNotes(score, reading, played);
  const other = otherExplanation(score, reading, { played, counts });
  const written = other?.explanation.written;
  if (other?.surely !== true || written === undefined) {
    return findingFrom(
      score,
      { reading, played, counts },
      { ...terms, doubts: other === undefined ? [] : [doubtOf(other)] },
    );
  }
  // The player slipped: what was played is measured where it was played, and told in the notes of the score.
  const slipped = other.explanation.score;
  const again = readTake(slipped, played, terms.reading);
  const moved = { reading: again, played, counts: countNotes(slipped, again, played) };
  const finding = findingFrom(slipped, moved, { ...terms, doubts: [other.explanation.reason] });
  return { ...finding, ...inWrittenNotes(finding, written, score.expected.length) };
}

interface Terms {
  readonly take: Pick<Take, "id" | "advice">;
  readonly tolerance: Score["tolerance"];
  readonly reading: ReadingOptions;
}

interface Heard {
  readonly reading: Reading;
  readonly played: PlayedOnsets;
  readonly counts: Counts;
}

function findingFrom(
  score: Score,
  heard: Heard,
  { take: { id, advice }, tolerance, doubts }: Terms & { readonly doubts: readonly Reason[] },
): Finding {
  const { reading, played, counts } = heard;
  const beliefs = believeDrifts(reading, played);
  const reasons = [...doubts, ...reasonsAgainstVerdict(score, { reading, played, counts, beliefs })];
  const dropouts = judgeDropouts(score, { reading, beliefs, doubts: reasons, tolerance });
  const steadiness = steadinessOf(reading, tolerance.steadinessMs);
  const nothing = counts.pairs.length === 0 ? { unmeasured: "no expected note was played" } : undefined;
  const doubtful = nothing !== undefined || reasons.some(({ dropout }) => dropout === undefined);
  const body = {
    ...(id === undefined ? {} : { take: id }),
    drill: score.drill,
    rung: score.rung,
    mix: score.mix,
    verdict: doubtful ? "unclear" : verdictOverAll([...dropouts, steadiness].map(({ verdict }) => verdict)),
    probability: nothing ?? probabilityOfAll([...dropouts, steadiness]),
    reasons,
    ...counts,
    offsetMs: nothing ?? rounded(offsetIn(reading.fit).mean),
    dropouts,
    openBars: openFindings(score, reading, played),
    steadiness,
    ...(advice === undefined ? {} : { advice }),
  } satisfies Omit<Finding, "sentence">;
  return { ...body, sentence: sentenceOf(score, body) };
}

function doubtOf({ explanation, surely }: { readonly explanation: Explanation; readonly surely: boolean }): Reason {
  const { reason } = explanation;
  return reason.code === "SLIPPED" && !surely
    ? { ...reason, code: "MAYBE_SLIPPED", says: `Perhaps: ${reason.says}` }
    : reason;
}

/** Pairs and missed notes in the indices of the score; a note played twice counts where it was played last. */
function inWrittenNotes(
  finding: Finding,
  written: readonly number[],
  notes: number,
): Pick<Finding, "pairs" | "missed" | "added"> {
  const onsetOf = new Map<number, number>();
  const added = [...finding.added];
  for (const [note, onset] of finding.pairs) {
    const before = onsetOf.get(written[note]!);
    if (before !== undefined) added.push(before);
    onsetOf.set(written[note]!, onset);
  }
  const pairs = [...onsetOf].sort((a, b) => a[1] - b[1]);
  const missed = Array.from({ length: notes }, (_, note) => note).filter((note) => !onsetOf.has(note));
  return { pairs, missed, added: added.sort((a, b) => a - b) };
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
