import { problemsOf } from "../base/index.js";

/** Problems of MIDI and MusicXML output. */
export const renderCodes = {
  MIDI_TEMPO_UNWRITABLE: {
    severity: "error",
    means: "A tempo is slower than a MIDI file can state (16.8 seconds to a quarter note).",
  },
  VOICE_WITHOUT_KEY: { severity: "error", means: "A percussion voice has no General MIDI key." },
  MIDI_WITHOUT_RECORDING: {
    severity: "advice",
    means: "A MIDI file has no recordings: of a part that was recorded it has the notes, or nothing.",
  },
  NOTE_NOT_NOTATABLE: {
    severity: "error",
    means: "A length that note values and tuplets cannot express: the part was played rather than written.",
  },
} as const;

export const renderProblem: ReturnType<typeof problemsOf<typeof renderCodes>> = problemsOf(renderCodes);
