// Generated from schemas/ by `npm run types`; change the schema instead.

import type { Bpm, Seconds, Written } from "../../base/index.js";
/**
 * An instrument the student's part is written out for.
 */
export type PlayerDocument = string | PlayerInOctaveDocument;

/**
 * A graded course of time-keeping drills: riffs to play, and drills in which the accompaniment falls silent for longer and longer.
 */
export interface CurriculumDocument {
  /**
   * Version of the format of courses, not of this course (that is its edition); 1 when left out. A reader refuses versions it does not know.
   */
  readonly version?: 1;
  /**
   * The short name of the course. Students' records are kept under it, so do not change it between editions.
   */
  readonly curriculum: string;
  /**
   * Number of this edition as major.minor.patch (Semantic Versioning 2.0.0). Raise it whenever you publish a change.
   */
  readonly edition: string;
  /**
   * The title students see.
   */
  readonly title: string;
  /**
   * The language students read beside the course's own texts, as a tag (BCP 47): sheets, answers and the page are in it unless another is asked for. English when left out.
   */
  readonly language?: string;
  /**
   * Who wrote the course and its riffs; printed on sheets, and said in files of sound. A pattern may name its own.
   */
  readonly author?: string;
  /**
   * Who arranged the riffs; printed on sheets. A pattern may name its own.
   */
  readonly arranger?: string;
  /**
   * Whose work this is and since when, as it is printed at the foot of sheets.
   */
  readonly copyright?: string;
  /**
   * What people may do with sheets and sound, as it is printed at the foot of sheets.
   */
  readonly licence?: string;
  /**
   * Address that sheets lead to, as text and as a QR code. {drill} and {rung} in it stand for the name of the drill and the number of the rung.
   */
  readonly address?: string;
  /**
   * Picture at the head of sheets: the path of a PNG or JPEG file below the course's folder.
   */
  readonly logo?: string;
  /**
   * What the course is for, who it is for, and cautions about loudness and long repetitive playing.
   */
  readonly about?: string;
  /**
   * Frequency of A4 that everybody tunes to, where it is not 440 Hz; playback sounds there, and pitches of recordings are read there.
   */
  readonly tuning?: string;
  /**
   * Scales of your own for open bars, by name: the notes upwards from any tonic, which any other may take (D harbour is the scale harbour on D).
   */
  readonly scales?: {
    readonly [k: string]: string;
  };
  /**
   * Instruments that are not in the built-in table, or that should replace an entry of it, by name.
   */
  readonly instruments?: {
    readonly [k: string]: InstrumentDocument;
  };
  /**
   * Who the student's part is written out for: names of instruments, or an instrument with the octaves to move its part. A drill may name its own players. The written range of each is checked.
   *
   * @maxItems 50
   */
  readonly players?: readonly PlayerDocument[];
  /**
   * Riffs with their accompaniment, by name; or the file to take them from.
   */
  readonly patterns:
    | {
        readonly [k: string]: PatternDocument;
      }
    | PatternFilesDocument;
  /**
   * Drills by name, in the order in which students meet them. Students' records are kept under these names: when you rename a drill, write its old name under `formerly`.
   */
  readonly drills: {
    readonly [k: string]: DrillDocument;
  };
}
/**
 * How an instrument's written notes sound, and what it can be asked to play.
 */
export interface InstrumentDocument {
  /**
   * Where the sounding note lies, seen from the written one, in words: major second lower (a B♭ trumpet), perfect fifth lower (a horn in F), octave lower (a double bass), octave and a major second lower (a tenor saxophone), as written.
   */
  readonly sounds?: string;
  /**
   * Lowest written note, in scientific pitch notation (C4 is middle C).
   */
  readonly lowest: string;
  /**
   * Highest written note your students can be asked for, in scientific pitch notation; no limit when left out.
   */
  readonly highest?: string;
  /**
   * Clef of its printed part.
   */
  readonly clef?: "treble" | "bass" | "alto" | "tenor" | "percussion";
}
/**
 * An instrument, with the octaves its part is moved by and the range that is asked of the player.
 */
export interface PlayerInOctaveDocument {
  /**
   * Name of the instrument.
   */
  readonly instrument: string;
  /**
   * Octaves the part is moved: -1 an octave lower, 1 an octave higher. Range: -4 to 4.
   */
  readonly octave?: number;
  /**
   * What the player has learnt: the beginners' range of the instrument, or all of it.
   */
  readonly range?: "beginners" | "full";
}
/**
 * A riff and its accompaniment: one phrase, in concert pitch, repeated as often as a drill asks.
 */
export interface PatternDocument {
  /**
   * The title students see.
   */
  readonly title?: string;
  /**
   * Who wrote the riff, where it is not the author of the course.
   */
  readonly author?: string;
  /**
   * Who arranged the riff, where it is not the arranger of the course.
   */
  readonly arranger?: string;
  /**
   * Time signature at bar 1. Write the groups of an uneven one: 2+2+3/8.
   */
  readonly meter: string;
  /**
   * Bars from which another meter holds, in order.
   *
   * @maxItems 127
   */
  readonly "meter-changes"?: readonly MeterChangeDocument[];
  /**
   * Number of bars of the phrase, the pick-up not counted. Range: 1 to 128.
   */
  readonly bars: number;
  /**
   * Concert key: tonic and mode. C major when left out, which does for drums alone.
   */
  readonly key?: string;
  /**
   * Frequency of A4 that this pattern is tuned to, where it is not 440 Hz; playback sounds there, and pitches of recordings are read there.
   */
  readonly tuning?: string;
  /**
   * How unequal each pair of notes is, first to second, and which note value is swung; straight when left out.
   */
  readonly swing?: string;
  /**
   * Length of the notes before the first downbeat, as a note value or in beats; they are written as the first bar of each part that has them.
   */
  readonly "pick-up"?: string;
  /**
   * Chord symbols, bars divided by |; several symbols in a bar share it evenly; same is the bar before, ... at the end repeats the bars so far.
   */
  readonly chords?: string;
  /**
   * The parts of the phrase, by name.
   */
  readonly parts: {
    readonly [k: string]: PartDocument;
  };
}
/**
 * All patterns are taken from another course file, or from several, with the instruments and the tuning they need; the drills there are not.
 */
export interface PatternFilesDocument {
  /**
   * A path below the folder of this course, with / between folders, or a list of them.
   */
  readonly file: string | readonly string[];
}
/**
 * A change of meter.
 */
export interface MeterChangeDocument {
  /**
   * First bar in the new meter, counted from 1. Range: 2 to 128.
   */
  readonly bar: number;
  /**
   * The new time signature.
   */
  readonly meter: string;
}
/**
 * One part. Say what it plays in exactly one way: `notes`, `rhythm`, `voices`, `click`, `file`, or `variants` with one of these in each. What you recorded (`recording` or `recordings`) sounds in place of these, or without them.
 */
export interface PartDocument {
  /**
   * Instrument that sounds this part; its range is checked.
   */
  readonly instrument?: string;
  /**
   * Instrument that the notes of this part are written for, as on its own sheet; they are in concert pitch when left out. It is the instrument of the part too, unless another is named. The key and the chords of the pattern stay in concert pitch.
   */
  readonly "written-for"?: string;
  /**
   * Notes in concert pitch (or as written for the instrument of `written-for`), divided by blanks. A length (1/4, 3/8, 1/4+1/16) holds until the next one: 1/4 D4 - F4! are a quarter, a quarter of silence and an accent. C4+Eb4 sound together, tie goes on sounding, D4. is short, D4_ held for its whole length, (D4) a ghost note, D4~ F4 are slurred, D4-scoop slides up into its pitch, D4-fall off it, pp to ff are loudness, 3 in 2 [1/8 D4 E4 F4] is a triplet. | divides bars, same is the bar before, ... at the end repeats the bars so far; a pick-up stands before the first | (rest | when silent).
   */
  readonly notes?: string;
  /**
   * The rhythm in which this part strikes the chords of the pattern: a line as in notes, with x for the chord that is written where it begins (x! an accent, x. short, (x) hardly heard). Its notes lie in the octave from F3 up, the root of a chord of five notes and more left to the bass.
   */
  readonly rhythm?: string;
  /**
   * One line for each percussion voice: x a stroke, X an accent, g a ghost stroke, - nothing. The characters of a bar divide it evenly; | divides bars, same is the bar before, ... at the end repeats the bars so far.
   */
  readonly voices?: {
    /**
     * The line of one voice.
     */
    readonly [k: string]: string;
  };
  /**
   * A click without a grid: every beat, beats 2 and 4 (any beats of each bar), every bar, or every 2 bars (any number of bars that fills the pattern). The first beat of a bar is higher.
   */
  readonly click?: string;
  /**
   * A Standard MIDI File or MusicXML file to take the part from: a path below the folder of this course, with / between folders.
   */
  readonly file?: string;
  /**
   * Which track of the MIDI file: its number counted from 1, or its name. Range: 1 to 1000.
   */
  readonly track?: number | string;
  /**
   * Which part of the MusicXML file: its id or its name.
   */
  readonly part?: string;
  /**
   * A sound file of this part that you recorded (WAV, FLAC, MP3, Ogg, or what ffmpeg reads): a path below the folder of this curriculum, with / between folders. It is heard in place of the notes beside it, which are what is printed and measured; without notes beside it the part is heard and not printed. With an instrument or notes with pitches it moves with the key; drums do not.
   */
  readonly recording?: string;
  /**
   * The same part recorded at several tempi, in beats a minute: the recording with the nearest tempo is stretched to that of the rung.
   */
  readonly recordings?: {
    /**
     * The sound file of this tempo, or the file with where bar 1 begins in it and which bars are taken.
     */
    readonly [k: string]: string | RecordedFileDocument;
  };
  /**
   * The tempo of the recording in beats a minute, as a drill writes its tempo: 96, or 60 of 3/8. Range: above 0.
   */
  readonly tempo?: Written<Bpm> | string;
  /**
   * Where bar 1 begins in the recording; at its beginning when left out.
   */
  readonly starts?: string;
  /**
   * Seconds at which each bar taken begins in the recording, then where the last one ends, in place of `starts`: the grid follows the recording, so that silences, landings and what the student is measured against are where it plays them. One recording of a pattern may have them; `leeway check` prints them for a recording that does not keep its tempo.
   *
   * @minItems 2
   * @maxItems 1025
   *
   * Items: Seconds from the beginning of the file. Range: 0 to 100000.
   */
  readonly "bar-lines"?: readonly Written<Seconds>[];
  /**
   * Which bars of the file or the recording, first and last, counted from 1; from its first bar when left out. Bars of a recording go round and round: of a phrase of 4, 1-2 are heard twice, and 1-8 take two phrases.
   */
  readonly bars?: string;
  /**
   * The same part at several densities, by name. A drill picks one, or climbs from one to the next.
   */
  readonly variants?: {
    readonly [k: string]: VariantDocument;
  };
}
/**
 * One version of a part. Say what it plays in exactly one way: `notes`, `rhythm`, `voices`, `click` or `file`; what you recorded (`recording` or `recordings`) sounds in place of these, or without them.
 */
export interface VariantDocument {
  /**
   * Notes in concert pitch (or as written for the instrument of `written-for`), divided by blanks. A length (1/4, 3/8, 1/4+1/16) holds until the next one: 1/4 D4 - F4! are a quarter, a quarter of silence and an accent. C4+Eb4 sound together, tie goes on sounding, D4. is short, D4_ held for its whole length, (D4) a ghost note, D4~ F4 are slurred, D4-scoop slides up into its pitch, D4-fall off it, pp to ff are loudness, 3 in 2 [1/8 D4 E4 F4] is a triplet. | divides bars, same is the bar before, ... at the end repeats the bars so far; a pick-up stands before the first | (rest | when silent).
   */
  readonly notes?: string;
  /**
   * The rhythm in which this part strikes the chords of the pattern: a line as in notes, with x for the chord that is written where it begins (x! an accent, x. short, (x) hardly heard). Its notes lie in the octave from F3 up, the root of a chord of five notes and more left to the bass.
   */
  readonly rhythm?: string;
  /**
   * One line for each percussion voice: x a stroke, X an accent, g a ghost stroke, - nothing. The characters of a bar divide it evenly; | divides bars, same is the bar before, ... at the end repeats the bars so far.
   */
  readonly voices?: {
    /**
     * The line of one voice.
     */
    readonly [k: string]: string;
  };
  /**
   * A click without a grid: every beat, beats 2 and 4 (any beats of each bar), every bar, or every 2 bars (any number of bars that fills the pattern). The first beat of a bar is higher.
   */
  readonly click?: string;
  /**
   * A Standard MIDI File or MusicXML file to take the part from: a path below the folder of this course, with / between folders.
   */
  readonly file?: string;
  /**
   * Which track of the MIDI file: its number counted from 1, or its name. Range: 1 to 1000.
   */
  readonly track?: number | string;
  /**
   * Which part of the MusicXML file: its id or its name.
   */
  readonly part?: string;
  /**
   * A sound file of this part that you recorded (WAV, FLAC, MP3, Ogg, or what ffmpeg reads): a path below the folder of this curriculum, with / between folders. It is heard in place of the notes beside it, which are what is printed and measured; without notes beside it the part is heard and not printed. With an instrument or notes with pitches it moves with the key; drums do not.
   */
  readonly recording?: string;
  /**
   * The same part recorded at several tempi, in beats a minute: the recording with the nearest tempo is stretched to that of the rung.
   */
  readonly recordings?: {
    /**
     * The sound file of this tempo, or the file with where bar 1 begins in it and which bars are taken.
     */
    readonly [k: string]: string | RecordedFileDocument;
  };
  /**
   * The tempo of the recording in beats a minute, as a drill writes its tempo: 96, or 60 of 3/8. Range: above 0.
   */
  readonly tempo?: Written<Bpm> | string;
  /**
   * Where bar 1 begins in the recording; at its beginning when left out.
   */
  readonly starts?: string;
  /**
   * Seconds at which each bar taken begins in the recording, then where the last one ends, in place of `starts`: the grid follows the recording, so that silences, landings and what the student is measured against are where it plays them. One recording of a pattern may have them; `leeway check` prints them for a recording that does not keep its tempo.
   *
   * @minItems 2
   * @maxItems 1025
   *
   * Items: Seconds from the beginning of the file. Range: 0 to 100000.
   */
  readonly "bar-lines"?: readonly Written<Seconds>[];
  /**
   * Which bars of the file or the recording, first and last, counted from 1; from its first bar when left out. Bars of a recording go round and round: of a phrase of 4, 1-2 are heard twice, and 1-8 take two phrases.
   */
  readonly bars?: string;
}
/**
 * A sound file, where bar 1 begins in it, and which bars are taken.
 */
export interface RecordedFileDocument {
  /**
   * A path below the folder of this curriculum, with / between folders.
   */
  readonly file: string;
  /**
   * Where bar 1 begins in the recording; at its beginning when left out.
   */
  readonly starts?: string;
  /**
   * Which bars of the file or the recording, first and last, counted from 1; from its first bar when left out. Bars of a recording go round and round: of a phrase of 4, 1-2 are heard twice, and 1-8 take two phrases.
   */
  readonly bars?: string;
}
/**
 * An exercise over one pattern. Without `dropout` it is a steady drill, in which nothing falls silent.
 */
export interface DrillDocument {
  /**
   * The title students see.
   */
  readonly title?: string;
  /**
   * What the student should do and listen for.
   */
  readonly about?: string;
  /**
   * The name, or a list of the names, this drill had in earlier editions, so that students keep what they have shown.
   */
  readonly formerly?: string | readonly string[];
  /**
   * Drills that must be finished before this one opens.
   *
   * @maxItems 100
   */
  readonly needs?: readonly string[];
  /**
   * Name of the pattern it is played over.
   */
  readonly pattern: string;
  /**
   * Name of the part the student plays.
   */
  readonly student: string;
  /**
   * Who the student's part is written out for, when it differs from the players of the course.
   *
   * @maxItems 50
   */
  readonly players?: readonly PlayerDocument[];
  /**
   * How often the pattern is played through in one take. When left out: 4, or as many as silences need that grow. endless: as when left out, and on the practice page what is no take goes round and round until it is stopped. Range: 1 to 64.
   */
  readonly phrases?: number | "endless";
  /**
   * How long the student hears the beat before bar 1, in bars or beats, and with what sound; none to start at once.
   */
  readonly "count-in"?: string | CountInDocument;
  /**
   * How much of the pattern is played again after the last phrase, so that the last silence has a downbeat to come back on; none to leave it out.
   */
  readonly outro?: string;
  /**
   * The note value that the tempo counts; the beat of the meter when left out (1/4 note in 4/4, 3/8 note in 12/8, 1/8 note in 7/8).
   */
  readonly beat?: string;
  /**
   * Beats per minute, when the tempo does not climb. Range: 1 to 1000.
   */
  readonly tempo?: number;
  /**
   * How the tempo rises inside one take, from the tempo of the rung on, when that does not climb: so many beats a minute after each phrase, or after so many phrases; below 0 it falls. The outro keeps the tempo of the last phrase. Range: -1000 to 1000.
   */
  readonly rise?: number | string;
  /**
   * Which variant of the parts is played, when it does not climb.
   */
  readonly variant?: string;
  /**
   * Concert key the pattern is moved to, when it does not climb, to the nearest place, or an octave higher or lower than that; the pattern's own key when left out.
   */
  readonly key?: string;
  readonly dropout?: DropoutDocument;
  readonly open?: OpenDocument;
  /**
   * What climbs. The first ladder climbs first; when it is at its top the next climbs one step and the first starts again.
   *
   * @maxItems 8
   */
  readonly ladders?: readonly LadderDocument[];
  /**
   * Versions to practise with, by name: what each part does. The first is the one takes are measured in. A part that is not named drops when it is among the parts of the dropout, otherwise plays; the student's part is off.
   */
  readonly mixes?: {
    readonly [k: string]: MixDocument;
  };
  readonly tolerance: ToleranceDocument;
  readonly gate?: GateDocument;
  readonly "go-back"?: GoBackDocument;
}
/**
 * The beat before bar 1: how long, and with what sound.
 */
export interface CountInDocument {
  /**
   * How long, in bars or beats.
   */
  readonly length?: string;
  /**
   * A percussion voice; the first beat of a bar is struck harder, and with a click it is higher.
   */
  readonly sound?: string;
}
/**
 * The silence in each phrase.
 */
export interface DropoutDocument {
  /**
   * Silences that grow inside one take: from, to and by, or a list of lengths, one for each phrase.
   */
  readonly grows?: GrowthDocument | readonly string[];
  /**
   * How long the accompaniment is silent, in bars, beats or note values, when the length does not climb.
   */
  readonly length?: string;
  /**
   * Where in the phrase: at its end, at its start, at a place drawn anew for each phrase (random), or so that the accompaniment returns after each of these bars.
   */
  readonly at?: "end" | "start" | "random" | readonly number[];
  /**
   * For `at: random`: any whole number. The same number draws the same places. Range: 0 to 2147483647.
   */
  readonly seed?: number;
  /**
   * Which parts fall silent, when that does not climb, or how they become more inside one take; all but the student's when left out.
   */
  readonly parts?: readonly string[] | PartsGrowthDocument;
  /**
   * Parts whose notes may ring on into the silence for as long as they are written, to its end at most; every other part is cut off where the silence begins.
   *
   * @minItems 1
   * @maxItems 50
   */
  readonly "let-ring"?: readonly string[];
}
/**
 * How the parts that fall silent become more inside one take. The last list holds to the end of the take.
 */
export interface PartsGrowthDocument {
  /**
   * Lists of parts, each with the parts of the one before.
   *
   * @minItems 1
   * @maxItems 64
   */
  readonly grows: readonly (readonly string[])[];
  /**
   * For how many phrases each list holds.
   */
  readonly each?: string;
}
/**
 * How the silences of one take grow from phrase to phrase. The last length holds to the end of the take.
 */
export interface GrowthDocument {
  /**
   * The first length.
   */
  readonly from?: string;
  /**
   * The last length; the steps must reach it exactly. Left out when a ladder says what the silences grow to.
   */
  readonly to?: string;
  /**
   * What each step adds.
   */
  readonly by?: string;
  /**
   * The lengths in order, in place of from, to and by. None is shorter than the one before.
   *
   * @minItems 1
   * @maxItems 64
   */
  readonly lengths?: readonly string[];
  /**
   * For how many phrases each length holds.
   */
  readonly each?: string;
}
/**
 * Bars left to the player to improvise in. What is written in them is an example, heard in mixes in which the student's part plays.
 */
export interface OpenDocument {
  /**
   * Bars of the phrase that are open, when that does not climb.
   *
   * @maxItems 128
   *
   * Items: Range: 1 to 128.
   */
  readonly bars?: readonly number[];
  /**
   * Scale to improvise in, in concert pitch, for the pattern's own key; the pattern's key when left out.
   */
  readonly scale?: string;
  /**
   * Shortest note value the player is expected to use there; the pulse is looked for on it.
   */
  readonly subdivision?: string;
}
/**
 * One thing that climbs: exactly one of dropout, grows, tempo, rise, variant, key, parts, mix and open.
 */
export interface LadderDocument {
  /**
   * Length of the silence: from, to and by, or a list of lengths.
   */
  readonly dropout?: SpanStepsDocument | readonly string[];
  /**
   * What the silences of one take grow to: from, to and by, or a list of lengths. The dropout says from where, by how much and for how many phrases each.
   */
  readonly grows?: SpanStepsDocument | readonly string[];
  /**
   * Tempo in beats per minute: from, to and by, or a list.
   */
  readonly tempo?: TempoStepsDocument | readonly number[];
  /**
   * How the tempo rises inside one take, easiest first.
   *
   * @maxItems 1000
   *
   * Items: Range: -1000 to 1000.
   */
  readonly rise?: readonly (number | string)[];
  /**
   * Variants of the parts, easiest first.
   *
   * @maxItems 1000
   */
  readonly variant?: readonly string[];
  /**
   * Concert keys the pattern is moved to: to the nearest place (at most a tritone), or an octave higher or lower than that.
   *
   * @maxItems 1000
   */
  readonly key?: readonly string[];
  /**
   * Which parts fall silent, one list for each step.
   *
   * @maxItems 1000
   */
  readonly parts?: readonly (readonly string[])[];
  /**
   * Names of mixes, easiest first.
   *
   * @maxItems 1000
   */
  readonly mix?: readonly string[];
  /**
   * Which bars are open, one list for each step; an empty list for none.
   *
   * @maxItems 1000
   */
  readonly open?: readonly (readonly number[])[];
  /**
   * Where this ladder starts again when the next one climbs: at its bottom, or so many rungs below its top.
   */
  readonly restart?: string;
}
/**
 * Lengths that grow by the same step.
 */
export interface SpanStepsDocument {
  /**
   * First length.
   */
  readonly from: string;
  /**
   * Last length; the steps must reach it exactly.
   */
  readonly to: string;
  /**
   * What each step adds.
   */
  readonly by: string;
}
/**
 * Tempi that rise (or fall) by the same step.
 */
export interface TempoStepsDocument {
  /**
   * First tempo, beats per minute. Range: 1 to 1000.
   */
  readonly from: number;
  /**
   * Last tempo, beats per minute. Range: 1 to 1000.
   */
  readonly to: number;
  /**
   * What each step adds: beats per minute (negative to slow down), or per cent of the tempo before, rounded to whole beats per minute (halves up). Range: -1000 to 1000.
   */
  readonly by: number | string;
}
/**
 * What each part does: it plays throughout, drops (falls silent in the dropouts), or is off.
 */
export interface MixDocument {
  /**
   * plays, drops or off.
   */
  readonly [k: string]: "plays" | "drops" | "off";
}
/**
 * How far off still counts as in time. What is left out is measured but not judged.
 */
export interface ToleranceDocument {
  /**
   * Largest drift over a silence, either way: per cent of the tempo, or milliseconds.
   */
  readonly drift?: string;
  /**
   * Largest distance of the note on which the accompaniment returns, either way, in milliseconds.
   */
  readonly landing?: string;
  /**
   * Largest steadiness while the accompaniment plays (standard deviation), in milliseconds.
   */
  readonly steadiness?: string;
  /**
   * Smallest share of the notes of each silence that must be played, rounded up to whole notes: a fraction, or per cent. A half when left out; 0 % where resting through a silence and landing is what is asked.
   */
  readonly played?: string;
}
/**
 * What must be shown to leave a rung: `clean` of the last so many takes, so many `in-a-row`, or a `sequential` test. Write exactly one of the three.
 */
export interface GateDocument {
  /**
   * Takes within tolerance that are asked for. Range: 1 to 1000.
   */
  readonly clean?: number;
  /**
   * How many of the last takes are looked at. Range: 1 to 1000.
   */
  readonly of?: number;
  /**
   * Takes within tolerance one after the other. Range: 1 to 1000.
   */
  readonly "in-a-row"?: number;
  readonly sequential?: SequentialDocument;
}
/**
 * Wald's sequential test: it asks for as many takes as it needs to tell an able player from an unready one.
 */
export interface SequentialDocument {
  /**
   * Share of takes within tolerance of a player who should go on.
   */
  readonly able: string;
  /**
   * Share of takes within tolerance of a player who should stay.
   */
  readonly unready: string;
  /**
   * How often an unready player may be let on.
   */
  readonly "wrongly-let-on"?: string;
  /**
   * How often an able player may be held.
   */
  readonly "wrongly-held"?: string;
}
/**
 * When a rung is made easier; never when left out.
 */
export interface GoBackDocument {
  /**
   * Takes in a row beyond tolerance. Range: 1 to 1000.
   */
  readonly after: number;
  /**
   * How many rungs to go back.
   */
  readonly by?: string;
}
