/** An application, as the package check compiles it: each line under `@ts-expect-error` must be refused, and everything else must pass. */
import { type Finding, milliseconds, type Score, type Seconds, seconds, type Take } from "leeway";

/** Documents take plain numbers, and numbers of their unit. */
export const take: Take = { onsets: [0.64, seconds(1.28), { at: seconds(1.9) }], latencyMs: milliseconds(12) };

export function between(finding: Finding, score: Score): readonly unknown[] {
  const { from, driftMs } = finding.dropouts[0]!;
  if (typeof driftMs !== "number") return [];
  // @ts-expect-error: milliseconds for seconds
  const onset: Take = { onsets: [driftMs] };
  // @ts-expect-error: seconds for milliseconds
  const late: Take = { onsets: [], latencyMs: score.beat };
  // @ts-expect-error: beats per minute for seconds
  const beat: Seconds = seconds(score.tempo);
  return [onset, late, beat, seconds(from - score.beat), milliseconds(driftMs)];
}
