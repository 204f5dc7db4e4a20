import type { ReadyRecording } from "../recording/index.js";
import type { RiffPicture } from "../render/sheet/index.js";

/** What a page has, in `page.json`, which it reads first. */
export interface PageIndex {
  readonly version: 1;
  /** BCP 47 tag of the language the page begins in. */
  readonly language: string;
  readonly courses: readonly ListedCourse[];
  /** Present when a school's server serves the page: takes of its students go there. */
  readonly school?: true;
}

export interface ListedCourse {
  readonly name: string;
  readonly edition: string;
  readonly title: string;
  /** Path of the compiled course. */
  readonly file: string;
  /** Path of its `SheetIndex`; absent when its riffs were not engraved. */
  readonly sheets?: string;
  /** Path of its `RecordingIndex`; absent for a course of notes. */
  readonly recordings?: string;
}

/** The recordings that a course plays, each made ready for the rungs that play it so: which, and the path of its FLAC file. */
export type RecordingIndex = readonly (Pick<ReadyRecording, "sha256" | "speed" | "semitones" | "from"> & {
  readonly file: string;
})[];

/** Width a riff was engraved for: a phone, or anything wider. */
export type SheetWidth = "narrow" | "wide";

/** Drill -> reader (name of an instrument, or `CONCERT`) -> form of the riff (`formText`) -> path of its picture for each width. */
export type SheetIndex = Readonly<
  Record<string, Readonly<Record<string, Readonly<Record<string, Readonly<Record<SheetWidth, string>>>>>>>
>;

/** The reader at concert pitch. */
export const CONCERT = "concert pitch";

/** An engraved riff as its file has it. */
export type Sheet = Omit<RiffPicture, "form">;

/** A file of a page: its path below the page's folder, and its content. */
export interface PageFile {
  readonly path: string;
  readonly content: string | Uint8Array;
}
