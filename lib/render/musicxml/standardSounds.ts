/** Identifiers of sounds (MusicXML 4.0, sounds.xml) by General MIDI program, 1 to 128; those of the sound set that an instrument of the table has. */
const SOUNDS: ReadonlyMap<number, string> = new Map([
  [1, "keyboard.piano"],
  [5, "keyboard.piano.electric"],
  [6, "keyboard.piano.electric"],
  [7, "keyboard.harpsichord"],
  [9, "keyboard.celesta"],
  [10, "pitched-percussion.glockenspiel"],
  [12, "pitched-percussion.vibraphone"],
  [13, "pitched-percussion.marimba"],
  [14, "pitched-percussion.xylophone"],
  [17, "keyboard.organ.drawbar"],
  [20, "keyboard.organ.pipe"],
  [22, "keyboard.accordion"],
  [23, "wind.reed.harmonica"],
  [25, "pluck.guitar.nylon-string"],
  [26, "pluck.guitar.steel-string"],
  [27, "pluck.guitar.electric"],
  [28, "pluck.guitar.electric"],
  [33, "pluck.bass.acoustic"],
  [34, "pluck.bass.electric"],
  [35, "pluck.bass.electric"],
  [36, "pluck.bass.fretless"],
  [41, "strings.violin"],
  [42, "strings.viola"],
  [43, "strings.cello"],
  [44, "strings.contrabass"],
  [47, "pluck.harp"],
  [48, "drum.timpani"],
  [53, "voice.aa"],
  [57, "brass.trumpet"],
  [58, "brass.trombone"],
  [59, "brass.tuba"],
  [61, "brass.french-horn"],
  [65, "wind.reed.saxophone.soprano"],
  [66, "wind.reed.saxophone.alto"],
  [67, "wind.reed.saxophone.tenor"],
  [68, "wind.reed.saxophone.baritone"],
  [69, "wind.reed.oboe"],
  [70, "wind.reed.english-horn"],
  [71, "wind.reed.bassoon"],
  [72, "wind.reed.clarinet"],
  [73, "wind.flutes.flute.piccolo"],
  [74, "wind.flutes.flute"],
  [75, "wind.flutes.recorder"],
  [76, "wind.flutes.panpipes"],
  [79, "wind.flutes.whistle"],
  [80, "wind.flutes.ocarina"],
  [106, "pluck.banjo"],
]);

/** The standard sound of a drum set. */
export const DRUM_SET = "drum.group.set";

/** The standard sound of a General MIDI program; `undefined` for one that no instrument of the table has. */
export function standardSound(program: number): string | undefined {
  return SOUNDS.get(program);
}
