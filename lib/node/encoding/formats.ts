import type { Rate } from "../../render/sound/index.js";

/** A compressed format that the program `ffmpeg` writes. */
export interface EncodedFormat {
  /** What ffmpeg calls the encoder. */
  readonly encoder: string;
  /** What ffmpeg calls the file format. */
  readonly muxer: string;
  /** Its quality: our choices, at which listeners rarely tell music from the original (common practice, no source). */
  readonly quality: readonly string[];
  /** The only sampling rate of the format; absent when it has both. */
  readonly rate?: Rate;
  /** Whether a picture is a stream of the file (ID3, MP4) or a comment (Ogg). */
  readonly picture: "stream" | "comment";
  /** Options of the file format. */
  readonly file: readonly string[];
}

/** The name of a compressed format. */
export type Encoding = "mp3" | "m4a" | "opus" | "ogg";

/** The compressed formats, by the ending of their files. */
export const ENCODED: Readonly<Record<Encoding, EncodedFormat>> = {
  mp3: {
    encoder: "libmp3lame",
    muxer: "mp3",
    quality: ["-b:a", "192k"],
    picture: "stream",
    // The frame with the delay of the encoder, so that players leave it out.
    file: ["-write_xing", "1", "-id3v2_version", "3"],
  },
  m4a: {
    encoder: "aac",
    muxer: "ipod",
    quality: ["-b:a", "192k"],
    picture: "stream",
    // The edit list says where the sound begins; the index stands first, so that a browser plays before it has all.
    file: ["-use_editlist", "1", "-movflags", "+faststart"],
  },
  opus: { encoder: "libopus", muxer: "opus", quality: ["-b:a", "128k"], rate: 48000, picture: "comment", file: [] },
  ogg: { encoder: "libvorbis", muxer: "ogg", quality: ["-q:a", "6"], picture: "comment", file: [] },
};

/** Whether a format is one that ffmpeg writes. */
export function isEncoded(as: string): as is Encoding {
  return Object.hasOwn(ENCODED, as);
}
