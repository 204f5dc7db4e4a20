import { compare, type Fraction, type Result, resultOf, ZERO } from "../base/index.js";
import type { Instrument, Pattern } from "../pattern/index.js";
import type { DrillDocument } from "../schema/index.js";
import { beatOf, parseBeatUnit, resolveSpan, spanEnd } from "../time/index.js";
import { checkDrill } from "./checkDrill.js";
import { type Collector, collector } from "./collector.js";
import { compileDropout } from "./compileDropout.js";
import { compileFixed } from "./compileFixed.js";
import { compileEase, compileGate } from "./compileGate.js";
import { compileLadders } from "./compileLadders.js";
import { compileMixes } from "./compileMixes.js";
import { compileOpen } from "./compileOpen.js";
import { compilePlayers } from "./compilePlayers.js";
import { compileTolerance } from "./compileTolerance.js";
import type { Drill } from "./model.js";
import { parseLength } from "./parseLength.js";
import { type DrillNames, readName } from "./readSetting.js";

/** What a drill is compiled with. */
export interface DrillContext {
  /** The curriculum's patterns; `undefined` for one that has problems of its own, which are not repeated here. */
  readonly patterns: Readonly<Record<string, Pattern | undefined>>;
  /** The curriculum's own instruments, beside those of the built-in table. */
  readonly instruments: Readonly<Record<string, Instrument>>;
}

/** What a drill that leaves them out has, as the schema says. */
const USUAL = { phrases: 4, countIn: "1 bar", landing: "1 bar" } as const;

/**
 * A drill from its document, or every problem with it: what cannot be read, and what cannot be played, heard or judged on some rung.
 * Rungs are not gone through: ladders are reasoned about by their ends and lists, so that 10^9 rungs take as long as ten.
 *
 * Pointers are relative to the document. A drill over a pattern that has problems fails, with what else was found, possibly nothing.
 */
export function compileDrill(name: string, document: DrillDocument, context: DrillContext): Result<Drill> {
  const found = collector();
  const pattern = patternOf(document, context, found);
  if (pattern === undefined) return { ok: false, problems: found.problems };
  const parts = pattern.parts.map((part) => part.name);
  const student = found.keep(
    readName({ name: document.student, known: parts, code: "PART_UNKNOWN", owner: `pattern ${pattern.name}` }),
    "/student",
  );
  const mixes = compileMixes(document.mixes, pattern, found);
  const names: DrillNames = { pattern, student: document.student, mixes: mixes.map((mix) => mix.name) };
  const ladders = compileLadders(document.ladders ?? [], names, found);
  const fixed = compileFixed(document, names, found);
  const dropout = compileDropout(document, names, found);
  const open = compileOpen(document, pattern, found);
  const gate = compileGate(document.gate, found);
  const ease = compileEase(document.ease, found);
  const tolerance = compileTolerance(document.tolerance, found);
  const drill: Drill = {
    name,
    ...(document.title === undefined ? {} : { title: document.title }),
    ...(document.about === undefined ? {} : { about: document.about }),
    pattern,
    student: document.student,
    beat: beatUnit(document, pattern, found),
    phrases: document.phrases ?? USUAL.phrases,
    countIn: countIn(document, pattern, found),
    landing: landing(document, pattern, found),
    ...(dropout === undefined ? {} : { dropout }),
    ...(open === undefined ? {} : { open }),
    fixed,
    ladders,
    mixes,
    tolerance,
    gate: gate ?? { kind: "in a row", count: 1 },
    ...(ease === undefined ? {} : { ease }),
    needs: document.needs ?? [],
    players: compilePlayers(document, context.instruments, found),
  };
  if (student !== undefined) checkDrill(drill, document, found);
  return resultOf(drill, found.problems);
}

function patternOf(document: DrillDocument, { patterns }: DrillContext, found: Collector): Pattern | undefined {
  const question = {
    name: document.pattern,
    known: Object.keys(patterns),
    code: "PATTERN_UNKNOWN",
    owner: "the curriculum",
  } as const;
  const known = found.keep(readName(question), "/pattern");
  return known === undefined ? undefined : patterns[known];
}

function beatUnit(document: DrillDocument, pattern: Pattern, found: Collector): Fraction {
  const usual = beatOf(pattern.bars[0]!.meter);
  return document.beat === undefined ? usual : (found.keep(parseBeatUnit(document.beat), "/beat") ?? usual);
}

function countIn(document: DrillDocument, pattern: Pattern, found: Collector): Fraction {
  const written = document["count-in"] ?? USUAL.countIn;
  const span = written.trim() === "none" ? undefined : found.keep(parseLength(written), "/count-in");
  return span === undefined ? ZERO : resolveSpan(span, pattern.bars[0]!.meter);
}

function landing(document: DrillDocument, pattern: Pattern, found: Collector): Fraction {
  const written = document.landing ?? USUAL.landing;
  const span = written.trim() === "none" ? undefined : found.keep(parseLength(written), "/landing");
  const length = span === undefined ? ZERO : spanEnd(span, ZERO, pattern.bars);
  if (compare(length, pattern.length) <= 0) return length;
  const message = `the landing is the beginning of pattern ${pattern.name}, ${pattern.bars.length} bars at most; found ${written}`;
  found.add("LANDING_LONGER_THAN_PHRASE", message, "/landing", "write 1 bar");
  return pattern.length;
}
