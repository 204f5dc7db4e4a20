import {
  type Drill,
  lengthTextsIn,
  partsTextsIn,
  type Rung,
  rungNumber,
  rungs,
  scoreOf,
  settingsText,
} from "../../drill/index.js";
import { phraseStrips } from "../../render/chart/index.js";
import type { Words } from "../../words/index.js";
import type { Act, AddCommand } from "../command.js";
import { openDrill } from "../input/courseFile.js";
import { wholeNumber } from "../options/optionValues.js";
import { DONE, MISUSE, type Outcome, printJson, refuse, type Setting } from "../outcome.js";
import { plain } from "../output/printableText.js";

/** Most rungs shown without a range; our choices: a screenful for people, a page for scripts. */
const LISTED = 20;
const LISTED_AS_JSON = 1000;
/** Most rungs in one answer; our choice, because a drill may have more rungs than fit into memory. */
const MOST = 100_000;
/** Most rungs with a picture; our choice: each needs a score. */
const PICTURED = 200;

export interface RungRange {
  readonly from?: number;
  readonly to?: number;
}

/** Adds `rungs` to the program. */
export function rungsCommand(command: AddCommand, act: Act): void {
  command("rungs", "the rungs of a drill, easiest first")
    .argument("<FILE>")
    .argument("<DRILL>")
    .option("--from <I>", "first rung to list, counted from 1", wholeNumber(1))
    .option("--to <J>", "last rung to list", wholeNumber(1))
    .action((file: string, drill: string, range: RungRange) =>
      act((setting) => rungList(setting, [file, drill], range)),
    );
}

/** `leeway rungs FILE DRILL`: the rungs of a drill, the easiest first. */
function rungList(setting: Setting, [file, name]: readonly [string, string], range: RungRange): Outcome {
  const opened = openDrill(file, name, setting.sources);
  if (!opened.ok) return refuse(setting, opened.problems);
  const all = rungs(opened.value.drill);
  const from = range.from ?? 1;
  const to = Math.min(range.to ?? from + (setting.json ? LISTED_AS_JSON : LISTED) - 1, all.count);
  if (from > all.count || to < from || to - from >= MOST) {
    const reason =
      to - from >= MOST ? `at most ${MOST} rungs can be listed at once` : `the rungs are 1 to ${all.count}`;
    setting.terminal.tell(`leeway: cannot list rungs ${from} to ${range.to ?? to}: ${reason}\n`);
    return MISUSE;
  }
  const listed = Array.from({ length: to - from + 1 }, (_, i) => all.at(from - 1 + i));
  if (setting.json) {
    const rows = listed.map((rung) => ({
      number: rungNumber(rung),
      rung: settingsText(rung.settings),
      settings: rung.settings,
    }));
    printJson(setting, { curriculum: opened.value.course.name, drill: name, count: all.count, from, to, rungs: rows });
    return DONE;
  }
  const { print } = setting.terminal;
  const { words } = setting;
  print(`${plain(headText(opened.value.drill, all.count, words))}\n`);
  const width = String(to).length;
  for (const rung of listed) {
    const [first = "", ...longer] = listed.length > PICTURED ? [] : stripsOf(rung);
    const picture = first === "" ? "" : `${first}  `;
    print(`  ${String(rungNumber(rung)).padStart(width)}  ${picture}${plain(settingsText(rung.settings))}\n`);
    for (const strip of longer) print(`  ${" ".repeat(width)}  ${strip}`.trimEnd().concat("\n"));
  }
  if (to < all.count) {
    const more = words.say("cli.more-rungs", { count: String(all.count - to), option: `--from ${to + 1}` });
    print(`  ${".".padStart(width, ".")}  ${more}\n`);
  }
  return DONE;
}

function headText({ name, ladders }: Drill, count: number, { say }: Words): string {
  if (count === 1) return say("cli.one-rung", { drill: name });
  const climbs = ladders.map((ladder) => `${ladder.parameter} (${ladder.count})`);
  const said = climbs.length === 0 ? "" : climbs.reduce((first, next) => say("cli.then", { first, next }));
  return say("cli.rungs-climb", { drill: name, count: String(count), ladders: said });
}

/** The lines with the first phrase of a rung, and where silences grow inside a take with each phrase in which they are longer or more parts drop. */
function stripsOf(rung: Rung): readonly string[] {
  const { dropout = "", parts = "" } = rung.settings;
  const grown = lengthTextsIn(dropout).length + partsTextsIn(parts).length;
  return phraseStrips(scoreOf(rung))
    .slice(0, Math.max(1, grown - 1))
    .flat();
}
