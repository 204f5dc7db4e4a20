import type { PlayedOnset, Score, Take } from "../../../lib/schema/index.js";
import { pitchesOf } from "./habits/pitches.js";
import type { Luck } from "./luck.js";

/** Onsets at random (a Poisson process), as many in the mean as the riff has notes, of pitches of the riff. */
export function randomOnsets(score: Score, luck: Luck): Take {
  const stream = luck("random onsets");
  const pitches = pitchesOf(score);
  const rate = score.expected.length / score.duration;
  const onsets: PlayedOnset[] = [];
  for (let at = wait(stream, rate); at < score.duration; at += wait(stream, rate))
    onsets.push({ at, pitch: pitches[stream.below(pitches.length)]! });
  return takeOf(score, onsets);
}

const wait = (stream: ReturnType<Luck>, rate: number): number => -Math.log(1 - stream.uniform()) / rate;

/** Invented, after what is commonly said of speech: syllables a second, their deviation, phrases and pauses, seconds. */
const SPEECH = {
  slowest: 3,
  fastest: 6,
  deviation: 0.35,
  phrase: { least: 1.2, most: 4 },
  pause: { least: 0.3, most: 1.5 },
} as const;

/** Onsets like those of somebody who speaks: phrases of syllables at lognormal distances, and pauses. Pitches within an octave, as a voice would be heard. */
export function speech(score: Score, luck: Luck): Take {
  const stream = luck("speech");
  const rate = SPEECH.slowest + (SPEECH.fastest - SPEECH.slowest) * stream.uniform();
  const between = ({ least, most }: { least: number; most: number }): number =>
    least + (most - least) * stream.uniform();
  const onsets: PlayedOnset[] = [];
  let at = between(SPEECH.pause);
  while (at < score.duration) {
    const end = at + between(SPEECH.phrase);
    for (; at < Math.min(end, score.duration); at += Math.exp(SPEECH.deviation * stream.normal()) / rate)
      onsets.push({ at, pitch: 50 + stream.below(12) });
    at += between(SPEECH.pause);
  }
  return takeOf(score, onsets);
}

/** Another tune in the same style: as many notes on the same subdivisions, chosen and pitched by luck, the same in every phrase. */
export function anotherTune(score: Score, luck: Luck): Score {
  const stream = luck("another tune");
  const { expected, bars, duration } = score;
  const phraseBars = bars.filter(({ phrase }) => phrase === 1).length;
  // Where in its bar each note of the riff falls, rounded so that equal places are equal.
  const places = [...new Set(expected.map(({ at, bar }) => Math.round(1e6 * (at - bars[bar - 1]!.at))))].sort(
    (a, b) => a - b,
  );
  const share = expected.length / (places.length * bars.length);
  const pitches = pitchesOf(score);
  const tune = Array.from({ length: phraseBars }, () =>
    places.flatMap((place) => {
      const pitch = pitches[stream.below(pitches.length)]!;
      return stream.uniform() < share ? [{ place: place / 1e6, pitch }] : [];
    }),
  );
  const written = bars.flatMap((bar, index) =>
    tune[index % phraseBars]!.map(({ place, pitch }) => ({
      position: "0",
      at: bar.at + place,
      pitch,
      part: expected[0]!.part,
      bar: bar.bar,
    })),
  );
  const end = expected.at(-1)!.at;
  return { ...score, expected: written.filter(({ at }) => at < Math.min(duration, end + 1e-3)) };
}

/** Another tune in the riff's own rhythm: each place of the phrase has a pitch by luck, any of the twelve, the same in every phrase. */
export function sameRhythm(score: Score, luck: Luck): Score {
  const stream = luck("same rhythm");
  const pitches = new Map<number, string>();
  const expected = score.expected.map((note) => {
    const { phrase } = score.bars[note.bar - 1]!;
    const start = score.bars.find((bar) => bar.phrase === phrase)!.at;
    const place = Math.round(1e4 * (note.at - start));
    if (!pitches.has(place)) pitches.set(place, `${NAMES[stream.below(NAMES.length)]!}4`);
    return { ...note, pitch: pitches.get(place)! };
  });
  return { ...score, expected };
}

const NAMES = ["C", "C#", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B"] as const;

/** The riff at another tempo throughout: every time stretched by `factor` (1.1: a tenth slower), the count-in too. */
export function atAnotherTempo(score: Score, factor: number): Score {
  const stretched = <T extends { readonly from: number; readonly to: number }>(each: T): T => ({
    ...each,
    from: factor * each.from,
    to: factor * each.to,
  });
  return {
    ...score,
    duration: factor * score.duration,
    countIn: factor * score.countIn,
    beat: factor * score.beat,
    bars: score.bars.map((bar) => ({ ...bar, at: factor * bar.at })),
    expected: score.expected.map((note) => ({ ...note, at: factor * note.at })),
    dropouts: score.dropouts.map((each) => ({
      ...stretched(each),
      landing: each.landing === null ? null : factor * each.landing,
    })),
    audible: score.audible.map(stretched),
    open: [],
    parts: score.parts.map((part) => ({
      ...part,
      notes: part.notes.map((note) => ({ ...note, at: factor * note.at })),
    })),
  };
}

function takeOf({ drill, rung }: Score, onsets: readonly PlayedOnset[]): Take {
  return { zero: "bar-1", onsets: [...onsets], drill, rung };
}
