import type { Score } from "../schema/index.js";
import { keyNumber } from "../take/index.js";
import type { HeardOnset } from "./onset/heardOnset.js";

/** So many times the notes of the riff are heard before another sound is looked for: our choice, more than ornaments add. */
const MANY = 1.3;
/** Least distance of the mean levels of the two classes, in their pooled standard deviations: our choice, below it they are one. */
const APART = 1.2;
/** The player's share of onsets is this part of the riff's notes: our choice, for a few that are left out. */
const PLAYED = 0.95;
const ROUNDS = 30;
/** A note counts as near in pitch within so many semitones, in any octave, and near in time within so many beats: wider than anybody drifts in a silence that is judged. */
const NEAR = { semitones: 0.6, beats: 1.5 } as const;
/** Least standard deviations: players vary their loudness, and few notes look more alike than they are. */
const LEAST = { level: 5, strength: 0.6 } as const;

interface Mark {
  /** Decibels: amplitude goes with the square of the velocity. */
  readonly level: number;
  /** Natural logarithm of the strength. */
  readonly strength: number;
  readonly kind: "of the riff" | "another pitch" | "no pitch";
}

/**
 * Which onsets are the player's when something else, such as speech, is in the recording too: an index for each. All of them, when there are hardly more than the riff has notes, or
 * when the two do not differ clearly in level.
 *
 * Two classes, the player and the rest, each with its own level and strength (normal) and share of pitches that the riff has about there, fitted by expectation maximisation (Dempster,
 * Laird & Rubin 1977, J. R. Stat. Soc. B 39, 1-38). The share of the player is the riff's notes over the onsets. When a note began is not looked at, but for which notes of the riff are near:
 * so nobody is made to play in time.
 */
export function playersOnsets(
  onsets: readonly (Pick<HeardOnset, "velocity" | "strength"> & { readonly seconds: number })[],
  pitches: readonly (number | undefined)[],
  { expected, beat }: Pick<Score, "expected" | "beat">,
): readonly number[] {
  const all = onsets.map((_, index) => index);
  if (onsets.length <= MANY * expected.length || expected.length === 0) return all;
  const notes = expected.map(({ at, pitch }) => ({ at, key: keyNumber(pitch) }));
  const marks = onsets.map(({ velocity, strength, seconds }, index): Mark => {
    const pitch = pitches[index];
    const fits = notes.some(
      ({ at, key }) => pitch !== undefined && Math.abs(at - seconds) < NEAR.beats * beat && isOctaveOf(key, pitch),
    );
    const kind = pitch === undefined ? "no pitch" : fits ? "of the riff" : "another pitch";
    return { level: 40 * Math.log10(velocity), strength: Math.log(strength), kind };
  });
  const share = Math.min(0.9, (PLAYED * expected.length) / onsets.length);
  let chances = loudestFirst(marks, expected.length);
  let [player, other] = [
    classOf(marks, chances),
    classOf(
      marks,
      chances.map((chance) => 1 - chance),
    ),
  ];
  for (let round = 0; round < ROUNDS; round++) {
    chances = marks.map((mark) => {
      const [own, rest] = [share * player.density(mark), (1 - share) * other.density(mark)];
      return own / (own + rest + Number.MIN_VALUE);
    });
    player = classOf(marks, chances);
    other = classOf(
      marks,
      chances.map((chance) => 1 - chance),
    );
  }
  const apart = (player.level.mean - other.level.mean) / Math.hypot(player.level.sd, other.level.sd);
  if (!(apart * Math.SQRT2 >= APART)) return all;
  return all.filter((index) => chances[index]! >= 0.5);
}

function isOctaveOf(key: number, pitch: number): boolean {
  const apart = (((pitch - key) % 12) + 12) % 12;
  return Math.min(apart, 12 - apart) < NEAR.semitones;
}

/** First guess: as many onsets as the riff has notes are the player's, the loudest; a pitch of the riff counts as 6 dB. */
function loudestFirst(marks: readonly Mark[], count: number): readonly number[] {
  const order = marks
    .map(({ level, kind }, index) => ({ index, rank: level + (kind === "of the riff" ? 6 : 0) }))
    .sort((a, b) => b.rank - a.rank);
  const first = new Set(order.slice(0, count).map(({ index }) => index));
  return marks.map((_, index) => (first.has(index) ? 0.95 : 0.05));
}

function classOf(marks: readonly Mark[], weights: readonly number[]) {
  const total = weights.reduce((sum, weight) => sum + weight, 1e-9);
  const normal = (value: (mark: Mark) => number, least: number) => {
    const mean = marks.reduce((sum, mark, i) => sum + weights[i]! * value(mark), 0) / total;
    const variance = marks.reduce((sum, mark, i) => sum + weights[i]! * (value(mark) - mean) ** 2, 0) / total;
    return { mean, sd: Math.max(least, Math.sqrt(variance)) };
  };
  const level = normal((mark) => mark.level, LEAST.level);
  const strength = normal((mark) => mark.strength, LEAST.strength);
  const kinds = new Map<Mark["kind"], number>();
  marks.forEach(({ kind }, i) => {
    kinds.set(kind, (kinds.get(kind) ?? 1) + weights[i]!);
  });
  const density = (mark: Mark): number =>
    bell(mark.level, level) * bell(mark.strength, strength) * ((kinds.get(mark.kind) ?? 1) / (total + 3));
  return { level, density };
}

function bell(value: number, { mean, sd }: { mean: number; sd: number }): number {
  return Math.exp(-0.5 * ((value - mean) / sd) ** 2) / sd;
}
