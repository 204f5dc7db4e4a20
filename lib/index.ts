/**
 * The library's door: courses, rungs, scores, findings and decisions. Everything here is pure. What needs more has a door of its own, so
 * that an application carries only what it uses; no name is at two doors, unless it is a type that both speak.
 */
export type {
  Beats,
  Bpm,
  Failure,
  Fraction,
  Milliseconds,
  MillisecondsPerRootBeat,
  Percent,
  Problem,
  Result,
  Seconds,
  Success,
} from "./base/index.js";
export { arithmetic as fraction, beats, bpm, milliseconds, percent, problemsIn, seconds } from "./base/index.js";
export type { Curriculum, CurriculumCode, EditionChanges, ReadFile, ReadOptions } from "./curriculum/index.js";
export {
  compareEditions,
  compileCourse,
  compiledCodes,
  curriculumCodes,
  editionProblems,
  findDrill,
  openCourse,
  readCurriculum,
  rewriteCurriculum,
} from "./curriculum/index.js";
export type {
  Drill,
  DrillCode,
  Gate,
  GoBack,
  Ladder,
  Mix,
  Parameter,
  Rung,
  Rungs,
  Settings,
  Tolerance,
} from "./drill/index.js";
export {
  drillCodes,
  findMix,
  findRung,
  isPreparation,
  parseSettings,
  preparationsOf,
  rungNumber,
  rungs,
  scoreOf,
  settingsText,
  usualMix,
} from "./drill/index.js";
export type { Instrument, Key, Note, Part, Pattern, PatternCode, Pitch, Scale } from "./pattern/index.js";
export {
  INSTRUMENTS,
  instrumentNamed,
  keyText,
  parseKey,
  parsePitch,
  patternCodes,
  pitchText,
  SCALES,
  scaleOf,
  soundingPitch,
  transposePitch,
  writtenPitch,
} from "./pattern/index.js";
export type {
  ChangeOptions,
  Decision,
  EditionEffect,
  Entries,
  Folding,
  Placement,
  ProgressCode,
  ReadJournal,
} from "./progress/index.js";
export {
  beginJournal,
  changeEdition,
  decide,
  drillStanding,
  effectOfEdition,
  fold,
  foldJournal,
  gateText,
  isCompleted,
  journalText,
  placeByTeacher,
  progressCodes,
  readJournal,
  recallDecision,
  rungStanding,
  silencesOf,
} from "./progress/index.js";
export type {
  DrillStanding,
  Finding,
  JournalEvent,
  RungStanding,
  Score,
  Standing,
  Take,
  Verdict,
} from "./schema/index.js";
export type { AssessOptions, DriftTrend, Follower, Following } from "./take/index.js";
export {
  assess,
  currentFinding,
  currentTake,
  driftTrends,
  follow,
  silenceLength,
} from "./take/index.js";
export type { Meter, Span, Swing, Tempo, TimeCode } from "./time/index.js";
export {
  barAt,
  meterText,
  parseMeter,
  parseSpan,
  parseSwing,
  parseTempo,
  resolveSpan,
  secondsAt,
  secondsOf,
  spanText,
  swingText,
  tempoText,
  timeCodes,
} from "./time/index.js";
