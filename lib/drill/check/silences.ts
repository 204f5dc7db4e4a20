import { add, compare, LANDING_WITHIN_BEATS, toNumber } from "../../base/index.js";
import type { Note } from "../../pattern/index.js";
import { barLength, parseSpan } from "../../time/index.js";
import type { Drill, Settings } from "../model.js";
import { openBarsOf } from "../rung/settings.js";
import { placeSilences, silencesToDraw } from "../score/silences.js";
import type { Stretch } from "../score/stretch.js";
import { phraseStart, takeLength } from "../score/take.js";
import { notesOf } from "../variants.js";
import { SAME, valuesInForce } from "./context.js";

/** A silence of some rung of a drill, with the expected notes in and after it. Positions in whole notes from the downbeat of bar 1. */
export interface SilenceCase {
  readonly settings: Partial<Settings>;
  readonly from: number;
  readonly to: number;
  /** Expected onsets from the start of the silence to its end, end included: drift is judged by them. */
  readonly within: readonly number[];
  /** Whether a note is expected soon enough after the return to judge the landing by; `undefined` when nothing returns. */
  readonly met: boolean | undefined;
  /** Whether notes in the silence are left out because of open bars. */
  readonly open: boolean;
}

/** Most onsets and silences examined. Our choice: less than a tenth of a second of work. */
const MOST_EXAMINED = 400_000;

/**
 * The different silences of a drill, found without going through its rungs: one for each length, variant, choice of open bars and place in
 * a phrase. Tempo, key, mix and dropping parts do not change which notes are expected where. `complete` is false when there is more to
 * examine than MOST_EXAMINED.
 */
export function silenceCases(
  drill: Drill,
  lengths: readonly string[],
): { readonly cases: readonly SilenceCase[]; readonly complete: boolean } {
  const sample = { ...drill, phrases: Math.min(2, drill.phrases) };
  const placed = lengths.map((dropout) => ({ dropout, silences: placesOf(sample, dropout) }));
  const opens = valuesInForce(drill, "open").map((open) => ({ open, bars: openAt(sample, open) }));
  const cases: SilenceCase[] = [];
  let examined = 0;
  for (const variant of valuesInForce(drill, "variant")) {
    const onsets = studentOnsets(sample, variant);
    for (const { open, bars } of opens) {
      for (const { dropout, silences } of placed) {
        const settings = {
          dropout,
          ...(open === undefined ? {} : { open }),
          ...(variant === undefined ? {} : { variant }),
        };
        for (const silence of silences) {
          const [first, last] = [firstFrom(onsets, silence.from), firstFrom(onsets, silence.meet)];
          examined += 1 + last - first;
          if (examined > MOST_EXAMINED) return { cases, complete: false };
          const about = onsets.slice(first, last);
          const expected = about.filter((at) => !bars(at));
          const met = expected.some((at) => at >= silence.to - SAME);
          cases.push({
            settings,
            from: silence.from,
            to: silence.to,
            within: expected.filter((at) => at <= silence.to + SAME),
            met: silence.returns ? met : undefined,
            open: expected.length < about.length,
          });
        }
      }
    }
  }
  return { cases, complete: true };
}

/** Onsets by line of notes: kept, because many drills share one pattern. */
const onsetsOf = new WeakMap<readonly Note[], readonly number[]>();

interface Place {
  readonly from: number;
  readonly to: number;
  /** Until when after the return a note is its landing. */
  readonly meet: number;
  readonly returns: boolean;
}

/** The silences of two phrases; for a random place, all that can be drawn. */
function placesOf(sample: Drill, dropout: string): readonly Place[] {
  const span = parseSpan(dropout);
  const random = sample.dropout?.place.at === "random" && span.ok;
  const silences: readonly Stretch[] = random
    ? placesToDraw(sample, silencesToDraw(sample.pattern, span.value))
    : placeSilences(sample, { tempo: "60", dropout });
  const total = takeLength(sample);
  const soon = LANDING_WITHIN_BEATS * toNumber(sample.beat);
  // Places to draw from are no silences one after another.
  const nextAfter = (place: number): number => {
    const next = random ? undefined : silences[place + 1];
    return next === undefined ? Number.POSITIVE_INFINITY : toNumber(next.from);
  };
  return silences.map(({ from, to }, place) => ({
    from: toNumber(from),
    to: toNumber(to),
    meet: Math.min(toNumber(to) + soon, nextAfter(place)),
    returns: compare(to, total) < 0,
  }));
}

/** The places of the first phrase, and those at the end of the take where there is no other for the last phrase. */
function placesToDraw(sample: Drill, choices: readonly Stretch[]): readonly Stretch[] {
  const returning = choices.some(({ to }) => compare(to, sample.pattern.length) < 0);
  if (sample.phrases === 1 || sample.outro.n > 0 || returning) return choices;
  const last = phraseStart(sample, sample.phrases);
  return [...choices, ...choices.map(({ from, to }) => ({ from: add(last, from), to: add(last, to) }))];
}

/** The student's onsets over the phrases and the outro, ascending. */
export function studentOnsets(sample: Drill, variant: string | undefined): readonly number[] {
  const part = sample.pattern.parts.find(({ name }) => name === sample.student);
  const phrase = onsetNumbers((part && notesOf(part, variant)) ?? []);
  const [length, total] = [toNumber(sample.pattern.length), toNumber(takeLength(sample))];
  const phrases = sample.phrases + (sample.outro.n > 0 ? 1 : 0);
  const all: number[] = [];
  for (let index = 0; index < phrases; index++)
    for (const at of phrase) if (index * length + at < total - SAME) all.push(index * length + at);
  // Only a pick-up stands before what is there already.
  return (phrase[0] ?? 0) < 0 ? all.sort((a, b) => a - b) : all;
}

/** Whether a position of the take lies in an open bar. */
export function openAt({ pattern, phrases }: Drill, open: string | undefined): (at: number) => boolean {
  const bars = new Set(open === undefined ? [] : openBarsOf({ open }));
  const stretches = pattern.bars
    .filter(({ number }) => bars.has(number))
    .map(({ position, meter }) => ({ from: toNumber(position), to: toNumber(add(position, barLength(meter))) }));
  const length = toNumber(pattern.length);
  return (at) => {
    const phrase = Math.floor((at + SAME) / length);
    const within = at - phrase * length + SAME;
    return phrase >= 0 && phrase < phrases && stretches.some(({ from, to }) => within >= from && within < to);
  };
}

/** The index of the first onset not before `at`. */
function firstFrom(onsets: readonly number[], at: number): number {
  let [low, high] = [0, onsets.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (onsets[middle]! >= at - SAME) high = middle;
    else low = middle + 1;
  }
  return low;
}

/** The onsets of notes, in whole notes from the phrase's downbeat, ascending, each position once. */
function onsetNumbers(notes: readonly Note[]): readonly number[] {
  const before = onsetsOf.get(notes);
  if (before !== undefined) return before;
  const positions = [...new Set(notes.map(({ position }) => toNumber(position)))].sort((a, b) => a - b);
  onsetsOf.set(notes, positions);
  return positions;
}
