import { compare, divide, type Fraction, fraction, gcd, multiply, subtract } from "../../base/index.js";
import type { MetricNode } from "./metricTree.js";
import { SHORTEST_DRAWN } from "./noteValues.js";

/** A tuplet: a stretch of a bar with `actual` notes of value `unit` in the time of `normal`. */
export interface Tuplet {
  readonly from: Fraction;
  readonly to: Fraction;
  readonly actual: number;
  readonly normal: number;
  /** Written note value of one note, in whole notes. */
  readonly unit: Fraction;
}

/** A note or rest of one voice in a bar. */
export interface Segment {
  readonly from: Fraction;
  readonly to: Fraction;
}

/** The most notes in one tuplet: our choice, as a reader has to count them. */
const MOST_ACTUAL = 15;
/** How often a unit is halved in the search for tuplets: our choice; a quarter down to 64ths. */
const DEEPEST = 4;
/*
 * The cost of a notation of a bar, in extra notes: our choice, tried on triplets of eighths and quarters, also tied ones. A bracket costs
 * one note. A note that a bracket splits costs one note. A note off the beats of the tuplet costs a little more, so that of two brackets
 * the one whose beats fit wins. Between notations of equal cost the tuplet with fewer notes wins, then the longer bracket: a note held
 * over its edge is then written in larger values.
 */
const COST_OF_BRACKET = 1;
const COST_OF_CUT = 1;
const COST_OF_OFF_UNIT = 1.25;
/** For each note of the tuplet: a power of two, so that sums are exact. The longest tuplet still costs less than a note off its beats. */
const COST_OF_COUNTING = 1 / 64;

interface Notation {
  readonly tuplets: readonly Tuplet[];
  readonly cost: number;
}

const NOTHING: Notation = { tuplets: [], cost: 0 };
const IMPOSSIBLE: Notation = { tuplets: [], cost: Number.POSITIVE_INFINITY };

/**
 * The tuplets for the segments of one voice in a bar, in order, from their lengths alone; `undefined` when an end lies on no tuplet of up to
 * 15 notes in printable values. An end needs a tuplet when halving beats does not reach it. The cheapest brackets over nodes of the metric
 * tree are taken. Where none fit, each stretch between two dyadic ends is a tuplet, whatever the beats.
 */
export function tupletsIn(segments: readonly Segment[], bar: MetricNode): readonly Tuplet[] | undefined {
  if (segments.every(({ to }) => isDyadic(to))) return [];
  const best = bestNotation(bar, segments, DEEPEST);
  if (best.cost < Number.POSITIVE_INFINITY) return best.tuplets;
  const notations = betweenDyadicEnds(segments).map((span) => asTuplet(span, touching(span, segments)));
  const free = notations.reduce(both, NOTHING);
  return free.cost < Number.POSITIVE_INFINITY ? free.tuplets : undefined;
}

/** Stretches between two successive dyadic ends with other ends between: tuplets across the beats. */
function betweenDyadicEnds(segments: readonly Segment[]): readonly Segment[] {
  const spans: Segment[] = [];
  let from = segments[0]?.from;
  for (const segment of segments) {
    if (!isDyadic(segment.to)) continue;
    if (from !== undefined && !isDyadic(segment.from)) spans.push({ from, to: segment.to });
    from = segment.to;
  }
  return spans;
}

function bestNotation(node: MetricNode, segments: readonly Segment[], halvings: number): Notation {
  const inside = touching(node, segments);
  if (endsInside(node, inside).every(isDyadic)) return NOTHING;
  const whole = asTuplet(node, inside);
  if (node.divides === "units") return cheaper(whole, byRuns(node.children(), inside, halvings));
  if (halvings === 0) return whole;
  const [first, second] = node.children();
  return cheaper(whole, both(bestNotation(first!, inside, halvings - 1), bestNotation(second!, inside, halvings - 1)));
}

/** Units one by one, or several adjacent units as one tuplet. Dynamic programming: the best notation up to each unit follows from those before. */
function byRuns(units: readonly MetricNode[], segments: readonly Segment[], halvings: number): Notation {
  const upTo: Notation[] = [NOTHING];
  for (let end = 1; end <= units.length; end++) {
    let best = both(upTo[end - 1]!, bestNotation(units[end - 1]!, segments, halvings));
    for (let start = end - 2; start >= 0; start--) {
      if (start === 0 && end === units.length) break;
      const run = { from: units[start]!.from, to: units[end - 1]!.to };
      best = cheaper(both(upTo[start]!, asTuplet(run, touching(run, segments))), best);
    }
    upTo.push(best);
  }
  return upTo.at(-1)!;
}

function both(a: Notation, b: Notation): Notation {
  return { tuplets: [...a.tuplets, ...b.tuplets], cost: a.cost + b.cost };
}

/** The first where both cost the same. */
function cheaper(a: Notation, b: Notation): Notation {
  return b.cost < a.cost ? b : a;
}

function asTuplet(span: Segment, segments: readonly Segment[]): Notation {
  const tuplet = tupletOver(span, segments);
  if (tuplet === undefined) return IMPOSSIBLE;
  const edges = [tuplet.from, tuplet.to];
  const cuts = segments.flatMap(({ from, to }) => edges.filter((e) => compare(from, e) < 0 && compare(e, to) < 0));
  const share = divide(fraction(tuplet.actual), subtract(tuplet.to, tuplet.from));
  const ends = endsInside(tuplet, segments).map((end) => multiply(subtract(end, tuplet.from), share));
  // Ends between the beats of the tuplet halve its unit; values shorter than the shortest printed note are impossible.
  if (ends.some(({ d }) => tuplet.unit.d * d > SHORTEST_DRAWN)) return IMPOSSIBLE;
  const offUnit = ends.filter(({ d }) => d !== 1);
  const drawn = COST_OF_BRACKET + COST_OF_CUT * cuts.length + COST_OF_OFF_UNIT * offUnit.length;
  return { tuplets: [tuplet], cost: drawn + COST_OF_COUNTING * tuplet.actual };
}

function tupletOver(span: Segment, segments: readonly Segment[]): Tuplet | undefined {
  const length = subtract(span.to, span.from);
  let actual = 1;
  for (const end of endsInside(span, segments)) {
    const odd = oddPart(divide(subtract(end, span.from), length).d);
    actual = (actual / gcd(actual, odd)) * odd;
    if (actual > MOST_ACTUAL) return undefined;
  }
  if (actual === 1) return undefined;
  // Three eighths hold five in the time of three, a half holds five in the time of four.
  let normal = oddPart(length.n);
  while (normal * 2 <= actual) normal *= 2;
  const unit = divide(length, fraction(normal));
  return unit.n === 1 && isDyadic(unit) ? { from: span.from, to: span.to, actual, normal, unit } : undefined;
}

function touching(span: Segment, segments: readonly Segment[]): readonly Segment[] {
  return segments.filter(({ from, to }) => compare(to, span.from) > 0 && compare(from, span.to) < 0);
}

/** The ends of adjacent segments inside a span. */
function endsInside(span: Segment, segments: readonly Segment[]): readonly Fraction[] {
  return segments.map(({ to }) => to).filter((end) => compare(end, span.from) > 0 && compare(end, span.to) < 0);
}

/** Whether halving reaches a position: its denominator is a power of two. */
function isDyadic(position: Fraction): boolean {
  return Number.isInteger(Math.log2(position.d));
}

function oddPart(n: number): number {
  let odd = n;
  while (odd % 2 === 0) odd /= 2;
  return odd;
}

/** Factors inside a tuplet from written to sounding length, and back. */
export function timeScale({ actual, normal }: Tuplet): { readonly sounding: Fraction; readonly written: Fraction } {
  return { sounding: fraction(normal, actual), written: fraction(actual, normal) };
}
