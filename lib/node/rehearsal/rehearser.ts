import { type RehearsalTask, workOn } from "./task.js";

/** What a rehearsing thread does: one task. */
export default function work(task: RehearsalTask): string {
  return workOn(task);
}
