import { findingSaid, kindKey, type RehearsalWords } from "../../rehearsal/index.js";
import type {
  RehearsalComparison,
  RehearsalDifference,
  RehearsalKind,
  RehearsalQuantiles,
  RehearsalReport,
  RehearsalResults,
  RehearsalRung,
} from "../../schema/index.js";
import { wordSettings } from "../../words/index.js";
import { plain } from "../output/printableText.js";
import { table } from "../output/textTable.js";

/** A rehearsal as text, part by part. */
export function* rehearsalText(report: RehearsalReport, words: RehearsalWords): Generator<string> {
  const { say } = words;
  const { curriculum, population, seed, students, weeks, policy, level, results } = report;
  const head = { course: plain(curriculum), edition: plain(results.edition), population: plain(population) };
  yield `${say("rehearsal.head", { ...head, students, weeks })}\n`;
  yield `${say("rehearsal.how", { level, seed: plain(seed), policy })}\n`;
  yield `\n${say("rehearsal.who")}\n`;
  yield table(
    headings(WHO, words),
    results.kinds.map((kind) => whoCells(kind, report, words)),
  );
  if (report.time !== undefined) yield `\n  ${timeText(report, words)}\n`;
  yield `\n${say("rehearsal.drills-heading")}\n`;
  yield table(headings(DRILL, words), drillRows(results, words));
  yield `\n${say("rehearsal.rungs-heading")}\n`;
  yield table(headings(RUNG, words), rungRows(results, words));
  yield `\n${say("rehearsal.findings-heading")}\n`;
  yield* findingsText(results, words);
  yield* comparisonsText(report, words);
  yield `\n${say("rehearsal.caution")}\n`;
}

const WHO = ["students", "finished", "weeks", "takes", "minutes-a-week", "unclear", "let-on", "held"] as const;
const DRILL = ["drill", "students", "completed", "takes", "weeks"] as const;
const RUNG = ["drill", "rung", "reached", "clean", "harder", "takes", "stuck", "fails"] as const;
type Column = (typeof WHO | typeof DRILL | typeof RUNG)[number];
/** Columns of figures: a blank before the heading has the table set them to the right. */
const FIGURES: readonly Column[] = [
  "finished",
  "minutes-a-week",
  "unclear",
  "completed",
  "reached",
  "clean",
  "harder",
  "stuck",
];

function headings(columns: readonly Column[], { say }: RehearsalWords): readonly string[] {
  return columns.map((of) => `${FIGURES.includes(of) ? " " : ""}${say("rehearsal.column", { of })}`);
}

function whoCells(kind: RehearsalKind, { weeks }: RehearsalReport, words: RehearsalWords): readonly string[] {
  const { students, finished, takesPlayed, minutes, unclear, letOnUnready, heldAble } = kind;
  return [
    words.say("rehearsal.kind", { kind: kindKey(kind.kind) }),
    percentText(finished, students, words),
    quantilesText(kind.weeks, words),
    quantilesText(kind.takes, words),
    students === 0 ? words.say("rehearsal.none") : (minutes / students / weeks).toFixed(0),
    percentText(unclear, takesPlayed, words),
    percentText(letOnUnready.times, letOnUnready.of, words),
    percentText(heldAble.times, heldAble.of, words),
  ];
}

function drillRows({ kinds }: RehearsalResults, words: RehearsalWords): readonly (readonly string[])[] {
  return kinds[0]!.drills.flatMap(({ drill }, d) =>
    [0, 1, 4].map((k) => {
      const { kind, students, drills } = kinds[k]!;
      const { completed, takes, weeks } = drills[d]!;
      return [
        k === 0 ? plain(drill) : "",
        words.say("rehearsal.kind", { kind: kindKey(kind) }),
        percentText(completed, students, words),
        quantilesText(takes, words),
        quantilesText(weeks, words),
      ];
    }),
  );
}

function rungRows({ drills }: RehearsalResults, words: RehearsalWords): readonly (readonly string[])[] {
  return drills.flatMap(({ drill, rungs }) => {
    const climbing = climbingSettings(rungs);
    return rungs.map((rung, r) => [r === 0 ? plain(drill) : "", ...rungCells(rung, climbing[r]!, words)]);
  });
}

/** The settings of each rung that are not the same in all of them. */
function climbingSettings(rungs: readonly RehearsalRung[]): readonly string[] {
  const settings = rungs.map(({ rung }) => rung.split(",").filter((each) => each !== ""));
  const inAll = (each: string): boolean => rungs.length > 1 && settings.every((others) => others.includes(each));
  return settings.map((own) => own.filter((each) => !inAll(each)).join(","));
}

function rungCells(rung: RehearsalRung, settings: string, words: RehearsalWords): readonly string[] {
  const { number, reached, arrival, harder, takes, long, outcomes } = rung;
  const said = wordSettings(settings, words);
  const failing = (["drift", "landing", "steadiness", "notes", "unclear"] as const).reduce((worst, each) =>
    outcomes[each] > outcomes[worst] ? each : worst,
  );
  return [
    said === ""
      ? `${number}`
      : words.say("rehearsal.number-and-settings", { number: `${number}`, settings: plain(said) }),
    `${reached}`,
    reached === 0
      ? words.say("rehearsal.none")
      : words.say("rehearsal.percent", { percent: (100 * arrival[0]!.clean).toFixed(0) }),
    harder === undefined ? "" : harder.toFixed(1),
    reached === 0 ? words.say("rehearsal.none") : quantilesText(takes, words),
    percentText(long, reached, words),
    outcomes[failing] === 0 ? "" : words.say("rehearsal.fails", { on: failing }),
  ];
}

function* findingsText({ drills, findings }: RehearsalResults, words: RehearsalWords): Generator<string> {
  if (findings.length === 0) {
    const judged = takesNearlyAllClean(drills.flatMap(({ rungs }) => rungs));
    yield judged === undefined
      ? `  ${words.say("rehearsal.no-findings")}\n`
      : `  ${words.say("rehearsal.nothing-asked", judged)}\n    ${words.say("rehearsal.nothing-asked-remedy")}\n`;
  }
  for (const finding of findings) {
    const { sentence, remedy } = findingSaid(finding);
    yield `  ${plain(words.word(sentence.message, sentence.says))}\n    ${plain(words.word(remedy.message, remedy.says))}\n`;
  }
}

/** Share of judged takes that are beyond by a slip of the fingers in a course that asks nothing; our choice. */
const BY_CHANCE = 0.02;

/** How many takes were clean of those judged, where nearly all were; else `undefined`. A finding about one rung rests on more takes than a small rehearsal has. */
function takesNearlyAllClean(
  rungs: readonly RehearsalRung[],
): { readonly takes: number; readonly judged: number } | undefined {
  const takes = rungs.reduce((sum, { outcomes }) => sum + outcomes.within, 0);
  const judged = rungs.reduce(
    (sum, { outcomes: { unclear: _, ...told } }) => sum + Object.values(told).reduce((all, count) => all + count, 0),
    0,
  );
  return judged > 0 && judged - takes <= BY_CHANCE * judged ? { takes, judged } : undefined;
}

function* comparisonsText({ comparisons }: RehearsalReport, words: RehearsalWords): Generator<string> {
  const groups = [
    [
      "edition",
      words.say("rehearsal.against-heading", {
        edition: plain(comparisons.find(({ way }) => way.what === "edition")?.way.after ?? ""),
      }),
    ],
    ["policy gate", words.say("rehearsal.policies-heading")],
    ["tolerance rung between", words.say("rehearsal.suggestions-heading")],
  ] as const;
  for (const [whats, heading] of groups) {
    const shown = comparisons.filter(({ way }) => whats.includes(way.what));
    if (shown.length === 0) continue;
    yield `\n${heading}\n`;
    for (const each of shown) yield* comparisonText(each, words);
  }
}

function* comparisonText({ way, differences, stuck }: RehearsalComparison, words: RehearsalWords): Generator<string> {
  const { what, drill = "", setting = "", before = "", after } = way;
  const said = { what: what === "rung between" ? "rung-between" : what, drill, setting, before, after } as const;
  yield `  ${plain(words.say("rehearsal.way", said))}\n`;
  if (stuck !== undefined)
    yield `    ${words.say("rehearsal.stuck-change", { before: `${stuck.before}`, after: `${stuck.after}` })}\n`;
  for (const each of differences) yield `    ${changeText(each, words)}\n`;
}

function changeText(
  { figure, first, second, difference, low, high }: RehearsalDifference,
  { say }: RehearsalWords,
): string {
  const shown = (value: number): string =>
    figure === "finished"
      ? say("rehearsal.percent", { percent: (100 * value).toFixed(1) })
      : (figure === "days" ? value / 7 : value).toFixed(figure === "days" ? 1 : 2);
  const signed = (end: number): string => shown(first + end);
  const parts = {
    figure: { key: "rehearsal.figure", parameters: { figure } } as const,
    ...{ first: shown(first), second: shown(second), low: signed(low), high: signed(high) },
  };
  return say(
    low > 0 || high < 0 || (difference === 0 && low === high) ? "rehearsal.change" : "rehearsal.undecided",
    parts,
  );
}

function timeText({ time, weeks }: RehearsalReport, { say }: RehearsalWords): string {
  const { from, by, share, enough } = time!;
  const said = { from, by, weeks: Math.round(weeks * 10) / 10, percent: (100 * share).toFixed(0) };
  if (enough !== undefined) return say("rehearsal.time-enough", { ...said, minutes: enough });
  return say(share >= 0.9 ? "rehearsal.time" : "rehearsal.time-never", said);
}

function quantilesText({ low, median, high }: RehearsalQuantiles, { say }: RehearsalWords): string {
  const shown = (value: number | undefined): string => (value === undefined ? say("rehearsal.later") : `${value}`);
  if (low === undefined && median === undefined) return say("rehearsal.later");
  return say("rehearsal.quantiles", { median: shown(median), low: shown(low), high: shown(high) });
}

function percentText(times: number, of: number, { say }: RehearsalWords): string {
  return of === 0 ? say("rehearsal.none") : say("rehearsal.percent", { percent: ((100 * times) / of).toFixed(0) });
}
