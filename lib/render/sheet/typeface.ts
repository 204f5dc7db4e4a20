import { create, type Font } from "fontkit";
import { failure, resultOf } from "../../base/index.js";
import type { Problem, Result } from "../problem.js";
import { sheetProblem } from "./codes.js";
import { FACES, type Face, type PathMark, type TextMark } from "./drawing.js";
import { sayProblem } from "./say.js";

/**
 * The bytes of an OpenType font for each face. The regular face contains the symbols for flats, sharps and notes. `other` has letters that no face has, such as
 * those of Japanese: they are drawn as outlines, as such fonts are too large for every file.
 */
export type SheetFonts = Readonly<Record<(typeof FACES)[number], Uint8Array>> & { readonly other?: Uint8Array };

/** The fonts of a sheet, ready to measure text. */
export interface Typeface {
  /** Width of a line of text in points. */
  width(text: string, face: Face, size: number): number;
  /** A line of text as marks from x, y. Symbols that only the regular face contains are set in the regular face. */
  line(
    text: string,
    at: { readonly x: number; readonly y: number; readonly face: Face; readonly size: number; readonly ink: string },
  ): readonly TextMark[];
  /** Breaks a text into lines of at most `width` points; a wider word is divided. Empty for an empty text. */
  lines(text: string, at: { readonly face: Face; readonly size: number; readonly width: number }): readonly string[];
  /** A line of text as the outlines of its letters, which look alike wherever they are drawn; the text itself where a face lacks one of them. */
  outlines(line: TextMark): readonly (TextMark | PathMark)[];
  /** Letters of a text that no face contains. */
  missing(text: string): readonly string[];
}

/** Opens the fonts of a sheet. Problem: FONT_NOT_READ. */
export function openTypeface(fonts: SheetFonts): Result<Typeface> {
  const problems: Problem[] = [];
  const opened = new Map<Face, Font>();
  for (const face of fonts.other === undefined ? FACES : ([...FACES, "other"] as const)) {
    const font = fontIn(fonts[face]);
    if (font) opened.set(face, font);
    else {
      const bytes = String(fonts[face]?.length ?? 0);
      problems.push(sheetProblem("FONT_NOT_READ", sayProblem("sheet-problem.font-not-read", { face, bytes })));
    }
  }
  if (problems.length > 0) return failure(...problems);
  return resultOf(typefaceOf(opened), []);
}

function fontIn(bytes: Uint8Array | undefined): Font | undefined {
  if (bytes === undefined) return undefined;
  try {
    const font = create(bytes);
    return font.unitsPerEm > 0 && font.layout("a").advanceWidth > 0 ? font : undefined;
  } catch {
    return undefined;
  }
}

function typefaceOf(fonts: ReadonlyMap<Face, Font>): Typeface {
  const has = (face: Face, letter: string): boolean =>
    fonts.get(face)?.hasGlyphForCodePoint(letter.codePointAt(0)!) ?? false;
  const runs = (text: string, face: Face): readonly { readonly text: string; readonly face: Face }[] => {
    const found: { text: string; face: Face }[] = [];
    for (const letter of text) {
      const used = ([face, "regular", "other"] as const).find((each) => has(each, letter)) ?? face;
      const last = found.at(-1);
      if (last?.face === used) last.text += letter;
      else found.push({ text: letter, face: used });
    }
    return found;
  };
  // Measuring is slow, and pages are laid out in several ways.
  const known = new Map<string, number>();
  const widthOfRun = (text: string, face: Face, size: number): number => {
    const key = `${face} ${text}`;
    let ems = known.get(key);
    if (ems === undefined) {
      const font = fonts.get(face)!;
      ems = font.layout(text).advanceWidth / font.unitsPerEm;
      known.set(key, ems);
    }
    return ems * size;
  };
  const width = (text: string, face: Face, size: number): number =>
    runs(text, face).reduce((sum, run) => sum + widthOfRun(run.text, run.face, size), 0);
  return {
    width,
    line(text, { x, y, face, size, ink }) {
      let at = x;
      return runs(text, face).map((run) => {
        const mark: TextMark = { kind: "text", x: at, y, text: run.text, face: run.face, size, ink };
        at += widthOfRun(run.text, run.face, size);
        return mark;
      });
    },
    lines(text, { face, size, width: most }) {
      const lines: string[] = [];
      for (const paragraph of text.split(/\n+/)) {
        let line = "";
        for (const word of paragraph
          .split(/[ \t]+/)
          .flatMap((each) => broken(each, (part) => width(part, face, size) <= most))) {
          const longer = line === "" ? word : `${line} ${word}`;
          if (line !== "" && width(longer, face, size) > most) {
            lines.push(line);
            line = word;
          } else line = longer;
        }
        if (line !== "") lines.push(line);
      }
      return lines;
    },
    outlines(line) {
      const { text, face, size, ink, y } = line;
      if ([...text].some((letter) => letter > " " && !has(face, letter))) return [line];
      const font = fonts.get(face)!;
      const { glyphs, positions } = font.layout(text);
      const scale = size / font.unitsPerEm;
      let at = line.x;
      return glyphs.flatMap(({ path }, i) => {
        const { xAdvance, xOffset, yOffset } = positions[i]!;
        const d = path.toSVG();
        const [x, up] = [at + xOffset * scale, y - yOffset * scale];
        at += xAdvance * scale;
        // Fonts count upwards.
        return d === "" ? [] : [{ kind: "path" as const, x, y: up, scaleX: scale, scaleY: -scale, d, fill: ink }];
      });
    },
    missing: (text) =>
      [...new Set(text)].filter(
        (letter) => letter > " " && [...FACES, "other" as const].every((face) => !has(face, letter)),
      ),
  };
}

/** A word divided into parts that fit. */
function broken(word: string, fits: (part: string) => boolean): readonly string[] {
  if (fits(word)) return [word];
  const parts: string[] = [];
  let part = "";
  for (const letter of word) {
    if (part !== "" && !fits(part + letter)) {
      parts.push(part);
      part = letter;
    } else part += letter;
  }
  return [...parts, part];
}
