/** One piece of an outline, in absolute coordinates: where it goes, last point last. */
export interface Piece {
  readonly kind: "M" | "L" | "C" | "Z";
  readonly points: readonly Point[];
}

export interface Point {
  readonly x: number;
  readonly y: number;
}

export interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** Rows of an affine map, as SVG writes them: x' = a x + c y + e, y' = b x + d y + f. */
export type Affine = readonly [a: number, b: number, c: number, d: number, e: number, f: number];
export const IDENTITY: Affine = [1, 0, 0, 1, 0, 0];

/** First `inner`, then `outer`. */
export function composed(outer: Affine, [a, b, c, d, e, f]: Affine): Affine {
  const [A, B, C, D, E, F] = outer;
  return [A * a + C * b, B * a + D * b, A * c + C * d, B * c + D * d, A * e + C * f + E, B * e + D * f + F];
}

/** A `transform` attribute as SVG 1.1 (section 7.6) writes it: matrices, moves and scales, in any order. */
export function transformOf(text: string): Affine {
  let all = IDENTITY;
  for (const [, name, inside] of text.matchAll(/(\w+)\(([^)]*)\)/g)) {
    const [a = 0, b = 0, c = 0, d = 0, e = 0, f = 0] = inside!
      .trim()
      .split(/[\s,]+/)
      .map(Number);
    const next: Affine =
      name === "translate" ? [1, 0, 0, 1, a, b] : name === "scale" ? [a, 0, 0, b || a, 0, 0] : [a, b, c, d, e, f];
    all = composed(all, next);
  }
  return all;
}

function moved({ x, y }: Point, [a, b, c, d, e, f]: Affine): Point {
  return { x: a * x + c * y + e, y: b * x + d * y + f };
}

const NUMBERS: Readonly<Record<string, number>> = { m: 2, l: 2, h: 1, v: 1, c: 6, s: 4, a: 7, z: 0 };

/**
 * An outline in the path syntax of SVG 1.1 (section 8.3), without the quadratic curves that no program here writes. Arcs, which here make
 * circles only, are the lines between their ends.
 */
export function outlineOf(d: string, through: Affine = IDENTITY): readonly Piece[] {
  const tokens = d.match(/[a-zA-Z]|-?(?:\d+\.?\d*|\.\d+)(?:e-?\d+)?/g) ?? [];
  const pieces: Piece[] = [];
  let [at, start, control]: Point[] = [
    { x: 0, y: 0 },
    { x: 0, y: 0 },
    { x: 0, y: 0 },
  ];
  let command = "";
  for (let i = 0; i < tokens.length; ) {
    if (/[a-zA-Z]/.test(tokens[i]!)) command = tokens[i++]!;
    const lower = command.toLowerCase();
    const count = NUMBERS[lower];
    if (count === undefined) throw new RangeError(`no path command known here: ${command}`);
    const values = tokens.slice(i, i + count).map(Number);
    i += count;
    const from = command === lower ? at! : { x: 0, y: 0 };
    const points: Point[] = [];
    if (lower === "h") points.push({ x: from.x + values[0]!, y: at!.y });
    else if (lower === "v") points.push({ x: at!.x, y: from.y + values[0]! });
    else if (lower === "a") points.push({ x: from.x + values[5]!, y: from.y + values[6]! });
    else for (let k = 0; k < count; k += 2) points.push({ x: from.x + values[k]!, y: from.y + values[k + 1]! });
    if (lower === "s") points.unshift({ x: 2 * at!.x - control!.x, y: 2 * at!.y - control!.y });
    if (lower === "z") at = start;
    else at = points.at(-1)!;
    control = lower === "c" || lower === "s" ? points.at(-2)! : at;
    if (lower === "m") start = at;
    const kind = lower === "m" ? "M" : lower === "z" ? "Z" : points.length === 3 ? "C" : "L";
    pieces.push({ kind, points: points.map((point) => moved(point, through)) });
    if (lower === "m") command = command === "m" ? "l" : "L";
    if (lower === "z" && i < tokens.length && !/[a-zA-Z]/.test(tokens[i]!)) throw new RangeError("a number after z");
  }
  // Some programs end a closed outline with a move to nowhere.
  while (pieces.at(-1)?.kind === "M") pieces.pop();
  return pieces;
}

export function boxOf(pieces: readonly Piece[]): Box {
  const points = pieces.flatMap((piece) => piece.points);
  const [xs, ys] = [points.map(({ x }) => x), points.map(({ y }) => y)];
  return { left: Math.min(...xs), right: Math.max(...xs), top: Math.min(...ys), bottom: Math.max(...ys) };
}

/** How far two outlines of the same pieces lie apart, each set into a box one high: the furthest two points; infinite for other pieces. */
export function distance(a: readonly Piece[], b: readonly Piece[]): number {
  const [one, other] = [pointsInBox(a), pointsInBox(b)];
  if (one.length !== other.length || one.length < 3) return Number.POSITIVE_INFINITY;
  const furthest = Math.max(...one.map(({ x, y }, i) => Math.hypot(x - other[i]!.x, y - other[i]!.y)));
  // Lines without a height fit into no box.
  return Number.isNaN(furthest) ? Number.POSITIVE_INFINITY : furthest;
}

/** Lines back to where a part of the outline began are left out: some programs write them, some leave them to the closing. */
function pointsInBox(pieces: readonly Piece[]): readonly Point[] {
  const known = inBoxes.get(pieces) ?? setInBox(pieces);
  inBoxes.set(pieces, known);
  return known;
}

const inBoxes = new WeakMap<readonly Piece[], readonly Point[]>();

function setInBox(pieces: readonly Piece[]): readonly Point[] {
  const { left, top, bottom } = boxOf(pieces);
  const points: Point[] = [];
  let start: Point | undefined;
  for (const [i, piece] of pieces.entries()) {
    if (piece.kind === "M") start = piece.points[0];
    const to = piece.points.at(-1);
    const closes = piece.kind === "L" && pieces[i + 1]?.kind === "Z" && start !== undefined && to !== undefined;
    if (closes && Math.hypot(to.x - start!.x, to.y - start!.y) < 0.02 * (bottom - top)) continue;
    points.push(...piece.points);
  }
  return points.map(({ x, y }) => ({ x: (x - left) / (bottom - top), y: (y - top) / (bottom - top) }));
}
