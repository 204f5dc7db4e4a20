import type { Person } from "../store/index.js";
import type { School } from "./model.js";
import { daysAfter } from "./routes/reading.js";

/** Days before a student is erased on which their teachers are told; our choice: longer than any holidays. */
const WARNING_DAYS = 60;

/** What came of looking for students whom nobody has seen for long. */
export interface Forgotten {
  readonly warned: number;
  readonly erased: number;
}

/**
 * Erases students of whom there was no sign for as long as the school keeps them, and whose teachers were told so `WARNING_DAYS` before. A school that was not
 * served meanwhile tells first, and erases that much later. To be called once a day. Rejects with a `StoreProblem` when the store fails.
 *
 * @example
 * await forgetUnseen(openSchool({ store: school, courses: [course], consent: "Kept: the name you choose." })) // { warned: 0, erased: 0 }
 */
export async function forgetUnseen({ register, store, keepDays, now }: School): Promise<Forgotten> {
  const at = now().toISOString();
  let erased = 0;
  const due = await register.unseenSince(daysAfter(at, WARNING_DAYS - keepDays));
  for (const person of due) {
    if (person.warned === undefined || erasedFrom(person, keepDays) > at) continue;
    await store.erase(person.name);
    erased += 1;
  }
  const unwarned = due.filter(({ warned }) => warned === undefined).map(({ name }) => name);
  await register.markWarned(unwarned, at);
  // A clock that has jumped ahead shuts nobody out for good: keys go only where somebody was there since.
  if (await register.wasAnybodySeen(daysAfter(at, -WARNING_DAYS))) await register.removeExpired(at);
  return { warned: unwarned.length, erased };
}

/** When a student who was warned of is erased, unless there is a sign of them before. */
export function erasedFrom({ seen, warned }: Person, keepDays: number): string {
  return [daysAfter(seen, keepDays), daysAfter(warned ?? seen, WARNING_DAYS)].sort().at(-1)!;
}
