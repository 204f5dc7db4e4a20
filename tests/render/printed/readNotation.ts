import { type GlyphInk, type Glyphs, glyphsAmong, type Ink, type PageInk, type Text } from "./ink.js";

/*
 * Reads printed music off a page by where its ink lies: staves, clefs, signatures, heads, accidentals and ties. It knows nothing of how the
 * page was made. Glyphs have the names of SMuFL 1.4.
 */

/** A note head as a player reads it. */
export interface Head {
  readonly x: number;
  readonly letter: string;
  readonly octave: number;
  /** The accidental printed before it, in semitones; absent where there is none. */
  readonly sign?: { readonly alter: number; readonly isInParentheses: boolean };
  /** Whether a tie leads to it. */
  readonly isTied: boolean;
  /** In semitones: what the accidental, those before it in the bar, the signature, or the head it is tied to say. */
  readonly reads: number;
}

export interface PrintedBar {
  readonly heads: readonly Head[];
  /** Heads and rests that no pitch is read from: slashes, crosses. */
  readonly others: number;
}

/** A system of one staff. */
export interface PrintedSystem {
  readonly bars: readonly PrintedBar[];
  /** Sharps of its signature, negative for flats. */
  readonly fifths: number;
  /** Whether a time signature stands at its beginning: then a riff begins. */
  readonly hasMeter: boolean;
  /** Texts over the staff, left to right: chord symbols, words; not what stands further off. */
  readonly texts: readonly Text[];
}

const HEADS = new Set(["E0A0", "E0A2", "E0A3", "E0A4"]);
const OTHER_HEADS = /^E0(A9|B|C|D)|^E10/;
export const ACCIDENTALS: Readonly<Record<string, number>> = { E264: -2, E260: -1, E261: 0, E262: 1, E263: 2 };
const OPENING = "E26A";
/** Clefs: the staff step, C0 at 0, of the line a clef names. Middle C is 28. */
export const CLEFS: Readonly<Record<string, number>> = { E050: 32, E062: 24, E05C: 28 };
const METER = /^E08/;
const LETTERS = "CDEFGAB";
const SHARPS = "FCGDAEB";

/** The systems of a page from top to bottom. */
export function readNotation(page: PageInk, glyphs: Glyphs): readonly PrintedSystem[] {
  const found = glyphsAmong(page.ink, glyphs);
  const staves = stavesIn(page.ink);
  let signature: readonly string[] = [];
  let clef = 0;
  const read: { readonly system: number; readonly x: number; readonly name: string; readonly reads: number }[] = [];
  return staves.map((staff, i) => {
    const own = found.filter(({ y }) => nearest(staves, y) === staff).sort((a, b) => a.x - b.x);
    const space = (staff.bottom - staff.top) / 4;
    const stepOf = ({ y }: GlyphInk): number => Math.round((staff.bottom - y) / (space / 2));
    const sign = own.find(({ code }) => code in CLEFS);
    if (sign === undefined) throw new Error("a system without a clef");
    clef = CLEFS[sign.code]! - stepOf(sign);
    const heads = own.filter(({ code }) => HEADS.has(code));
    const firstHead = Math.min(
      ...own.filter((each) => HEADS.has(each.code) || OTHER_HEADS.test(each.code)).map(({ x }) => x),
    );
    const meter = own.find(({ code, x }) => METER.test(code) && x < firstHead);
    const accidentals = own.filter(({ code }) => code in ACCIDENTALS);
    const inSignature =
      meter === undefined ? accidentals.slice(0, signature.length) : accidentals.filter(({ x }) => x < meter.x);
    signature = inSignature.map((each) => nameOf(clef + stepOf(each)).letter + ACCIDENTALS[each.code]);
    const fifths = fifthsOf(signature);
    const others = accidentals.filter((each) => !inSignature.includes(each));
    const opened = own.filter(({ code }) => code === OPENING);
    const ties = tiesIn(page.ink).filter((tie) => nearest(staves, tie.y) === staff);
    const placed = heads.map((head) => ({ ...nameOf(clef + stepOf(head)), step: stepOf(head), glyph: head }));
    // An accidental belongs to the next head at its height.
    const signs = new Map<GlyphInk, GlyphInk>();
    for (const each of others) {
      const owner = heads.find((head) => head.x > each.x && stepOf(head) === stepOf(each) && !signs.has(head));
      if (owner === undefined) throw new Error("an accidental without a head");
      signs.set(owner, each);
    }
    const tied = tiedIn(heads, ties, space);
    const bars = staff.bars.map(({ left, right }): PrintedBar => {
      const holds = new Map<number, number>();
      const inside = placed.filter(({ glyph }) => glyph.x >= left - 0.1 * space && glyph.x < right);
      return {
        others: own.filter(({ code, x }) => OTHER_HEADS.test(code) && x >= left && x < right).length,
        heads: inside.map(({ letter, octave, step, glyph }): Head => {
          const accidental = signs.get(glyph);
          const alter = accidental === undefined ? undefined : ACCIDENTALS[accidental.code]!;
          const tie = tied.get(glyph);
          if (alter !== undefined) holds.set(step, alter);
          const name = letter + octave;
          const from = tie && read.findLast((other) => other.name === name && (other.system < i || other.x < tie.left));
          const reads = from?.reads ?? alter ?? holds.get(step) ?? inFifths(letter, fifths);
          read.push({ system: i, x: glyph.x, name, reads });
          const isInParentheses =
            accidental !== undefined &&
            opened.some(
              ({ x, y }) =>
                x < accidental.x && x > accidental.x - 1.2 * space && Math.abs(y - accidental.y) < 0.6 * space,
            );
          return {
            x: glyph.x,
            letter,
            octave,
            isTied: tie !== undefined,
            reads,
            ...(alter === undefined ? {} : { sign: { alter, isInParentheses } }),
          };
        }),
      };
    });
    const over = staff.top - (staves[i - 1]?.bottom ?? 0);
    const texts = page.texts.filter(({ y }) => y < staff.top + 2 * space && y > staff.top - Math.min(over, 18 * space));
    return { bars, fifths, hasMeter: meter !== undefined, texts: [...texts].sort((a, b) => a.x - b.x) };
  });
}

interface Staff {
  readonly top: number;
  readonly bottom: number;
  readonly bars: readonly { readonly left: number; readonly right: number }[];
}

/** Shortest line of a staff in a bar, in points; a ledger line is shorter, also one of a small staff, which is as thin as these. */
const SHORTEST_LINE = 15;

/** A line of a staff is thinner than a ledger line or a bar line. Each bar has five of its own, as far apart. */
function stavesIn(ink: readonly Ink[]): readonly Staff[] {
  const lines = ink.filter(
    ({ isStroked, isFilled, box, pieces, width }) =>
      isStroked &&
      !isFilled &&
      pieces.length === 2 &&
      width > 0.3 &&
      width < 0.45 &&
      box.bottom - box.top < 0.1 &&
      box.right - box.left > SHORTEST_LINE,
  );
  const staves: { top: number; bottom: number; bars: { left: number; right: number }[] }[] = [];
  for (let i = 0; i + 4 < lines.length; i += 5) {
    const five = lines.slice(i, i + 5).map(({ box }) => box);
    const gaps = five.slice(1).map(({ top }, k) => top - five[k]!.top);
    if (gaps.some((gap) => Math.abs(gap - gaps[0]!) > 0.1)) throw new Error("five lines that are no staff");
    const [top, bottom] = [five[0]!.top, five[4]!.top];
    const bar = { left: five[0]!.left, right: five[0]!.right };
    const last = staves.at(-1);
    if (last !== undefined && Math.abs(last.top - top) < 0.1) last.bars.push(bar);
    else staves.push({ top, bottom, bars: [bar] });
  }
  return staves;
}

interface Tie {
  readonly left: number;
  readonly right: number;
  readonly y: number;
  /** 1 where it bulges upwards, so that the head is under its ends, else -1. */
  readonly bulges: number;
}

/** Two curves there and back: nothing else on a page is drawn so, filled and stroked. */
export function tiesIn(ink: readonly Ink[]): readonly Tie[] {
  return ink.flatMap(({ pieces, isFilled, isStroked }) => {
    const curves = pieces.filter(({ kind }) => kind === "C");
    if (!isFilled || !isStroked || curves.length !== 2 || pieces.length > 4) return [];
    const [a, b] = [pieces[0]!.points[0]!, curves[0]!.points[2]!];
    const [from, to] = a.x < b.x ? [a, b] : [b, a];
    return [{ left: from.x, right: to.x, y: to.y, bulges: curves[0]!.points[0]!.y < a.y ? 1 : -1 }];
  });
}

/** The heads that ties lead to: each the one at the height of the tie whose partner, at the same height, stands where the tie begins. */
export function tiedIn(heads: readonly GlyphInk[], ties: readonly Tie[], space: number): ReadonlyMap<GlyphInk, Tie> {
  const tied = new Map<GlyphInk, Tie>();
  // A tie ends a quarter of a space from a head, a quarter under or over its middle; it is moved further off where dots or stems are, and
  // begins behind the dots of the head before.
  const [furthestUp, furthestOn, furthestBack] = [1.6 * space, 1.5 * space, 5 * space];
  const pairs = ties.flatMap((tie) => {
    const { left, right, y, bulges } = tie;
    const height = y + 0.25 * space * bulges;
    const isBroken = !heads.some(({ x }) => x < left);
    return heads.flatMap((head) => {
      const [up, on] = [Math.abs(head.y - height), Math.abs(head.x - right - 0.25 * space)];
      if (head.x <= left || up > furthestUp || on > furthestOn) return [];
      if (isBroken) return [{ tie, head, cost: up + 0.6 * on }];
      const onLine = heads.filter((other) => Math.abs(other.y - head.y) < 0.1 * space);
      const back = left - Math.max(...onLine.filter(({ x }) => x < left).map(({ x }) => x));
      // Beyond the width of two heads beside each other nothing stands on the line between.
      const isSkipping = onLine.some(({ x }) => x > left - back + 1.3 * space && x < head.x - 1.3 * space);
      if (isSkipping) return [];
      return back > furthestBack ? [] : [{ tie, head, cost: up + 0.6 * on + 0.3 * back }];
    });
  });
  // The plainest first: each tie leads to one head, each head is led to by one tie.
  const used = new Set<Tie>();
  for (const { tie, head } of pairs.sort((a, b) => a.cost - b.cost)) {
    if (used.has(tie) || tied.has(head)) continue;
    used.add(tie);
    tied.set(head, tie);
  }
  return tied;
}

function nearest(staves: readonly Staff[], y: number): Staff {
  return closest(staves, ({ top, bottom }) => Math.max(top - y, y - bottom, 0))!;
}

function closest<T>(some: readonly T[], far: (one: T) => number): T | undefined {
  return some.reduce<T | undefined>(
    (best, one) => (best === undefined || far(one) < far(best) ? one : best),
    undefined,
  );
}

/** The letter and octave of a staff step, C0 at 0. */
export function nameOf(step: number): { readonly letter: string; readonly octave: number } {
  return { letter: LETTERS[((step % 7) + 7) % 7]!, octave: Math.floor(step / 7) };
}

/** Signatures have their signs in one order only: F C G D A E B for sharps, from the other end for flats. */
function fifthsOf(signs: readonly string[]): number {
  const sharps = [...SHARPS].slice(0, signs.length).map((letter) => `${letter}1`);
  const flats = [...SHARPS]
    .reverse()
    .slice(0, signs.length)
    .map((letter) => `${letter}-1`);
  if (signs.join() === sharps.join()) return signs.length;
  if (signs.join() === flats.join()) return -signs.length;
  throw new Error(`no signature: ${signs.join(" ")}`);
}

export function inFifths(letter: string, fifths: number): number {
  const place = SHARPS.indexOf(letter);
  return fifths > 0 && place < fifths ? 1 : fifths < 0 && 6 - place < -fifths ? -1 : 0;
}
