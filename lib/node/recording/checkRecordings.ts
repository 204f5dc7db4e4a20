import { type Place, problemsOf, toNumber } from "../../base/index.js";
import type { Curriculum } from "../../curriculum/index.js";
import { findOnsets } from "../../listen/index.js";
import { barLineOf, type Part, type Pattern, type RecordedTake, secondsPerWhole } from "../../pattern/index.js";
import { barLinesHeard, tempoHeard } from "../../recording/index.js";
import { pointerTo } from "../../schema/index.js";
import { nodeCodes } from "../codes.js";
import type { Problem } from "../problem.js";
import { sayProblem } from "../say.js";
import { openSoundFile } from "../soundFile/openSoundFile.js";

const problem = problemsOf(nodeCodes);

/** What of a difference is said; our choices. Of a tempo: a quarter of a per cent, which moves the end of four bars at 96 by 25 ms. Of bar 1, and of a bar that wavers, seconds: what people hear (20 ms), and half of it again. */
const TEMPO = 0.0025;
const START = 0.02;
const WAVER = 0.03;

/**
 * Listens to the recordings of a course: whether they can be read, what tempo they really have, where bar 1 is, and whether they keep their tempo; nothing for a course without any.
 *
 * Problems: those of `openSoundFile`; advice: RECORDED_TEMPO_DIFFERS, RECORDED_START_DIFFERS, RECORDED_TEMPO_WAVERS, RECORDED_TEMPO_NOT_HEARD. `pathOf` gives the path of a recording by its name in the course.
 *
 * @example
 * await checkRecordings(course, { file: "course.yaml", pathOf: (name) => name }) // []: a course of notes
 */
export async function checkRecordings(
  { patterns }: Curriculum,
  { file, pathOf }: { readonly file: string; readonly pathOf: (name: string) => string | undefined },
): Promise<readonly Problem[]> {
  const found: Problem[] = [];
  for (const [name, pattern] of Object.entries(patterns))
    for (const part of pattern.parts) {
      const where = { file, pointer: pointerTo(["patterns", name, "parts", part.name]) };
      for (const take of takesOf(part)) {
        const path = pathOf(take.file);
        if (path !== undefined) found.push(...(await checkTake(path, take, { pattern, where })));
      }
    }
  return found;
}

function takesOf({ recorded = {} }: Part): readonly RecordedTake[] {
  return Object.values(recorded).flat();
}

async function checkTake(
  path: string,
  take: RecordedTake,
  { pattern, where }: { readonly pattern: Pattern; readonly where: Place },
): Promise<readonly Problem[]> {
  const opened = await openSoundFile(path);
  if (!opened.ok) return opened.problems.map((each) => ({ ...each, where }));
  const { onsets } = await findOnsets(opened.value.open(), { family: "percussive" });
  const wrong = opened.value.problems();
  if (wrong.some(({ severity }) => severity === "error")) return wrong.map((each) => ({ ...each, where }));
  const from = barLineOf(take, take.first, pattern);
  const to = barLineOf(take, take.first + take.bars, pattern);
  const eighth = secondsPerWhole(take) / 8;
  const strokes = onsets.map(({ at }) => at - from).filter((at) => at > -eighth / 2 && at < to - from - eighth / 2);
  const bar = (to - from) / take.bars;
  // A drummer who drifts may begin the last bar line outside, and what follows on it tells where it is.
  const about = onsets.map(({ at }) => at - from).filter((at) => at > -bar / 2 && at < to - from + bar);
  const beat = secondsPerWhole(take) * toNumber(take.beat);
  const lines = barLinesHeard(about, { eighth, beat, bar, bars: take.bars })?.map((at) => from + at);
  const isGood = lines !== undefined && lines[0]! >= 0;
  const asLines = isGood ? `[${lines.map((at) => at.toFixed(3)).join(", ")}]` : undefined;
  const heard = tempoHeard(strokes, { eighth, bar });
  const named = { file: take.file };
  if (take.lines !== undefined && isGood) {
    const off = lines.map((at, i) => at - take.lines![i]!);
    const late = off.reduce((a, b) => (Math.abs(b) > Math.abs(a) ? b : a));
    return Math.abs(late) > WAVER
      ? [wavers({ ...named, late, bar: take.first + off.indexOf(late) }, where, asLines)]
      : [];
  }
  if (heard === undefined) {
    const message = sayProblem("node-problem.recorded-tempo-not-heard", named);
    return [
      problem("RECORDED_TEMPO_NOT_HEARD", message, where, sayProblem("node-problem.recorded-tempo-not-heard-remedy")),
    ];
  }
  const stated = take.tempo.n / take.tempo.d;
  const tempo = (stated * heard.ratio).toFixed(1);
  const said: Problem[] = [];
  const starts = take.starts + heard.late;
  if (Math.abs(heard.ratio - 1) > TEMPO) {
    const message = sayProblem("node-problem.recorded-tempo-differs", {
      ...named,
      heard: tempo,
      stated: String(stated),
    });
    said.push(
      problem(
        "RECORDED_TEMPO_DIFFERS",
        message,
        where,
        sayProblem("node-problem.recorded-tempo-differs-remedy", { tempo }),
      ),
    );
  }
  if (Math.abs(heard.late) > START) {
    const ms = String(Math.round(Math.abs(1000 * heard.late)));
    const side = heard.late > 0 ? ("late" as const) : ("early" as const);
    const message = sayProblem("node-problem.recorded-start-differs", { ...named, ms, side });
    // A file that begins after its bar 1 has to become longer: no start says that.
    const remedy =
      starts < 0
        ? sayProblem("node-problem.recorded-start-differs-remedy-before", { starts: (1 + starts).toFixed(3) })
        : sayProblem("node-problem.recorded-start-differs-remedy", { starts: starts.toFixed(3) });
    said.push(problem("RECORDED_START_DIFFERS", message, where, remedy));
  }
  if (Math.abs(heard.furthest.late) > WAVER) {
    const { late, bar: furthest } = heard.furthest;
    said.push(wavers({ ...named, late, bar: take.first + furthest - 1 }, where, asLines));
  }
  return said;
}

/** Advice on a bar that begins elsewhere than it should, with the bar lines that were heard, if any. */
function wavers(
  { file, bar, late }: { readonly file: string; readonly bar: number; readonly late: number },
  where: Place,
  lines: string | undefined,
): Problem {
  const ms = String(Math.round(Math.abs(1000 * late)));
  const side = late > 0 ? ("late" as const) : ("early" as const);
  const message = sayProblem("node-problem.recorded-tempo-wavers", { file, ms, side, bar: String(bar) });
  const remedy =
    lines === undefined
      ? sayProblem("node-problem.recorded-tempo-wavers-remedy")
      : sayProblem("node-problem.recorded-tempo-wavers-remedy-lines", { lines });
  return problem("RECORDED_TEMPO_WAVERS", message, where, remedy);
}
