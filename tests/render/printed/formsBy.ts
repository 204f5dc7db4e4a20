import { toNumber } from "../../../lib/base/index.js";
import { type Drill, rungs } from "../../../lib/drill/index.js";
import { keyText, type Note } from "../../../lib/pattern/index.js";
import { barLength } from "../../../lib/time/index.js";
import { casesOf, HARD, SHIPPED, type SheetCase } from "../sheet/material.js";
import { chordMoved } from "./chordText.js";
import { noteAt, placeOf } from "./fifths.js";
import { inAnotherKey, type ReadBy, type Sheet, type Sounded, type Span, sheetTable } from "./pagesTable.js";
import { fifthsOf, noteOf, type Printing } from "./randomRiffs.js";
import { semitonesOf } from "./semitonesOf.js";

/** What one shape of a riff has to show, at concert pitch. */
export interface Form {
  readonly key: string;
  readonly notes: readonly (Sounded & Pick<Note, "accent" | "ghost" | "loudness">)[];
  readonly bars: readonly Span[];
  /** Slashes in each bar. */
  readonly slashes: readonly number[];
  readonly chords: readonly { readonly from: number; readonly text: string }[];
}

/** The one shape of a random riff. */
export function formOf({ riff, key, chords }: Printing): Form {
  return {
    key,
    notes: riff.notes.map(inNumbers),
    bars: riff.bars.map(({ position, length }) => {
      const from = toNumber(position);
      return { from, to: from + toNumber(length) };
    }),
    slashes: riff.bars.map(() => 0),
    chords: chords.map(({ position, text }) => ({ from: toNumber(position), text })),
  };
}

/** A shape as a player reads it, after the table. */
export function tableOf({ key, notes, bars }: Form, player: Printing["player"]): Sheet {
  return sheetTable(notes, { bars, concertFifths: fifthsOf(key), reader: readerOf(player) });
}

export function readerOf(player: Printing["player"]): ReadBy {
  return { semitones: semitonesOf(player?.instrument), octave: player?.octave ?? 0 };
}

/** The notes of a riff in plain numbers. */
function inNumbers({ position, length, pitch, accent, ghost, loudness }: Note) {
  const from = toNumber(position);
  const sound = { accent, ...(ghost ? { ghost } : {}), ...(loudness === undefined ? {} : { loudness }) };
  return { ...pitch!, from, to: from + toNumber(length), ...sound };
}

/** The shapes of a riff that the rungs of a drill have, each once, in the order in which they are met. */
export function formsBy(drill: Drill): readonly Form[] {
  const { pattern, student } = drill;
  const all = rungs(drill);
  const own = keyText(pattern.key);
  const met = new Map<string, Form>();
  for (let i = 0; i < all.count; i++) {
    const { variant = "", key = own, open = "none" } = all.at(i).settings;
    const shape = [variant, key, open].join();
    if (met.has(shape)) continue;
    const { variants } = pattern.parts.find(({ name }) => name === student)!;
    const isOpen = new Set(open === "none" ? [] : open.split("+").map(Number));
    const bars = pattern.bars.map(({ position, meter, number }) => {
      const from = toNumber(position);
      return { from, to: from + toNumber(barLength(meter)), slashes: isOpen.has(number) ? beatsIn(meter.groups) : 0 };
    });
    const pickup = toNumber(pattern.pickup);
    const notes = (variants[variant] ?? variants[""])!.map(inNumbers);
    const [to, from] = [key, own].map((text) => placeOf(noteOf(text.split(" ")[0]!)));
    met.set(shape, {
      key,
      notes: notes
        .filter((note) => !bars.some((bar) => bar.slashes > 0 && note.from >= bar.from && note.from < bar.to))
        .map((note) => inAnotherKey(note, to! - from!)),
      bars: [...(pickup > 0 ? [{ from: -pickup, to: 0 }] : []), ...bars],
      chords: pattern.chords.map(({ position, text }) => {
        return { from: toNumber(position), text: chordMoved(text, (root) => noteAt(placeOf(root) + to! - from!)) };
      }),
      slashes: [...(pickup > 0 ? [0] : []), ...bars.map(({ slashes }) => slashes)],
    });
  }
  return [...met.values()];
}

/** A slash for each beat: each group of an additive or compound meter, else each of its notes. */
function beatsIn(groups: readonly number[]): number {
  return groups.length > 1 ? groups.length : groups[0]!;
}

/** Every drill of the shipped courses and of the hard one, for every player, whose student reads pitches. */
export const PITCHED: readonly SheetCase[] = [...SHIPPED, HARD]
  .flatMap(casesOf)
  .filter(({ drill }) => drill.pattern.parts.find(({ name }) => name === drill.student)!.kind === "pitched");
