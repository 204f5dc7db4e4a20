// Generated from schemas/ by `npm run types`; change the schema instead.

/**
 * What is in a folder that holds a whole course, to be served by any web host: each file with its checksum and what it is of. It tells no times and no paths of a machine: the same course and choices give the same bytes.
 */
export interface Publication {
  /**
   * Version of this format; a reader refuses versions it does not know.
   */
  readonly version: 1;
  readonly madeBy: PublicationMaker;
  readonly course: PublishedCourse;
  /**
   * Where the folder is served, with a slash at its end: codes on paper lead there. Absent when nothing was said.
   */
  readonly address?: string;
  readonly asked: PublicationChoices;
  /**
   * The cautions about loudness and strain, as pages, sheets and sound say them.
   *
   * @minItems 1
   */
  readonly cautions: readonly string[];
  /**
   * Every file of the folder but this one, in order of names.
   */
  readonly files: readonly PublishedFile[];
}
/**
 * The program that made the folder.
 */
export interface PublicationMaker {
  /**
   * Its name.
   */
  readonly program: "leeway";
  /**
   * Its version (semantic version).
   */
  readonly version: string;
}
/**
 * The course that is published.
 */
export interface PublishedCourse {
  /**
   * Name of the curriculum.
   */
  readonly name: string;
  /**
   * Its edition (semantic version).
   */
  readonly edition: string;
  /**
   * Its title for people.
   */
  readonly title: string;
  /**
   * Language of the pages and sheets (BCP 47).
   */
  readonly language: string;
  /**
   * SHA-256 of the text of the course.
   */
  readonly sha256: string;
}
/**
 * What was chosen; what was left out is absent.
 */
export interface PublicationChoices {
  /**
   * Formats of sound, the first of them in the file for each instrument.
   *
   * @minItems 1
   */
  readonly formats: readonly ("wav" | "flac" | "mp3" | "m4a" | "opus" | "ogg")[];
  /**
   * Formats of films; there are none when absent.
   *
   * @minItems 1
   */
  readonly films?: readonly ("mp4" | "webm")[];
  /**
   * Present when films are higher than wide.
   */
  readonly upright?: true;
  /**
   * The mixes that sound; all when absent.
   */
  readonly mixes?: readonly string[];
  /**
   * The instruments that sheets are written for; those of the course when absent.
   */
  readonly players?: readonly string[];
  /**
   * The range of rungs; all when absent.
   */
  readonly rungs?: string;
  /**
   * Size of paper.
   */
  readonly paper: "a4" | "letter";
  /**
   * Present when sheets are in large print.
   */
  readonly largePrint?: true;
  /**
   * Integrated loudness that was asked for, in LUFS.
   */
  readonly loudness?: number;
  /**
   * SHA-256 of the sound bank; the built-in voices play when absent.
   */
  readonly bank?: string;
  /**
   * SHA-256 of the font for letters that the built-in ones lack; absent when none was given.
   */
  readonly font?: string;
}
/**
 * A file.
 */
export interface PublishedFile {
  /**
   * Path below the folder, with slashes.
   */
  readonly file: string;
  /**
   * Size in bytes. Range: at least 0.
   */
  readonly bytes: number;
  /**
   * SHA-256 of its content.
   */
  readonly sha256: string;
  /**
   * SHA-256 of all that it was made from: while it is the same, the file is not made again.
   */
  readonly from: string;
  /**
   * What it is: of the index page; of the practice page; the overview on paper; a sheet; a picture of when the band plays; sound; a film, or its captions; everything for one instrument; the same without what sounds; what sounds, for all instruments.
   */
  readonly kind: "index" | "practice" | "overview" | "sheet" | "strip" | "sound" | "film" | "zip" | "silent-zip" | "sound-zip";
  /**
   * The drill it is of; absent for the whole course.
   */
  readonly drill?: string;
  /**
   * The settings of the rung it is of.
   */
  readonly rung?: string;
  /**
   * The mix that sounds.
   */
  readonly mix?: string;
  /**
   * The instrument it is written for.
   */
  readonly player?: string;
  /**
   * The part that accompanies that it is written for.
   */
  readonly part?: string;
  /**
   * Present when all parts stand on it.
   */
  readonly score?: true;
  /**
   * Samples per second. Range: at least 1.
   */
  readonly rate?: number;
  /**
   * Samples of each channel. Range: at least 0.
   */
  readonly length?: number;
  /**
   * Number of the sample on which bar 1 begins. Range: at least 0.
   */
  readonly downbeat?: number;
  /**
   * Integrated loudness in LUFS; null when nothing sounds.
   */
  readonly loudness?: number | null;
  /**
   * True peak in dBTP; null when nothing sounds.
   */
  readonly peak?: number | null;
  /**
   * Whether its highest peak kept it quieter than asked for.
   */
  readonly heldBack?: boolean;
}
