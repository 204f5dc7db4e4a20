import { random } from "../../../base/index.js";
import { frequency } from "../../../pattern/index.js";
import { filterThrough, passFilter } from "../biquad.js";
import type { Layer } from "./layers.js";
import { type Manner, PLAIN } from "./manner.js";
import { HIGHEST_PARTIAL } from "./percussionSynthesis.js";
import { readBetween, slide } from "./slides.js";
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
/** Seconds over which one slurred note gives way to the next; our choice, short enough that the new pitch is heard in time. */
const BOUND = 0.012;

/**
 * Synthesises a note of a timbre, held for `held` samples, with its release: a sum of partials below half the sampling rate, so without aliasing.
 *
 * Partial n of a held timbre rises as 1 - exp(-t / s); s grows with n, so that higher partials come later, as in wind instruments. Partial n of a
 * struck timbre falls exponentially, faster for higher n. A slurred note gives way to the next without a new attack.
 */
export function toneSound(
  key: number,
  held: number,
  { timbre, layer, rate, tuning, manner = PLAIN }: ToneOptions,
): Float32Array {
  const fundamental = frequency(key, tuning);
  const gap = timbre.kind === "held" && !manner.whole ? Math.min(held * GAP, MOST_GAP * rate) : 0;
  const release = (manner.slurred ? BOUND : RELEASE[timbre.kind]) * rate;
  const let_go = Math.max(1, Math.round(held - gap));
  const sound = new Float32Array(Math.ceil(let_go + release));
  const partials = timbre.partials
    .map(([ratio, share], i) => {
      const hertz = fundamental * ratio;
      return { hertz, share: share * resonance(timbre.formants, hertz) * ratio ** SLOPES[layer], order: i };
    })
    .filter(({ hertz }) => hertz < Math.min(BRIGHTEST, HIGHEST_PARTIAL * rate) || hertz === fundamental);
  const power = Math.sqrt(partials.reduce((sum, { share }) => sum + (share * share) / 2, 0));
  for (const { hertz, share, order } of partials) {
    // Schroeder 1970: these phases give a low peak; equal phases would add the partials up to one pulse.
    const phase = (-Math.PI * order * (order + 1)) / partials.length;
    const height = (share / power) * HELD_LEVEL * timbre.level;
    addPartial(sound, { hertz, height, order, phase, timbre, rate, isJoined: manner.joined });
  }
  if (timbre.kind === "struck" && !manner.joined) addTouch(sound, rate);
  if (timbre.vibrato !== undefined) waver(sound, timbre.vibrato, rate);
  if (timbre.breath !== undefined) addBreath(sound, timbre, { key, rate, isJoined: manner.joined });
  slide(sound, { ...manner, held: let_go }, rate);
  if (manner.joined) {
    const steps = Math.min(sound.length, Math.ceil(BOUND * rate));
    for (let i = 0; i < steps; i++) sound[i]! *= 0.5 - 0.5 * Math.cos((Math.PI * (i + 1)) / (steps + 1));
  }
  const start = sound.length - Math.ceil(release);
  for (let i = Math.max(0, start); i < sound.length; i++) {
    sound[i]! *= 0.5 + 0.5 * Math.cos((Math.PI * (i - start + 1)) / (sound.length - start));
  }
  return sound;
}

interface ToneOptions {
  readonly timbre: Timbre;
  readonly layer: Layer;
  readonly rate: number;
  /** Hertz of A4; 440 when left out. */
  readonly tuning?: number | undefined;
  readonly manner?: Manner;
}

/** Soft notes are darker and loud ones brighter, as on every wind and string: the exponent that is added to the slope of the partials; our choice. */
const SLOPES: Readonly<Record<Layer, number>> = { soft: -0.35, usual: 0, loud: 0.2 };

function resonance(formants: Timbre["formants"] = [], hertz: number): number {
  return formants.reduce((gain, { hertz: at, width, times }) => gain + times / (1 + ((hertz - at) / width) ** 2), 1);
}

/** A note wavers from this time on, in seconds, fully after twice as long; our choice, so that short notes and onsets stay steady. */
const STEADY = 0.3;

/** Vibrato: the sound is read a little earlier and later in turn. The deviation of pitch is the slope of the shift. */
function waver(sound: Float32Array, { cents, hertz }: NonNullable<Timbre["vibrato"]>, rate: number): void {
  const begins = Math.round(STEADY * rate);
  if (sound.length <= begins) return;
  const still = sound.slice();
  const turn = (2 * Math.PI * hertz) / rate;
  const width = (2 ** (cents / 1200) - 1) / turn;
  for (let i = begins; i < sound.length; i++) {
    const age = i - begins;
    sound[i] = readBetween(still, i + Math.min(1, age / begins) * width * (Math.cos(turn * age) - 1));
  }
}

/** Time constant with which the noise of the attack sinks to that of the held note, in seconds; our choice. */
const CHIFF = 0.02;

function addBreath(
  sound: Float32Array,
  { breath, level }: Timbre,
  { key, rate, isJoined }: { key: number; rate: number; isJoined: boolean },
): void {
  const { band, share, start } = breath!;
  const stream = random(`breath/${key}`);
  const air = new Float32Array(sound.length);
  for (let i = 0; i < air.length; i++) air[i] = 2 * stream.uniform() - 1;
  filterThrough(passFilter("high", band[0], rate), air);
  filterThrough(passFilter("low", band[1], rate), air);
  const power = Math.sqrt(air.reduce((sum, value) => sum + value * value, 0) / air.length);
  const height = (share * HELD_LEVEL * level) / power;
  const sinks = Math.exp(-1 / (CHIFF * rate));
  let more = isJoined ? 0 : start - 1;
  for (let i = 0; i < sound.length; i++) {
    sound[i]! += air[i]! * height * (1 + more);
    more *= sinks;
  }
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
    isJoined,
  }: {
    hertz: number;
    height: number;
    order: number;
    phase: number;
    timbre: Timbre;
    rate: number;
    isJoined: boolean;
  },
): void {
  const turn = (2 * Math.PI * hertz) / rate;
  const cos = Math.cos(turn);
  const sin = Math.sin(turn);
  const time = timbre.kind === "held" ? timbre.seconds * (1 + 0.12 * order) : timbre.seconds / (1 + 0.35 * order);
  const fall = Math.exp(-1 / (time * rate));
  // A note that another is slurred to is there at once.
  let falling = isJoined && timbre.kind === "held" ? 0 : 1;
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
