import { add, fractionText } from "../base/index.js";
import { type Note, pitchText } from "../pattern/index.js";
import type { ScoreNote, ScorePart } from "../schema/index.js";
import { notesOf } from "./notesOf.js";
import { joined } from "./stretch.js";
import type { TakeContext } from "./takeContext.js";
import { notesOutside, takeNotes } from "./takeNotes.js";
import { rounded, type TakeTime } from "./takeTime.js";

/** What each part does and the notes it sounds: none when off, none in the silences when it drops, none of the student's in open bars. */
export function scoreParts({
  drill,
  settings,
  pattern,
  time,
  does,
  silences,
  open,
}: TakeContext): readonly ScorePart[] {
  return pattern.parts.map((part) => {
    const doing = does.get(part.name)!;
    const student = part.name === drill.student;
    const gaps = joined([...(doing === "drops" ? silences : []), ...(student ? open : [])]);
    const rings = doing === "drops" && drill.dropout?.letRing.includes(part.name) === true;
    const written = doing === "off" ? [] : (notesOf(part, settings.variant) ?? []);
    return {
      name: part.name,
      ...(part.instrument === undefined ? {} : { instrument: part.instrument }),
      does: doing,
      student,
      ...(rings ? { rings } : {}),
      notes: notesOutside(takeNotes(drill, written), gaps, rings ? "to" : "from").map((note) => scoreNote(note, time)),
    };
  });
}

function scoreNote(note: Note, time: TakeTime): ScoreNote {
  const at = time.at(note.position);
  return {
    position: fractionText(note.position),
    length: fractionText(note.length),
    at,
    seconds: rounded(time.at(add(note.position, note.length)) - at),
    ...(note.pitch === undefined ? {} : { pitch: pitchText(note.pitch) }),
    ...(note.voice === undefined ? {} : { voice: note.voice }),
    ...(note.accent ? { accent: true } : {}),
  };
}
