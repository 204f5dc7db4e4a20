import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { VerovioToolkit } from "verovio/esm";
import createModule from "verovio/wasm";
import { type Curriculum, readCurriculum } from "../../../lib/curriculum/index.js";
import type { Drill } from "../../../lib/drill/index.js";
import { type Engraver, type Player, type SheetFonts, verovioEngraver } from "../../../lib/render/sheet/index.js";
import { ROOT } from "../../sources.js";

/** An engraver that has drawn nothing yet. */
export async function freshEngraver(): Promise<Engraver> {
  return verovioEngraver(new VerovioToolkit(await createModule()));
}

let opened: Promise<Engraver> | undefined;

/** The engraver of all test files of a process: what one of them has drawn, the next one need not draw again. */
export function openEngraver(): Promise<Engraver> {
  opened ??= freshEngraver();
  return opened;
}

export const fontFile = (face: string): string => join(ROOT, `lib/render/sheet/fonts/leeway-text-${face}.otf`);
const bytesOf = (face: string): Uint8Array => new Uint8Array(readFileSync(fontFile(face)));
export const FONTS: SheetFonts = { regular: bytesOf("regular"), italic: bytesOf("italic"), bold: bytesOf("bold") };

/** Reads a course that has no problems. */
export function course(text: string): Curriculum {
  const read = readCurriculum(text, { file: "course.yaml", readFile: () => undefined });
  if (!read.ok) throw new Error(JSON.stringify(read.problems, null, 1));
  return read.value;
}

export interface SheetCase {
  readonly name: string;
  readonly course: Curriculum;
  readonly drill: Drill;
  readonly player: Player | undefined;
}

/** Every drill of a course for every player it names, or for nobody. */
export function casesOf(of: Curriculum): readonly SheetCase[] {
  return of.drills.flatMap((drill) =>
    (drill.players.length === 0 ? [undefined] : drill.players).map((player) => ({
      name: `${drill.name} for ${player?.instrument.name ?? "nobody"}`,
      course: of,
      drill,
      player,
    })),
  );
}

export const SHIPPED: readonly Curriculum[] = readdirSync(join(ROOT, "curricula"))
  .filter((name) => name.endsWith(".yaml"))
  .sort()
  .map((name) => course(readFileSync(join(ROOT, "curricula", name), "utf8")));

/** What is hard to set: a long title, a pick-up, tuplets, ties, remote keys, many lengths, a tenor clef, percussion, changes of meter. */
export const HARD: Curriculum = course(`
curriculum: hard-to-set
edition: 1.0.0
title: Hard to set & to read
players: [viola, alto saxophone]
instruments:
  deep pipe: { sounds: minor second lower, lowest: C2, highest: C6, clef: tenor }
patterns:
  hard:
    meter: 4/4
    bars: 4
    key: Db major
    pick-up: 1/8 note
    chords: "rest | Dbmaj7 Gbm7b5 | Ab7/Gb | Db6/9 | N.C."
    parts:
      kit: { voices: { hat: "rest | x-x-x-x- | ..." } }
      lead: { notes: "1/8 Ab4 | 3 in 2 [1/8 F4 G4 Ab4] 1/4 Bb4 1/8 tie C5 - Db5 | 1/2 tie 1/16 E4 F4 1/8 - 3/16 F4 1/16 A4 | 5 in 4 [1/16 F4 G4 F4 G4 F4] 1/8 - 3/8 F4 1/4 - | 3 in 2 [1/4 F4 G4 Ab4] 1/8 - 1/4 F4 1/8 -" }
  drums:
    meter: 4/4
    bars: 2
    key: C major
    parts:
      bass: { instrument: double bass, notes: "1/1 C2 | G2" }
      kit: { voices: { hat: "x-x-x-x- | same", snare: "----x---|----x--x", kick: "x--x----|x-------" } }
  long:
    meter: 12/8
    meter-changes: [{ bar: 9, meter: 2+2+3/8 }, { bar: 12, meter: 3/4 }]
    bars: 16
    key: F# minor
    swing: 3:2 1/16 note
    chords: F#m | same | D | E | F#m | same | Bm7 | C#7 | F#m | same | D | E | F#m | same | Bm7 | C#7
    parts:
      kit: { voices: { hat: "xxxxxxxxxxxx | same|same|same|same|same|same|same|xxxxxxx|same|same|xxxxxx|same|same|same|same" } }
      lead: { notes: "1/8 F#4 G#4 A4 1/4 B4 1/8 A4 3/8 F#4 - | 1/4 F#4 1/16 G#4 A4 1/4 - 1/8 A4 3/4 F#4 | same | same | same | same | same | 3/2 A4 | 1/4 F#4 A4 1/8 C#5 B4 A4 | same | rest | 1/4 F#4 G#4 A4 | 3/4 F#4 | 1/4 - 1/2 A4 | 1/8 F#4 1/4 A4 A4 1/8 A4 | 1/2 F#4 1/4 -" }
drills:
  hard:
    title: A very long title that goes on and on, as titles that teachers write late in the evening sometimes do, with an ampersand & more
    pattern: hard
    student: lead
    phrases: 3
    dropout: { parts: [kit] }
    ladders:
      - dropout: { from: 1/8 note, to: 2 bars, by: 1/8 note }
      - tempo: { from: 60, to: 100, by: 2 }
      - key: [Db major, B major, F# major, C major]
    mixes: { play: { lead: off } }
    tolerance: { drift: 20 %, landing: 140 ms, steadiness: 40 ms }
    gate: { clean: 3, of: 4 }
  drums:
    pattern: drums
    student: kit
    players: []
    tempo: 80
    dropout: { length: 1 bar, at: [2], parts: [bass] }
    mixes: { play: { kit: off } }
    tolerance: { drift: 20 %, landing: 140 ms, steadiness: 40 ms }
    gate: { in-a-row: 2 }
  long:
    pattern: long
    student: lead
    players: [deep pipe, violin]
    ladders: [tempo: { from: 60, to: 70, by: 1 }]
    mixes: { play: { lead: off } }
    tolerance: { steadiness: 40 ms }
    gate: { in-a-row: 2 }
`);
