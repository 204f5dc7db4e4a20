import type { Curriculum } from "../../curriculum/index.js";
import {
  openRehearsal,
  partText,
  type Rehearsal,
  type RehearsalOptions,
  rehearsePart,
  rungsToPlay,
} from "../../rehearsal/index.js";

/** What a thread is to do for a rehearsal. Texts come back, as they are kept: results of a thread and of a file are then the same. */
export type RehearsalTask = PlayTask | PartTask;

/** Plays one rung for the table of chances. */
export interface PlayTask {
  readonly course: Curriculum;
  readonly options: RehearsalOptions;
  /** Which rung, as `rungsToPlay` names it. */
  readonly key: string;
}

/** Sends some students through the courses of a run. */
export interface PartTask {
  /** Names the run: its courses are opened once in each thread. */
  readonly run: string;
  readonly courses: readonly {
    readonly course: Curriculum;
    readonly options: RehearsalOptions;
    readonly rows: Rehearsal["rows"];
  }[];
  readonly from: number;
  readonly count: number;
  readonly played: boolean;
}

let opened: { readonly run: string; readonly rehearsals: readonly Rehearsal[] } | undefined;
let playable: { readonly course: string; readonly rungs: ReturnType<typeof rungsToPlay> } | undefined;

/** The plays of a rung, or the part of some students, as text. */
export function workOn(task: RehearsalTask): string {
  if ("key" in task) {
    const course = JSON.stringify([task.course, task.options]);
    if (playable?.course !== course) playable = { course, rungs: rungsToPlay(task.course, task.options) };
    return JSON.stringify(playable.rungs.find(({ key }) => key === task.key)!.play());
  }
  if (opened?.run !== task.run)
    opened = {
      run: task.run,
      rehearsals: task.courses.map(({ course, rows, options }) => openRehearsal(course, rows, options)),
    };
  return partText(rehearsePart(opened.rehearsals, task, { played: task.played }));
}
