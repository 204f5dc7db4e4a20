import { ask, at } from "../../school/ask.js";
import type { Me } from "../../school/model.js";
import { keep, recall } from "../state/students.js";

/** Who this browser is at the school that the page came from. */
export type Member = Pick<Me, "name" | "role" | "paused"> & {
  /** Names of the courses of their classes. */
  readonly courses: readonly string[];
};

/** Where it is kept who was signed in when the school was last reached. */
const PLACE = "leeway.member";

/** Who is signed in: as the school says, or as it said when it was last reached. `undefined`: nobody. */
export async function findMember(): Promise<Member | undefined> {
  const me = await ask<Me>(at("me"));
  if (!me.ok && me.refusal.status !== 401) return recall<Member | null>(PLACE) ?? undefined;
  if (!me.ok) {
    keep(PLACE, null);
    return undefined;
  }
  const { name, role, paused, classes } = me.value;
  const member = { name, role, courses: classes.map(({ course }) => course), ...(paused && { paused }) };
  keep(PLACE, member);
  return member;
}
