/** Problems with a MIDI file as a take; problems with its structure are in the catalogue of `formats`. */
export const listenCodes = {
  TAKE_TRACK_MISSING: "error",
  TAKE_TRACK_UNCLEAR: "error",
  TAKE_SEVERAL_TRACKS: "advice",
  TAKE_WITHOUT_NOTES: "advice",
  TAKE_TOO_LONG: "error",
  LATENCY_UNCLEAR: "error",
  BACKING_NOT_HEARD: "advice",
  BACKING_PLACE_UNCLEAR: "advice",
  BACKING_TOO_LOUD: "advice",
  BACKING_HIDES_NOTES: "advice",
  OTHER_SOUNDS: "advice",
  RECORDING_START_ASSUMED: "advice",
  RECORDING_WITHOUT_NOTES: "advice",
} as const;
