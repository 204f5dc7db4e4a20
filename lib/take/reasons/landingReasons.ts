import type { DropoutFinding, Reason, Score } from "../../schema/index.js";
import type { Landing } from "../metrics/landing.js";
import { withoutBand } from "../silenceLength.js";
import { SURE } from "../verdict.js";

/** What is told of each landing that was not simply played: slips, landings off or left out, a place not found again. */
export function landingReasons(
  score: Score,
  {
    landings,
    dropouts,
    tolerance,
    pitched,
  }: {
    readonly landings: readonly (Landing | null)[];
    readonly dropouts: readonly DropoutFinding[];
    readonly tolerance: Score["tolerance"];
    readonly pitched: boolean;
  },
): Reason[] {
  return landings.flatMap((landing, dropout): Reason[] => {
    if (landing === null) return [];
    const after = `After ${withoutBand(score, dropout)}`;
    const { verdict } = dropouts[dropout]!;
    const { note, slip, likeliest, awayBeats, slipped, away, alone } = landing;
    if (slip !== null && slipped >= SURE) {
      const back =
        slip.takenBack === null
          ? `, and played on ${sizeOf(score, slip.beats)} ${slip.beats < 0 ? "ahead" : "behind"}`
          : ", and found back later";
      const says = `${after} you came in ${sizeOf(score, slip.beats)} ${side(slip.beats)}${back}.`;
      return [{ code: "SLIPPED", says, dropout }];
    }
    if (slipped > 1 - SURE && verdict === "unclear") {
      const how = likeliest === null ? "elsewhere" : `${sizeOf(score, likeliest.beats)} ${side(likeliest.beats)}`;
      const both = pitched
        ? "this take fits both about as well"
        : "in this riff the rhythm alone sounds almost the same, and with pitch it could be told";
      const says = `${after} you either left out or added notes, or came in ${how}: ${both}.`;
      return [{ code: "MAYBE_SLIPPED", says, dropout }];
    }
    if (away >= SURE) {
      const where = `${sizeOf(score, awayBeats)} ${awayBeats < 0 ? "ahead of" : "behind"}`;
      return [{ code: "STILL_AWAY", says: `${after} you were still ${where} the band.`, dropout }];
    }
    if ("leftOut" in note) {
      const says = `${after} you left out the note on which the band returns${verdict === "within" ? "; the notes around it were in time" : ", so that the landing cannot be judged: play it, even softly"}.`;
      return [{ code: "LANDING_LEFT_OUT", says, dropout }];
    }
    const limit = tolerance.landingMs ?? Number.POSITIVE_INFINITY;
    if ("ms" in note && verdict === "beyond" && alone >= SURE && Math.abs(note.ms) > limit) {
      const says = `${after} your landing came ${Math.abs(Math.round(note.ms))} ms ${side(note.ms)}: it was this one note.`;
      return [{ code: "LANDED_OFF", says, dropout }];
    }
    return [];
  });
}

const side = (value: number): string => (value < 0 ? "early" : "late");

/** "half a beat", "a beat", "half a bar", "a bar", "two bars", "a third of a beat". */
function sizeOf(score: Score, beats: number): string {
  const size = Math.abs(beats);
  const bar = score.bars.length > 1 ? (score.bars[1]!.at - score.bars[0]!.at) / score.beat : 4;
  const named: readonly (readonly [number, string])[] = [
    [1, "a beat"],
    [2 * bar, "two bars"],
    [bar, "a bar"],
    [bar / 2, "half a bar"],
    [1 / 2, "half a beat"],
    [1 / 3, "a third of a beat"],
    [2 / 3, "two thirds of a beat"],
  ];
  return named.find(([value]) => Math.abs(size - value) < 0.01)?.[1] ?? `${Math.round(10 * size) / 10} beats`;
}
