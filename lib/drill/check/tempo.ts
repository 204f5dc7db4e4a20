import { add, compare, type Fraction, seconds, subtract, toMilliseconds, toNumber, ZERO } from "../../base/index.js";
import type { Note, Pattern } from "../../pattern/index.js";
import {
  beatSeconds,
  decimalText,
  FASTEST_SUBDIVISION_EVER,
  readTempo,
  secondsOf,
  swungPosition,
  synchronisationProblems,
} from "../../time/index.js";
import type { Drill, Settings } from "../model.js";
import { readRise, tempiOf, tempoInPhrase } from "../rise.js";
import { say } from "../say.js";
import { notesOf } from "../variants.js";
import { type CheckContext, SAME, valuesInForce } from "./context.js";

/** Longest take. Our choice: nobody plays one take for an hour, and nobody should. */
const LONGEST_TAKE = seconds(3600);

/** Checks the slowest and the fastest tempo of a drill against the limits of synchronisation, and the length of a take. */
export function checkTempo({ drill, found, pointerOf }: CheckContext): void {
  const extremes = extremeTempi(drill);
  if (extremes === undefined) return;
  const pointer = pointerOf("tempo");
  found.addAll(synchronisationProblems(beatSeconds(extremes.slowest)), pointer);
  checkSpacing({ drill, found, pointerOf }, extremes.fastest);
  const longest = Math.max(...takesInForce(drill).map((settings) => secondsOfTake(drill, settings)));
  if (longest > LONGEST_TAKE) {
    const message = say("drill-problem.drill-take-too-long", {
      tempo: toNumber(extremes.slowest),
      minutes: Math.ceil(longest / 60),
    });
    found.add("DRILL_TAKE_TOO_LONG", message, "/phrases", say("drill-problem.drill-take-too-long-remedy"));
  }
}

/** The slowest and the fastest tempo of any phrase on any rung; `undefined` when there is none. */
export function extremeTempi(drill: Drill): { readonly slowest: Fraction; readonly fastest: Fraction } | undefined {
  const tempi = takesInForce(drill).flatMap((settings) => [
    tempoInPhrase(settings, 1),
    tempoInPhrase(settings, drill.phrases),
  ]);
  if (tempi.length === 0) return undefined;
  return {
    slowest: tempi.reduce((a, b) => (compare(b, a) < 0 ? b : a)),
    fastest: tempi.reduce((a, b) => (compare(b, a) > 0 ? b : a)),
  };
}

/** The tempi of takes to check, with what they rise by: a tempo rises or falls all the way, so that its ends are those of the take. */
function takesInForce(drill: Drill): readonly Pick<Settings, "tempo" | "rise">[] {
  return valuesInForce(drill, "tempo").flatMap((tempo) =>
    tempo === undefined
      ? []
      : valuesInForce(drill, "rise").map((rise) => (rise === undefined ? { tempo } : { tempo, rise })),
  );
}

function secondsOfTake(drill: Drill, settings: Pick<Settings, "tempo" | "rise">): number {
  const last = add(drill.pattern.length, drill.outro);
  let all = secondsOf(drill.countIn, { tempo: tempoInPhrase(settings, 1), beat: drill.beat });
  for (let phrase = 1; phrase <= drill.phrases; phrase++) {
    const length = phrase === drill.phrases ? last : drill.pattern.length;
    all = seconds(all + secondsOf(length, { tempo: tempoInPhrase(settings, phrase), beat: drill.beat }));
  }
  return all;
}

/** Checks that a tempo that rises inside a take stays one, and that it is heard to rise. Whether it stays one. */
export function checkRise({ drill, found, pointerOf }: CheckContext): boolean {
  const pointer = pointerOf("rise");
  for (const settings of takesInForce(drill)) {
    const tempi = tempiOf(settings, drill.phrases);
    const rises = settings.rise !== undefined && settings.rise !== "none";
    if (rises && tempi.length === 1 && !found.problems.some(({ code }) => code === "RISE_NEVER_HEARD")) {
      const message = say("drill-problem.rise-never-heard", { rise: settings.rise, phrases: drill.phrases });
      const each = readRise(settings.rise)!.each;
      const remedy = say("drill-problem.write", { text: `phrases: ${2 * each}` });
      found.add("RISE_NEVER_HEARD", message, pointer, remedy);
    }
    const beyond = tempi.find(({ tempo }) => readTempo(decimalText(tempo)) === undefined);
    if (beyond === undefined) continue;
    const { phrase, tempo } = beyond;
    const message = say("drill-problem.rise-out-of-range", { phrase, tempo: decimalText(tempo) });
    found.add("RISE_OUT_OF_RANGE", message, pointer, say("drill-problem.rise-out-of-range-remedy"));
    return false;
  }
  return true;
}

/** The shortest distance between neighbouring onsets of the student's part in any variant, in whole notes; `undefined` without notes. */
export function shortestInForce(drill: Drill): Fraction | undefined {
  const part = drill.pattern.parts.find(({ name }) => name === drill.student);
  const spacings = valuesInForce(drill, "variant").flatMap((variant) => {
    const notes = part && notesOf(part, variant);
    return (notes && shortestSpacing(notes, drill.pattern)) ?? [];
  });
  return spacings.length === 0 ? undefined : spacings.reduce((a, b) => (compare(b, a) < 0 ? b : a));
}

function checkSpacing({ drill, found, pointerOf }: CheckContext, fastest: Fraction): void {
  const shortest = shortestInForce(drill);
  if (shortest === undefined) return;
  const spacing = secondsOf(shortest, { tempo: fastest, beat: drill.beat });
  const ms = toMilliseconds(spacing);
  if (ms >= FASTEST_SUBDIVISION_EVER) {
    const advice = synchronisationProblems(beatSeconds(fastest), spacing);
    found.addAll(
      advice.filter(({ code }) => code.startsWith("SUBDIVISION")),
      pointerOf("tempo"),
    );
    return;
  }
  const message = say("drill-problem.subdivision-too-fast-to-follow", {
    least: FASTEST_SUBDIVISION_EVER,
    tempo: toNumber(fastest),
    apart: ms,
  });
  const most = Math.floor((toNumber(fastest) * ms) / FASTEST_SUBDIVISION_EVER);
  const remedy = say("drill-problem.subdivision-too-fast-to-follow-remedy", { most });
  found.add("SUBDIVISION_TOO_FAST_TO_FOLLOW", message, pointerOf("tempo"), remedy);
}

const knownSpacing = new WeakMap<readonly Note[], Fraction | undefined>();

/** The shortest distance between neighbouring onsets of a repeated part, swing included; `undefined` for a part without notes. */
function shortestSpacing(notes: readonly Note[], pattern: Pattern): Fraction | undefined {
  if (knownSpacing.has(notes)) return knownSpacing.get(notes);
  const onsets = notes.map(({ position, late = ZERO }) =>
    add(swungPosition(position, pattern.swing, pattern.bars), late),
  );
  const ordered = onsets.map((exact) => ({ exact, near: toNumber(exact) })).sort((a, b) => a.near - b.near);
  let shortest: { apart: number; exact: Fraction } | undefined;
  ordered.forEach((onset, i) => {
    const [earlier, apart] =
      i > 0
        ? [ordered[i - 1]!, onset.near - ordered[i - 1]!.near]
        : [ordered.at(-1)!, onset.near + toNumber(pattern.length) - ordered.at(-1)!.near];
    if (apart < SAME || (shortest !== undefined && apart >= shortest.apart)) return;
    const between = subtract(onset.exact, earlier.exact);
    shortest = { apart, exact: i > 0 ? between : add(between, pattern.length) };
  });
  knownSpacing.set(notes, shortest?.exact);
  return shortest?.exact;
}
