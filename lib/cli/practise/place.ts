import { type Result, success } from "../../base/index.js";
import { rungNumber, rungs, scoreOf, settingsText } from "../../drill/index.js";
import type { Placing } from "../../plan/index.js";
import { fillIn, type NamedTake, type Placed, place, type PlaceOptions as UsePlace } from "../../practice/index.js";
import { isCompleted } from "../../progress/index.js";
import type { Standing } from "../../schema/index.js";
import { type Words, wordSettings } from "../../words/index.js";
import type { Act, AddCommand } from "../command.js";
import { takeOptions } from "../options/takeOptions.js";
import {
  DONE,
  MISUSE,
  misuse,
  type Outcome,
  printJson,
  refuse,
  type Setting,
  tellCautions,
  tellProblems,
} from "../outcome.js";
import { findingText } from "../output/findingText.js";
import { plain } from "../output/printableText.js";
import { nextText } from "../output/standingText.js";
import { storeOption } from "../store/openStore.js";
import { readTakes, type TakeOptions, takeName } from "../takes/readTakes.js";
import { playedTo, type Work, type WorkOptions, withWork } from "./takeContext.js";

export interface PlaceOptions extends Omit<WorkOptions, "rung" | "mix">, TakeOptions {
  /** The teacher who decides the placement. */
  readonly teacher?: string;
}

/** Adds `place` to the program. */
export function placeCommand(command: AddCommand, act: Act): void {
  takeOptions(storeOption(command("place", "find where a new student begins in a drill, in a few takes")))
    .argument("<STUDENT>")
    .argument("[TAKE]", "a take of the rung asked for; says what to play when left out")
    .option("--drill <D>", "the drill; the one that is open when left out")
    .option("--teacher <NAME>", "who lets the student begin there; when left out, the journal says that the test did")
    .option("--course <FILE|NAME>", "the course; the student's, as kept in the store, when left out")
    .option("--at <TIME>", "the time of the take (RFC 3339); now when left out")
    .action((student: string, take: string | undefined, options: PlaceOptions) => {
      act((setting) => placement(setting, { student, take }, options));
    });
}

/**
 * `leeway place STUDENT [TAKE]`: finds the first rung of a new student in a drill, take by take. It prints what to play, reads the take, and at
 * the end places the student. Its whole state is in the journal, so it continues on any device.
 */
function placement(
  before: Setting,
  { student, take }: { readonly student: string; readonly take: string | undefined },
  options: PlaceOptions,
): Promise<Outcome> | Outcome {
  return withWork(before, { student, options }, async (store, work) => {
    const { setting } = work;
    const use = useOf(work, options);
    const asked = await place(store, student, use);
    if (!asked.ok) return refuse(setting, asked.problems);
    if (take === undefined) return answer(setting, student, { placed: asked.value });
    const heard = await hear(setting, take, { work, options, asked: asked.value });
    if (heard === MISUSE) return MISUSE;
    if (!heard.ok) return refuse(setting, heard.problems);
    const placed = await place(store, student, { ...use, take: heard.value });
    return placed.ok
      ? answer(setting, student, { placed: placed.value, take: heard.value.id! })
      : refuse(setting, placed.problems);
  });
}

function useOf({ course, before, at, drill }: Work, { teacher }: PlaceOptions): UsePlace {
  return {
    course,
    at,
    drill: drill.name,
    ...(before === undefined ? {} : { before }),
    ...(teacher === undefined ? {} : { teacher }),
  };
}

interface Asked {
  readonly work: Work;
  readonly options: PlaceOptions;
  readonly asked: Placed;
}

/** Reads a take of the requested rung. */
async function hear(
  setting: Setting,
  argument: string,
  { work, options, asked }: Asked,
): Promise<Result<NamedTake> | typeof MISUSE> {
  const { rung } = asked.placing;
  const [named, ...more] = await readTakes(argument, options, {
    terminal: setting.terminal,
    ...playedTo({ drill: work.drill, rung }),
  });
  if (named === undefined || more.length > 0) {
    return misuse(setting, setting.words.say("cli.misuse.one-take"));
  }
  if (!named.take.ok) return named.take;
  const id = named.take.value.id ?? takeName(named.name, named.take.value);
  const { course } = work;
  return success(fillIn({ ...named.take.value, id }, { course, standing: asked.standing, rung }).take);
}

function answer(
  setting: Setting,
  student: string,
  { placed, take }: { readonly placed: Placed; readonly take?: string },
): Outcome {
  const { placing, events, standing, submitted } = placed;
  const { settings, drill } = placing.rung;
  const finding = submitted?.finding;
  if (setting.json) {
    printJson(setting, {
      student,
      drill: drill.name,
      done: placing.done,
      rung: settingsText(settings),
      number: rungNumber(placing.rung),
      rungs: rungs(drill).count,
      tried: placing.tried.map(({ rung: each, verdict }) => ({
        number: rungNumber(each),
        rung: settingsText(each.settings),
        verdict,
      })),
      says: placing.says,
      ...(take === undefined ? {} : { take, finding }),
      events,
    });
    return DONE;
  }
  tellProblems(setting, finding?.advice ?? []);
  const { print, colours } = setting.terminal;
  if (finding !== undefined && submitted?.score !== undefined)
    print(`${findingText(finding, submitted.score, { colour: colours.print, words: setting.words })}\n`);
  print(placingText(placing, { student, standing, isSet: events.length > 0, words: setting.words }));
  if (!placing.done) tellCautions(setting);
  return DONE;
}

interface PlacedStudent {
  readonly student: string;
  readonly standing: Standing;
  /** Whether the placement put the student there. */
  readonly isSet: boolean;
  readonly words: Words;
}

/** The progress of a placement as text: what to play next, or the first rung and the takes still needed. */
function placingText(placing: Placing, { student, standing, isSet, words }: PlacedStudent): string {
  const { drill, rung, done } = placing;
  const says = words.word(placing.message, placing.says);
  const head = `${plain(words.say("cli.placing", { student, drill: drill.name, says }))}\n`;
  const { mix } = scoreOf(rung);
  if (!done) {
    const settings = wordSettings(settingsText(rung.settings), words);
    const place = { number: String(rungNumber(rung)), rungs: String(rungs(drill).count), mix };
    return `${head}  ${plain(words.say("cli.play", { settings, ...place }))}\n`;
  }
  const unmet = drill.needs.filter((need) => !isCompleted(standing, need));
  const lines = [
    words.say(isSet ? "cli.begins-there" : "cli.is-there"),
    ...(unmet.length === 0 ? [] : [words.say("cli.drill-needs", { drills: unmet })]),
  ];
  return `${head}${lines.map((line) => `  ${plain(line)}\n`).join("")}${nextText(standing, words)}`;
}
