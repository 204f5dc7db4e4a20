import { random } from "../../../base/index.js";
import { frequency } from "../../../pattern/index.js";
import { HIGHEST_PARTIAL } from "./percussionSynthesis.js";
import type { Timbre } from "./timbres.js";

/** Root mean square of a tone while it is held, 0 to 1; our choice, against percussion that peaks at 0.9. */
const HELD_LEVEL = 0.13;
/** No partial above this many hertz: our choice, brightness ends there in winds and strings heard from a few metres. */
const BRIGHTEST = 9000;
/** Seconds a note dies away in when it is let go. */
const RELEASE = { held: 0.04, struck: 0.09 };
/** Height and time constant (in seconds) of the noise of a touch; our choice, so that a bass note is heard to begin under a ringing cymbal. */
const TOUCH = { height: 0.11, seconds: 0.004 };
/** A held note ends this share before its written end, by at most `MOST_GAP` seconds, so that a note repeated is heard twice. */
const GAP = 0.08;
const MOST_GAP = 0.03;

/**
 * A note of a timbre, held for `held` samples, with its release; a sum of partials all below half the rate, so that nothing folds back.
 *
 * Partial n of a held timbre swells as 1 - exp(-t / s), s growing with n, so that a note opens as a wind instrument's does; of a struck one
 * it falls exponentially, the higher the faster.
 */
export function toneSound(key: number, held: number, { timbre, rate }: { timbre: Timbre; rate: number }): Float32Array {
  const fundamental = frequency(key);
  const gap = timbre.kind === "held" ? Math.min(held * GAP, MOST_GAP * rate) : 0;
  const release = RELEASE[timbre.kind] * rate;
  const let_go = Math.max(1, Math.round(held - gap));
  const sound = new Float32Array(Math.ceil(let_go + release));
  const partials = timbre.partials
    .map(([ratio, share], i) => ({ hertz: fundamental * ratio, share, order: i }))
    .filter(({ hertz }) => hertz < Math.min(BRIGHTEST, HIGHEST_PARTIAL * rate) || hertz === fundamental);
  const power = Math.sqrt(partials.reduce((sum, { share }) => sum + (share * share) / 2, 0));
  for (const { hertz, share, order } of partials) {
    // Schroeder 1970: these phases spread the partials over the period, where equal ones would heap them into one pulse.
    const phase = (-Math.PI * order * (order + 1)) / partials.length;
    addPartial(sound, { hertz, height: (share / power) * HELD_LEVEL * timbre.level, order, phase, timbre, rate });
  }
  if (timbre.kind === "struck") addTouch(sound, rate);
  const start = sound.length - Math.ceil(release);
  for (let i = Math.max(0, start); i < sound.length; i++) {
    sound[i]! *= 0.5 + 0.5 * Math.cos((Math.PI * (i - start + 1)) / (sound.length - start));
  }
  return sound;
}

/** The finger or hammer that is heard at the start of a struck note: noise, the same for every note. */
function addTouch(sound: Float32Array, rate: number): void {
  const stream = random("touch");
  const fall = Math.exp(-1 / (TOUCH.seconds * rate));
  for (let i = 0, height = TOUCH.height; i < sound.length && height > TOUCH.height / 1000; i++, height *= fall) {
    sound[i]! += height * (2 * stream.uniform() - 1);
  }
}

function addPartial(
  sound: Float32Array,
  {
    hertz,
    height,
    order,
    phase,
    timbre,
    rate,
  }: { hertz: number; height: number; order: number; phase: number; timbre: Timbre; rate: number },
): void {
  const turn = (2 * Math.PI * hertz) / rate;
  const cos = Math.cos(turn);
  const sin = Math.sin(turn);
  const time = timbre.kind === "held" ? timbre.seconds * (1 + 0.12 * order) : timbre.seconds / (1 + 0.35 * order);
  const fall = Math.exp(-1 / (time * rate));
  let falling = 1;
  let re = Math.cos(phase);
  let im = Math.sin(phase);
  for (let i = 0; i < sound.length; i++) {
    sound[i]! += height * im * (timbre.kind === "held" ? 1 - falling : falling);
    falling *= fall;
    const next = re * cos - im * sin;
    im = re * sin + im * cos;
    re = next;
  }
}
