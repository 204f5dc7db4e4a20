import { type Random, random } from "../../../lib/base/index.js";
import type { Score, TakeAssessed } from "../../../lib/schema/index.js";

/**
 * Simulated students, written apart from the library: what their noise does in a silence, and how practice and days change it, is said here and
 * nowhere else. A take is drawn as figures with their measurement error, and judged as the curriculum says.
 */
export const LAWS = {
  equal: "every take of anything teaches equally: excess noise shrinks exponentially (e-fold in 60 takes)",
  success:
    "a take teaches by the chance p of a clean one, as 0.1 + 0.9 min(1, 4 p (1 - p) + 0.25): out of reach, little",
  power: "power law of all takes, exponent 0.3: fast at first, then ever slower",
  apart:
    "each kind of demand is learnt apart, 30 % goes over to the others; days off bring a fifth of a day's gain back as noise",
  dull: "each further take of one rung in a day teaches 20 % less; bad days (noise times 1.0 to 1.8), 5 % of takes slip",
} as const;
export type Law = keyof typeof LAWS;

type Kind = "steady" | "short" | "long";
type Shown = Pick<TakeAssessed, "verdict" | "measured">;

/** What a take asks, read off its score. */
export interface Asks {
  readonly kind: Kind;
  readonly silences: readonly { readonly beats: number; readonly ms: number; readonly limit: number }[];
  readonly landing: number;
  readonly steadiness: number;
  readonly notes: number;
  readonly seconds: number;
}

export function asksOf(score: Score): Asks {
  const {
    driftMs = Infinity,
    driftPercent = Infinity,
    landingMs = Infinity,
    steadinessMs = Infinity,
  } = score.tolerance;
  const silences = score.dropouts.map(({ from, to }) => {
    const ms = 1000 * (to - from);
    return { beats: (to - from) / score.beat, ms, limit: Math.min(driftMs, (driftPercent / 100) * ms) };
  });
  const longest = Math.max(0, ...silences.map(({ beats }) => beats));
  return {
    kind: longest === 0 ? "steady" : longest <= 4 ? "short" : "long",
    silences,
    landing: landingMs,
    steadiness: steadinessMs,
    notes: score.expected.length,
    seconds: score.countIn + score.duration,
  };
}

export interface Student {
  readonly law: Law;
  /** Steadiness with the band once all is learnt, ms; drift per root of a beat in silence, ms; usual tempo error, ratio. */
  readonly floor: number;
  readonly clock: number;
  readonly tempo: number;
  readonly slips: number;
  /** Excess noise at present by kind of demand, as a share of the floor. */
  readonly excess: Record<Kind, number>;
  readonly first: number;
  takes: number;
  /** Takes of the day, by rung; noise of the day; gain of the day. */
  today: Map<string, number>;
  day: number;
  gained: Record<Kind, number>;
}

const KINDS: readonly Kind[] = ["steady", "short", "long"];

/** `hard`: a beginner for whom the course is hard: twice the noise at first, and more of it stays. */
export function newStudent(seed: string, law: Law, near?: "perfect" | "hard"): Student {
  const chance = random(seed);
  const perfect = near === "perfect";
  const hard = near === "hard";
  const floor = perfect ? 4 : (hard ? 15 : 11) * Math.exp(0.35 * chance.normal());
  const excess = perfect ? 0 : (hard ? 0.8 : 0.3) + 1.5 * chance.uniform();
  return {
    law,
    floor,
    clock: perfect ? 3 : floor * (0.9 + 0.8 * chance.uniform()),
    tempo: perfect ? 0 : 0.012 * chance.normal() - 0.004,
    slips: perfect ? 0 : law === "dull" ? 0.05 : 0.02,
    excess: { steady: excess, short: excess, long: excess },
    first: excess,
    takes: 0,
    today: new Map(),
    day: 1,
    gained: { steady: 0, short: 0, long: 0 },
  };
}

/** A new day after so many days; the day's form comes from the seed. */
export function wake(student: Student, days: number, seed: string): void {
  student.today = new Map();
  student.day = student.law === "dull" ? 1 + 0.8 * random(seed).uniform() ** 3 : 1;
  if (student.law === "apart")
    for (const kind of KINDS) student.excess[kind] += Math.min(1, 0.2 * days) * student.gained[kind];
  student.gained = { steady: 0, short: 0, long: 0 };
}

/** A take, judged; the student is left as they were. */
export function playAs(student: Student, asks: Asks, chance: Random): Shown {
  const by = student.day * (1 + student.excess[asks.kind]);
  const slipped = chance.uniform() < student.slips;
  const sigma = student.floor * by * Math.exp(0.1 * chance.normal());
  const error = 0.5 * sigma;
  const verdicts: string[] = [judged(sigma, sigma / Math.sqrt(2 * Math.max(2, asks.notes)), asks.steadiness)];
  let worst = 0;
  asks.silences.forEach(({ beats, ms, limit }, i) => {
    const bias = student.tempo + 0.004 * by * chance.normal();
    const slip = slipped && i === 0 ? ((chance.uniform() < 0.5 ? -1 : 1) * (0.5 * ms)) / beats : 0;
    const drift = slip + bias * ms + student.clock * by * Math.sqrt(beats) * chance.normal();
    const measured = drift + error * chance.normal();
    if (Math.abs(measured) > Math.abs(worst)) worst = measured;
    verdicts.push(judged(measured, error, limit));
    verdicts.push(judged(drift + 0.7 * sigma * chance.normal(), error, asks.landing));
  });
  const astray = slipped && asks.silences.length === 0;
  const verdict =
    astray || verdicts.includes("beyond") ? "beyond" : verdicts.includes("unclear") ? "unclear" : "within";
  const drifts = asks.silences.length === 0 ? {} : { driftMs: worst, standardErrorMs: error };
  return { verdict, measured: { ...drifts, accompaniedMs: (astray ? 3 : 1) * sigma } };
}

/** Surely inside, surely outside (90 %, one-sided), or neither. */
function judged(value: number, error: number, limit: number): "within" | "beyond" | "unclear" {
  if (Math.abs(value) + 1.28 * error <= limit) return "within";
  return Math.abs(value) - 1.28 * error > limit ? "beyond" : "unclear";
}

/** The true chance of a clean take, from so many takes that teach nothing. */
export function trueChance(
  student: Student,
  asks: Asks,
  { seed, takes = 30 }: { seed: string; takes?: number },
): number {
  const chance = random(seed);
  let clean = 0;
  for (let i = 0; i < takes; i++) if (playAs(student, asks, chance).verdict === "within") clean++;
  return clean / takes;
}

/** What a take teaches. `clean` is the true chance of a clean one. */
export function learn(student: Student, asks: Asks, { rung, clean }: { rung: string; clean: number }): void {
  student.takes++;
  const again = student.today.get(rung) ?? 0;
  student.today.set(rung, again + 1);
  const rate = 1 / 60;
  const all = (share: number): void => {
    for (const kind of KINDS) student.excess[kind] *= Math.exp(-rate * share);
  };
  if (student.law === "equal") all(1);
  else if (student.law === "success") all(1.6 * (0.1 + 0.9 * Math.min(1, 4 * clean * (1 - clean) + 0.25)));
  else if (student.law === "dull") all(2 * 0.8 ** again);
  else if (student.law === "power")
    for (const kind of KINDS) student.excess[kind] = student.first * (1 + student.takes / 10) ** -0.3;
  else
    for (const kind of KINDS) {
      const gain = student.excess[kind] * (1 - Math.exp(-2 * rate * (kind === asks.kind ? 1 : 0.3)));
      student.excess[kind] -= gain;
      student.gained[kind] += gain;
    }
}
