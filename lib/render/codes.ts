import { problemsOf } from "../base/index.js";

/** Problems of MIDI and MusicXML output. */
export const renderCodes = {
  MIDI_TEMPO_UNWRITABLE: "error",
  VOICE_WITHOUT_KEY: "error",
  NOTE_NOT_NOTATABLE: "error",
  MIDI_WITHOUT_RECORDING: "advice",
} as const;

export const renderProblem: ReturnType<typeof problemsOf<typeof renderCodes>> = problemsOf(renderCodes);
