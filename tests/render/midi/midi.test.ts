import midiFile, { type MidiEvent } from "midi-file";
import { describe, expect, test } from "vitest";
import { problemsIn } from "../../../lib/base/index.js";
import { rungs, scoreOf } from "../../../lib/drill/index.js";
import { readMidiFile } from "../../../lib/formats/index.js";
import { PERCUSSION } from "../../../lib/pattern/index.js";
import { midiOf, programOf, studentMidiOf, writtenScore } from "../../../lib/render/index.js";
import type { DrillDocument, Score } from "../../../lib/schema/index.js";
import { drillOf, jetty } from "../../drill/material.js";
import { PERCUSSION_KEYS } from "../../reference/percussionKeys.js";
import { must } from "../../time/shorthand.js";

const scoreFor = (changes: Parameters<typeof jetty>[0] = {}, mix = "play"): Score =>
  scoreOf(rungs(drillOf(jetty({ tolerance: {}, ...changes }))).at(0), mix);

interface Timed {
  readonly ticks: number;
  readonly event: MidiEvent;
}

/** The events of each track at their ticks, as the library midi-file parses them. */
function tracksOf(bytes: Uint8Array): readonly (readonly Timed[])[] {
  return midiFile.parseMidi(bytes).tracks.map((track) => {
    let ticks = 0;
    return track.map((event) => {
      ticks += event.deltaTime;
      return { ticks, event };
    });
  });
}
const texts = (track: readonly Timed[], type: "marker" | "trackName"): readonly string[] =>
  track.flatMap(({ ticks, event }) =>
    event.type === type ? [`${ticks} ${Buffer.from(event.text, "latin1").toString("utf8")}`] : [],
  );

describe("midiOf()", () => {
  const score = scoreFor({ "count-in": "1 bar", outro: "1 bar", tempo: 92 });
  const tracks = tracksOf(must(midiOf(score)));

  test("is format 1 with one track for the whole, one for the count-in and one for each part", () => {
    const { header } = midiFile.parseMidi(must(midiOf(score)));
    expect(header).toMatchObject({ format: 1, numTracks: 5, ticksPerBeat: 480 });
    expect(tracks.map((track) => texts(track, "trackName")[0])).toEqual([
      "0 drill, silence 1/2 bar, tempo 92, riff plain, mix play",
      "0 count-in",
      "0 kit",
      "0 bass",
      "0 lead",
    ]);
  });

  test("states tempo, meter and key at its start", () => {
    const meta = Object.fromEntries(tracks[0]!.map(({ event }) => [event.type, event]));
    expect(meta.setTempo).toMatchObject({ microsecondsPerBeat: 652_174 });
    expect(meta.timeSignature).toMatchObject({ numerator: 4, denominator: 4, metronome: 24, thirtyseconds: 8 });
    expect(meta.keySignature).toMatchObject({ key: 0, scale: 0 });
  });

  test("marks phrases, silences, landings and open bars where they begin", () => {
    const bar = 4 * 480;
    expect(texts(tracks[0]!, "marker")).toEqual([
      `${bar} phrase 1`,
      `${4.5 * bar} out: bass, kit`,
      `${5 * bar} phrase 2`,
      `${5 * bar} landing: bass, kit`,
      `${8.5 * bar} out: bass, kit`,
      `${9 * bar} phrase 3`,
      `${9 * bar} landing: bass, kit`,
    ]);
    const open = scoreFor({ "count-in": "1 bar", open: { bars: [2], scale: "D dorian", subdivision: "1/8 note" } });
    expect(texts(tracksOf(must(midiOf(open)))[0]!, "marker")).toContain(`${2 * bar} open: D dorian`);
  });

  test("holds a note that is let ring into the silence, in which none begins", () => {
    const changes = { "count-in": "1 bar", phrases: 1 };
    const bassOf = (dropout: NonNullable<DrillDocument["dropout"]>): readonly string[] =>
      tracksOf(must(midiOf(scoreFor({ ...changes, dropout }))))[3]!.flatMap(({ ticks, event }) =>
        event.type === "noteOn" || event.type === "noteOff" ? [`${ticks} ${event.type} ${event.noteNumber}`] : [],
      );
    const bar = 4 * 480;
    const held = bassOf({ length: "3/4 bar", "let-ring": ["bass"] });
    const cut = bassOf({ length: "3/4 bar" });
    // A2 (45) from the downbeat of bar 4; the silence begins a quarter later, and the note lasts two.
    expect(held).toContain(`${4.5 * bar} noteOff 45`);
    expect(cut).toContain(`${4.25 * bar} noteOff 45`);
    expect(held.filter((line) => line.includes("noteOn"))).toEqual(cut.filter((line) => line.includes("noteOn")));
  });

  test("counts in on the wood blocks of the percussion channel, downbeats high and accented", () => {
    const clicks = tracks[1]!.flatMap(({ ticks, event }) => (event.type === "noteOn" ? [{ ticks, ...event }] : []));
    expect(clicks.map(({ ticks, noteNumber, channel }) => [ticks, noteNumber, channel])).toEqual([
      [0, 76, 9],
      [480, 77, 9],
      [960, 77, 9],
      [1440, 77, 9],
    ]);
  });

  test("changes meter where the bars do, and begins bar 1 with a bar whatever the count-in", () => {
    const meters = (changes: Parameters<typeof jetty>[0]) =>
      must(readMidiFile(must(midiOf(scoreFor(changes))))).tracks[0]!.meters.map(
        ({ ticks, meter }) => `${ticks} ${meter.groups.reduce((a, b) => a + b)}/${meter.lower}`,
      );
    const bare = { dropout: undefined, variant: undefined, phrases: 1, outro: "none" };
    expect(meters({ ...bare, pattern: "tide", "count-in": "1 bar" })).toEqual(["0 4/4", "5760 3/4"]);
    expect(meters({ ...bare, pattern: "tide", "count-in": "2 beats" })).toEqual(["0 2/4", "960 4/4", "4800 3/4"]);
    expect(meters({ ...bare, pattern: "swell", "count-in": "1 1/2 bars" })).toEqual(["0 3/8", "720 6/8"]);
  });

  test("gives instruments their General MIDI programs", () => {
    const bass = tracks[3]!.find(({ event }) => event.type === "programChange")!.event;
    expect(bass).toMatchObject({ programNumber: 32, channel: 0 });
    expect(programOf({ name: "x", instrument: "quay horn" })).toBe(61);
    expect(programOf({ name: "bass" })).toBe(33);
    expect(programOf({ name: "x" })).toBe(1);
  });

  test("leaves a part that is off a track of its name, without notes", () => {
    expect(texts(tracks[4]!, "trackName")).toEqual(["0 lead"]);
    expect(tracks[4]!.some(({ event }) => event.type === "noteOn")).toBe(false);
    expect(tracksOf(must(midiOf(scoreFor({}, "listen"))))[4]!.some(({ event }) => event.type === "noteOn")).toBe(true);
  });

  test("strikes a key again only after it has ended, and once where it is struck twice at once", () => {
    const notes = [
      { position: "0", length: "1", at: 0, seconds: 1, voice: "hat" },
      { position: "0", length: "1/8", at: 0, seconds: 1, voice: "closed hat", accent: true },
      { position: "1/4", length: "1/8", at: 1, seconds: 1, voice: "hat" },
    ];
    const twice = { ...score, parts: [{ name: "kit", does: "plays" as const, student: false, notes }] };
    const read = must(readMidiFile(must(midiOf(twice)))).tracks[2]!.notes;
    expect(read.map(({ ticks, endTicks, velocity }) => [ticks, endTicks, velocity])).toEqual([
      [1920, 2400, 112],
      [2400, 2640, 88],
    ]);
  });

  test("names part and position of what has no key", () => {
    const notes = [{ position: "3/4", length: "1/4", at: 0, seconds: 1, voice: "anvil" }];
    const odd = { ...score, parts: [{ name: "yard", does: "plays" as const, student: false, notes }] };
    expect(problemsIn(midiOf(odd))).toMatchObject([
      { code: "VOICE_WITHOUT_KEY", message: expect.stringMatching(/^yard: .*"anvil" at 3\/4/) },
    ]);
    const high = [{ position: "1", length: "1/4", at: 0, seconds: 1, pitch: "G#9" }];
    const lead = { ...score, parts: [{ name: "lead", does: "plays" as const, student: true, notes: high }] };
    expect(problemsIn(midiOf(lead))).toMatchObject([{ code: "PITCH_OUT_OF_RANGE" }]);
  });

  test("refuses a tempo the format cannot state", () => {
    // 28.8 seconds to a quarter note; three bytes hold 16.8.
    expect(problemsIn(midiOf({ ...score, tempo: 33.3333, beatUnit: "1/64" }))).toMatchObject([
      { code: "MIDI_TEMPO_UNWRITABLE" },
    ]);
  });

  test("keeps a key of more than seven signs within seven", () => {
    const key = (text: string) => must(readMidiFile(must(midiOf({ ...score, key: text })))).tracks[0]!.keys[0];
    expect(key("G# major")).toMatchObject({ fifths: -4 });
    expect(key("C minor")).toMatchObject({ fifths: -3, minor: true });
  });

  test("is the same bytes each time", () => expect(midiOf(score)).toEqual(midiOf(score)));
});

describe("studentMidiOf()", () => {
  const drill = drillOf(jetty({ tolerance: {}, "count-in": "1 bar" }));
  const rung = rungs(drill).at(0);
  const score = scoreOf(rung);
  const onsets = (from: Score) =>
    must(readMidiFile(must(studentMidiOf(from)))).tracks[2]!.notes.map(({ position }) => position);

  test("has what is expected and nothing else beside the count-in, whether the mix plays it or not", () => {
    const tracks = tracksOf(must(studentMidiOf(score)));
    expect(tracks.map((track) => texts(track, "trackName")[0]!.replace(/drill.*/, "drill"))).toEqual([
      "0 drill",
      "0 count-in",
      "0 lead",
    ]);
    expect(onsets(score)).toHaveLength(score.expected.length);
    expect(onsets(writtenScore(rung))).toEqual(onsets(score));
  });

  test("lasts as written where the part plays", () => {
    const read = must(readMidiFile(must(studentMidiOf(writtenScore(rung))))).tracks[2]!.notes;
    expect(read.map(({ length }) => length)).toEqual(
      writtenScore(rung)
        .parts.find(({ student }) => student)!
        .notes.map(({ length }) => {
          const [n, d = 1] = length.split("/").map(Number);
          return { n, d };
        }),
    );
  });
});

describe("loudness and tuning", () => {
  const note = { position: "0", length: "1/4", at: 0, seconds: 1, pitch: "A4" };
  const scored = (notes: Score["parts"][number]["notes"], more: Partial<Score> = {}): Score => {
    return { ...scoreFor(), ...more, parts: [{ name: "lead", does: "plays" as const, student: true, notes }] };
  };
  const velocityOf = (marks: Partial<Score["parts"][number]["notes"][number]>): number => {
    const file = must(readMidiFile(must(midiOf(scored([{ ...note, ...marks }])))));
    return file.tracks[2]!.notes[0]!.velocity;
  };

  test("velocities rise from pp to ff; a ghost note is softer than pp, an accent louder than what it stands on; unmarked is mf", () => {
    const marks = ["pp", "p", "mp", "mf", "f", "ff"] as const;
    const plain = marks.map((loudness) => velocityOf({ loudness }));
    expect(plain).toEqual([...plain].sort((a, b) => a - b));
    expect(new Set(plain).size).toBe(6);
    expect(velocityOf({})).toBe(velocityOf({ loudness: "mf" }));
    expect(velocityOf({ ghost: true })).toBeLessThan(plain[0]!);
    for (const [i, loudness] of marks.entries()) {
      expect(velocityOf({ loudness, accent: true })).toBeGreaterThan(plain[i]!);
      expect(velocityOf({ loudness, ghost: true })).toBeLessThan(0.5 * plain[i]!);
      // From 110 on a note is read back as an accent.
      expect(plain[i]).toBeLessThan(110);
    }
  });

  test.each([
    // Semitones and cents from 440 Hz: 1200 * log2(442 / 440) = 7.85 cents; of 415 Hz -101.27: a semitone and 1.27 cents down.
    [442, 0, 7.85],
    [415, -1, -1.27],
  ])(
    "a score at %d Hz tunes its channel by %d semitones and %d cents (registered parameters 2 and 1)",
    (tuningHz, semitones, cents) => {
      const events = tracksOf(must(midiOf(scored([note], { tuningHz }))))[2]!.flatMap(({ event }) =>
        event.type === "controller" ? [[event.controllerType, event.value] as const] : [],
      );
      const at = (parameter: number): number =>
        events.findIndex(([type, value]) => type === 100 && value === parameter);
      expect(events[at(2) - 1]).toEqual([101, 0]);
      expect(events[at(2) + 1]).toEqual([6, 64 + semitones]);
      expect(events[at(1) - 1]).toEqual([101, 0]);
      const [[six, high], [thirtyEight, low]] = [events[at(1) + 1]!, events[at(1) + 2]!];
      expect([six, thirtyEight]).toEqual([6, 38]);
      // 14 bits for two semitones: 0.0122 cents a step.
      expect(Math.abs(((128 * high + low - 8192) / 8192) * 100 - cents)).toBeLessThan(0.0122);
    },
  );

  test("a score at the usual pitch says nothing of tuning", () => {
    const events = tracksOf(must(midiOf(scored([note])))).flat();
    expect(events.some(({ event }) => event.type === "controller")).toBe(false);
  });
});

describe("General MIDI percussion", () => {
  // General MIDI level 2 has sticks on 31 and clicks on 33 and 34 (a public key file of its sound modules); level 1 begins at 35.
  test.each([
    ["sticks", 31, 37],
    ["click", 33, 77],
    ["high click", 34, 76],
  ] as const)(
    "%s is on key %d of level 2, and is written as a key that players of level 1 have",
    (voice, key, written) => {
      expect(PERCUSSION.get(voice)).toBe(key);
      const notes = [{ position: "0", length: "1/4", at: 0, seconds: 1, voice }];
      const score = { ...scoreFor(), parts: [{ name: "kit", does: "plays" as const, student: false, notes }] };
      expect(must(readMidiFile(must(midiOf(score)))).tracks[2]!.notes).toMatchObject([{ key: written, channel: 9 }]);
    },
  );

  test.each([...PERCUSSION_KEYS, ["hat", 42] as const])("%s sounds on key %d of channel 10", (voice, key) => {
    expect(PERCUSSION.get(voice)).toBe(key);
    const notes = [{ position: "0", length: "1/4", at: 0, seconds: 1, voice }];
    const score = { ...scoreFor(), parts: [{ name: "kit", does: "plays" as const, student: false, notes }] };
    expect(must(readMidiFile(must(midiOf(score)))).tracks[2]!.notes).toMatchObject([{ key, channel: 9 }]);
  });
});
