import { compare, type Fraction, fraction, nearestName, resultOf, ZERO } from "../../base/index.js";
import {
  type Instrument,
  instrumentNamed,
  type Pattern,
  SCALES,
  scaleOf,
  unknownInstrument,
} from "../../pattern/index.js";
import { type DrillDocument, type MixDocument, pointerTo } from "../../schema/index.js";
import { beatOf, parseBeatUnit, resolveSpan, spanEnd } from "../../time/index.js";
import { checkDrill } from "../check/drill.js";
import { parseLength } from "../length.js";
import type { Drill, Mix } from "../model.js";
import type { Result } from "../problem.js";
import { canonicalSetting } from "../rung/settings.js";
import { say } from "../say.js";
import { type Collector, collector } from "./collector.js";
import { countIn, readCountIn } from "./countIn.js";
import { compileDropout } from "./dropout.js";
import { compileGate, compileGoBack } from "./gate.js";
import { compileFixedGrowth, compilePartsGrowth, phrasesToGrow } from "./growth.js";
import { compileLadders } from "./ladders.js";
import type { DrillNames } from "./place.js";
import { compileFixed, readName } from "./settings.js";
import { compileTempoSteps } from "./steps.js";
import { compileTolerance } from "./tolerance.js";

/** What a drill document refers to. */
export interface DrillContext {
  /** The curriculum's patterns by name; `undefined` for a pattern with problems, which are not reported again here. */
  readonly patterns: Readonly<Record<string, Pattern | undefined>>;
  /** What could be read of patterns with problems, by name: their bars, and the names of their parts. */
  readonly outlines?: Readonly<Record<string, Pattern>>;
  /** The names of patterns that an unknown one is compared with; left out: all. */
  readonly offered?: readonly string[];
  /** The instruments that the curriculum describes; they come beside the built-in table. */
  readonly instruments: Readonly<Record<string, Instrument>>;
  /** The scales that the curriculum describes, by name: semitones above the tonic. */
  readonly scales?: Readonly<Record<string, readonly number[]>>;
}

/** Defaults of the schema. */
const USUAL = { phrases: 4, outro: "1 bar" } as const;

/**
 * Compiles a drill document to a drill, or to all problems in it: what cannot be read, and what cannot be played, heard or judged on
 * some rung. Rungs are not checked one by one: the checks look at the ends and lists of the ladders, so that 10^9 rungs take as long as
 * ten.
 *
 * Pointers are relative to the document. A drill over a pattern with problems fails, with the problems of its own that were found, possibly none.
 */
export function compileDrill(name: string, document: DrillDocument, context: DrillContext): Result<Drill> {
  const found = collector();
  const whole = patternOf(document, context, found);
  const pattern = whole ?? outlineFor(document.pattern, context);
  if (pattern === undefined) {
    readWithoutPattern(document, context, found);
    return { ok: false, problems: found.problems };
  }
  const parts = pattern.parts.map((part) => part.name);
  const student = found.keep(
    readName({ name: document.student, known: parts, code: "PART_UNKNOWN", pattern: pattern.name }),
    "/student",
  );
  const mixes = compileMixes(document.mixes, pattern, found);
  const names: DrillNames = {
    pattern,
    student: document.student,
    mixes: mixes.map((mix) => mix.name),
    grows: document.dropout?.grows,
  };
  const ladders = compileLadders(document.ladders ?? [], names, found);
  const fixed = {
    ...compileFixed(document, names, found),
    ...compileFixedGrowth(document, names, found),
    ...compilePartsGrowth(document, names, found),
  };
  const dropout = compileDropout(document, names, found);
  const open = compileOpen(document, { pattern, scales: context.scales }, found);
  const gate = compileGate(document.gate, found);
  const goBack = compileGoBack(document["go-back"], found);
  const tolerance = compileTolerance(document.tolerance, found);
  const drill: Drill = {
    name,
    ...(document.title === undefined ? {} : { title: document.title }),
    ...(document.about === undefined ? {} : { about: document.about }),
    pattern,
    student: document.student,
    beat: beatUnit(document, pattern, found),
    phrases: phraseCount(document, { fixed, ladders }, found),
    ...(document.phrases === "endless" ? { endless: true as const } : {}),
    ...countIn(document, pattern, found),
    outro: outro(document, pattern, found),
    ...(dropout === undefined ? {} : { dropout }),
    ...(open === undefined ? {} : { open }),
    fixed,
    ladders,
    mixes,
    tolerance,
    gate: gate ?? { kind: "in a row", count: 1 },
    ...(goBack === undefined ? {} : { goBack }),
    needs: document.needs ?? [],
    players: compilePlayers(document, context.instruments, found),
  };
  // Of an outline only what is written in the drill is read.
  if (whole === undefined) return { ok: false, problems: found.problems };
  if (student !== undefined) checkDrill(drill, document, found);
  return resultOf(drill, found.problems);
}

/** Reads what of a drill needs no pattern, so that a broken pattern does not hide the problems there. */
function readWithoutPattern(document: DrillDocument, { instruments }: DrillContext, found: Collector): void {
  compileGate(document.gate, found);
  compileGoBack(document["go-back"], found);
  compileTolerance(document.tolerance, found);
  compilePlayers(document, instruments, found);
  if (document.tempo !== undefined) found.keep(canonicalSetting("tempo", String(document.tempo)), "/tempo");
  if (document.key !== undefined) found.keep(canonicalSetting("key", document.key), "/key");
  const { dropout, outro } = document;
  readCountIn(document, found);
  if (dropout?.length !== undefined) found.keep(parseLength(dropout.length), "/dropout/length");
  if (outro !== undefined && outro.trim() !== "none") found.keep(parseLength(outro), "/outro");
  (document.ladders ?? []).forEach(({ tempo }, i) => {
    if (tempo !== undefined && "from" in tempo) compileTempoSteps(tempo, { found, pointer: `/ladders/${i}/tempo` });
  });
}

/** The number of phrases of a take: as written, else as many as silences need that grow, else the usual number. */
function phraseCount(document: DrillDocument, settings: Pick<Drill, "fixed" | "ladders">, found: Collector): number {
  const phrases = document.phrases === "endless" ? undefined : document.phrases;
  const needed = phrasesToGrow(settings);
  if (phrases !== undefined && needed !== undefined && phrases < needed.least) {
    const message = say("drill-problem.growth-longer-than-take-phrases", { needed: needed.least, phrases });
    const remedy = say("drill-problem.write", { text: `phrases: ${needed.whole}` });
    found.add("GROWTH_LONGER_THAN_TAKE", message, "/phrases", remedy);
  }
  return phrases ?? needed?.whole ?? USUAL.phrases;
}

/** The mix of a drill without mixes: the accompaniment drops, the student's part is off. */
const USUAL_MIX: Readonly<Record<string, MixDocument>> = { play: {} };

/** Compiles the mixes of a drill, in the order written. The parts they name must be parts of the pattern. */
function compileMixes(
  documents: Readonly<Record<string, MixDocument>> | undefined,
  pattern: Pattern,
  found: Collector,
): readonly Mix[] {
  const known = pattern.parts.map(({ name }) => name);
  const written = Object.entries(documents ?? {});
  return (written.length > 0 ? written : Object.entries(USUAL_MIX)).map(([name, parts]) => {
    for (const part of Object.keys(parts)) {
      const question = { name: part, known, code: "PART_UNKNOWN", pattern: pattern.name } as const;
      found.keep(readName(question), pointerTo(["mixes", name, part]));
    }
    return { name, parts };
  });
}

/** Default of the schema: the subdivision of open bars. */
const USUAL_SUBDIVISION = fraction(1, 8);

/** Compiles the scale and subdivision of a drill's open bars; `undefined` for a drill without open bars. */
function compileOpen(
  document: DrillDocument,
  { pattern, scales = {} }: { readonly pattern: Pattern; readonly scales: DrillContext["scales"] | undefined },
  found: Collector,
): Drill["open"] {
  const { open } = document;
  const climbs = (document.ladders ?? []).some((ladder) => ladder.open !== undefined);
  if (open === undefined && !climbs) return undefined;
  const { tonic, mode } = pattern.key;
  const own = { tonic, name: mode, steps: SCALES[mode] ?? SCALES.chromatic! };
  const scale = open?.scale === undefined ? own : (found.keep(scaleOf(open.scale, scales), "/open/scale") ?? own);
  const written = open?.subdivision;
  const span = written === undefined ? undefined : found.keep(parseLength(written), "/open/subdivision");
  const subdivision = span === undefined ? USUAL_SUBDIVISION : resolveSpan(span, pattern.bars[0]!.meter);
  return { scale, subdivision };
}

/** Compiles the players of the student's part: those whose instrument is known. */
function compilePlayers(
  document: DrillDocument,
  own: Readonly<Record<string, Instrument>>,
  found: Collector,
): Drill["players"] {
  return (document.players ?? []).flatMap((written, i) => {
    const { instrument: name, octave = 0 } = typeof written === "string" ? { instrument: written } : written;
    const instrument = instrumentNamed(name, own);
    if (instrument !== undefined) return [{ instrument, octave }];
    const pointer = typeof written === "string" ? `/players/${i}` : `/players/${i}/instrument`;
    found.addAll([{ ...unknownInstrument(name, own), where: {} }], pointer);
    return [];
  });
}

function patternOf(
  document: DrillDocument,
  { patterns, offered }: DrillContext,
  found: Collector,
): Pattern | undefined {
  const { pattern: name } = document;
  // Not listed for every drill: a course may have thousands of both.
  if (Object.hasOwn(patterns, name)) return patterns[name];
  found.keep(readName({ name, known: offered ?? Object.keys(patterns), code: "PATTERN_UNKNOWN" }), "/pattern");
  return undefined;
}

/** What is known of the pattern that a drill means: by its name, or by the nearest where none has that name. */
function outlineFor(
  name: string,
  { patterns, outlines = {}, offered = Object.keys(patterns) }: DrillContext,
): Pattern | undefined {
  const meant = Object.hasOwn(patterns, name) ? name : nearestName(name, offered);
  if (meant === undefined) return undefined;
  return patterns[meant] ?? (Object.hasOwn(outlines, meant) ? outlines[meant] : undefined);
}

function beatUnit(document: DrillDocument, pattern: Pattern, found: Collector): Fraction {
  const usual = beatOf(pattern.bars[0]!.meter);
  return document.beat === undefined ? usual : (found.keep(parseBeatUnit(document.beat), "/beat") ?? usual);
}

function outro(document: DrillDocument, pattern: Pattern, found: Collector): Fraction {
  const written = document.outro ?? USUAL.outro;
  const span = written.trim() === "none" ? undefined : found.keep(parseLength(written), "/outro");
  const length = span === undefined ? ZERO : spanEnd(span, ZERO, pattern.bars);
  if (compare(length, pattern.length) <= 0) return length;
  const message = say("drill-problem.outro-longer-than-phrase", {
    pattern: pattern.name,
    bars: pattern.bars.length,
    found: written,
  });
  found.add("OUTRO_LONGER_THAN_PHRASE", message, "/outro", say("drill-problem.write", { text: "1 bar" }));
  return pattern.length;
}
