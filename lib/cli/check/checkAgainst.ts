import { existsSync } from "node:fs";
import {
  type Curriculum,
  compareEditions,
  type EditionEffect,
  editionProblems,
  effectOfEdition,
  type Problem,
  problemsIn,
  problemsOf,
} from "../../index.js";
import type { Store } from "../../store/index.js";
import { fileCodes } from "../codes.js";
import { openCourse } from "../input/courseFile.js";
import { MISUSE, type Outcome, printJson, refuse, type Setting } from "../outcome.js";
import { effectText } from "../output/effectText.js";
import { plain } from "../output/printableText.js";
import { openCourses, openKeptCourse } from "../store/keptCourse.js";
import { outcomeOf, type StoreOptions, usualStore, withStore } from "../store/openStore.js";
import { comparisonText } from "./comparisonText.js";
import { printReport, summary } from "./courseReport.js";

const problem = problemsOf(fileCodes);

/** Most students named for whom nothing changes; our choice: a line or two. */
const NAMED = 12;

export interface ComparisonOptions extends StoreOptions {
  /** The file of the old edition; `true`: the stored editions of the students. */
  readonly against: string | true;
}

/** `leeway check NEW --against [OLD]`: the effect of a new edition on rungs, and on the students of a store; nothing is written. */
export function checkAgainst(
  setting: Setting,
  files: readonly string[],
  options: ComparisonOptions,
): Promise<Outcome> | Outcome {
  const [file, ...more] = files;
  if (file === undefined || more.length > 0) {
    setting.terminal.tell(`leeway: --against compares one new edition with an old one, got ${files.length} files\n`);
    return MISUSE;
  }
  const now = openCourse(file, setting.sources);
  if (!now.ok) return refuse(setting, now.problems);
  const work = { file, now: now.value, advice: problemsIn(now) };
  if (options.against !== true) {
    const old = openCourse(options.against, setting.sources);
    if (!old.ok) return refuse(setting, old.problems);
    // With a file alone the comparison is about rungs; students are added when a store is there.
    if (options.store === undefined && !hasUsualStore()) return tell(setting, { ...work, editions: [old.value] });
    return withStore(setting, { ...options, create: false }, async (store) =>
      tell(setting, { ...work, editions: [old.value], store, effects: await effectsIn(setting, store, now.value) }),
    );
  }
  return withStore(setting, { ...options, create: false }, async (store) => {
    const effects = await effectsIn(setting, store, now.value);
    const editions: Curriculum[] = [];
    for (const edition of new Set(effects.map(({ from }) => from))) {
      const kept = await openKeptCourse(store, { curriculum: now.value.name, edition });
      if (!kept.ok) return refuse(setting, kept.problems);
      editions.push(kept.value);
    }
    if (editions.length > 0) return tell(setting, { ...work, editions, store, effects });
    const message = `nobody in ${store.place} is in ${now.value.name}, so there is no edition to compare ${file} with`;
    return refuse(setting, [problem("NOTHING_TO_COMPARE", message, { file }, "name the file of the old edition")]);
  });
}

function hasUsualStore(): boolean {
  const place = usualStore(process.env, process.platform);
  return place.includes("://") || existsSync(place);
}

/** The effect of `enrol` on every student of the course, by the stored edition of each. */
async function effectsIn(setting: Setting, store: Store, now: Curriculum): Promise<readonly EditionEffect[]> {
  const courses = openCourses(store);
  const effects: EditionEffect[] = [];
  for await (const entry of store.journals()) {
    const standing = entry.curriculum === now.name ? (await store.open(entry))?.standing : undefined;
    if (standing === undefined) continue;
    await courses.read(standing.curriculum, standing.edition);
    const old = courses.find(standing.curriculum, standing.edition);
    const at = setting.terminal.now();
    effects.push(effectOfEdition(now, standing, { at, ...(old === undefined ? {} : { before: old }) }));
  }
  return effects;
}

interface Compared {
  readonly file: string;
  readonly now: Curriculum;
  /** Problems and advice of the new edition itself. */
  readonly advice: readonly Problem[];
  readonly editions: readonly Curriculum[];
  readonly store?: Store;
  readonly effects?: readonly EditionEffect[];
}

function tell(setting: Setting, { file, now, advice, editions, store, effects }: Compared): Outcome {
  const found = editions.flatMap((old) => editionProblems(old, now));
  const problems = [...advice, ...found.map((each) => ({ ...each, where: { file, ...each.where } }))];
  const comparable = editions.filter(({ name }) => name === now.name);
  const comparisons = comparable.map((old) => compareEditions(old, now));
  if (setting.json) {
    const students = effects?.map(({ standing: _, curriculum: __, ...effect }) => effect);
    const place = store === undefined ? {} : { store: store.place, students };
    printJson(setting, { file, ok: true, ...summary(now), problems, comparisons, ...place });
    return outcomeOf(problems);
  }
  printReport(setting, file, { course: now, problems });
  const { print } = setting.terminal;
  for (const comparison of comparisons) print(`\n${comparisonText(now.name, comparison)}`);
  if (store !== undefined) print(`\n${studentsText(effects ?? [])}`);
  return outcomeOf(problems);
}

function studentsText(effects: readonly EditionEffect[]): string {
  const affected = effects.filter(({ isAffected }) => isAffected);
  const others = effects.filter(({ isAffected }) => !isAffected).map(({ student }) => student);
  const head = `students in the store: ${effects.length} of this course, ${affected.length} affected\n`;
  const told = affected.map((effect) => `  ${plain(effect.student)}, in ${plain(effect.from)}\n${effectText(effect)}`);
  if (others.length === 0) return head + told.join("");
  const more = others.length > NAMED ? ` and ${others.length - NAMED} more` : "";
  return `${head}${told.join("")}  everything stays for: ${plain(others.slice(0, NAMED).join(", "))}${more}\n`;
}
