import { random } from "../../../base/index.js";
import { frequency } from "../../../pattern/index.js";
import { HIGHEST_PARTIAL } from "./percussionSynthesis.js";
import type { Timbre } from "./timbres.js";

/** Root mean square of a tone while it is held, 0 to 1; our choice, against percussion that peaks at 0.9. */
const HELD_LEVEL = 0.13;
/** Highest partial in hertz: our choice; winds and strings heard from a few metres have little sound above it. */
const BRIGHTEST = 9000;
/** Release time of a note, in seconds; our choice. */
const RELEASE = { held: 0.04, struck: 0.09 };
/** Amplitude and time constant (in seconds) of the noise at the start of a struck note; our choice, so that the onset of a bass note is heard under a ringing cymbal. */
const TOUCH = { height: 0.11, seconds: 0.004 };
/** A held note ends before its written end by this share of its length, at most `MOST_GAP` seconds, so that repeated notes are heard apart. */
const GAP = 0.08;
const MOST_GAP = 0.03;

/**
 * Synthesises a note of a timbre, held for `held` samples, with its release: a sum of partials below half the sampling rate, so without aliasing.
 *
 * Partial n of a held timbre rises as 1 - exp(-t / s); s grows with n, so that higher partials come later, as in wind instruments. Partial n of a
 * struck timbre falls exponentially, faster for higher n.
 */
export function toneSound(
  key: number,
  held: number,
  { timbre, rate, tuning }: { timbre: Timbre; rate: number; tuning?: number | undefined },
): Float32Array {
  const fundamental = frequency(key, tuning);
  const gap = timbre.kind === "held" ? Math.min(held * GAP, MOST_GAP * rate) : 0;
  const release = RELEASE[timbre.kind] * rate;
  const let_go = Math.max(1, Math.round(held - gap));
  const sound = new Float32Array(Math.ceil(let_go + release));
  const partials = timbre.partials
    .map(([ratio, share], i) => ({ hertz: fundamental * ratio, share, order: i }))
    .filter(({ hertz }) => hertz < Math.min(BRIGHTEST, HIGHEST_PARTIAL * rate) || hertz === fundamental);
  const power = Math.sqrt(partials.reduce((sum, { share }) => sum + (share * share) / 2, 0));
  for (const { hertz, share, order } of partials) {
    // Schroeder 1970: these phases give a low peak; equal phases would add the partials up to one pulse.
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

/** Adds the noise of the finger or hammer at the start of a struck note, the same for every note. */
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
