import { type Milliseconds, milliseconds, toMilliseconds, toNumber, type Worded } from "../../base/index.js";
import { secondsOf } from "../../time/index.js";
import { settingPhrases } from "../../words/index.js";
import type { Drill } from "../model.js";
import { settingsText } from "../rung/settings.js";
import { say } from "../say.js";
import type { CheckContext } from "./context.js";
import { driftError } from "./driftError.js";
import type { SilenceCase } from "./silences.js";
import { extremeTempi, shortestInForce } from "./tempo.js";

/** Smallest shift in time that is heard: 6 ms, or 2.5 % of the interval above 240 ms. Friberg & Sundberg 1995, JASA 98(5) 2524-2531 (abstract). */
const SMALLEST_SHIFT_HEARD = milliseconds(6);

const SMALLEST_SHIFT_SHARE = 0.025;

/** Smallest change of tempo that is heard, in the best range (300 to 800 ms). Drake & Botte 1993, Percept. Psychophys. 54, 277-286 (abstract). */
const SMALLEST_TEMPO_CHANGE_PERCENT = 1.5;

/** Tolerances in standard errors. Below 1 even a flawless take is unclear more often than not; below 1.96 (95 % of a normal distribution) it often is. Our choice. */
const ERRORS_REFUSED = 1;

const ERRORS_ADVISED = 1.96;

/** Checks the tolerances of a drill against hearing, at the fastest notes and tempo, where the smallest shifts are heard, and against the standard error of a take. */
export function checkTolerance(context: CheckContext, cases: readonly SilenceCase[]): void {
  const tempi = extremeTempi(context.drill);
  if (tempi === undefined) return;
  const pace = { tempo: tempi.fastest, beat: context.drill.beat };
  const shortest = shortestInForce(context.drill);
  checkHearing(context, shortest === undefined ? milliseconds(0) : toMilliseconds(secondsOf(shortest, pace)));
  const measured = cases
    .filter(({ within }) => within.length > 0)
    .map((one) => measure(context.drill, one, toNumber(tempi.fastest)));
  checkLanding(context, cases, toNumber(tempi.fastest));
  if (measured.length > 0)
    checkMeasurement(
      context,
      measured.reduce((a, b) => (b.errors < a.errors ? b : a)),
    );
}

/** Just noticeable shift between notes `apart` milliseconds apart: the least sensible tolerance. */
export function smallestShiftHeard(apart: Milliseconds): Milliseconds {
  return milliseconds(Math.max(SMALLEST_SHIFT_HEARD, SMALLEST_SHIFT_SHARE * apart));
}

function checkHearing({ drill, found }: CheckContext, apart: Milliseconds): void {
  const { drift, landing, steadiness } = drill.tolerance;
  const floor = smallestShiftHeard(apart);
  const shifts = {
    drift: drift !== undefined && "ms" in drift ? drift.ms : undefined,
    landing: landing,
    steadiness,
  };
  for (const limit of ["drift", "landing", "steadiness"] as const) {
    const tolerated = shifts[limit];
    if (tolerated === undefined || tolerated >= floor) continue;
    const message = say("drill-problem.tolerance-below-hearing", { limit, heard: floor, tolerated });
    found.add("TOLERANCE_BELOW_HEARING", message, `/tolerance/${limit}`, orMore(`${Math.ceil(floor)} ms`));
  }
  if (drift === undefined || !("percent" in drift) || drift.percent >= SMALLEST_TEMPO_CHANGE_PERCENT) return;
  const message = say("drill-problem.tolerance-below-hearing-tempo", {
    heard: SMALLEST_TEMPO_CHANGE_PERCENT,
    tolerated: drift.percent,
  });
  found.add("TOLERANCE_BELOW_HEARING", message, "/tolerance/drift", orMore(`${SMALLEST_TEMPO_CHANGE_PERCENT} %`));
}

function orMore(least: string): Worded {
  return say("drill-problem.tolerance-below-hearing-remedy", { least });
}

/** How many times further a tolerated drift may lead than a landing may be off. Our choice: limits that are nearer to each other are a teacher's, and no slip of the pen. */
const FURTHER = 2;

/** Checks that the drift that is tolerated does not always land beyond what is: where it does in the shortest silence at the fastest tempo, it does in all. */
function checkLanding({ drill, found }: CheckContext, cases: readonly SilenceCase[], fastest: number): void {
  const { drift, landing } = drill.tolerance;
  const landed = cases.filter(({ met }) => met === true);
  if (drift === undefined || landing === undefined || landed.length === 0) return;
  const shortest = landed.reduce((a, b) => (b.to - b.from < a.to - a.from ? b : a));
  const silenceMs = ((shortest.to - shortest.from) / toNumber(drill.beat)) * (60_000 / fastest);
  const led = "ms" in drift ? drift.ms : (drift.percent / 100) * silenceMs;
  if (led <= FURTHER * landing) return;
  const message = say("drill-problem.landing-tighter-than-drift", {
    settings: settingPhrases(settingsText(shortest.settings)),
    drift: led,
    landing,
  });
  const least = `${Math.ceil(led / FURTHER)} ms`;
  const most =
    "ms" in drift
      ? `${Math.floor(FURTHER * landing)} ms`
      : `${(Math.floor((1000 * FURTHER * landing) / silenceMs) / 10).toFixed(1)} %`;
  const remedy = say("drill-problem.landing-tighter-than-drift-remedy", { landing: least, drift: most });
  found.add("LANDING_TIGHTER_THAN_DRIFT", message, "/tolerance/landing", remedy);
}

interface Measured {
  readonly settings: SilenceCase["settings"];
  readonly silenceMs: number;
  readonly errorMs: number;
  /** The tolerated drift in standard errors; infinite when drift is not judged. */
  readonly errors: number;
}

function measure({ beat, tolerance }: Drill, { settings, from, to, within }: SilenceCase, fastest: number): Measured {
  const perBeat = toNumber(beat);
  const beats = (to - from) / perBeat;
  const onsets = within.map((at) => Math.min(beats, Math.max(0, (at - from) / perBeat)));
  const errorMs = driftError({ onsets, beats });
  const silenceMs = (beats * 60_000) / fastest;
  const { drift } = tolerance;
  if (drift === undefined) return { settings, silenceMs, errorMs, errors: Number.POSITIVE_INFINITY };
  const tolerated = "ms" in drift ? drift.ms : (drift.percent / 100) * silenceMs;
  return { settings, silenceMs, errorMs, errors: tolerated / errorMs };
}

function checkMeasurement({ drill, found }: CheckContext, { settings, silenceMs, errorMs, errors }: Measured): void {
  const { drift } = drill.tolerance;
  if (drift === undefined || errors >= ERRORS_ADVISED) return;
  const least = ERRORS_ADVISED * errorMs;
  const enough =
    "ms" in drift ? `${Math.ceil(least)} ms` : `${(Math.ceil((1000 * least) / silenceMs) / 10).toFixed(1)} %`;
  const message = say("drill-problem.tolerance-below-measurement", {
    settings: settingPhrases(settingsText(settings)),
    error: errorMs,
    tolerated: errors * errorMs,
  });
  const code = errors < ERRORS_REFUSED ? "TOLERANCE_BELOW_MEASUREMENT" : "TOLERANCE_OFTEN_UNCLEAR";
  found.add(code, message, "/tolerance/drift", say("drill-problem.tolerance-below-measurement-remedy", { enough }));
}
