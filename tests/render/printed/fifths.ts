/*
 * Spelled pitches by their place on the line of fifths (... Bb -2, F -1, C 0, G 1, D 2 ...), where a transposition is one addition. The
 * project's own code counts staff steps and semitones instead.
 */

/** A pitch as a musician names it: letter, alteration in semitones, octave (C4 is middle C). */
export interface Named {
  readonly letter: string;
  readonly alter: number;
  readonly octave: number;
}

const ON_THE_LINE = "FCGDAEB";
const NATURAL: Readonly<Record<string, number>> = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 };

export function placeOf({ letter, alter }: Pick<Named, "letter" | "alter">): number {
  return ON_THE_LINE.indexOf(letter) - 1 + 7 * alter;
}

export function noteAt(place: number): Pick<Named, "letter" | "alter"> {
  return { letter: ON_THE_LINE[(((place + 1) % 7) + 7) % 7]!, alter: Math.floor((place + 1) / 7) };
}

/** MIDI 1.0: middle C is 60. */
export function keyOf({ letter, alter, octave }: Named): number {
  return NATURAL[letter]! + alter + 12 * (octave + 1);
}

/** The pitch of a key on the keyboard, spelled at a place. */
export function pitchAt(place: number, key: number): Named {
  const { letter, alter } = noteAt(place);
  return { letter, alter, octave: (key - NATURAL[letter]! - alter) / 12 - 1 };
}

/** Fifths that so many semitones are, spelled as the plain interval: a major second is 2, a major sixth 3, a minor second -5. */
export function fifthsFor(semitones: number): number {
  const place = (((7 * semitones) % 12) + 12) % 12;
  return place > 6 ? place - 12 : place;
}

/** A place whose note would have three signs or more, at the same key with one sign or none. */
export function withFewSigns(place: number): number {
  if (Math.abs(noteAt(place).alter) <= 2) return place;
  let nearer = place;
  while (Math.abs(noteAt(nearer).alter) > 1) nearer -= 12 * Math.sign(noteAt(place).alter);
  return nearer;
}
