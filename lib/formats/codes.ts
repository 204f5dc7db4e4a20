import { type Place, type Problem, problemsOf, type Worded } from "../base/index.js";

/** Problems with files of notes. */
export const formatCodes = {
  MIDI_TOO_LARGE: { severity: "error", means: "A MIDI file has more bytes or events than is read." },
  MIDI_TOO_LONG: { severity: "error", means: "A MIDI track lasts longer than is read." },
  MIDI_HEADER_MISSING: { severity: "error", means: "A file does not begin with a MIDI header (MThd)." },
  MIDI_HEADER_TOO_SHORT: { severity: "error", means: "The header of a MIDI file is cut or shorter than 6 bytes." },
  MIDI_FORMAT_UNKNOWN: { severity: "error", means: "The format of a MIDI file is not 0, 1 or 2." },
  MIDI_DIVISION_ZERO: { severity: "error", means: "A MIDI file has no ticks to a quarter note or a frame." },
  MIDI_FRAME_RATE_UNKNOWN: { severity: "error", means: "The frame rate of a MIDI file is not 24, 25, 29.97 or 30." },
  MIDI_CHUNK_NOT_READ: { severity: "error", means: "There is no chunk where one should begin." },
  MIDI_CHUNK_TRUNCATED: { severity: "error", means: "A MIDI file ends before the chunk it announces." },
  MIDI_TRACK_MISSING: { severity: "error", means: "A MIDI file has no track, or fewer than its header announces." },
  MIDI_TRACKS_MORE_THAN_STATED: { severity: "advice", means: "A MIDI file has more tracks than its header announces." },
  MIDI_TRAILING_BYTES: { severity: "advice", means: "A few bytes follow the last chunk of a MIDI file." },
  MIDI_EVENT_TRUNCATED: { severity: "error", means: "A MIDI track ends inside an event." },
  MIDI_NUMBER_TOO_LONG: { severity: "error", means: "A variable-length number has more than four bytes." },
  MIDI_STATUS_ILLEGAL: { severity: "error", means: "A MIDI track holds a message that has no place in a file." },
  MIDI_STATUS_MISSING: { severity: "error", means: "A MIDI event has data before any status byte." },
  MIDI_DATA_ILLEGAL: { severity: "error", means: "A data byte of a MIDI message is above 127." },
  MIDI_META_LENGTH_WRONG: { severity: "error", means: "A meta event does not have the length its kind has." },
  MIDI_TEXT_TOO_LONG: { severity: "error", means: "A text in a MIDI file is longer than is read." },
  MIDI_TEMPO_ZERO: { severity: "error", means: "A tempo in a MIDI file is 0 microseconds per quarter note." },
  MIDI_END_MISSING: { severity: "advice", means: "A MIDI track has no end-of-track event." },
  MIDI_DATA_AFTER_END: {
    severity: "advice",
    means: "A MIDI track goes on after its end-of-track event; the rest is left out.",
  },
  MIDI_RUNNING_STATUS_KEPT: {
    severity: "advice",
    means: "Running status is kept across a meta or system exclusive event, which the standard cancels.",
  },
  MIDI_METER_NOT_READ: { severity: "advice", means: "A time signature in a MIDI file names no meter; left out." },
  MIDI_NOTE_NOT_ENDED: { severity: "advice", means: "A note in a MIDI file is never ended; it ends with its track." },
  MUSICXML_TOO_LARGE: { severity: "error", means: "A MusicXML file has more text, elements or bars than is read." },
  MUSICXML_TIMES_TOO_FINE: {
    severity: "error",
    means: "The durations of a MusicXML part have no common divisor below 2^53.",
  },
  MUSICXML_COMPRESSED: { severity: "error", means: "A MusicXML file is compressed (.mxl)." },
  MUSICXML_NOT_XML: { severity: "error", means: "A MusicXML file is not well-formed XML." },
  MUSICXML_NOT_PARTWISE: { severity: "error", means: "The document is not a score-partwise MusicXML document." },
  MUSICXML_WITHOUT_PARTS: { severity: "error", means: "A MusicXML file has no part with bars." },
  MUSICXML_DIVISIONS_MISSING: {
    severity: "error",
    means: "A part has durations before its divisions, or divisions of 0.",
  },
  MUSICXML_DURATION_MISSING: { severity: "error", means: "A note has no duration that can be read." },
  MUSICXML_PITCH_NOT_READ: { severity: "error", means: "A note has a pitch that cannot be read." },
  MUSICXML_GRACE_NOTE: { severity: "advice", means: "A grace note takes no time of its own; left out." },
  MUSICXML_CUE_NOTE: { severity: "advice", means: "A cue note is for reading along; left out." },
  MUSICXML_MICROTONE: { severity: "advice", means: "A quarter tone is taken as the nearest semitone." },
  MUSICXML_SEVERAL_VOICES: { severity: "advice", means: "Several voices sound at once in one part." },
  MUSICXML_BACKUP_TOO_FAR: { severity: "advice", means: "A backup goes before the start of its bar; it stops there." },
  MUSICXML_BAR_LENGTH_DIFFERS: { severity: "advice", means: "A bar is shorter or longer than its time signature." },
  MUSICXML_TIE_NOT_ENDED: { severity: "advice", means: "A tie leads to no note of the same pitch." },
  MUSICXML_ENDING_NOT_READ: {
    severity: "advice",
    means: "The numbers of a repeat ending cannot be read; it is played each time.",
  },
  MUSICXML_JUMP_NOT_FOLLOWED: { severity: "advice", means: "A da capo, dal segno or coda is not followed." },
} as const;

/** Makes a problem of this catalogue. */
export const problem: (code: keyof typeof formatCodes, message: Worded, where?: Place, remedy?: Worded) => Problem =
  problemsOf(formatCodes);
