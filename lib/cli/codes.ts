/** Problems with the files and names given on the command line. */
export const fileCodes = {
  INPUT_NOT_FOUND: { severity: "error", means: "There is no file of this name." },
  INPUT_IS_FOLDER: { severity: "error", means: "A folder where a file is wanted." },
  INPUT_UNREADABLE: { severity: "error", means: "The file is there, but may not or cannot be read." },
  INPUT_TOO_LARGE: {
    severity: "error",
    means: "A file or standard input larger than anything of its kind needs to be.",
  },
  INPUT_NOT_TEXT: {
    severity: "error",
    means: "A file or standard input that is not text in UTF-8, as YAML and JSON have to be.",
  },
  JSON_SYNTAX: { severity: "error", means: "A text that has to be JSON is not." },
  JSON_TOO_DEEP: {
    severity: "error",
    means: "A JSON text whose lists and keys are nested deeper than anything needs.",
  },
  NOBODY_ENROLLED: { severity: "error", means: "The journal enrols nobody, and no student was named." },
  LOGO_NOT_FOUND: { severity: "error", means: "The picture that a course names as its logo is not there." },
  RENDER_TOO_MANY_FILES: { severity: "error", means: "More files would be rendered at once than anyone means to." },
  ENGRAVER_NOT_INSTALLED: {
    severity: "error",
    means: "Sheets need the notation engraver Verovio, which is installed separately.",
  },
  PAGE_COURSE_TWICE: {
    severity: "error",
    means: "Two courses of a page have the same name, by which students are in them.",
  },
  PAGE_WITHOUT_RECORDING: {
    severity: "error",
    means: "A part is a recording without notes, which a page cannot play yet: it would be silent there.",
  },
  PAGE_PLAYS_NOTES: {
    severity: "advice",
    means: "A page plays the notes of a part that was recorded, and not the recording.",
  },
  PAGE_PARTS_MISSING: {
    severity: "error",
    means: "The scripts of the practice page are not built, so that no page can be made.",
  },
  PAGE_WITHOUT_SHEETS: {
    severity: "advice",
    means:
      "A page has no riffs in notes, as the notation engraver Verovio, which is installed separately, is not there.",
  },
  RUNG_RANGE_NOT_READ: {
    severity: "error",
    means: "A range of rungs is not written as 0-9, or lies outside the drill.",
  },
  STORE_ADDRESS_UNKNOWN: { severity: "error", means: "A store at an address of a kind that is not known here." },
  COURSE_TEXT_REPLACED: {
    severity: "advice",
    means: "A course was changed without a new edition number; its new text is used from now on.",
  },
  NOTHING_TO_COMPARE: {
    severity: "error",
    means: "No old edition was named, and nobody in the store is in the course.",
  },
  OUTPUT_UNWRITABLE: { severity: "error", means: "A file that was asked for cannot be written." },
  CALIBRATION_UNCLEAR: {
    severity: "error",
    means: "Calibrating takes recordings and the name of a device, or a file to write the clicks to.",
  },
  DEVICE_UNKNOWN: { severity: "error", means: "No recording device of this name was measured on this machine." },
  DEVICES_UNREADABLE: {
    severity: "error",
    means: "The file with the measured recording devices cannot be read, or holds something else.",
  },
  FAMILY_ASSUMED: {
    severity: "advice",
    means: "Nothing says how the notes of the recorded instrument begin; it is taken for one that is plucked.",
  },
  REHEARSAL_PARTS_UNFIT: {
    severity: "error",
    means: "Files of parts of a rehearsal are damaged, of different rehearsals, given twice, or not all there.",
  },
  JOURNAL_OF_OTHER_COURSE: { severity: "error", means: "The journal belongs to another course than the file." },
} as const;
