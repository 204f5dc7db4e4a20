import type { Page } from "./page.js";
import { recall } from "./state/students.js";

/** Where it is kept when a student last saved a copy of their journal, by name; RFC 3339. */
export const COPIES = "leeway.copies";

const DAY = 86_400_000;

/** Whether what is here stays, and how old the last copy of the journal is that was saved outside. */
export async function keptLine({ words, kept, student }: Page): Promise<string> {
  const state = await kept();
  const saved = student === undefined ? undefined : recall<Record<string, string>>(COPIES)?.[student.name];
  const days = saved === undefined ? undefined : Math.floor((Date.now() - Date.parse(saved)) / DAY);
  const first = words.say("page.kept", {
    state: state === "best effort" ? "best-effort" : state === "not kept" ? "not-kept" : "promised",
  });
  if (student === undefined) return first;
  return `${first} ${days === undefined ? words.say("page.no-copy") : words.say("page.copy-age", { days })}`;
}
