import type { GlyphInk, Ink } from "./ink.js";
import { boxOf, outlineOf } from "./outline.js";
import { ACCIDENTALS, CLEFS, inFifths, nameOf, tiedIn, tiesIn } from "./readNotation.js";
import { all, hasClass, type SvgNode, svgTree } from "./svgTree.js";

/*
 * Reads notes with their lengths off an engraver's SVG: which heads, flags, beams, dots and tuplet numbers belong together is as its elements
 * say, what they are and where they lie is as they are drawn. Glyphs have the names of SMuFL 1.4; a staff space is 180 units.
 */

/** A note as it is played from the page; in whole notes from the first bar line of the drawing. */
export interface Played {
  readonly letter: string;
  readonly octave: number;
  readonly alter: number;
  readonly from: number;
  readonly to: number;
  readonly isAccented: boolean;
  /** Whether its head is in parentheses. */
  readonly isGhost: boolean;
  /** The last loudness printed under it or before it. */
  readonly loudness: string | undefined;
}

export interface EngravedRiff {
  readonly notes: readonly Played[];
  /** Where the note or rest begins over which each chord symbol stands; `undefined` for one that stands over none. */
  readonly chords: readonly (number | undefined)[];
  /** Where notes and rests begin, those that fill their bar left out: they stand in its middle. */
  readonly begins: readonly number[];
}

const SPACE = 180;
const NEAR = 1e-6;
const HEAD_VALUES: Readonly<Record<string, number>> = { E0A0: 2, E0A2: 1, E0A3: 1 / 2, E0A4: 1 / 4 };
/** Rests from the double whole one on, each half as long. */
const REST_VALUE = (code: string): number => 2 / 2 ** (Number.parseInt(code, 16) - 0xe4e2);
/** Flags come in pairs, up and down, from the eighth on. */
const FLAGS = (code: string): number => Math.floor((Number.parseInt(code, 16) - 0xe240) / 2) + 1;

/** Loudness marks (SMuFL 1.4, dynamics). */
const LOUDNESSES: Readonly<Record<string, string>> = {
  ...{ E52B: "pp", E520: "p", E52C: "mp", E52D: "mf", E522: "f", E52F: "ff" },
};

/** A note, chord or rest as drawn. */
interface Symbol {
  readonly x: number;
  /** In whole notes; absent for a rest as long as its bar, and for slashes. */
  readonly length: number | undefined;
  readonly heads: readonly DrawnHead[];
  readonly isAccented: boolean;
}

interface DrawnHead {
  readonly glyph: GlyphInk;
  readonly accidental: number | undefined;
  readonly isGhost: boolean;
}

/** Reads a riff; `bars` are the lengths of its bars in whole notes, each of which has to be full. */
export function readEngraved(svg: string, bars: readonly number[]): EngravedRiff {
  const root = svgTree(svg);
  const systems = all(root).filter((node) => hasClass(node, "system") && !isBox(node));
  const notes: Played[] = [];
  const chords: (number | undefined)[] = [];
  const begins: number[] = [];
  let start = 0;
  let bar = 0;
  let fifths = 0;
  let loudness: string | undefined;
  let open: (Played & { readonly line: string })[] = [];
  for (const system of systems) {
    const inside = all(system);
    const staffLines = inside.filter(({ name, attributes }) => name === "path" && attributes["stroke-width"] === "13");
    const ys = staffLines.slice(0, 5).map(({ attributes }) => Number(/ (-?[\d.]+) L/.exec(attributes.d!)![1]));
    const bottom = Math.max(...ys);
    const stepOf = (y: number): number => Math.round((bottom - y) / (SPACE / 2));
    const sign = useIn(inside.find((node) => hasClass(node, "clef") && !isBox(node))!)!;
    const clef = CLEFS[sign.code]! - stepOf(sign.y);
    const signature = inside.find((node) => hasClass(node, "keySig") && !isBox(node));
    if (signature !== undefined) fifths = usesIn(signature).reduce((sum, { code }) => sum + ACCIDENTALS[code]!, 0);
    const measures = inside.filter((node) => hasClass(node, "measure") && !isBox(node));
    const layers = measures.map((measure) => layersIn(measure).map(symbolsIn));
    const heads = layers.flat(2).flatMap((symbol) => symbol.heads.map(({ glyph }) => glyph));
    const ties = tiesIn(inside.filter((node) => hasClass(node, "tie") && !isBox(node)).flatMap(inkOfTie));
    const tied = tiedIn(
      heads.sort((a, b) => a.x - b.x),
      ties,
      SPACE,
    );
    for (const [m, measure] of measures.entries()) {
      const length = bars[bar]!;
      const events = layers[m]!.flatMap((symbols) => timed(symbols, length, bar + 1)).sort((a, b) => a.from - b.from);
      const holds = new Map<string, number>();
      const marks = measure.children
        .filter((node) => hasClass(node, "dynam") && !isBox(node))
        .map((node) => useIn(node)!)
        .map(({ code, box }) => ({ x: box.left, loudness: LOUDNESSES[code]! }));
      const before = loudness;
      // A mark begins with the head or rest that is nearest to it.
      const begun = marks.map(({ x, loudness }) => ({
        loudness,
        from: events.length === 0 ? 0 : nearestTo(x, events),
      }));
      const loudnessAt = (at: number): string | undefined =>
        begun.findLast(({ from }) => from < at + NEAR)?.loudness ?? before;
      const ended = open;
      open = [];
      for (const { symbol, from, to } of events) {
        for (const { glyph, accidental, isGhost: isInParentheses } of symbol.heads) {
          const { letter, octave } = nameOf(clef + stepOf(glyph.y));
          const line = letter + octave;
          if (accidental !== undefined) holds.set(line, accidental);
          const pool = [...ended, ...open];
          const tiedTo = tied.has(glyph)
            ? pool.find((each) => each.line === line && Math.abs(each.to - (start + from)) < NEAR)
            : undefined;
          if (tied.has(glyph) && tiedTo === undefined)
            throw new Error(`a tie from nowhere to ${line} in bar ${bar + 1}`);
          const alter = tiedTo?.alter ?? accidental ?? holds.get(line) ?? inFifths(letter, fifths);
          const isAccented = tiedTo?.isAccented ?? symbol.isAccented;
          const isGhost = tiedTo?.isGhost ?? isInParentheses;
          const inForce = tiedTo === undefined ? loudnessAt(from) : tiedTo.loudness;
          const note = {
            line,
            letter,
            octave,
            alter,
            from: tiedTo?.from ?? start + from,
            to: start + to,
            isAccented,
            isGhost,
            loudness: inForce,
          };
          if (tiedTo !== undefined)
            for (const some of [ended, open]) if (some.includes(tiedTo)) some.splice(some.indexOf(tiedTo), 1);
          open.push(note);
        }
      }
      notes.push(...ended);
      loudness = marks.at(-1)?.loudness ?? before;
      for (const harm of measure.children.filter((node) => hasClass(node, "harm"))) {
        const x = Number(all(harm).find(({ name }) => name === "text")!.attributes.x);
        // A head on the other side of its stem stands a little more than a space to the left.
        const under = events.find(({ symbol }) => Math.abs(symbol.x - x) < 1.5 * SPACE);
        chords.push(under && start + under.from);
      }
      begins.push(...events.filter(({ symbol }) => symbol.length !== undefined).map(({ from }) => start + from));
      start += length;
      bar += 1;
    }
  }
  return { notes: [...notes, ...open].map(({ line, ...note }: Played & { line?: string }) => note), chords, begins };
}

/** When the symbol begins that has a head or rest nearest to a place. */
function nearestTo(x: number, events: readonly { readonly symbol: Symbol; readonly from: number }[]): number {
  const far = ({ symbol }: { readonly symbol: Symbol }): number =>
    Math.min(...[symbol.x, ...symbol.heads.map(({ glyph }) => glyph.x)].map((each) => Math.abs(each - x)));
  return events.reduce((best, event) => (far(event) < far(best) ? event : best)).from;
}

/** When each symbol of a layer begins and ends in its bar. */
function timed(symbols: readonly Symbol[], length: number, bar: number) {
  // Rests that only make room are not drawn, and have a layer of their own; slashes have no lengths.
  if (symbols.length === 0) return [];
  let at = 0;
  const events = symbols.map((symbol) => {
    const from = at;
    at += symbol.length ?? (symbols.length === 1 ? length : Number.NaN);
    return { symbol, from, to: at };
  });
  if (Number.isNaN(at)) return [];
  if (Math.abs(at - length) > NEAR) throw new Error(`bar ${bar} of ${length} has ${at}`);
  return events;
}

/** In the time of how many a tuplet is whose number stands alone: common practice, no source. */
const USUAL: Readonly<Record<string, number>> = { 2: 3, 3: 2, 4: 3, 5: 4, 6: 4, 7: 4, 9: 8 };

/** What a tuplet's number, "3" or "15:10", makes of the lengths under it. */
function shareOf(number: SvgNode): number {
  const signs = usesIn(number).sort((a, b) => a.x - b.x);
  const text = signs.map(({ code }) => (code === "E88A" ? ":" : Number.parseInt(code, 16) - 0xe880)).join("");
  const [actual, normal = USUAL[text]] = text.split(":");
  return Number(normal) / Number(actual);
}

function layersIn(measure: SvgNode): readonly SvgNode[] {
  return all(measure).filter((node) => hasClass(node, "layer") && !isBox(node));
}

function symbolsIn(layer: SvgNode): readonly Symbol[] {
  const symbols: Symbol[] = [];
  const walk = (node: SvgNode, around: { beam?: SvgNode; share: number }): void => {
    if (isBox(node)) return;
    if (hasClass(node, "beam")) for (const child of node.children) walk(child, { ...around, beam: node });
    else if (hasClass(node, "tuplet")) {
      const share = shareOf(node.children.find((child) => hasClass(child, "tupletNum"))!);
      for (const child of node.children) walk(child, { ...around, share });
    } else if (["note", "chord", "rest", "mRest"].some((name) => hasClass(node, name))) {
      const symbol = symbolOf(node, around);
      if (symbol !== undefined) symbols.push(symbol);
    } else for (const child of node.children) walk(child, around);
  };
  walk(layer, { share: 1 });
  return symbols;
}

function symbolOf(node: SvgNode, { beam, share }: { beam?: SvgNode; share: number }): Symbol | undefined {
  const inside = all(node).filter((each) => !isBox(each));
  const dots = new Set(inside.filter(({ name }) => name === "ellipse").map(({ attributes }) => attributes.cx)).size;
  const dotted = 2 - 1 / 2 ** dots;
  const isAccented = inside.some(
    (each) => hasClass(each, "artic") && usesIn(each).some(({ code }) => /^E4A[01]$/.test(code)),
  );
  if (hasClass(node, "mRest")) return { x: usesIn(node)[0]!.x, length: undefined, heads: [], isAccented };
  if (hasClass(node, "rest")) {
    const glyph = useIn(node);
    // A rest that only makes room is not drawn.
    if (glyph === undefined) return undefined;
    return { x: glyph.x, length: REST_VALUE(glyph.code) * dotted * share, heads: [], isAccented };
  }
  const notes = hasClass(node, "note") ? [node] : inside.filter((each) => hasClass(each, "note"));
  const heads = notes.flatMap((note): readonly DrawnHead[] => {
    const glyph = useIn(note.children.find((child) => hasClass(child, "notehead"))!);
    const isGhost = usesIn(note.children.find((child) => hasClass(child, "notehead"))!).some(
      ({ code }) => code === "E26A",
    );
    const accid = note.children.find((child) => hasClass(child, "accid") && !isBox(child));
    const sign = accid && usesIn(accid).find(({ code }) => code in ACCIDENTALS);
    if (glyph === undefined || !(glyph.code in HEAD_VALUES)) return [];
    return [{ glyph, accidental: sign && ACCIDENTALS[sign.code]!, isGhost }];
  });
  // The first sign of a head is the head itself, those after it are its parentheses.
  const x = Math.min(
    ...notes.flatMap((note) => useIn(note.children.find((child) => hasClass(child, "notehead"))!)?.x ?? []),
  );
  if (heads.length === 0) return { x, length: undefined, heads, isAccented };
  const flag = inside.find((each) => hasClass(each, "flag"));
  const stem = inside.find((each) => hasClass(each, "stem"));
  const flags = flag === undefined ? beamsOn(stem, beam) : FLAGS(useIn(flag)!.code);
  return { x, length: (share * HEAD_VALUES[heads[0]!.glyph.code]! * dotted) / 2 ** flags, heads, isAccented };
}

/** How many beams a stem reaches: of two that meet at it one goes on as the other. */
function beamsOn(stem: SvgNode | undefined, beam: SvgNode | undefined): number {
  const path = stem && all(stem).find(({ name }) => name === "path");
  if (path === undefined || beam === undefined) return 0;
  const { left, top, bottom } = boxOf(outlineOf(path.attributes.d!));
  const heights: number[] = [];
  for (const { name, attributes } of beam.children) {
    if (name !== "polygon") continue;
    // Two corners to the left, two to the right.
    const corners = attributes.points!.split(/\s+/).map((point) => point.split(",").map(Number));
    const xs = corners.map(([x]) => x!);
    const [from, to] = [Math.min(...xs), Math.max(...xs)];
    if (from > left + 20 || to < left - 20) continue;
    const middleAt = (x: number): number =>
      corners.filter((each) => each[0] === x).reduce((sum, each) => sum + each[1]! / 2, 0);
    const y = middleAt(from) + ((middleAt(to) - middleAt(from)) * (left - from)) / (to - from);
    if (y > top - 60 && y < bottom + 60) heights.push(y);
  }
  // Beams lie three quarters of a space apart.
  return heights.sort((a, b) => a - b).filter((y, i) => i === 0 || y - heights[i - 1]! > SPACE / 3).length;
}

function usesIn(node: SvgNode): GlyphInk[] {
  return all(node).flatMap(({ name, attributes }): readonly GlyphInk[] => {
    if (name !== "use") return [];
    const code = /#(E[0-9A-F]{3})-/.exec(attributes["xlink:href"]!)![1]!;
    const [, x, y] = /translate\(([-\d.]+), ([-\d.]+)\)/.exec(attributes.transform!)!;
    const [left, top] = [Number(x), Number(y)];
    return [{ code, x: left, y: top, box: { left, right: left, top, bottom: top } }];
  });
}

function useIn(node: SvgNode): GlyphInk | undefined {
  return usesIn(node)[0];
}

function inkOfTie(node: SvgNode): readonly Ink[] {
  return node.children.flatMap(({ name, attributes }) => {
    if (name !== "path") return [];
    const pieces = outlineOf(attributes.d!);
    return [{ pieces, box: boxOf(pieces), isFilled: true, isStroked: true, width: 9 }];
  });
}

function isBox(node: SvgNode): boolean {
  return hasClass(node, "bounding-box");
}
