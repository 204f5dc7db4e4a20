import type { PathMark } from "../drawing.js";
import { INK } from "../pageStyle.js";
import { UNITS_PER_SPACE } from "./engraver.js";

/*
 * Scoops and falls: Verovio 6.3 reads both from MusicXML and draws neither, so they are drawn here. Their notes are found again in its drawing by the id
 * that they are given. Curves as brass parts have them, beside the head: up into it from the left, down off it to the right. A head without an accidental gets a double
 * flat for the engraver, so that it leaves room where the scoop is drawn in its place.
 */

/** Sizes in staff spaces; our choice, by printed band parts. A curve is narrower where the next symbol is near. */
const SIZE = { width: 1.5, least: 0.4, rise: 1.1, drop: 1.6, gap: 0.2, line: 0.17 };

/** End of the id of a note whose accidental only makes room; what an accidental stands after (MusicXML 4.0, `note`), and that accidental. */
const ROOM = "-room";
const AFTER = /<\/type>(?:\s*<dot\/>)*/;
const DOUBLE_FLAT = "<accidental>flat-flat</accidental>";

/** Whether the accidental of a note is not to be drawn. */
export function onlyMakesRoom(id: string): boolean {
  return id.endsWith(ROOM);
}

/** How far under the middle of its head a slide reaches, in units of the engraved SVG. */
export const SLIDE_DEPTH: number = (SIZE.drop + SIZE.line / 2) * UNITS_PER_SPACE;

/** Gives the notes with a scoop or a fall an id that says so. */
export function withSlidesNamed(musicXml: string): string {
  let count = 0;
  return musicXml.replace(/<note>([\s\S]*?)<\/note>/g, (note, inside: string) => {
    const kinds = [inside.includes("<scoop/>") ? "scoop" : "", inside.includes("<falloff/>") ? "fall" : ""].filter(
      Boolean,
    );
    if (kinds.length === 0) return note;
    const needsRoom = kinds[0] === "scoop" && !inside.includes("<accidental");
    const id = `${kinds.join("-")}-slide${++count}${needsRoom ? ROOM : ""}`;
    return `<note id="${id}">${needsRoom ? inside.replace(AFTER, `$&${DOUBLE_FLAT}`) : inside}</note>`;
  });
}

/** The head of a note that slides: its edges with accidental and dots, and its middle, in units of the engraved SVG. */
export interface SlidingHead {
  left: number;
  right: number;
  readonly y: number;
  readonly scoops: boolean;
  readonly falls: boolean;
}

/** The head that a note's id and bounding box say; `undefined` for a note that does not slide. */
export function slidingHead(
  id: string,
  { left, right, y }: { left: number; right: number; y: number },
): SlidingHead | undefined {
  const [, scoop, fall] = /^(scoop-)?(fall-)?slide\d+(?:-room)?$/.exec(id) ?? [];
  if (scoop === undefined && fall === undefined) return undefined;
  return { left, right, y, scoops: scoop !== undefined, falls: fall !== undefined };
}

/** The curves of a head, in units of the engraved SVG, between the symbols beside it: `covered` are theirs. */
export function slideMarks(
  { left, right, y, scoops, falls }: SlidingHead,
  covered: readonly { readonly left: number; readonly right: number }[],
): readonly PathMark[] {
  const [gap, most, least] = [SIZE.gap, SIZE.width, SIZE.least].map((each) => each * UNITS_PER_SPACE) as [
    number,
    number,
    number,
  ];
  const widthIn = (room: number): number => Math.max(least, Math.min(most, room - 2 * gap));
  const marks: PathMark[] = [];
  if (scoops) {
    const before = Math.max(...covered.map((each) => each.right).filter((edge) => edge <= left), left - 2 * most);
    const [width, rise] = [widthIn(left - before), SIZE.rise * UNITS_PER_SPACE];
    const x = left - gap - width;
    marks.push(curve(x, y, `M0 ${rise}C${width * 0.55} ${rise} ${width * 0.85} ${rise * 0.6} ${width} 0`));
  }
  if (falls) {
    const after = Math.min(...covered.map((each) => each.left).filter((edge) => edge >= right), right + 2 * most);
    const [width, drop] = [widthIn(after - right), SIZE.drop * UNITS_PER_SPACE];
    marks.push(curve(right + gap, y, `M0 0C${width * 0.6} 0 ${width * 0.9} ${drop * 0.4} ${width} ${drop}`));
  }
  return marks;
}

function curve(x: number, y: number, d: string): PathMark {
  const width = SIZE.line * UNITS_PER_SPACE;
  return { kind: "path", x, y, scaleX: 1, scaleY: 1, d, stroke: INK, width };
}
