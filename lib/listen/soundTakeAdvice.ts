import { type Problem, problemsOf } from "../base/index.js";
import { listenCodes } from "./codes.js";
import type { SoundTake } from "./soundTake.js";
import type { TakeClock } from "./takeClock.js";

const problem = problemsOf(listenCodes);

/** Above this the backing is louder than the player by so much that what is left of it passes for notes, dB: measured on rooms made up for it. */
const LOUD_BLEED = 3;
/** What the player should know of how a take was heard. */
export function soundTakeAdvice(
  { take, backing, bleedDb, undecidable }: SoundTake,
  { isAssumed }: Pick<TakeClock, "isAssumed">,
): readonly Problem[] {
  const advice: Problem[] = [];
  const say = (code: keyof typeof listenCodes, message: string, remedy?: string): void => {
    advice.push(problem(code, message, {}, remedy));
  };
  if (backing?.found === false) {
    say(
      "BACKING_NOT_HEARD",
      "the backing is not to be heard in the recording",
      "with headphones leave the backing out; else play it louder",
    );
  }
  if (isAssumed) {
    const message = "the count-in is taken to begin with the recording, as nothing says when it began";
    say("RECORDING_START_ASSUMED", message, "say at which second of the recording the count-in begins");
  }
  if (backing?.found === true && backing.rival !== undefined) {
    const places = `${backing.start.toFixed(2)} s and ${backing.rival.toFixed(2)} s`;
    say("BACKING_PLACE_UNCLEAR", `the backing fits the recording nearly as well from ${places}; the first is taken`);
  }
  if (bleedDb !== undefined && bleedDb > LOUD_BLEED) {
    const message = `the backing is ${bleedDb.toFixed(0)} dB louder than the player, and at most ${LOUD_BLEED} dB can be listened through`;
    say("BACKING_TOO_LOUD", message, "play the backing softer, or put the phone nearer to the instrument");
  }
  if (undecidable.length > 0) {
    const bars = [...new Set(undecidable.flatMap((stretch) => ("bars" in stretch ? (stretch.bars ?? []) : [])))];
    const times = undecidable.map(({ from }) => `${from.toFixed(1)} s`);
    const where = bars.length > 0 ? `bars ${bars.join(", ")}` : times.join(", ");
    say("BACKING_HIDES_NOTES", `notes may be hidden by the backing in ${where}`, "play the backing softer");
  }
  if (take.onsets.length === 0) say("RECORDING_WITHOUT_NOTES", "no note was heard, so the take counts as silent");
  return advice;
}
