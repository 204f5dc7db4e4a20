import { problemsOf } from "../base/index.js";

/** Problems with patterns: bars, notes, chords, keys, instruments, files of notes and recordings. */
export const patternCodes = {
  PITCH_NOT_READ: { severity: "error", means: "A pitch is not a letter, accidentals and an octave (D4, Bb3, F#5)." },
  PITCH_OUT_OF_RANGE: { severity: "error", means: "A pitch lies outside the 128 keys of MIDI (C-1 to G9)." },
  INTERVAL_NOT_READ: {
    severity: "error",
    means: "An interval is not written as major second lower, or octave and a major second lower.",
  },
  TUNING_NOT_READ: { severity: "error", means: "A tuning is not written as 442 Hz." },
  TUNING_OUT_OF_RANGE: { severity: "error", means: "A tuning is further from 440 Hz than any ensemble tunes." },
  KEY_NOT_READ: { severity: "error", means: "A key or scale is not a tonic and a name (D dorian)." },
  SCALE_NOT_READ: {
    severity: "error",
    means: "A scale of the course is not written as its notes, upwards from the tonic, within an octave.",
  },
  SCALE_UNKNOWN: { severity: "error", means: "A scale or mode is not in the table of scales." },
  INSTRUMENT_UNKNOWN: { severity: "error", means: "An instrument is neither in the table nor described in the file." },
  INSTRUMENT_RANGE_EMPTY: { severity: "error", means: "An instrument's highest note lies below its lowest." },
  WRITTEN_BELOW_RANGE: { severity: "advice", means: "A part goes below the lowest written note of an instrument." },
  WRITTEN_ABOVE_RANGE: { severity: "advice", means: "A part goes above the highest written note of an instrument." },
  WRITTEN_BEYOND_BEGINNERS: {
    severity: "advice",
    means: "A part for beginners leaves the notes that beginners on the instrument have learnt.",
  },
  METER_CHANGE_MISPLACED: {
    severity: "error",
    means: "Changes of meter do not begin at bar 1, are out of order, or lie outside the pattern.",
  },
  BAR_COUNT_OUT_OF_RANGE: { severity: "error", means: "A pattern has no bars, or too many." },
  BAR_COUNT_DIFFERS: { severity: "error", means: "A line has more or fewer bars than the pattern." },
  BAR_EMPTY: { severity: "error", means: "There is nothing between two bar lines." },
  BAR_TOO_SHORT: { severity: "error", means: "The notes of a bar do not fill its meter." },
  BAR_TOO_LONG: { severity: "error", means: "There are more notes in a bar than its meter holds." },
  NOTE_PAST_BAR_LINE: { severity: "error", means: "The last note of a bar rings past the bar line without a tie." },
  NOTE_NOT_READ: { severity: "error", means: "A word in a line of notes is none that such a line has." },
  NOTE_LENGTH_MISSING: { severity: "error", means: "A note stands before the first length of its line." },
  NOTE_LENGTH_NOT_READ: { severity: "error", means: "A length is not written as 1/8, 3/8 or 1/4+1/16." },
  FORMER_SPELLING: {
    severity: "error",
    means: "A line of notes, of drums or of chords is in the spelling that was used before (D4/4, r, ~, %).",
  },
  TUPLET_NOT_READ: { severity: "error", means: "A tuplet is not written as 3 in 2 [...], or is not closed." },
  TUPLET_NOT_FILLED: { severity: "error", means: "The notes of a tuplet do not add up to the number it announces." },
  TIE_WITHOUT_NOTE: { severity: "error", means: "No note sounds that a tie could go on with." },
  REPEAT_MISPLACED: {
    severity: "error",
    means: "A same or a ... has no bar before it to repeat, shares its bar, or a ... is not at the end.",
  },
  CLICK_NOT_READ: {
    severity: "error",
    means: "A click is not written as every beat, beats 2 and 4, every bar or every 2 bars.",
  },
  CLICK_BEAT_OUTSIDE_BAR: { severity: "error", means: "A click is to sound on a beat that a bar does not have." },
  CLICK_DOES_NOT_FILL_PHRASE: {
    severity: "error",
    means:
      "A click sounds once in so many bars that they do not fill the pattern, so that it would limp at each repeat.",
  },
  GRID_NOT_READ: {
    severity: "error",
    means: "A drum line holds a character other than x, X, g, -, | and blanks.",
  },
  GRID_DOES_NOT_DIVIDE_BAR: {
    severity: "error",
    means: "The number of characters in a bar of a grid does not divide its beats evenly.",
  },
  VOICE_UNKNOWN: { severity: "error", means: "A percussion voice is not in the table of voices." },
  CHORD_NOT_READ: { severity: "error", means: "A chord symbol has no root." },
  CHORD_UNUSUAL: { severity: "advice", means: "A chord symbol has an unusual quality." },
  CHORDS_MORE_THAN_BEATS: { severity: "error", means: "A bar has more chord symbols than beats." },
  PICKUP_LENGTH_DIFFERS: { severity: "error", means: "The notes before the first bar line do not fill the pick-up." },
  PICKUP_MISSING: { severity: "error", means: "A line leaves out the pick-up of its pattern." },
  PICKUP_TOO_LONG: { severity: "error", means: "A pick-up is as long as a bar or longer." },
  PICKUP_MEETS_LAST_BAR: {
    severity: "error",
    means: "A pitched part sounds at the end of the last bar where, on repeats, its own pick-up sounds.",
  },
  SWING_LEAVES_NOTE_OVER: {
    severity: "advice",
    means: "The pairs of a swing do not fill the groups of the meter; what is left over stays straight.",
  },
  TOO_MANY_NOTES: { severity: "error", means: "A line, or a pattern, holds more notes than is read." },
  PART_WITHOUT_MUSIC: {
    severity: "error",
    means: "A part or variant has no notes, voices, click, file, recording or variants.",
  },
  PART_WITH_TWO_MUSICS: {
    severity: "error",
    means:
      "A part or variant has more than one of notes, voices, click, file, variants, or both recording and recordings.",
  },
  PART_MIXES_KINDS: { severity: "error", means: "Some variants of a part are pitched and others percussion." },
  PATTERN_WITHOUT_PARTS: { severity: "error", means: "A pattern has no parts." },
  WRITTEN_FOR_MISPLACED: {
    severity: "error",
    means:
      "A part is written for an instrument, but has no line of notes: files and drums say themselves how they sound.",
  },
  FILE_NOT_FOUND: { severity: "error", means: "A file is not there, or outside the folder of the curriculum." },
  FILE_KIND_UNKNOWN: {
    severity: "error",
    means: "A file is neither a Standard MIDI File nor uncompressed MusicXML, or a recording is no sound file.",
  },
  FILE_OPTION_MISPLACED: {
    severity: "error",
    means: "track, part, bars, tempo or starts is given where it means nothing.",
  },
  FILE_TRACK_UNKNOWN: { severity: "error", means: "A MIDI file has no such track, or several and none was named." },
  FILE_PART_UNKNOWN: { severity: "error", means: "A MusicXML file has no such part, or several and none was named." },
  FILE_BARS_NOT_READ: {
    severity: "error",
    means: "The bars of a file are not written as 1-4 or 3, or lie outside it.",
  },
  FILE_BAR_COUNT_DIFFERS: { severity: "error", means: "A file has more or fewer bars than the pattern." },
  FILE_METER_DIFFERS: { severity: "error", means: "A bar of a file is longer or shorter than the pattern's." },
  FILE_WITHOUT_NOTES: { severity: "error", means: "The bars taken from a file hold no notes." },
  FILE_WITHOUT_BARS: { severity: "error", means: "A MIDI file counts in seconds (SMPTE), so it has no bars." },
  FILE_NOTE_CUT: { severity: "advice", means: "A note rings into or out of the bars taken from a file." },
  FILE_OFF_GRID: { severity: "advice", means: "Notes of a file lie beside the grid: it was played, not written." },
  FILE_VOICE_UNKNOWN: { severity: "advice", means: "A percussion note of a file has no voice in the table; left out." },
  RECORDED_TEMPO_MISSING: { severity: "error", means: "A recording of a part is named without its tempo." },
  RECORDED_TEMPO_TWICE: { severity: "error", means: "Two recordings of a part have one tempo." },
  RECORDED_START_NOT_READ: {
    severity: "error",
    means: "Where bar 1 begins in a recording is not written as 2.135 s or 80 ms.",
  },
  RECORDED_BARS_DO_NOT_FIT: {
    severity: "error",
    means: "The bars taken from a recording neither divide the bars of the pattern nor are a multiple of them.",
  },
  RECORDED_TOO_SHORT: { severity: "error", means: "A recording ends before the bars that are taken from it." },
  FILE_CHORDS: { severity: "advice", means: "Notes of a part taken from a file sound together." },
} as const;
/** Makes a problem of this catalogue. */
export const problem: ReturnType<typeof problemsOf<typeof patternCodes>> = problemsOf(patternCodes);
