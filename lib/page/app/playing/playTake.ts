import type { Problem, Result } from "../../../base/index.js";
import { outputAdvice, type ScorePlayer, type TakeHeard } from "../../../browser/index.js";
import { settingsText } from "../../../drill/index.js";
import { place, type Submitted, scoreFor, submit } from "../../../practice/index.js";
import type { Score } from "../../../schema/index.js";
import { isStoreProblem, type Store } from "../../../store/index.js";
import type { Page } from "../page.js";
import { fill } from "../view/element.js";
import { openInput } from "./hands.js";
import { loadScores } from "./loadScores.js";
import { playingScreen } from "./playingScreen.js";
import type { PlayRequest } from "./playRequest.js";
import { standFor } from "./standFor.js";
import { takeInput } from "./takeInput.js";

/** Plays a take to its end, hands it in, and goes to what it showed. Resolves with what prevented it. */
export async function playTake(page: Page, player: ScorePlayer, request: PlayRequest): Promise<readonly Problem[]> {
  const { rung, mix, body } = request;
  const student = page.student!;
  const { course } = await page.course();
  const id = newId();
  const score = scoreFor(course, rung, { mix, draw: id });
  const screen = playingScreen(page, {
    rung,
    score,
    stand: await standFor(page, rung, mix),
    follows: false,
    pad: student.input === "taps",
  });
  const input = await openInput(student.input, player, screen.pad);
  if (!input.ok) return input.problems;
  try {
    const loaded = await loadScores(page, player, [score]);
    if (!loaded.ok) return loaded.problems;
    fill(body, screen.body);
    screen.focus();
    const taking = await takeInput({ player, score, student, input: input.value, id });
    if (!taking.ok) return taking.problems;
    void screen.stopped.then(() => taking.value.breakOff());
    const heard = await screen.until(() => player.heard(), taking.value.heard);
    if (!heard.ok) return heard.problems.filter(({ code }) => code !== "TAKE_BROKEN_OFF");
    page.announce(page.words.say("page.listening-back"));
    const late = outputAdvice(player.clock).filter(({ code }) => code === "OUTPUT_LATE");
    return await handIn(page, { ...heard.value, advice: [...heard.value.advice, ...late] }, { request, score });
  } finally {
    input.value.close();
  }
}

/** Counts a take, and shows what it showed. What is refused by the store, or because this page is older than the edition of the student, is not lost: it is held, and can be saved. */
async function handIn(
  page: Page,
  heard: TakeHeard,
  { request, score }: { readonly request: PlayRequest; readonly score: Score },
): Promise<readonly Problem[]> {
  const { course } = await page.course();
  const { drill, settings } = request.rung;
  const id = heard.take.id!;
  const take = { ...heard.take, id, drill: drill.name, rung: settingsText(settings) };
  const counted = async (): Promise<Result<Submitted>> => {
    const store = await page.store();
    const at = new Date().toISOString();
    const { name } = page.student!;
    const school = await page.school;
    const goes = school?.isKept(name, course.name) === true ? school : undefined;
    // For the school first: a window that is closed between the two sends the take when it is opened again.
    await goes?.post({ id, student: name, course: course.name, placing: request.placing, take });
    const result = request.placing ? await placed(store, name, at) : await submit(store, name, take, { course, at });
    // A take that is behind here, as the page is older than what the school has, is the school's to decide on.
    if (result.ok || isBehind(result)) void goes?.meet(name, course.name);
    else await goes?.forget({ student: name, id });
    return result;
  };
  const placed = async (store: Store, name: string, at: string): Promise<Result<Submitted>> => {
    const found = await place(store, name, { course, drill: drill.name, take, at });
    return found.ok ? { ok: true, value: found.value.submitted!, advice: [] } : found;
  };
  const shown = {
    take,
    score,
    finding: heard.finding,
    sound: heard.sound,
    advice: heard.advice,
    course,
    rung: request.rung,
    placing: request.placing,
  };
  try {
    const submitted = await counted();
    if (!submitted.ok && !isBehind(submitted)) return submitted.problems;
    page.played.current = submitted.ok
      ? { ...shown, finding: submitted.value.finding ?? heard.finding, submitted: submitted.value }
      : { ...shown, refused: submitted.problems[0]!, again: counted };
  } catch (error) {
    if (!isStoreProblem(error)) throw error;
    page.played.current = { ...shown, refused: error.problem, again: counted };
  }
  page.go({ view: "take" });
  return [];
}

/** Whether the student is in a later edition than that of this page, which was opened before it. */
function isBehind(result: Result<Submitted>): boolean {
  return !result.ok && result.problems.some(({ code }) => code === "EDITION_BEHIND");
}

/** A name for a take that no other has: 128 random bits. `crypto.randomUUID` is not there on plain HTTP. */
function newId(): string {
  return [...crypto.getRandomValues(new Uint8Array(16))].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}
