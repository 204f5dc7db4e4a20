import type { Gate } from "../../drill/index.js";
import {
  asJudged,
  type GateCurve,
  gateCurve,
  gateSaid,
  NONE_TOLD,
  NONE_TOLD_SLIPS_HIDDEN,
  sequentialRates,
} from "../../progress/index.js";
import { type Words, wordSettings } from "../../words/index.js";
import type { Act, AddCommand } from "../command.js";
import { openDrill } from "../input/courseFile.js";
import { DONE, type Outcome, printJson, refuse, type Setting } from "../outcome.js";
import { plain } from "../output/printableText.js";
import { type SlipsShown, slipsShown, toldText } from "../output/slipsShown.js";
import { table } from "../output/textTable.js";

/** Chances of a clean take in the table; our choice: from a player far from ready to one who hardly fails. */
const CHANCES = [0.5, 0.6, 0.7, 0.8, 0.9, 0.95, 0.99];
/** Numbers of takes in the table; our choice: an evening, a week, a month. */
const TAKES = [5, 10, 20, 50];

/** Adds `gate` to the program. */
export function gateCommand(command: AddCommand, act: Act): void {
  command("gate", "the chance to pass a drill's gate, by how often takes are clean")
    .argument("<FILE>")
    .argument("<DRILL>")
    .action((file: string, drill: string) => act((setting) => gateTable(setting, [file, drill])));
}

/** `leeway gate FILE DRILL`: the exact chance to pass the gate of the drill, by the student's chance of a clean take. */
function gateTable(setting: Setting, [file, name]: readonly [string, string]): Outcome {
  const opened = openDrill(file, name, setting.sources);
  if (!opened.ok) return refuse(setting, opened.problems);
  const { gate, goBack } = opened.value.drill;
  const slips = slipsShown(opened.value.drill);
  const hidden = slips.some((each) =>
    each.slips.some(({ beats, logOdds }) => beats <= 1 && toldText(logOdds) === "not told"),
  );
  const noneTold = hidden ? NONE_TOLD_SLIPS_HIDDEN : NONE_TOLD;
  const takes = Math.max(...TAKES);
  const curves = CHANCES.map((p) => {
    const { p: called, unclear } = asJudged(p, noneTold);
    return { p, curve: gateCurve(gate, p, { takes }), atMost: gateCurve(gate, called, { takes, unclear }) };
  });
  const test = gate.kind === "sequential" ? sequentialRates(gate) : undefined;
  if (setting.json) {
    const rows = curves.map(({ p, curve, atMost }) => ({
      p,
      within: chances(curve),
      expectedTakes: curve.expectedTakes,
      withinAtMost: chances(atMost),
      expectedTakesAtLeast: atMost.expectedTakes,
    }));
    printJson(setting, {
      drill: name,
      gate,
      ...(goBack === undefined ? {} : { goBack }),
      takes: TAKES,
      curves: rows,
      verdicts: noneTold,
      ...(test && { test }),
      ...(slips.length === 0 ? {} : { slipsOnOnsetsAlone: slips }),
    });
    return DONE;
  }
  const { print } = setting.terminal;
  const { words } = setting;
  const { says, message } = gateSaid(gate);
  print(`${plain(words.say("cli.gate", { drill: name, gate: words.word(message, says) }))}\n\n`);
  print(`  ${words.say("cli.chance-to-go-on")}\n  ${words.say("cli.unclear-not-counted")}\n\n`);
  const counts = TAKES.map((takes) => ` ${words.say("cli.takes", { takes })}`);
  const headings = [
    words.say("cli.column", { of: "clean" }),
    ...counts,
    ` ${words.say("cli.column", { of: "needed" })}`,
  ];
  const printRows = (curveOf: (row: (typeof curves)[number]) => GateCurve): void => {
    const rows = curves.map((row) => {
      const curve = curveOf(row);
      return [`${row.p * 100} %`, ...chances(curve).map(percent), takesText(curve, words)];
    });
    print(table(headings, rows));
  };
  printRows(({ curve }) => curve);
  print(`\n  ${words.say("cli.at-most-to-go-on", { share: `${100 * noneTold.failedWithin} %` })}\n\n`);
  printRows(({ atMost }) => atMost);
  print(testText(gate, words));
  print(slipsText(slips, words));
  return DONE;
}

function chances(curve: GateCurve): readonly number[] {
  return TAKES.map((takes) => curve.within[takes - 1]!);
}

function takesText({ expectedTakes }: GateCurve, words: Words): string {
  if (typeof expectedTakes !== "number") return words.say("cli.never");
  return expectedTakes < 1e6 ? expectedTakes.toFixed(1) : expectedTakes.toExponential(1);
}

/** The actual error rates of a sequential test, beside the requested ones. */
function testText(gate: Gate, words: Words): string {
  if (gate.kind !== "sequential") return "";
  const { able, unready, fewestTakes } = sequentialRates(gate);
  const rows = [
    [words.say("cli.lets-on-unready"), `${gate.unready * 100} %`, percent(gate.wronglyLetOn), percent(unready.letOn)],
    [words.say("cli.holds-able"), `${gate.able * 100} %`, percent(gate.wronglyHeld), percent(able.held)],
  ];
  const figures = (["clean", "asked", "exactly"] as const).map((of) => ` ${words.say("cli.column", { of })}`);
  const shown = table([words.say("cli.column", { of: "error" }), ...figures], rows);
  return `\n  ${words.say("cli.one-run", { takes: String(fewestTakes) })}\n\n${shown}`;
}

/** How a slip is told, as the message names it. */
const TOLD = { told: "told", "in doubt": "in-doubt", "not told": "not-told" } as const;

/** What takes without pitch show of slips on the rungs of the drill. */
function slipsText(shown: readonly SlipsShown[], words: Words): string {
  if (shown.length === 0) return "";
  const sizes = [...new Set(shown.flatMap(({ slips }) => slips.map(({ beats }) => beats)))].sort((a, b) => a - b);
  const rows = shown.map(({ rungs, slips }) => [
    wordSettings(rungs, words),
    ...sizes.map((size) => {
      const slip = slips.find(({ beats }) => beats === size);
      return slip === undefined ? "" : words.say("cli.told", { how: TOLD[toldText(slip.logOdds)] });
    }),
  ]);
  const told = shown.every(({ slips }) => slips.every(({ logOdds }) => toldText(logOdds) === "told"));
  const remedy = told ? "" : `  ${words.say("cli.slips-remedy")}\n`;
  const headings = [
    words.say("cli.column", { of: "rungs" }),
    ...sizes.map((beats) => ` ${words.say("cli.beats", { shown: String(beats), many: beats === 1 ? "one" : "more" })}`),
  ];
  return `\n  ${words.say("cli.slips-by-rhythm")}\n\n${table(headings, rows)}${remedy}`;
}

/** A chance in per cent, "0 %" and "100 %" only when exact. */
function percent(share: number): string {
  if (share > 0 && share < 0.001) return "< 0.1 %";
  if (share < 1 && share > 0.999) return "> 99.9 %";
  return `${(share * 100).toFixed(share === 1 ? 0 : 1)} %`;
}
