/** Formats of sound files, by their usual names. */
export type SoundFormat =
  | "WAV"
  | "FLAC"
  | "MP3"
  | "Ogg Vorbis"
  | "Ogg Opus"
  | "Ogg"
  | "M4A"
  | "AAC"
  | "WebM"
  | "AIFF"
  | "CAF"
  | "AMR";

/** Bytes that `soundFormatOf` needs: a whole first page of Ogg as encoders write it. */
export const SNIFFED = 512;

/** File name endings of each format. */
const ENDINGS: Readonly<Record<SoundFormat, readonly string[]>> = {
  WAV: ["wav", "wave", "rf64", "bwf"],
  FLAC: ["flac"],
  MP3: ["mp3", "mpga"],
  "Ogg Vorbis": ["ogg", "oga"],
  "Ogg Opus": ["opus", "ogg", "oga"],
  Ogg: ["ogg", "oga", "ogx", "spx"],
  M4A: ["m4a", "mp4", "m4b", "m4v", "mov", "3gp", "3g2", "aac"],
  AAC: ["aac", "adts"],
  WebM: ["webm", "weba", "mka", "mkv"],
  AIFF: ["aiff", "aif", "aifc"],
  CAF: ["caf"],
  AMR: ["amr", "3ga"],
};

/**
 * The format of a sound file by its first bytes; `undefined` for an unknown format. Skip ID3 tags before.
 *
 * Marks: RIFF WAVE and RF64 (EBU Tech 3306), RFC 9639 (FLAC), RFC 3533 (Ogg), ISO/IEC 14496-12 (`ftyp`), RFC 8794 (EBML), RFC 4867 (AMR);
 * frame headers of ISO/IEC 11172-3 and 13818-7.
 *
 * @example
 * soundFormatOf(new Uint8Array([0x66, 0x4c, 0x61, 0x43])) // "FLAC"
 */
export function soundFormatOf(bytes: Uint8Array): SoundFormat | undefined {
  const start = letters(bytes, 0, 4);
  if (/^(?:RIFF|RF64|BW64|RIFX)$/.test(start) && letters(bytes, 8, 4) === "WAVE") return "WAV";
  if (start === "fLaC") return "FLAC";
  if (start === "OggS") return oggCodec(letters(bytes, 0, SNIFFED));
  if (/^(?:ftyp|moov|mdat|wide)$/.test(letters(bytes, 4, 4))) return "M4A";
  if (start === "\x1a\x45\xdf\xa3") return "WebM";
  if (start === "FORM" && /^AIF[FC]$/.test(letters(bytes, 8, 4))) return "AIFF";
  if (start === "caff") return "CAF";
  if (letters(bytes, 0, 5) === "#!AMR") return "AMR";
  if (bytes[0] !== 0xff) return undefined;
  if ((bytes[1]! & 0xf6) === 0xf0) return "AAC";
  // Eleven sync bits, then a version and a layer that are not reserved.
  const isMpeg = (bytes[1]! & 0xe0) === 0xe0 && (bytes[1]! & 0x18) !== 0x08 && (bytes[1]! & 0x06) !== 0;
  return isMpeg && bytes[2]! >> 4 !== 0xf && (bytes[2]! & 0x0c) !== 0x0c ? "MP3" : undefined;
}

/**
 * Whether a file name has the ending of a sound file.
 *
 * @example
 * isSoundName("take.flac") // true
 */
export function isSoundName(name: string): boolean {
  const ending = endingOf(name);
  return Object.values(ENDINGS).some((endings) => endings.includes(ending));
}

/** Whether a file name has the ending of another sound format. */
export function isNamedWrongly(name: string, format: SoundFormat): boolean {
  return isSoundName(name) && !ENDINGS[format].includes(endingOf(name));
}

function endingOf(name: string): string {
  return /\.([^./\\]+)$/.exec(name)?.[1]?.toLowerCase() ?? "";
}

function oggCodec(page: string): SoundFormat {
  if (page.includes("\x01vorbis")) return "Ogg Vorbis";
  return page.includes("OpusHead") ? "Ogg Opus" : "Ogg";
}

function letters(bytes: Uint8Array, from: number, count: number): string {
  return String.fromCharCode(...bytes.subarray(from, from + count));
}
