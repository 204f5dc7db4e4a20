import { chordTransposed } from "./chordSymbol.js";
import { intervalBetween } from "./key.js";
import type { ChordSymbol, Key, Note, Part, Pattern } from "./model.js";
import { transposePitch } from "./pitch.js";

/**
 * The whole pattern in another key: notes and chord symbols move by the shortest interval between the tonics (at most a tritone), percussion stays.
 *
 * Only the tonics count: when the modes differ, the notes keep the intervals they have.
 */
export function transposePattern(pattern: Pattern, key: Key): Pattern {
  const interval = intervalBetween(pattern.key.tonic, key.tonic);
  const note = (n: Note): Note => (n.pitch ? { ...n, pitch: transposePitch(n.pitch, interval) } : n);
  const chord = (c: ChordSymbol): ChordSymbol => ({ ...c, text: chordTransposed(c.text, interval) });
  const part = (p: Part): Part => ({
    ...p,
    variants: Object.fromEntries(Object.entries(p.variants).map(([name, notes]) => [name, notes.map(note)])),
  });
  return { ...pattern, key, chords: pattern.chords.map(chord), parts: pattern.parts.map(part) };
}
