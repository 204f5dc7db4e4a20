/** The timbre of a pitched instrument. Partials: frequency ratio to the fundamental, and amplitude. */
export interface Timbre {
  /** Held tones rise and stay; struck and plucked tones decay. */
  readonly kind: "held" | "struck";
  /** Time constant of the rise (held) or decay (struck) of the lowest partial, in seconds. */
  readonly seconds: number;
  /** Amplitude beside other timbres; 1 is usual. */
  readonly level: number;
  readonly partials: readonly (readonly [ratio: number, share: number])[];
}

/** Harmonic partials 1 to `count` with amplitude n to the power -slope; even ones are multiplied by `even`. */
function harmonics(count: number, slope: number, even = 1): Timbre["partials"] {
  return Array.from({ length: count }, (_, i) => [i + 1, (i + 1) ** -slope * (i % 2 === 1 ? even : 1)] as const);
}

// All figures are our choice. The rise is short so that every onset is clear: a held tone reaches 90 % within 15 ms.
const BRASS: Timbre = { kind: "held", seconds: 0.004, level: 1, partials: harmonics(18, 1) };
const REED: Timbre = { kind: "held", seconds: 0.004, level: 1, partials: harmonics(18, 1.15, 0.8) };
const CLARINET: Timbre = { kind: "held", seconds: 0.004, level: 1, partials: harmonics(15, 1.1, 0.12) };
const FLUTE: Timbre = { kind: "held", seconds: 0.006, level: 1, partials: harmonics(6, 1.9) };
const BOWED: Timbre = { kind: "held", seconds: 0.006, level: 0.9, partials: harmonics(18, 1.2) };
const PIPES: Timbre = { kind: "held", seconds: 0.003, level: 0.8, partials: harmonics(8, 1.3) };
const SUNG: Timbre = { kind: "held", seconds: 0.006, level: 1, partials: harmonics(10, 1.4) };
const BASS: Timbre = { kind: "struck", seconds: 0.9, level: 1.6, partials: harmonics(16, 1.25) };
const PLUCKED: Timbre = { kind: "struck", seconds: 0.6, level: 1.3, partials: harmonics(16, 1) };
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

/** The timbre of each group of the General MIDI level 1 sound set, by its first program; from memory. */
const GROUPS: readonly (readonly [first: number, timbre: Timbre])[] = [
  [1, KEYS],
  [9, BARS],
  [17, PIPES],
  [25, PLUCKED],
  [33, BASS],
  [41, BOWED],
  [46, PLUCKED],
  [49, BOWED],
  [53, SUNG],
  [57, BRASS],
  [65, REED],
  [72, CLARINET],
  [73, FLUTE],
  [81, REED],
];

/** The built-in timbre for a General MIDI program (1 to 128). */
export function timbreOf(program: number): Timbre {
  return GROUPS.findLast(([first]) => first <= program)?.[1] ?? KEYS;
}
