import type { Problem } from "../../base/index.js";
import { browserProblem } from "../codes.js";
import { say } from "../say.js";
import type { SoundClock } from "./model.js";

/** Sound so late comes through the air by radio, seconds: our choice; wires and loudspeakers of devices stay below half of it. */
const WIRELESS = 0.1;

/**
 * What should be known of the output before a take: that the browser does not say how late it is (OUTPUT_LATENCY_UNKNOWN), or that it is so late that ear-pieces
 * are probably wireless (OUTPUT_LATE). Advice only; empty when all is well. To be asked once sound runs.
 *
 * @example
 * for (const { message, remedy } of outputAdvice(player.clock)) console.log(message, remedy);
 */
export function outputAdvice({ outputLatency }: Pick<SoundClock, "outputLatency">): readonly Problem[] {
  if (!outputLatency.known)
    return [
      browserProblem(
        "OUTPUT_LATENCY_UNKNOWN",
        say("browser.problem.output-latency-unknown"),
        {},
        say("browser.remedy.calibrate"),
      ),
    ];
  if (outputLatency.seconds < WIRELESS) return [];
  const said = say("browser.problem.output-late", { ms: Math.round(1000 * outputLatency.seconds) });
  return [browserProblem("OUTPUT_LATE", said, {}, say("browser.remedy.wired"))];
}
