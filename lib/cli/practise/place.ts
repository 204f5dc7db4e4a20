import {
  assess,
  CAUTIONS,
  decide,
  drillStanding,
  type Entries,
  type Finding,
  findRung,
  isCompleted,
  type JournalEvent,
  placeByTeacher,
  type Result,
  type Rung,
  rungNumber,
  rungs,
  type Standing,
  scoreOf,
  settingsText,
  success,
  takeIn,
} from "../../index.js";
import { type Placing, resumePlacing } from "../../plan/index.js";
import { record, type Store } from "../../store/index.js";
import type { Act, AddCommand } from "../command.js";
import { takeOptions } from "../options/takeOptions.js";
import { DONE, MISUSE, type Outcome, printJson, refuse, type Setting, tellProblems } from "../outcome.js";
import { findingText } from "../output/findingText.js";
import { plain, rungText } from "../output/printableText.js";
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
      act((setting) => place(setting, { student, take }, options));
    });
}

/**
 * `leeway place STUDENT [TAKE]`: finds the first rung of a new student in a drill, take by take. It prints what to play, reads the take, and at
 * the end places the student. Its whole state is in the journal, so it continues on any device.
 */
function place(
  setting: Setting,
  { student, take }: { readonly student: string; readonly take: string | undefined },
  options: PlaceOptions,
): Promise<Outcome> | Outcome {
  return withWork(setting, { student, options }, async (store, begun) => {
    const work: Placement = { ...begun, options };
    const heard = take === undefined ? undefined : await hear(setting, store, { work, argument: take });
    if (heard === MISUSE) return MISUSE;
    if (heard?.ok === false) return refuse(setting, heard.problems);
    const { placing, events, standing } = await settle(store, work);
    answer(setting, work, { placing, events, standing, ...(heard === undefined ? {} : heard.value) });
    return DONE;
  });
}

interface Placement extends Work {
  readonly options: PlaceOptions;
}

interface Heard {
  readonly name: string;
  readonly finding: Finding;
  readonly rung: Rung;
}

/** Assesses a take at the requested rung, and stores its finding. */
async function hear(
  setting: Setting,
  store: Store,
  { work, argument }: { readonly work: Placement; readonly argument: string },
): Promise<Result<Heard> | typeof MISUSE> {
  const { placing, standing } = await present(store, work);
  const played = { terminal: setting.terminal, ...playedTo({ drill: work.drill, rung: placing.rung }) };
  const [named, ...more] = await readTakes(argument, work.options, played);
  if (named === undefined || more.length > 0) {
    setting.terminal.tell("leeway: one take at a time, as what to play next depends on it\n");
    return MISUSE;
  }
  if (!named.take.ok) return named.take;
  const name = named.take.value.id ?? takeName(named.name, named.take.value);
  // A take counted before keeps the rung for which it was counted.
  const before = takeIn(standing, name);
  const found = before?.drill === work.drill.name ? findRung(work.drill, before.rung) : success(placing.rung);
  if (!found.ok) return found;
  const score = { curriculum: work.course.name, edition: work.course.edition, ...scoreOf(found.value) };
  const finding = { ...assess(score, named.take.value), take: name };
  const decided = await record(store, work.key, (journal) =>
    decide(work.course, journal?.standing ?? standing, finding, work.at),
  );
  return decided.problems.length > 0
    ? { ok: false, problems: decided.problems }
    : success({ name, finding, rung: found.value });
}

interface Present {
  readonly placing: Placing;
  readonly standing: Standing;
  readonly revision: number;
}

/** The progress of the placement, by the current journal. */
async function present(store: Store, { key, course, drill, standing }: Placement): Promise<Present> {
  for (;;) {
    const journal = await store.open(key);
    const events: JournalEvent[] = [];
    for await (const event of store.events(key)) events.push(event);
    // Events and standing must be of the same revision, or a take might be assessed and not counted.
    if (journal !== undefined && events.length === journal.events)
      return {
        placing: resumePlacing(course, drill, { events }),
        standing: journal.standing ?? standing,
        revision: journal.revision,
      };
  }
}

/** Places the student on the rung found, when it is above their own. When another writer appends meanwhile, the decision is made again. */
async function settle(store: Store, work: Placement): Promise<Entries & { readonly placing: Placing }> {
  for (;;) {
    const { placing, standing, revision } = await present(store, work);
    const own = drillStanding(standing, work.drill.name)?.rung;
    const held = own === undefined ? undefined : findRung(work.drill, own);
    const isThere = held?.ok === true && held.value.index >= placing.rung.index;
    if (!placing.done || isThere) return { placing, standing, events: [] };
    const { teacher } = work.options;
    const placed = placeByTeacher(work.course, standing, {
      drill: work.drill.name,
      rung: settingsText(placing.rung.settings),
      at: work.at,
      because: placing.says,
      ...(teacher === undefined ? { by: "placement test" as const } : { teacher }),
    });
    // The rung is a rung of the drill; any problem is a defect.
    if (!placed.ok) throw new Error(placed.problems.map(({ message }) => message).join("; "));
    const { outcome } = await store.append(work.key, placed.value.events, revision);
    if (outcome === "kept") return { placing, ...placed.value };
  }
}

function answer(
  setting: Setting,
  { drill, key }: Placement,
  { placing, events, standing, finding, rung, name }: Entries & { readonly placing: Placing } & Partial<Heard>,
): void {
  const { settings } = placing.rung;
  if (setting.json) {
    printJson(setting, {
      student: key.student,
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
      ...(name === undefined ? {} : { take: name, finding }),
      events,
    });
    return;
  }
  tellProblems(setting, finding?.advice ?? []);
  const { print, colours } = setting.terminal;
  if (finding !== undefined && rung !== undefined) print(`${findingText(finding, scoreOf(rung), colours.print)}\n`);
  print(placingText(placing, { student: key.student, standing, isSet: events.length > 0 }));
  if (!placing.done) setting.terminal.tell(`${CAUTIONS.join("\n")}\n`);
}

/** The progress of a placement as text: what to play next, or the first rung and the takes still needed. */
function placingText(
  placing: Placing,
  { student, standing, isSet }: { readonly student: string; readonly standing: Standing; readonly isSet: boolean },
): string {
  const { drill, rung, done, says } = placing;
  const head = `${plain(student)} in ${plain(drill.name)}: ${plain(says)}\n`;
  const { mix } = scoreOf(rung);
  if (!done) {
    const settings = rungText(settingsText(rung.settings));
    const place = `rung ${rungNumber(rung)} of ${rungs(drill).count}`;
    return `${head}  play: ${plain(settings)} (${place}, mix ${plain(mix)})\n`;
  }
  const unmet = drill.needs.filter((need) => !isCompleted(standing, need));
  const lines = [
    isSet
      ? "  begins there; what was played to find it is no evidence for its gate"
      : "  is there already; nothing was changed",
    ...(unmet.length === 0 ? [] : [`  the drill needs ${plain(unmet.join(", "))}, which is not complete yet`]),
  ];
  return `${head}${lines.map((line) => `${line}\n`).join("")}${nextText(standing)}`;
}
