/** The timbre of a pitched instrument. Partials: frequency ratio to the fundamental, and amplitude. */
export interface Timbre {
  /** Held tones rise and stay; struck and plucked tones decay. */
  readonly kind: "held" | "struck";
  /** Time constant of the rise (held) or decay (struck) of the lowest partial, in seconds. */
  readonly seconds: number;
  /** Amplitude beside other timbres; 1 is usual. */
  readonly level: number;
  readonly partials: readonly (readonly [ratio: number, share: number])[];
  /** Resonances of the instrument's body or bell: partials near one are louder by a factor of up to 1 + `times`. */
  readonly formants?: readonly Formant[];
  /** Noise of the air: its band in hertz, its share of the tone while it is held, and how many times stronger it begins. */
  readonly breath?: {
    readonly band: readonly [low: number, high: number];
    readonly share: number;
    readonly start: number;
  };
  /** Vibrato, which sets in when a note has lasted a while: its width either way in cents, and its rate in hertz. */
  readonly vibrato?: { readonly cents: number; readonly hertz: number };
}

/** A resonance: its frequency and half its width, in hertz. */
export interface Formant {
  readonly hertz: number;
  readonly width: number;
  readonly times: number;
}

/** Harmonic partials 1 to `count` with amplitude n to the power -slope; even ones are multiplied by `even`. */
function harmonics(count: number, slope: number, even = 1): Timbre["partials"] {
  return Array.from({ length: count }, (_, i) => [i + 1, (i + 1) ** -slope * (i % 2 === 1 ? even : 1)] as const);
}

// All figures are our choice, formants by the literature on winds (J. Meyer, "Acoustics and the Performance of Music", from memory). The rise is short so
// that every onset is clear: a held tone reaches 90 % within 15 ms, a flute's within 25.
const held = (seconds: number, partials: Timbre["partials"]): Timbre => ({ kind: "held", seconds, level: 1, partials });
const AIR = [800, 6000] as const;
const TRUMPET: Timbre = {
  ...held(0.005, harmonics(22, 0.75)),
  formants: [
    { hertz: 1300, width: 700, times: 2.5 },
    { hertz: 2600, width: 900, times: 1 },
  ],
  breath: { band: AIR, share: 0.012, start: 4 },
  vibrato: { cents: 8, hertz: 5 },
};
const TROMBONE: Timbre = {
  ...held(0.006, harmonics(22, 0.9)),
  formants: [{ hertz: 540, width: 350, times: 2.5 }],
  breath: { band: [400, 4000], share: 0.012, start: 4 },
  vibrato: { cents: 6, hertz: 4.6 },
};
const HORN: Timbre = { ...held(0.006, harmonics(16, 1.2)), formants: [{ hertz: 340, width: 250, times: 2 }] };
const TUBA: Timbre = { ...held(0.006, harmonics(16, 1.15)), formants: [{ hertz: 230, width: 200, times: 2 }] };
const REED: Timbre = {
  ...held(0.004, harmonics(18, 1.15, 0.8)),
  formants: [
    { hertz: 600, width: 300, times: 1.6 },
    { hertz: 1500, width: 500, times: 0.7 },
  ],
  breath: { band: [1200, 7000], share: 0.035, start: 3 },
  vibrato: { cents: 14, hertz: 5.3 },
};
const DOUBLE_REED: Timbre = {
  ...held(0.004, harmonics(20, 0.8)),
  formants: [{ hertz: 1150, width: 400, times: 3 }],
  vibrato: { cents: 9, hertz: 5.5 },
};
const BASSOON: Timbre = { ...held(0.005, harmonics(20, 0.9)), formants: [{ hertz: 470, width: 250, times: 3 }] };
const CLARINET: Timbre = {
  ...held(0.005, harmonics(15, 1.1, 0.12)),
  breath: { band: [1500, 6000], share: 0.012, start: 3 },
};
const FLUTE: Timbre = {
  ...held(0.008, harmonics(6, 1.9)),
  breath: { band: [900, 5000], share: 0.07, start: 3 },
  vibrato: { cents: 12, hertz: 5 },
};
const BOWED: Timbre = { kind: "held", seconds: 0.006, level: 0.9, partials: harmonics(18, 1.2) };
const PIPES: Timbre = { kind: "held", seconds: 0.003, level: 0.8, partials: harmonics(8, 1.3) };
const SUNG: Timbre = { kind: "held", seconds: 0.006, level: 1, partials: harmonics(10, 1.4) };
const BASS: Timbre = { kind: "struck", seconds: 0.9, level: 1.6, partials: harmonics(16, 1.25) };
const PLUCKED: Timbre = { kind: "struck", seconds: 0.6, level: 1.3, partials: harmonics(16, 1) };
/** An electric piano: a tine, whose third and seventh partial ring on above a near sine. */
const TINES: Timbre = {
  kind: "struck",
  seconds: 1.1,
  level: 1.3,
  partials: [
    [1, 1],
    [2, 0.22],
    [3, 0.16],
    [4, 0.07],
    [7, 0.05],
  ],
};
const KEYS: Timbre = { kind: "struck", seconds: 0.8, level: 1.3, partials: harmonics(14, 1.3) };
/** Vibraphone and marimba bars are tuned to 1 : 4 : 10; common practice. */
const BARS: Timbre = {
  kind: "struck",
  seconds: 1,
  level: 1.2,
  partials: [
    [1, 1],
    [4, 0.25],
    [10, 0.06],
  ],
};

/** The timbre of each instrument or group of the General MIDI level 1 sound set, by its first program; from memory. */
const GROUPS: readonly (readonly [first: number, timbre: Timbre])[] = [
  [1, KEYS],
  [5, TINES],
  [7, KEYS],
  [9, BARS],
  [17, PIPES],
  [25, PLUCKED],
  [33, BASS],
  [41, BOWED],
  [46, PLUCKED],
  [49, BOWED],
  [53, SUNG],
  [57, TRUMPET],
  [58, TROMBONE],
  [59, TUBA],
  [60, TRUMPET],
  [61, HORN],
  [62, TRUMPET],
  [65, REED],
  [69, DOUBLE_REED],
  [71, BASSOON],
  [72, CLARINET],
  [73, FLUTE],
  [81, REED],
];

/** The built-in timbre for a General MIDI program (1 to 128). */
export function timbreOf(program: number): Timbre {
  return GROUPS.findLast(([first]) => first <= program)?.[1] ?? KEYS;
}
