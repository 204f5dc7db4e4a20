/** What stands in the way of reading sound files and banks, and writing files. */
export const nodeCodes = {
  SOUND_BANK_NOT_FOUND: "error",
  OUTPUT_NOT_ALLOWED: "error",
  OUTPUT_DISK_FULL: "error",
  OUTPUT_FOLDER_MISSING: "error",
  OUTPUT_NAME_TAKEN: "error",
  OUTPUT_NOT_WRITTEN: "error",
  RENDERING_STOPPED: "error",
  SOUND_ENCODER_MISSING: "error",
  SOUND_ENCODING_FAILED: "error",
  SOUND_COVER_NOT_DRAWN: "advice",
  RENDERING_FAILED: "error",
  REHEARSAL_STOPPED: "error",
  REHEARSAL_FAILED: "error",
  RECORDING_DECODER_STUCK: "error",
} as const;
