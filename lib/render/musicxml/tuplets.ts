import { compare, divide, type Fraction, fraction, gcd, multiply, subtract } from "../../base/index.js";
import type { MetricNode } from "./metricTree.js";
import { SHORTEST_DRAWN } from "./pieces.js";

/** A stretch of a bar divided into `actual` notes of `unit` in the time of `normal`. */
export interface Tuplet {
  readonly from: Fraction;
  readonly to: Fraction;
  readonly actual: number;
  readonly normal: number;
  /** The written note value of one of them, in whole notes. */
  readonly unit: Fraction;
}

/** A note or rest of one voice in a bar. */
export interface Segment {
  readonly from: Fraction;
  readonly to: Fraction;
}

/** Our choice: the most notes in one tuplet that a reader is asked to count. */
const MOST_ACTUAL = 15;
/** Our choice: how far below its unit a beat is searched for a tuplet, in halvings; a quarter down to 64ths. */
const DEEPEST = 4;
/*
 * What a way to write a bar costs beside the notes themselves, in notes drawn: our choice, tried on triplets of eighths and quarters, also tied
 * on. A bracket and a note cut in two at its edge count one each, a note off the tuplet's own beats a little more, so that of two brackets the
 * one whose beats fit wins. What decides between ways as good is how far a reader has to count, then the longer bracket: a note held
 * over its edge says the same in larger values.
 */
const COST_OF_BRACKET = 1;
const COST_OF_CUT = 1;
const COST_OF_OFF_UNIT = 1.25;
/** For each note of the tuplet: a power of two, so that sums are exact, and so small that even the longest tuplet stays below an off beat's extra. */
const COST_OF_COUNTING = 1 / 64;

interface Way {
  readonly tuplets: readonly Tuplet[];
  readonly cost: number;
}

const NOTHING: Way = { tuplets: [], cost: 0 };
const IMPOSSIBLE: Way = { tuplets: [], cost: Number.POSITIVE_INFINITY };

/**
 * The tuplets that segments (in order, of one voice) call for in a bar, from their lengths alone; `undefined` when some end lies on no tuplet
 * of up to 15 in values that are drawn. An end lies in a tuplet when halving beats does not lead to it. Of all ways to
 * bracket the metric tree the cheapest is taken; where there is none, what lies between plain ends is a tuplet, whatever the beats.
 */
export function tupletsIn(segments: readonly Segment[], bar: MetricNode): readonly Tuplet[] | undefined {
  if (segments.every(({ to }) => isDyadic(to))) return [];
  const best = bestWay(bar, segments, DEEPEST);
  if (best.cost < Number.POSITIVE_INFINITY) return best.tuplets;
  const ways = betweenPlainEnds(segments).map((span) => asTuplet(span, touching(span, segments)));
  const free = ways.reduce(both, NOTHING);
  return free.cost < Number.POSITIVE_INFINITY ? free.tuplets : undefined;
}

/** Stretches from one plain end to the next with others between: tuplets that lie across the beats. */
function betweenPlainEnds(segments: readonly Segment[]): readonly Segment[] {
  const spans: Segment[] = [];
  let from = segments[0]?.from;
  for (const segment of segments) {
    if (!isDyadic(segment.to)) continue;
    if (from !== undefined && !isDyadic(segment.from)) spans.push({ from, to: segment.to });
    from = segment.to;
  }
  return spans;
}

function bestWay(node: MetricNode, segments: readonly Segment[], halvings: number): Way {
  const inside = touching(node, segments);
  if (endsInside(node, inside).every(isDyadic)) return NOTHING;
  const whole = asTuplet(node, inside);
  if (node.divides === "units") return cheaper(whole, byRuns(node.children(), inside, halvings));
  if (halvings === 0) return whole;
  const [first, second] = node.children();
  return cheaper(whole, both(bestWay(first!, inside, halvings - 1), bestWay(second!, inside, halvings - 1)));
}

/** Units each for themselves, or several next to each other as one tuplet: the best way up to each unit from those before. */
function byRuns(units: readonly MetricNode[], segments: readonly Segment[], halvings: number): Way {
  const upTo: Way[] = [NOTHING];
  for (let end = 1; end <= units.length; end++) {
    let best = both(upTo[end - 1]!, bestWay(units[end - 1]!, segments, halvings));
    for (let start = end - 2; start >= 0; start--) {
      if (start === 0 && end === units.length) break;
      const run = { from: units[start]!.from, to: units[end - 1]!.to };
      best = cheaper(both(upTo[start]!, asTuplet(run, touching(run, segments))), best);
    }
    upTo.push(best);
  }
  return upTo.at(-1)!;
}

function both(a: Way, b: Way): Way {
  return { tuplets: [...a.tuplets, ...b.tuplets], cost: a.cost + b.cost };
}

/** The first where both cost the same. */
function cheaper(a: Way, b: Way): Way {
  return b.cost < a.cost ? b : a;
}

function asTuplet(span: Segment, segments: readonly Segment[]): Way {
  const tuplet = tupletOver(span, segments);
  if (tuplet === undefined) return IMPOSSIBLE;
  const edges = [tuplet.from, tuplet.to];
  const cuts = segments.flatMap(({ from, to }) => edges.filter((e) => compare(from, e) < 0 && compare(e, to) < 0));
  const share = divide(fraction(tuplet.actual), subtract(tuplet.to, tuplet.from));
  const ends = endsInside(tuplet, segments).map((end) => multiply(subtract(end, tuplet.from), share));
  // Ends between the tuplet's beats halve its unit, and what is shorter than any note drawn is no way to write it.
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

/** Where segments, which follow on each other, end within a span. */
function endsInside(span: Segment, segments: readonly Segment[]): readonly Fraction[] {
  return segments.map(({ to }) => to).filter((end) => compare(end, span.from) > 0 && compare(end, span.to) < 0);
}

/** Whether a position is reached by halving: its divisor is a power of two. */
function isDyadic(position: Fraction): boolean {
  return Number.isInteger(Math.log2(position.d));
}

function oddPart(n: number): number {
  let odd = n;
  while (odd % 2 === 0) odd /= 2;
  return odd;
}

/** How many whole notes a written length takes inside a tuplet, and back. */
export function timeScale({ actual, normal }: Tuplet): { readonly sounding: Fraction; readonly written: Fraction } {
  return { sounding: fraction(normal, actual), written: fraction(actual, normal) };
}
