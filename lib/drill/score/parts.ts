import { add, compare, fractionText } from "../../base/index.js";
import { marksOf, midiNumber, type Note, pitchText } from "../../pattern/index.js";
import type { ExpectedOnset, ScoreNote, ScorePart } from "../../schema/index.js";
import { notesOf } from "../variants.js";
import { notesOutside, onsetsOf, takeNotes } from "./notes.js";
import { scoreRecorded } from "./recorded.js";
import { partsDroppingIn } from "./silences.js";
import { joined } from "./stretch.js";
import { rounded, type TakeContext, type TakeTime } from "./take.js";

/** The parts of the score with the notes that sound: none of a part that is off, none in the silences of a part that drops, none of the student's part in open bars, unless the mix has it play: what is written there is then heard as an example. */
export function scoreParts(take: TakeContext): readonly ScorePart[] {
  const { drill, settings, pattern, time, does, open } = take;
  const silences = take.silences.map((silence) => ({ silence, dropping: partsDroppingIn(take, silence) }));
  return pattern.parts.map((part) => {
    const doing = does.get(part.name)!;
    const student = part.name === drill.student;
    const own = silences.flatMap(({ silence, dropping }) => (dropping.has(part.name) ? [silence] : []));
    const gaps = joined([...own, ...(student && doing !== "plays" ? open : [])]);
    const rings = doing === "drops" && drill.dropout?.letRing.includes(part.name) === true;
    const recorded = scoreRecorded(take, part, gaps);
    const written = doing === "off" ? [] : (notesOf(part, settings.variant) ?? []);
    return {
      name: part.name,
      ...(part.instrument === undefined ? {} : { instrument: part.instrument }),
      does: doing,
      student,
      ...(rings ? { rings } : {}),
      notes: notesOutside(takeNotes(drill, written), gaps, rings ? "to" : "from")
        .map((note) => scoreNote(note, time))
        .filter((note) => note.seconds > 0)
        .sort((a, b) => a.at - b.at),
      ...(recorded === undefined ? {} : { recorded }),
    };
  });
}

/** The expected onsets: all onsets of the student's part outside open bars, in every mix. */
export function scoreExpected({ drill, settings, pattern, bars, time, open }: TakeContext): readonly ExpectedOnset[] {
  const part = pattern.parts.find(({ name }) => name === drill.student);
  const written = (part && notesOf(part, settings.variant)) ?? [];
  let bar = -1;
  return onsetsOf(notesOutside(takeNotes(drill, written), open), time).map(({ at, notes }) => {
    const [{ position, late }] = notes;
    while (bar + 1 < bars.length && compare(bars[bar + 1]!.position, position) <= 0) bar++;
    const pitch = highest(notes);
    return {
      position: fractionText(position),
      at,
      ...(late && { late: fractionText(late) }),
      ...(pitch && { pitch: pitchText(pitch) }),
      ...(notes.some((note) => note.accent) && { accent: true }),
      part: drill.student,
      bar: bar < 0 ? 0 : bars[bar]!.number,
    };
  });
}

/** How much of its length a short note sounds. Our choice: half, as a dot over a note is commonly taught (from memory). */
const SHORT = 1 / 2;

function scoreNote(note: Note, time: TakeTime): ScoreNote {
  const at = time.at(note.position, note.late);
  const whole = time.at(add(note.position, note.length), note.endLate) - at;
  return {
    position: fractionText(note.position),
    length: fractionText(note.length),
    at,
    seconds: rounded(note.short ? whole * SHORT : whole),
    ...(note.late && { late: fractionText(note.late) }),
    ...(note.endLate && { endLate: fractionText(note.endLate) }),
    ...(note.pitch && { pitch: pitchText(note.pitch) }),
    ...(note.voice && { voice: note.voice }),
    ...(note.accent && { accent: true }),
    ...marksOf(note),
    ...(note.loudness && { loudness: note.loudness }),
  };
}

function highest(notes: readonly Note[]): Note["pitch"] {
  const pitches = notes.flatMap((note) => (note.pitch ? [note.pitch] : []));
  return pitches.reduce<Note["pitch"]>(
    (a, b) => (a !== undefined && midiNumber(a) >= midiNumber(b) ? a : b),
    undefined,
  );
}
