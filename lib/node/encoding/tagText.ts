import type { Label } from "../../formats/sound/index.js";
import type { Encoding } from "./formats.js";

/** Size of the cover, pixels each way; our choice, what players show at full width of a phone. */
export const COVER_SIZE = 1000;

/** The tags of a file in ffmpeg's own text form, from which it writes those of each format. */
export function tagText(as: Encoding, label: Label, cover: Uint8Array | undefined): string {
  const { title, comment, author, course, copyright, licence, tempo, software } = label;
  const whole = tempo === undefined ? undefined : String(Math.round(tempo));
  const common = { title, artist: author, album: course, comment, encoded_by: software };
  const byFormat: Readonly<Record<Encoding, Readonly<Record<string, string | undefined>>>> = {
    mp3: { copyright, TBPM: whole, license: licence },
    // MP4 has no tag for a licence: it stands beside the copyright.
    m4a: { copyright: [copyright, licence].filter((text) => text !== undefined).join(". ") || undefined, tmpo: whole },
    opus: vorbis({ copyright, licence, tempo }, cover),
    ogg: vorbis({ copyright, licence, tempo }, cover),
  };
  const tags = Object.entries({ ...common, ...byFormat[as] }).filter(([, value]) => value !== undefined);
  return `;FFMETADATA1\n${tags.map(([name, value]) => `${name}=${escaped(value!)}\n`).join("")}`;
}

/** Chapters in the same form, after the tags; times in thousandths of a second. */
export function chapterText(
  chapters: readonly { readonly title: string; readonly from: number; readonly to: number }[],
): string {
  const thousandths = (seconds: number): number => Math.round(1000 * seconds);
  return chapters
    .map(
      ({ title, from, to }) =>
        `[CHAPTER]\nTIMEBASE=1/1000\nSTART=${thousandths(from)}\nEND=${thousandths(to)}\ntitle=${escaped(title)}\n`,
    )
    .join("");
}

/** Names of Vorbis comments beside those that ffmpeg has words for: of the specification of the comment field, and of common practice (from memory). */
function vorbis(
  { copyright, licence, tempo }: Pick<Label, "copyright" | "licence" | "tempo">,
  cover: Uint8Array | undefined,
): Readonly<Record<string, string | undefined>> {
  return {
    COPYRIGHT: copyright,
    LICENSE: licence,
    BPM: tempo === undefined ? undefined : String(Math.round(tempo * 100) / 100),
    METADATA_BLOCK_PICTURE: cover === undefined ? undefined : Buffer.from(pictureBlock(cover)).toString("base64"),
  };
}

/** A PNG file as a picture block (RFC 9639, section 8.8), which Ogg has in a comment. 3: the front cover. */
function pictureBlock(png: Uint8Array): Uint8Array {
  const kind = new TextEncoder().encode("image/png");
  const block = new Uint8Array(32 + kind.length + png.length);
  const view = new DataView(block.buffer);
  view.setUint32(0, 3);
  view.setUint32(4, kind.length);
  block.set(kind, 8);
  const at = 8 + kind.length;
  // No description, then width, height, bits a pixel, and 0 for no palette.
  for (const [i, value] of [0, COVER_SIZE, COVER_SIZE, 24, 0, png.length].entries()) view.setUint32(at + 4 * i, value);
  block.set(png, at + 24);
  return block;
}

function escaped(text: string): string {
  return text.replace(/[\\=;#\n]/g, (sign) => `\\${sign}`);
}
