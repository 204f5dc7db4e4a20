import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { ReadOptions } from "../../lib/curriculum/index.js";
import { ROOT } from "../sources.js";

/** A course as data, which a test changes. */
// biome-ignore lint/suspicious/noExplicitAny: data of any shape, broken on purpose
export type Draft = any;

const problems = (path: string): Uint8Array => readFileSync(join(ROOT, "tests", "problems", path));
/** A file with one track, and that track a second time. */
const TWO_TRACKS = ((one) => {
  const two = Uint8Array.of(...one, ...one.slice(14));
  two[11] = 2;
  return two;
})(problems("FILE_TRACK_UNKNOWN/riff.mid"));
const MIDI = problems("FILE_TRACK_UNKNOWN/riff.mid");
const MUSICXML = problems("FILE_PART_UNKNOWN/riff.musicxml");
const PNG_AND_SOUND = /\.(?:png|wav)$/;

/** Files beside the course: the paths of the schema's examples lead to something of their kind. */
export const FILES: ReadOptions = {
  file: "course.yaml",
  readFile: (path) => {
    if (path.endsWith(".mid")) return path === "two.mid" ? TWO_TRACKS : MIDI;
    if (path.endsWith(".musicxml")) return MUSICXML;
    if (PNG_AND_SOUND.test(path)) return new Uint8Array(8);
    if (!path.endsWith(".yaml")) return undefined;
    return new TextEncoder().encode(JSON.stringify({ patterns: draft().patterns }));
  },
  readRecording: (path) => (path.endsWith(".wav") ? { format: "WAV", seconds: 60, sha256: "0".repeat(64) } : undefined),
};

/** A course in which every piece of the schema has a place. */
export function draft(): Draft {
  return {
    curriculum: "quay",
    edition: "1.0.0",
    title: "Quay",
    instruments: { "quay horn": { lowest: "C3" } },
    players: [{ instrument: "trumpet" }],
    patterns: {
      dockside: {
        meter: "4/4",
        bars: 2,
        key: "D dorian",
        chords: "Dm7 | ...",
        parts: {
          kit: { voices: { hat: "x-x- | ..." } },
          bass: { notes: "1/1 D2 | ..." },
          lead: {
            variants: {
              plain: { notes: "1/4 D4 F4 G4 A4 | ..." },
              busy: { notes: "1/8 D4 E4 F4 G4 A4 B4 A4 G4 | ..." },
            },
          },
          extra: { notes: "1/2 D4 F4 | ..." },
        },
      },
    },
    drills: {
      steady: {
        pattern: "dockside",
        student: "lead",
        tempo: 84,
        variant: "plain",
        tolerance: { steadiness: "35 ms" },
      },
      drill: {
        pattern: "dockside",
        student: "lead",
        tempo: 84,
        variant: "plain",
        "count-in": { length: "1 bar" },
        dropout: { length: "1/2 bar" },
        mixes: {
          play: { lead: "off", extra: "off" },
          listen: { lead: "plays" },
          alone: { lead: "off", bass: "off", extra: "off" },
        },
        tolerance: { drift: "8 %", landing: "120 ms" },
        gate: { clean: 3, of: 4 },
        "go-back": { after: 3 },
      },
    },
  };
}

const DRILL = ["drills", "drill"];
const EXTRA = ["patterns", "dockside", "parts", "extra"];

/** Where a piece of the schema stands in the course, and what it must have beside any one key. */
export const AT: Readonly<Record<string, { readonly path: readonly (string | number)[]; readonly with?: Draft }>> = {
  "": { path: [] },
  instrument: { path: ["instruments", "quay horn"] },
  playerInOctave: { path: ["players", 0] },
  pattern: { path: ["patterns", "dockside"] },
  patternFiles: { path: ["patterns"], with: {} },
  meterChange: { path: ["patterns", "dockside", "meter-changes", 0], with: { bar: 3, meter: "3/4" } },
  part: { path: EXTRA, with: {} },
  variant: { path: [...EXTRA, "variants", "plain"], with: {} },
  recordedFile: { path: [...EXTRA, "recordings", "84"], with: { file: "kit.wav" } },
  drill: { path: DRILL },
  countIn: { path: [...DRILL, "count-in"], with: {} },
  dropout: { path: [...DRILL, "dropout"] },
  growth: { path: [...DRILL, "dropout", "grows"], with: { from: "1/2 bar", to: "1 1/2 bars", by: "1/2 bar" } },
  partsGrowth: { path: [...DRILL, "dropout", "parts"], with: { grows: [["kit"], ["kit", "bass"]] } },
  open: { path: [...DRILL, "open"], with: { bars: [2] } },
  ladder: { path: [...DRILL, "ladders", 0], with: {} },
  spanSteps: {
    path: [...DRILL, "ladders", 0, "dropout"],
    with: { from: "1/2 bar", to: "2 bars", by: "1/2 bar" },
  },
  tempoSteps: { path: [...DRILL, "ladders", 0, "tempo"], with: { from: 84, to: 112, by: 4 } },
  tolerance: { path: [...DRILL, "tolerance"] },
  gate: { path: [...DRILL, "gate"] },
  sequential: { path: [...DRILL, "gate", "sequential"], with: { able: "85 %", unready: "50 %" } },
  "go-back": { path: [...DRILL, "go-back"] },
};

/** Changes a course and the piece of it that a key stands in. */
type Change = (course: Draft, place: Draft) => void;

const fourBars: Change = (course) => {
  course.patterns.dockside.bars = 4;
};
const climbing: Change = (course) => {
  fourBars(course, undefined);
  course.drills.drill.dropout = {};
};
const without =
  (...keys: readonly string[]): Change =>
  ({ drills }) => {
    for (const key of keys) delete drills.drill[key];
  };
const beside =
  (more: Draft): Change =>
  (_course, place) => {
    Object.assign(place, more);
  };
const empty: Change = (_course, place) => {
  for (const key of Object.keys(place)) delete place[key];
};
const pickUp: Change = ({ drills, patterns: { dockside } }) => {
  const { kit, bass, lead, extra } = dockside.parts;
  dockside.chords = "rest | Dm7 | ...";
  drills.drill.dropout.at = [1];
  kit.voices.hat = "- | x-x- | ...";
  bass.notes = "rest | 1/1 D2 | ...";
  extra.notes = "rest | 1/2 D4 F4 | ...";
  for (const variant of Object.values(lead.variants) as Draft[]) variant.notes = "1/8 A3 | 1/4 D4 F4 G4 1/8 A4 - | ...";
};
/** Bar 3 in three-four. */
const uneven: Change = ({ patterns: { dockside } }) => {
  const { kit, bass, lead, extra } = dockside.parts;
  Object.assign(dockside, { bars: 3, chords: "Dm7 | same | same" });
  kit.voices.hat = "x-x- | same | x-x";
  bass.notes = "1/1 D2 | same | 3/4 D2";
  extra.notes = "1/2 D4 F4 | same | 3/4 D4";
  lead.variants = { plain: { notes: "1/4 D4 F4 G4 A4 | same | D4 F4 G4" } };
};
/** A pattern of one bar, and nobody but the student's part to be heard. */
const oneLine: Change = ({ drills, patterns: { dockside } }) => {
  Object.assign(dockside, { bars: 1 });
  dockside.parts.lead = { notes: "1/4 D4 F4 G4 A4" };
  for (const drill of Object.values(drills) as Draft[]) {
    delete drill.variant;
    delete drill.dropout;
    Object.assign(drill, { mixes: { listen: { lead: "plays" } }, tolerance: { steadiness: "40 ms" } });
  }
};
const ofMidi = beside({ file: "two.mid" });
const ofMusicXml = beside({ file: "riff.musicxml" });
const ofNotes = beside({ notes: "1/2 D4 F4 | ..." });
const ofSound = beside({ recording: "kit.wav", tempo: 96 });

/** What a key needs around it to be at work, by `place.key`. */
export const AROUND: Readonly<Record<string, Change>> = {
  ".scales": ({ drills }) => {
    drills.drill.open = { bars: [2], scale: "D harbour" };
  },
  ".patterns": oneLine,
  ".drills": oneLine,
  "pattern.parts": oneLine,
  "playerInOctave.instrument": beside({ octave: -2 }),
  "playerInOctave.octave": beside({ instrument: "trombone" }),
  "pattern.meter-changes": uneven,
  "pattern.chords": fourBars,
  "pattern.pick-up": pickUp,
  "meterChange.bar": uneven,
  "meterChange.meter": (course, place) => {
    uneven(course, place);
    const { kit, bass, lead, extra } = course.patterns.dockside.parts;
    kit.voices.hat = "x-x- | same | x-x-x-x";
    bass.notes = "1/1 D2 | same | 7/8 D2";
    extra.notes = "1/2 D4 F4 | same | 7/8 D4";
    lead.variants = { plain: { notes: "1/4 D4 F4 G4 A4 | same | D4 F4 G4 1/8 A4" } };
  },
  "part.instrument": beside({ notes: "1/2 D3 F3 | ..." }),
  "part.written-for": ofNotes,
  "part.track": ofMidi,
  "part.part": ofMusicXml,
  "part.bars": ofSound,
  "part.starts": ofSound,
  "part.bar-lines": ofSound,
  "part.tempo": beside({ recording: "kit.wav" }),
  "part.recording": beside({ tempo: 96 }),
  "variant.track": ofMidi,
  "variant.part": ofMusicXml,
  "variant.bars": ofSound,
  "variant.starts": ofSound,
  "variant.bar-lines": ofSound,
  "variant.tempo": beside({ recording: "kit.wav" }),
  "variant.recording": beside({ tempo: 96 }),
  "drill.dropout": fourBars,
  "drill.ladders": (course, place) => {
    climbing(course, place);
    delete course.drills.drill.tempo;
  },
  "drill.tempo": () => undefined,
  "drill.open": fourBars,
  "dropout.grows": (course, place) => {
    fourBars(course, place);
    delete place.length;
  },
  "growth.lengths": empty,
  "open.bars": fourBars,
  "ladder.dropout": climbing,
  "ladder.grows": (course, place) => {
    climbing(course, place);
    course.drills.drill.dropout = { grows: { from: "1/2 bar", by: "1/2 bar" } };
  },
  "ladder.tempo": without("tempo"),
  "ladder.rise": without("rise"),
  "ladder.variant": without("variant"),
  "ladder.open": fourBars,
  "ladder.restart": (course, place) => {
    delete course.drills.drill.tempo;
    place.tempo = [84, 92, 100];
  },
  "part.variants": ({ patterns: { dockside } }) => {
    dockside.bars = 1;
  },
  "gate.in-a-row": empty,
  "gate.sequential": empty,
};

/** What a whole piece needs around it. */
export const AROUND_ALL: Readonly<Record<string, Change>> = {
  variant: ({ patterns: { dockside } }) => {
    dockside.parts.extra = {};
  },
  recordedFile: ({ patterns: { dockside } }) => {
    dockside.parts.extra = {};
  },
  meterChange: uneven,
  growth: (course) => {
    fourBars(course, undefined);
    delete course.drills.drill.dropout.length;
  },
  spanSteps: climbing,
  tempoSteps: without("tempo"),
  sequential: ({ drills }) => {
    drills.drill.gate = {};
  },
};
