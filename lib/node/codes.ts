/** What stands in the way of reading sound files and banks, and writing files. */
export const nodeCodes = {
  SOUND_BANK_NOT_FOUND: { severity: "error", means: "There is no sound bank of this name, or it may not be read." },
  OUTPUT_NOT_ALLOWED: { severity: "error", means: "The folder or disk may not be written to." },
  OUTPUT_DISK_FULL: { severity: "error", means: "There is no room left on the disk." },
  OUTPUT_FOLDER_MISSING: { severity: "error", means: "The folder to write to is not there, or is not there any more." },
  OUTPUT_NAME_TAKEN: {
    severity: "error",
    means: "A folder stands where a file is to be written, or a file where a folder is.",
  },
  OUTPUT_NOT_WRITTEN: { severity: "error", means: "A file could not be written for another reason, which is given." },
  RENDERING_STOPPED: {
    severity: "error",
    means: "Rendering was stopped before all files were made; what is finished stays.",
  },
  SOUND_ENCODER_MISSING: {
    severity: "error",
    means: "The program that compresses sound is not installed, or lacks the encoder of the format asked for.",
  },
  SOUND_ENCODING_FAILED: { severity: "error", means: "The program that compresses sound gave up on a file." },
  RENDERING_FAILED: { severity: "error", means: "A rendering thread ended unexpectedly." },
  REHEARSAL_STOPPED: {
    severity: "error",
    means: "A rehearsal was stopped before all students were through; what is finished is kept.",
  },
  REHEARSAL_FAILED: { severity: "error", means: "A thread that rehearses a course ended unexpectedly." },
  RECORDED_TEMPO_DIFFERS: {
    severity: "advice",
    means: "The recording of a part runs at another tempo than the course says.",
  },
  RECORDED_START_DIFFERS: {
    severity: "advice",
    means: "Bar 1 begins elsewhere in the recording of a part than the course says.",
  },
  RECORDED_TEMPO_WAVERS: { severity: "advice", means: "The recording of a part does not keep its tempo." },
  RECORDED_TEMPO_NOT_HEARD: {
    severity: "advice",
    means:
      "The recording of a part has too few strokes on its beats to hear whether its tempo is the one the course says.",
  },
  RECORDED_FILE_CHANGED: {
    severity: "error",
    means: "The recording of a part is another file than when the course was read.",
  },
  RECORDING_DECODER_STUCK: {
    severity: "error",
    means: "The program that decodes the sound file stood still for too long and was stopped.",
  },
} as const;
