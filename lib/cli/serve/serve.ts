import {
  type Forgotten,
  forgetUnseen,
  inviteFirstTeacher,
  openHearingQueue,
  openSchool,
  type Seen,
  serveSchool,
} from "../../server/index.js";
import type { Act, AddCommand } from "../command.js";
import { readText } from "../input/inputFile.js";
import { wholeNumber } from "../options/optionValues.js";
import { DONE, misuse, type Outcome, printJson, refuse, type Setting, tellProblems } from "../outcome.js";
import { fileOfCourse, openCourses } from "../page/openCourses.js";
import { classParts, pageParts } from "../page/pageParts.js";
import { portProblem } from "../page/portProblem.js";
import { untilInterrupted } from "../page/untilInterrupted.js";
import { keepCourse } from "../store/keepCourse.js";
import { databaseOf, storeOption, withStore } from "../store/openStore.js";
import { schoolFiles } from "./schoolFiles.js";

export interface ServeCommandOptions {
  readonly store?: string;
  readonly port?: number;
  readonly address?: string;
  readonly allow?: readonly string[];
  readonly consent?: string;
  readonly keepDays?: number;
  readonly workers?: boolean;
}

/** Most bytes of a consent note: our choice, some pages. */
const CONSENT_LIMIT = 50_000;

/** How often students of whom there is no sign are looked for, in milliseconds. */
const DAY_MS = 86_400_000;

/** Adds `serve` to the program. */
export function serveCommand(command: AddCommand, act: Act): void {
  storeOption(command("serve", "a school: the practice page and the API for teachers, students and apps"))
    .argument("<COURSE...>")
    .option("--port <NUMBER>", "the port on this machine; any that is free when left out", wholeNumber(1, 65_535))
    .option("--address <URL>", "the address that people use, where a reverse proxy with TLS stands before it")
    .option("--allow <ORIGIN...>", "other sites whose pages may ask with a token")
    .option("--consent <FILE>", "what the school says is kept, and why; shown before an invitation is accepted")
    .option(
      "--keep-days <DAYS>",
      "days a student is kept without any sign of them; 730 when left out",
      wholeNumber(30, 36_500),
    )
    .option("--workers", "recordings are heard by leeway work, on any machine that reaches the database")
    .action((files: readonly string[], options: ServeCommandOptions) =>
      act((setting) => serve(setting, files, options)),
    );
}

/** `leeway serve COURSE...`: serves a school on loopback until it is interrupted. */
async function serve(setting: Setting, files: readonly string[], options: ServeCommandOptions): Promise<Outcome> {
  const wrong = [options.address, ...(options.allow ?? [])].find((each) => each !== undefined && !isOrigin(each));
  if (wrong !== undefined) {
    const asked = { example: "https://school.example", found: wrong };
    return misuse(setting, setting.words.say("cli.misuse.web-address", asked));
  }
  const database = options.workers ? databaseOf(options) : undefined;
  if (options.workers && database === undefined)
    return misuse(setting, setting.words.say("cli.misuse.workers-need-postgres"));
  const opened = openCourses(setting, files);
  if (!opened.ok) return refuse(setting, opened.problems);
  const consent = options.consent === undefined ? undefined : readText(options.consent, CONSENT_LIMIT);
  if (consent?.ok === false) return refuse(setting, consent.problems);
  const parts = await pageParts(setting.words.language);
  if (!parts.ok) return refuse(setting, parts.problems);
  const ofClass = await classParts(setting.words.language);
  if (!ofClass.ok) return refuse(setting, ofClass.problems);
  const courses = opened.value.map(({ course }) => course);
  tellProblems(setting, opened.advice);
  const { store: place, port, address, allow, keepDays } = options;
  return withStore(setting, { ...(place && { store: place }), create: true }, async (store) => {
    for (const { text } of opened.value) await keepCourse(setting, store, text);
    const said = consent?.value ?? setting.words.say("server.consent");
    const pages = schoolFiles(courses, {
      parts: parts.value,
      classParts: ofClass.value,
      words: setting.words,
      fileOf: fileOfCourse(opened.value),
      tell: (problems) => tellProblems(setting, problems),
    });
    const queue = database === undefined ? undefined : await openHearingQueue(database);
    if (queue?.ok === false) {
      pages.close();
      return refuse(setting, queue.problems);
    }
    const hearing = queue && { hearing: queue.value.hearing() };
    const school = openSchool({ store, courses, consent: said, ...(keepDays && { keepDays }), ...hearing });
    const log = logFor(setting);
    const forget = async (): Promise<void> => log.forgotten(await forgetUnseen(school));
    await forget();
    // A store that cannot at the moment is asked again a day later.
    const daily = setInterval(() => void forget().catch(() => undefined), DAY_MS);
    try {
      const served = await serveSchool(school, {
        files: pages.find,
        log: log.seen,
        ...(port && { port }),
        ...(address && { address }),
        ...(allow && { allow }),
      });
      const first = await inviteFirstTeacher(school);
      sayOpen(setting, served.address, first && `${served.address}/class/#/join/${first}`);
      await untilInterrupted();
      await served.close();
      if (isForPerson(setting)) setting.terminal.tell(`${setting.words.say("cli.school-closed")}\n`);
      return DONE;
    } catch (error) {
      const problem = portProblem(error);
      if (problem === undefined) throw error;
      return refuse(setting, [problem]);
    } finally {
      clearInterval(daily);
      pages.close();
      await queue?.value.close();
    }
  });
}

/** Says where the school is, and how the first teacher comes in where there is none. */
function sayOpen(setting: Setting, address: string, first: string | undefined): void {
  const { terminal, json, words } = setting;
  if (json) {
    printJson(setting, { address, ...(first !== undefined && { first }) });
    return;
  }
  terminal.print(`${words.say("cli.school-at", { address })}\n`);
  if (isForPerson(setting)) terminal.tell(`${words.say("cli.school-for", { address })}\n`);
  if (first !== undefined) terminal.print(`${words.say("cli.first-teacher", { address: first })}\n`);
}

/** Whether what goes on is read by a person as it goes on, and not kept as a log. */
function isForPerson({ terminal, json }: Setting): boolean {
  return terminal.isWatched && !json;
}

interface Log {
  readonly seen: (seen: Seen) => void;
  readonly forgotten: (forgotten: Forgotten) => void;
}

/** What goes on, on standard error: for a log every request, a line of JSON each; for a person in words, and only what concerns them. */
function logFor(setting: Setting): Log {
  const tell = (line: string): void => setting.terminal.tell(`${line}\n`);
  const { say } = setting.words;
  if (!isForPerson(setting))
    return {
      seen: (seen) => tell(JSON.stringify(seen)),
      forgotten: (forgotten) => {
        if (forgotten.warned + forgotten.erased > 0) tell(JSON.stringify(forgotten));
      },
    };
  return {
    seen: ({ at, operation, status, request, error }) => {
      const time = `${at.slice(0, 19)}Z`;
      if (error !== undefined) tell(say("cli.school-failed", { time, request, error }));
      else if (status === 504) tell(say("cli.school-too-slow", { time, request }));
      else if (operation === "acceptInvitation" && status < 300) tell(say("cli.school-came", { time }));
    },
    forgotten: ({ warned, erased }) => {
      if (warned > 0) tell(say("cli.school-warned", { count: warned }));
      if (erased > 0) tell(say("cli.school-erased", { count: erased }));
    },
  };
}

function isOrigin(text: string): boolean {
  try {
    const { protocol, origin } = new URL(text);
    return /^https?:$/.test(protocol) && origin === text.replace(/\/$/, "");
  } catch {
    return false;
  }
}
