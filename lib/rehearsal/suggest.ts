import type { Milliseconds, Percent } from "../base/index.js";
import { add, fraction, multiply } from "../base/index.js";
import type { Curriculum } from "../curriculum/index.js";
import {
  type Drill,
  type Ladder,
  ladderValue,
  parseSettings,
  type Settings,
  settingsText,
  type Tolerance,
} from "../drill/index.js";
import type { RehearsalFinding, RehearsalResults } from "../schema/index.js";
import { parseSpan, spanText } from "../time/index.js";
import type { OtherWay } from "./compare.js";
import type { RehearsalOptions } from "./rehearse.js";

/** A change that may help, with the rungs it is about. */
export interface Suggestion extends OtherWay {
  readonly drill: string;
  /** Whether a rung of the changed course, by its settings text, is one that the change is about. */
  isMeant(rung: string): boolean;
}

/** Walls that are answered at most, and by how much a limit is widened: our choice, about a tenth to a fifth of usual limits. */
const MOST_WALLS = 3;
const WIDER = { drift: 1, landing: 20, steadiness: 5 } as const;

/** Changes of a course for what a rehearsal of it found: the limit at a wall wider, and a rung between it and the one before. Nothing is changed by them. */
export function suggestionsFor(
  course: Curriculum,
  results: RehearsalResults,
  options: RehearsalOptions,
): readonly Suggestion[] {
  const walls = results.findings.filter(({ what }) => what === "wall" || what === "nobody passes");
  return [...walls]
    .sort((a, b) => (b.share ?? 0) - (a.share ?? 0))
    .slice(0, MOST_WALLS)
    .flatMap((wall) => [...widerAt(course, wall, options), ...rungBetween(course, { wall, results }, options)]);
}

function widerAt(
  course: Curriculum,
  { drill: name, rung = "", on }: RehearsalFinding,
  options: RehearsalOptions,
): Suggestion[] {
  const drill = course.drills.find((each) => each.name === name)!;
  if (on !== "drift" && on !== "landing" && on !== "steadiness") return [];
  const [before, after, tolerance] = widened(drill.tolerance, on);
  if (tolerance === undefined) return [];
  return [
    {
      way: { what: "tolerance", drill: name, setting: on, before, after },
      course: withDrill(course, { ...drill, tolerance }),
      options,
      drill: name,
      isMeant: (each) => each === rung,
    },
  ];
}

function widened(tolerance: Tolerance, on: keyof typeof WIDER): readonly [string, string, Tolerance?] {
  const by = WIDER[on];
  if (on === "drift") {
    if (tolerance.drift === undefined || "ms" in tolerance.drift) return ["", ""];
    const { percent } = tolerance.drift;
    return [`${percent} %`, `${percent + by} %`, { ...tolerance, drift: { percent: (percent + by) as Percent } }];
  }
  const ms = tolerance[on];
  if (ms === undefined) return ["", ""];
  return [`${ms} ms`, `${ms + by} ms`, { ...tolerance, [on]: (ms + by) as Milliseconds }];
}

/** A rung between the wall and the rung before it, where the two differ in one ladder that has a middle. */
function rungBetween(
  course: Curriculum,
  { wall, results }: { readonly wall: RehearsalFinding; readonly results: RehearsalResults },
  options: RehearsalOptions,
): Suggestion[] {
  const drill = course.drills.find(({ name }) => name === wall.drill)!;
  const before = results.drills.find((each) => each.drill === wall.drill)!.rungs[wall.number! - 2]?.rung;
  const [low, high] = [before, wall.rung].map((text) => (text === undefined ? undefined : parseSettings(text)));
  if (!low?.ok || !high?.ok) return [];
  const other = drill.ladders.filter(({ parameter }) => low.value[parameter] !== high.value[parameter]);
  const [ladder] = other;
  if (ladder === undefined || other.length > 1) return [];
  const from = low.value[ladder.parameter]!;
  const middle = middleOf(ladder, from, high.value[ladder.parameter]!);
  if (middle === undefined) return [];
  const texts = Array.from({ length: ladder.count }, (_, k) => ladderValue(ladder, k)).flatMap((text) =>
    text === from ? [text, middle] : [text],
  );
  const longer: Ladder = { ...ladder, count: texts.length, values: { kind: "list", texts } };
  const ladders = drill.ladders.map((each) => (each === ladder ? longer : each));
  const between = settingsText({ ...high.value, [ladder.parameter]: middle } as Settings);
  return [
    {
      way: { what: "rung between", drill: drill.name, setting: ladder.parameter, before: from, after: middle },
      course: withDrill(course, { ...drill, ladders }),
      options,
      drill: drill.name,
      isMeant: (each) => each === wall.rung || each === between,
    },
  ];
}

function middleOf({ parameter }: Ladder, from: string, to: string): string | undefined {
  if (parameter === "tempo") {
    const middle = (Number(from) + Number(to)) / 2;
    const text = `${Math.round(middle * 10) / 10}`;
    return text === from || text === to ? undefined : text;
  }
  if (parameter !== "dropout") return undefined;
  const [a, b] = [parseSpan(from), parseSpan(to)];
  if (!a.ok || !b.ok || a.value.unit !== b.value.unit) return undefined;
  return spanText({ unit: a.value.unit, count: multiply(add(a.value.count, b.value.count), fraction(1, 2)) });
}

function withDrill(course: Curriculum, drill: Drill): Curriculum {
  return { ...course, drills: course.drills.map((each) => (each.name === drill.name ? drill : each)) };
}
