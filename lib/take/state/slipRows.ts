import { BELIEF, copyBelief } from "./space.js";

// Rows alive at once at most, and how much less likely than the best one may be, in natural logarithms. Our choice.
export const ROWS = 48;
const DEEPEST = 11;

/** The hypotheses of the slip tracker side by side: where each stands in the music and in the take, and the belief about the player's time. */
export interface SlipRows {
  count: number;
  /** Made when a row is first used. */
  readonly belief: Float64Array[];
  readonly logWeight: Float64Array;
  /** When the belief is of, ms; and when the row last met a note. */
  readonly now: Float64Array;
  readonly metAt: Float64Array;
  /** The note expected next; the first onset not yet met; the displacement. */
  readonly note: Int32Array;
  readonly onset: Int32Array;
  readonly place: Int32Array;
  /** 1 in the family with a tempo of its own in this silence. */
  readonly wide: Int32Array;
  /** What became of the last expected note: 0 played, 1 left out, 2 none yet since the row came to this displacement. */
  readonly left: Int32Array;
  /** The displacement when the present silence began. */
  readonly placeBefore: Int32Array;
  /** The silence whose landing was met, or -1; the onset there (negative: left out, see `NOT_PLAYED`); the displacement there. */
  readonly landed: Int32Array;
  readonly landing: Int32Array;
  readonly landingPlace: Int32Array;
  /** Natural logarithm of the summed weights of added onsets near the landing as that note, off alone; and the heaviest of them. */
  readonly logLone: Float64Array;
  readonly lone: Int32Array;
  /** The last paired note: its time in the row, its asynchrony, and what the pair gained. */
  readonly heardAt: Float64Array;
  readonly heardLate: Float64Array;
  readonly gain: Float64Array;
  /** The last node of the row in the tree of readings. */
  readonly node: Int32Array;
}

export function createSlipRows(): SlipRows {
  const doubles = (): Float64Array => new Float64Array(ROWS);
  const integers = (): Int32Array => new Int32Array(ROWS);
  return {
    count: 0,
    belief: [new Float64Array(BELIEF)],
    logWeight: doubles(),
    now: doubles(),
    metAt: doubles(),
    note: integers(),
    onset: integers(),
    place: integers(),
    wide: integers(),
    left: integers(),
    placeBefore: integers(),
    landed: integers(),
    landing: integers(),
    landingPlace: integers(),
    logLone: doubles(),
    lone: integers(),
    heardAt: doubles(),
    heardLate: doubles(),
    gain: doubles(),
    node: integers(),
  };
}

export function copyRow(source: SlipRows, from: number, target: SlipRows, to: number): void {
  target.belief[to] ??= new Float64Array(BELIEF);
  copyBelief(source.belief[from]!, target.belief[to]);
  target.logWeight[to] = source.logWeight[from]!;
  target.now[to] = source.now[from]!;
  target.metAt[to] = source.metAt[from]!;
  target.note[to] = source.note[from]!;
  target.onset[to] = source.onset[from]!;
  target.place[to] = source.place[from]!;
  target.wide[to] = source.wide[from]!;
  target.left[to] = source.left[from]!;
  target.placeBefore[to] = source.placeBefore[from]!;
  target.landed[to] = source.landed[from]!;
  target.landing[to] = source.landing[from]!;
  target.landingPlace[to] = source.landingPlace[from]!;
  target.logLone[to] = source.logLone[from]!;
  target.lone[to] = source.lone[from]!;
  target.heardAt[to] = source.heardAt[from]!;
  target.heardLate[to] = source.heardLate[from]!;
  target.gain[to] = source.gain[from]!;
  target.node[to] = source.node[from]!;
}

/** Whether two rows at the same note, onset and place tell the same story from here on, so that their weights add up. */
function sameRow(rows: SlipRows, one: number, other: number): boolean {
  return (
    rows.wide[one] === rows.wide[other] &&
    rows.left[one] === rows.left[other] &&
    rows.placeBefore[one] === rows.placeBefore[other] &&
    rows.landed[one] === rows.landed[other] &&
    rows.landing[one] === rows.landing[other] &&
    rows.landingPlace[one] === rows.landingPlace[other]
  );
}

/** Adds the last row to an earlier one of the same story, the heavier one's belief and past standing for both; answers whether there was one. */
export function mergeLast(rows: SlipRows): boolean {
  const { note, onset, place, count } = rows;
  const last = count - 1;
  // What differs most comes first: this is most of what the tracker does.
  const [ownNote, ownOnset, ownPlace] = [note[last]!, onset[last]!, place[last]!];
  for (let r = 0; r < last; r++) {
    if (onset[r] !== ownOnset || place[r] !== ownPlace || note[r] !== ownNote || !sameRow(rows, r, last)) continue;
    const sum = logSum(rows.logWeight[r]!, rows.logWeight[last]!);
    if (rows.logWeight[last]! > rows.logWeight[r]!) copyRow(rows, last, rows, r);
    rows.logWeight[r] = sum;
    rows.count--;
    return true;
  }
  return false;
}

export function heaviestOf(rows: SlipRows): number {
  let best = 0;
  for (let r = 1; r < rows.count; r++) if (rows.logWeight[r]! > rows.logWeight[best]!) best = r;
  return best;
}

/** The least likely of all rows but one. */
export function leastOf({ logWeight }: SlipRows, keep: number): number {
  let least = keep === 0 ? 1 : 0;
  for (let r = 0; r < ROWS; r++) if (r !== keep && logWeight[r]! < logWeight[least]!) least = r;
  return least;
}

/** ln(e^a + e^b). */
export function logSum(a: number, b: number): number {
  const most = Math.max(a, b);
  const least = Math.min(a, b);
  return least === Number.NEGATIVE_INFINITY ? most : most + Math.log1p(Math.exp(least - most));
}

/**
 * Drops the rows that are much less likely than the best; the best row in place always stays. A row that has paired an onset still to come has
 * that pair's gain taken off, so that rows are compared by what they say of the onsets until now. Answers how likely the best is, so compared.
 */
export function pruneRows(rows: SlipRows, now: number): number {
  let best = Number.NEGATIVE_INFINITY;
  let bestInPlace = -1;
  const fair = (r: number): number =>
    rows.logWeight[r]! - (rows.heardAt[r]! + rows.heardLate[r]! > now ? Math.max(0, rows.gain[r]!) : 0);
  for (let r = 0; r < rows.count; r++) {
    best = Math.max(best, fair(r));
    if (rows.place[r] === 0 && (bestInPlace < 0 || rows.logWeight[r]! > rows.logWeight[bestInPlace]!)) bestInPlace = r;
  }
  let kept = 0;
  for (let r = 0; r < rows.count; r++) {
    if (r !== bestInPlace && fair(r) < best - DEEPEST) continue;
    if (kept !== r) copyRow(rows, r, rows, kept);
    kept++;
  }
  rows.count = kept;
  return best;
}
