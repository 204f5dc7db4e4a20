import { fractionText } from "../../lib/base/index.js";
import {
  compileFrame,
  compilePattern,
  type Frame,
  type Key,
  type Note,
  type Pattern,
  type PatternDocument,
  type Pitch,
  parseKey,
  parsePitch,
  pitchText,
} from "../../lib/pattern/index.js";
import { must } from "../time/shorthand.js";

export const pitch = (text: string): Pitch => must(parsePitch(text));
export const key = (text: string): Key => must(parseKey(text));

/** A frame of bars of one meter, with a pick-up if given. */
export function frame(meter: string, bars: number, pickup?: string): Frame {
  return must(compileFrame({ meter, bars, ...(pickup === undefined ? {} : { "pick-up": pickup }) }));
}

/** "0 D4 1/4": position, pitch or voice, length, then its marks as a line writes them, () for a ghost note, and the loudness. */
export function noteTexts(notes: readonly Note[]): string[] {
  return notes.map((note) => {
    const name = note.pitch ? pitchText(note.pitch) : note.voice;
    const marks = [
      note.accent ? "!" : "",
      note.short ? "." : "",
      note.tenuto ? "_" : "",
      note.scoop ? "-scoop" : "",
      note.fall ? "-fall" : "",
      note.slurred ? "~" : "",
      note.ghost ? "()" : "",
      note.loudness ?? "",
    ];
    return [fractionText(note.position), name, fractionText(note.length), ...marks].filter(Boolean).join(" ");
  });
}

/** A pattern compiled without files or instruments of its own. */
export function compiled(document: PatternDocument, files: Readonly<Record<string, Uint8Array>> = {}): Pattern {
  return must(compilePattern("riff", document, { instruments: {}, files: (path) => files[path] }));
}
