/** Problems with a MIDI file as a take; problems with its structure are in the catalogue of `formats`. */
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
  LATENCY_UNCLEAR: {
    severity: "error",
    means: "A recording made to measure a device does not follow the clicks that were played.",
  },
  BACKING_NOT_HEARD: {
    severity: "advice",
    means:
      "The backing is not to be heard in the recording, as with headphones; the recording alone says when the take began.",
  },
  BACKING_PLACE_UNCLEAR: {
    severity: "advice",
    means: "The backing fits the recording nearly as well in another place, for instance a phrase later.",
  },
  BACKING_TOO_LOUD: {
    severity: "advice",
    means: "The backing is so much louder than the player that onsets may be missed or made up.",
  },
  BACKING_HIDES_NOTES: {
    severity: "advice",
    means: "In some bars the backing is too loud to tell whether the player began a note.",
  },
  OTHER_SOUNDS: {
    severity: "advice",
    means: "Many weaker sounds beside the player's notes, such as speech, were left out of the take.",
  },
  RECORDING_START_ASSUMED: {
    severity: "advice",
    means: "Nothing says when the take began, so the count-in is taken to begin with the recording.",
  },
  RECORDING_WITHOUT_NOTES: { severity: "advice", means: "No note was heard in the recording." },
} as const;
