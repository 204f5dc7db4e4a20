import { beatsOver, type Phrase } from "../../base/index.js";
import type { DropoutFinding, Reason, Score } from "../../schema/index.js";
import type { MessageParameters } from "../../words/index.js";
import type { Landing } from "../metrics/landing.js";
import { offBy, reasonOf, say } from "../say.js";
import { lengthPhrase } from "../silenceLength.js";
import { SURE } from "../verdict.js";

// A landing that was left out with this probability is told as that, and not as a slip that it may have been (our choice).
const MOSTLY = 0.75;

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
    const length = (): Phrase => lengthPhrase(score, dropout);
    const { verdict } = dropouts[dropout]!;
    const { note, slip, likeliest, awayBeats, slipped, away, alone, leftOut } = landing;
    const within = verdict === "within";
    const limit = tolerance.landingMs ?? Number.POSITIVE_INFINITY;
    if (slip !== null && slipped >= SURE && !within) {
      const key = slip.takenBack === null ? "take.slipped-and-stayed" : "take.slipped-and-came-back";
      const said = say(key, { length: length(), size: sizeOf(score, slip.beats), side: side(slip.beats) });
      return [reasonOf("SLIPPED", said, dropout)];
    }
    if (slipped > 1 - SURE && leftOut < MOSTLY && verdict === "unclear") {
      const said = say("take.maybe-slipped", {
        length: length(),
        size: likeliest === null ? "" : sizeOf(score, likeliest.beats),
        side: likeliest === null ? "elsewhere" : side(likeliest.beats),
        pitched: pitched ? "pitched" : "unpitched",
      });
      return [reasonOf("MAYBE_SLIPPED", said, dropout)];
    }
    if (away >= SURE && awayBeats !== 0 && !(within && limit < Number.POSITIVE_INFINITY)) {
      const said = say("take.still-away", { length: length(), size: sizeOf(score, awayBeats), side: side(awayBeats) });
      return [reasonOf("STILL_AWAY", said, dropout)];
    }
    // A drift beyond the limits decides by itself.
    if ("leftOut" in note && verdict !== "beyond") {
      const around = within ? "in-time" : "unknown";
      return [reasonOf("LANDING_LEFT_OUT", say("take.landing-left-out", { length: length(), around }), dropout)];
    }
    if ("ms" in note && verdict === "beyond" && alone >= SURE && Math.abs(note.ms) > limit) {
      return [reasonOf("LANDED_OFF", say("take.landed-off", { length: length(), ...offBy(note.ms) }), dropout)];
    }
    return [];
  });
}

const side = (value: number): "early" | "late" => (value < 0 ? "early" : "late");

/** "half a beat", "a beat", "half a bar", "a bar", "two bars", "a third of a beat". */
function sizeOf(score: Score, beats: number): Phrase {
  const size = Math.abs(beats);
  const bar = score.bars.length > 1 ? beatsOver(score, score.bars[0]!.at, score.bars[1]!.at) : 4;
  const named: readonly (readonly [number, MessageParameters["take.size"]["size"]])[] = [
    [1, "beat"],
    [2 * bar, "two-bars"],
    [bar, "bar"],
    [bar / 2, "half-bar"],
    [1 / 2, "half-beat"],
    [1 / 3, "third-of-beat"],
    [2 / 3, "two-thirds-of-beat"],
  ];
  const name = named.find(([value]) => Math.abs(size - value) < 0.01)?.[1];
  const said =
    name === undefined ? say("take.beats", { beats: Math.round(10 * size) / 10 }) : say("take.size", { size: name });
  return said.message;
}
