import { describe, expect, test } from "vitest";
import { familyOfInstrument } from "../../lib/listen/index.js";
import { openSoundBank } from "../../lib/node/index.js";
import { midiNumber, parseKey, parsePitch } from "../../lib/pattern/index.js";
import { type Draft, type DraftOptions, draftOf, type HeardNote, heardNotes } from "../../lib/recording/index.js";
import { SHIPPED } from "../render/sheet/material.js";
import { DEBIAN_BANK, hasDebianBank } from "../render/sound/programs.js";
import { type PlayedRiff, playedRiff } from "./playedRiff.js";

const read = parseKey("C major");
if (!read.ok) throw new Error("no key");
const KEY = read.value;

function optionsFor({ tempo, beat, bar, starts }: PlayedRiff, perWhole: number): DraftOptions {
  return { tempo, perWhole, perBeat: beat * perWhole, perBar: bar * perWhole, key: KEY, starts };
}

interface Tally {
  readonly written: number;
  readonly drafted: number;
  readonly placed: number;
  readonly pitched: number;
  readonly long: number;
}

/** How many notes of a draft are as written. */
function tallied(riff: PlayedRiff, draft: Draft | undefined, perWhole: number): Tally {
  const pairs = (draft?.notes ?? []).flatMap((note) => {
    const found = riff.notes.find(({ position }) => Math.abs(position * perWhole - note.place) < 1e-6);
    return found === undefined ? [] : [{ note, found }];
  });
  const numberOf = (text: string | undefined): number | undefined => {
    const pitch = text === undefined ? undefined : parsePitch(text);
    return pitch?.ok ? midiNumber(pitch.value) : undefined;
  };
  return {
    written: new Set(riff.notes.map(({ position }) => position)).size,
    drafted: draft?.notes.length ?? 0,
    placed: pairs.length,
    pitched: pairs.filter(({ note, found }) => numberOf(note.pitches[0]) === found.pitch).length,
    long: pairs.filter(({ note, found }) => Math.abs(found.length * perWhole - note.length) < 1e-6).length,
  };
}

async function draftAgain(riff: PlayedRiff, instrument: string | undefined): Promise<Tally> {
  // Swung eighths have places on a grid of eighths alone.
  const perWhole = riff.isSwung ? 8 : 16;
  const family = (instrument === undefined ? undefined : familyOfInstrument(instrument)) ?? "plucked";
  return tallied(
    riff,
    draftOf(await heardNotes(riff.stream, { family, isPitched: true }), optionsFor(riff, perWhole)),
    perWhole,
  );
}

const riffs = SHIPPED.flatMap(({ drills }) => drills);

/** Of 17 notes of a riff around D4, how many have their place, their pitch and their length at least: as measured, a note less. A low flute and a bow speak too softly to be heard note by note. */
const SAMPLED: Readonly<Record<string, readonly [placed: number, pitched: number, long: number]>> = {
  trumpet: [17, 17, 16],
  "tenor saxophone": [17, 17, 16],
  clarinet: [17, 17, 16],
  flute: [9, 9, 4],
  trombone: [17, 17, 16],
  guitar: [17, 17, 7],
  piano: [17, 17, 13],
  marimba: [17, 16, 15],
  violin: [13, 13, 9],
};

describe("the draft of a riff that was rendered", () => {
  test("is that riff, for every shipped drill by the built-in voices: places and lengths, and the pitches", async () => {
    const looked = new Set<string>();
    for (const drill of riffs) {
      if (looked.has(drill.pattern.name)) continue;
      looked.add(drill.pattern.name);
      const riff = playedRiff(drill);
      if (riff === undefined) continue;
      const { written, drafted, placed, pitched, long } = await draftAgain(riff, drill.players[0]?.instrument.name);
      expect({ drill: drill.name, drafted, placed, pitched }).toEqual({
        drill: drill.name,
        drafted: written,
        placed: written,
        pitched: written,
      });
      expect(long / written, `${drill.name}: lengths`).toBeGreaterThanOrEqual(0.8);
    }
    expect(looked.size).toBeGreaterThan(3);
  }, 300_000);

  test.runIf(hasDebianBank("drafts of riffs by sampled instruments"))(
    "is nearly that riff for an instrument of each family, as sampled",
    async () => {
      const bank = await openSoundBank(DEBIAN_BANK);
      if (!bank.ok) throw new Error(bank.problems[0]!.message);
      const drill = riffs.find(({ name }) => name === "half-bar")!;
      for (const [instrument, least] of Object.entries(SAMPLED)) {
        const riff = playedRiff(drill, { instrument, bank: bank.value })!;
        const { written, drafted, placed, pitched, long } = await draftAgain(riff, instrument);
        if (process.env.SAY) console.log(instrument, written, drafted, placed, pitched, long);
        expect(
          [placed, pitched, long].map((count, i) => count >= least[i]!),
          instrument,
        ).toEqual([true, true, true]);
      }
    },
    300_000,
  );
});

const PLAIN: DraftOptions = { tempo: 120, perWhole: 16, perBeat: 4, perBar: 16, key: KEY, starts: undefined };

function heard(at: number, end?: number, pitch?: number): HeardNote {
  return { at, noiseMs: 2, end, pitches: pitch === undefined ? [] : [pitch] };
}

describe("a draft", () => {
  test("of nothing is none, and of one note is that note on the first beat", () => {
    expect(draftOf([], PLAIN)).toBeUndefined();
    const one = draftOf([heard(3.2, 3.7, 60)], PLAIN)!;
    expect(one.line).toBe("1/4 C4 3/4 -");
    expect(one.starts).toBeCloseTo(3.2, 6);
  });

  test("writes ties over bar lines, chords, rests, and the note before where no pitch was heard", () => {
    // By hand at tempo 120, 0.125 s a sixteenth: a dotted half, a half over the bar line, a rest, a chord, and a stroke without a pitch.
    const notes = [heard(1, 2.5, 62), heard(2.5, 3.5, 65), { ...heard(4, 4.5), pitches: [60, 64.02] }, heard(4.5, 5)];
    expect(draftOf(notes, PLAIN)!.line).toBe("3/4 D4 1/4 F4 | tie - C4+E4 C4+E4");
  });

  test("is as sure of a place as the note lies near it, and says the tempo that was kept", () => {
    const beat = 60 / 118;
    const times = Array.from({ length: 16 }, (_, i) => 0.4 + i * beat);
    const draft = draftOf(
      times.map((at) => heard(at, at + 0.3, 60)),
      PLAIN,
    )!;
    expect(draft.tempo).toBeCloseTo(118, 1);
    expect(draft.notes.map(({ place }) => place)).toEqual(times.map((_, i) => 4 * i));
    const off = times.map((at, i) => heard(i === 7 ? at + beat / 8.3 : at + (i % 2 ? 0.012 : -0.012), at + 0.3, 60));
    const sure = draftOf(off, PLAIN)!.notes.map((note) => note.sure.place);
    expect(sure[7]!).toBeLessThan(0.9);
    expect(Math.min(...sure.filter((_, i) => i !== 7))).toBeGreaterThan(0.99);
  });

  test("of notes at random agrees with no grid", () => {
    // By a linear congruential generator (Numerical Recipes), seed 7.
    let seed = 7;
    const next = (): number => {
      seed = (1664525 * seed + 1013904223) % 2 ** 32;
      return seed / 2 ** 32;
    };
    const times: number[] = [];
    for (let at = 0; times.length < 60; at += 0.1 + 0.4 * next()) times.push(at);
    const draft = draftOf(
      times.map((at) => heard(at, undefined, 60)),
      PLAIN,
    )!;
    expect(draft.agreement).toBeLessThan(0.5);
  });
});
