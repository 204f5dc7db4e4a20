import { random } from "../../../base/index.js";
import { filterThrough, passFilter } from "../biquad.js";
import type { Layer } from "./layers.js";

/** Synthesis of a struck sound: decaying partials and noise. A decay is the time to fall by 60 dB, in seconds. */
export interface Strike {
  /** Peak amplitude, 0 to 1. */
  readonly level: number;
  /** Partials: frequency in hertz, amplitude beside the others, decay. */
  readonly partials?: readonly (readonly [hertz: number, share: number, decay: number])[];
  /** Pitch bend: the frequency begins this many times higher and falls to its value with this time constant in seconds. */
  readonly bend?: readonly [times: number, seconds: number];
  /** Start phase of the partials, in radians; 0 when left out, so that they begin at zero. */
  readonly phase?: number;
  /** Noise between two frequencies, in hertz. */
  readonly noise?: {
    readonly band: readonly [low: number, high: number];
    readonly share: number;
    readonly decay: number;
  };
  /** Times at which the noise burst is repeated, in seconds from the first. */
  readonly again?: readonly number[];
}

/** ln(1000): a fall by 60 dB as an exponent. */
const SIXTY_DB = Math.log(1000);
/** Length of a sound in decays: it ends after a fall by 1.2 * 60 = 72 dB. */
const LENGTH_IN_DECAYS = 1.2;
/** Highest partial as a share of the sampling rate, well below the half at which aliasing begins. */
export const HIGHEST_PARTIAL = 0.42;

/** Share by which the noise of a soft or loud strike reaches higher, and by which its noise is stronger; our choice. */
const REACH: Readonly<Record<Layer, readonly [band: number, share: number]>> = {
  soft: [0.55, 0.7],
  usual: [1, 1],
  loud: [1.25, 1.15],
};
/** Share by which the pitch of a repeated stroke differs at most, either way: our choice, 9 cents, as the stick falls on other places of the skin. */
const DETUNED = 0.005;

/** A strike as it is played: how hard, and which of its sounds, which differ a little in pitch and in their noise. */
export function playedStrike(strike: Strike, { layer, variant }: { layer: Layer; variant: number }): Strike {
  const [band, share] = REACH[layer];
  const times = 1 + DETUNED * (variant - 1);
  const { noise, partials } = strike;
  return {
    ...strike,
    ...(partials && { partials: partials.map(([hertz, part, decay]) => [hertz * times, part, decay] as const) }),
    ...(noise && {
      noise: {
        ...noise,
        band: [noise.band[0], Math.max(2 * noise.band[0], noise.band[1] * band)] as const,
        share: noise.share * share,
      },
    }),
  };
}

/** The samples of a strike. The same name, strike and rate give the same samples. With noise, the first sample is not zero. */
export function strikeSound(name: string, strike: Strike, rate: number): Float32Array {
  const { partials = [], noise, again = [] } = strike;
  const decays = [...partials.map(([, , decay]) => decay), noise?.decay ?? 0];
  const length = Math.ceil((Math.max(...decays) * LENGTH_IN_DECAYS + (again.at(-1) ?? 0)) * rate);
  const sound = new Float64Array(length);
  if (noise !== undefined) addNoise(sound, { ...noise, again, name, rate });
  for (const partial of partials) addPartial(sound, partial, { bend: strike.bend, start: strike.phase ?? 0, rate });
  const peak = sound.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  return Float32Array.from(sound, (value) => (value * strike.level) / peak);
}

function addNoise(
  sound: Float64Array,
  {
    band,
    share,
    decay,
    again,
    name,
    rate,
  }: NonNullable<Strike["noise"]> & { again: readonly number[]; name: string; rate: number },
): void {
  const stream = random(`strike/${name}`);
  const burst = new Float64Array(Math.min(sound.length, Math.ceil(decay * LENGTH_IN_DECAYS * rate)));
  for (let i = 0; i < burst.length; i++) burst[i] = 2 * stream.uniform() - 1;
  filterThrough(passFilter("high", band[0], rate), burst);
  filterThrough(passFilter("low", band[1], rate), burst);
  const fall = Math.exp(-SIXTY_DB / (decay * rate));
  // Filtering removes most of the power of the noise; the rest is scaled to its share.
  const power = Math.sqrt(burst.reduce((sum, value) => sum + value * value, 0) / burst.length);
  for (const start of [0, ...again].map((at) => Math.round(at * rate))) {
    let height = (share / power) * 0.5;
    for (let i = 0; i < burst.length && start + i < sound.length; i++) {
      sound[start + i]! += burst[i]! * height;
      height *= fall;
    }
  }
}

function addPartial(
  sound: Float64Array,
  [hertz, share, decay]: readonly [number, number, number],
  { bend = [1, 1], start, rate }: { bend: Strike["bend"] | undefined; start: number; rate: number },
): void {
  if (hertz > HIGHEST_PARTIAL * rate) return;
  const fall = Math.exp(-SIXTY_DB / (decay * rate));
  const settle = Math.exp(-1 / (bend[1] * rate));
  let height = share;
  let above = bend[0] - 1;
  let phase = start;
  for (let i = 0; i < sound.length; i++) {
    sound[i]! += height * Math.sin(phase);
    phase += (2 * Math.PI * hertz * (1 + above)) / rate;
    above *= settle;
    height *= fall;
  }
}
