/** Problems with a MIDI file as a take; problems with its structure are in the catalogue of `interchange`. */
export const listenCodes = {
  TAKE_TRACK_MISSING: { severity: "error", means: "The MIDI file has no track of the number asked for." },
  TAKE_TRACK_UNCLEAR: {
    severity: "error",
    means: "The MIDI file holds several separate sequences (format 2), and none was chosen.",
  },
  TAKE_SEVERAL_TRACKS: {
    severity: "advice",
    means: "Several tracks of the MIDI file have notes, and all of them count as played.",
  },
  TAKE_WITHOUT_NOTES: { severity: "advice", means: "The MIDI file has no note where it was to be read." },
  TAKE_TOO_LONG: { severity: "error", means: "More notes, or later ones, than a take may have." },
} as const;
