import type { Score } from "../schema/index.js";
import type { InstrumentFamily } from "./families.js";

/** Words in names of instruments by how their notes begin; the first that fits counts, so that a bass drum is a drum and a bass clarinet blown. */
const WORDS: readonly (readonly [InstrumentFamily, RegExp])[] = [
  [
    "percussive",
    /drum|kit|snare|cymbal|hi-hat|clap|cajon|conga|bongo|timpani|tabla|djembe|percussion|phone$(?<!saxophone|sousaphone|mellophone)|marimba|glockenspiel|bells|chime|celesta|kalimba|dulcimer|boomwhacker|block|triangle|tambourine|cowbell|shaker|clave/,
  ],
  ["bowed", /violin|fiddle|viola|cello/],
  [
    "blown",
    /flute|piccolo|recorder|oboe|ocarina|fife|bugle|mellophone|concertina|choir|english horn|cor anglais|clarinet|bassoon|sax|horn|trumpet|cornet|trombone|euphonium|baritone|tuba|sousaphone|whistle|harmonica|melodica|accordion|pipe|organ|harmonium|voice|soprano|alto|tenor/,
  ],
  ["plucked", /guitar|bass|harp|banjo|ukulele|mandolin|lute|zither|piano|keyboard|synthesizer|clavi|harpsichord/],
];

/**
 * How the notes of an instrument begin, by its name in English: `undefined` when none of its words is known. Hammered strings (piano) are
 * taken as plucked, a double bass too, as it is in an accompaniment (our choices).
 *
 * @example familyOfInstrument("bass clarinet") // "blown"
 */
export function familyOfInstrument(name: string): InstrumentFamily | undefined {
  const lower = name.toLowerCase();
  return WORDS.find(([, words]) => words.test(lower))?.[0];
}

/**
 * How the notes of the student's part begin: by its instrument; else percussive when all of its notes are drum voices; else by the
 * instruments the drill is written out for (`players`), when they all agree. `undefined` when nothing of that is known.
 *
 * @example
 * familyOfPart({ players: ["trumpet"] }) // "blown"
 */
export function familyOfPart({
  score,
  players = [],
}: {
  readonly score?: Score | undefined;
  readonly players?: readonly string[] | undefined;
}): InstrumentFamily | undefined {
  const part = score?.parts.find(({ student }) => student);
  const isDrums = part !== undefined && part.notes.length > 0 && part.notes.every(({ voice }) => voice !== undefined);
  const byPlayers = new Set(players.map(familyOfInstrument));
  return (
    (part?.instrument === undefined ? undefined : familyOfInstrument(part.instrument)) ??
    (isDrums ? "percussive" : undefined) ??
    (byPlayers.size === 1 ? [...byPlayers][0] : undefined)
  );
}
