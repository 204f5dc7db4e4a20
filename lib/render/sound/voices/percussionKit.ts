import type { Strike } from "./percussionSynthesis.js";

type Partials = NonNullable<Strike["partials"]>;

/** A drum skin: a tone of falling pitch, its first overtone (1.59, the second mode of an ideal membrane), and the noise of the stick. */
function skin(hertz: number, decay: number, level: number): Strike {
  return {
    level,
    partials: [
      [hertz, 1, decay],
      [hertz * 1.59, 0.35, decay * 0.5],
    ],
    bend: [1.5, 0.03],
    noise: { band: [300, 6000], share: 0.35, decay: 0.03 },
  };
}

/** A cymbal: many inharmonic partials, and noise. */
function cymbal(low: number, decay: number, level: number): Strike {
  const ratios = [1, 1.342, 1.523, 1.789, 2.113, 2.437, 2.831, 3.17, 3.55, 4.02];
  return {
    level,
    partials: ratios.map((ratio, i) => [low * ratio, 0.12, decay * (1 - i * 0.06)] as const),
    noise: { band: [low, 15000], share: 1, decay: decay * 0.7 },
  };
}

function wood(hertz: number, decay: number, level: number): Strike {
  const partials: Partials = [
    [hertz, 1, decay],
    [hertz * 2.45, 0.4, decay * 0.5],
  ];
  return { level, partials, noise: { band: [800, 9000], share: 0.5, decay: 0.008 } };
}

function bell(hertz: number, decay: number, level: number): Strike {
  const partials: Partials = [
    [hertz, 1, decay],
    [hertz * 1.48, 0.7, decay * 0.8],
    [hertz * 2.67, 0.3, decay * 0.5],
    [hertz * 4.1, 0.15, decay * 0.3],
  ];
  return { level, partials, noise: { band: [1500, 12000], share: 0.3, decay: 0.01 } };
}

/** A ride cymbal: a cymbal with a quiet bell. */
function ride(low: number, hertz: number, decay: number): Strike {
  const wash = cymbal(low, decay, 0.28);
  const ping = bell(hertz, decay * 0.6, 1).partials!.map(([at, share, long]) => [at, share * 0.35, long] as const);
  return { ...wash, partials: [...wash.partials!, ...ping] };
}

function rattle(low: number, decay: number, level: number): Strike {
  return { level, noise: { band: [low, 15000], share: 1, decay } };
}

const scrape = (count: number, step: number): readonly number[] =>
  Array.from({ length: count }, (_, i) => (i + 1) * step);

/** A click, of the count-in and of a part. It begins at its peak, so that its first sample is its onset. */
export const CLICK: Strike = {
  level: 0.6,
  partials: [[1320, 1, 0.06]],
  phase: Math.PI / 2,
  noise: { band: [1500, 12000], share: 0.9, decay: 0.012 },
};
/** The click on the first beat of a bar, a fourth higher. */
export const DOWNBEAT_CLICK: Strike = { ...CLICK, level: 0.75, partials: [[1760, 1, 0.06]] };

/** The built-in percussion by General MIDI key. All figures are our choice, by ear and by the size of the instruments. */
export const STRIKES: ReadonlyMap<number, Strike> = new Map<number, Strike>([
  [31, wood(2100, 0.05, 0.5)],
  [33, CLICK],
  [34, DOWNBEAT_CLICK],
  [35, { ...skin(46, 0.55, 0.9), bend: [2.6, 0.025] }],
  [36, { ...skin(54, 0.42, 0.9), bend: [3, 0.02] }],
  [37, wood(1750, 0.06, 0.45)],
  [38, snare(185, 0.26)],
  [39, { level: 0.5, noise: { band: [700, 7000], share: 1, decay: 0.12 }, again: [0.011, 0.022] }],
  [40, snare(225, 0.22)],
  [41, skin(82, 0.7, 0.65)],
  [42, cymbal(5200, 0.09, 0.3)],
  [43, skin(98, 0.65, 0.65)],
  [44, cymbal(4600, 0.11, 0.2)],
  [45, skin(117, 0.6, 0.65)],
  [46, cymbal(5000, 0.7, 0.3)],
  [47, skin(139, 0.55, 0.65)],
  [48, skin(165, 0.5, 0.65)],
  [49, cymbal(3100, 2.4, 0.5)],
  [50, skin(196, 0.45, 0.65)],
  [51, ride(3600, 3350, 1.6)],
  [52, cymbal(2300, 1.8, 0.5)],
  [53, bell(2650, 1.1, 0.35)],
  [54, rattle(7000, 0.16, 0.3)],
  [55, cymbal(4300, 1, 0.42)],
  [56, bell(560, 0.32, 0.4)],
  [57, cymbal(2700, 2.7, 0.5)],
  [58, { level: 0.35, noise: { band: [1800, 6000], share: 1, decay: 0.05 }, again: scrape(16, 0.028) }],
  [59, ride(3200, 3010, 1.8)],
  [60, skin(420, 0.18, 0.5)],
  [61, skin(310, 0.22, 0.5)],
  [62, skin(330, 0.1, 0.5)],
  [63, skin(300, 0.35, 0.5)],
  [64, skin(210, 0.42, 0.5)],
  [65, skin(380, 0.4, 0.5)],
  [66, skin(270, 0.45, 0.5)],
  [67, bell(900, 0.4, 0.35)],
  [68, bell(660, 0.45, 0.35)],
  [69, rattle(5000, 0.1, 0.28)],
  [70, rattle(6000, 0.07, 0.28)],
  [73, { level: 0.3, noise: { band: [2000, 8000], share: 1, decay: 0.02 }, again: scrape(7, 0.011) }],
  [74, { level: 0.3, noise: { band: [2000, 8000], share: 1, decay: 0.02 }, again: scrape(28, 0.014) }],
  [75, wood(2500, 0.08, 0.45)],
  [76, wood(1150, 0.09, 0.45)],
  [77, wood(860, 0.1, 0.45)],
  [80, bell(4100, 0.12, 0.2)],
  [81, bell(4100, 1.6, 0.2)],
]);

function snare(hertz: number, decay: number): Strike {
  return {
    level: 0.7,
    partials: [
      [hertz, 0.6, decay * 0.7],
      [hertz * 1.78, 0.35, decay * 0.5],
    ],
    noise: { band: [900, 11000], share: 1, decay },
  };
}

/** Choke groups: a key and the keys whose sound it stops, for example a closed hi-hat and the open one. */
export const CHOKES: ReadonlyMap<number, readonly number[]> = new Map([
  [42, [46]],
  [44, [46]],
  [62, [63]],
  [80, [81]],
]);
