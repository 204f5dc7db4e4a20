import type { Page } from "../page.js";

/** Whether what is played here is kept at the school that the page came from; without a school it stays on the device. */
export async function schoolLine({ words, school, student, listed }: Page): Promise<string> {
  if (school === undefined) return words.say("page.stays-here");
  const { member, isKept, waiting } = await school;
  if (member === undefined) return words.say("page.school-nobody");
  const { name } = member;
  if (member.role === "teacher") return words.say("page.school-teacher", { name });
  if (student === undefined) return words.say("page.school-as", { name });
  if (student.name !== name) return words.say("page.school-other", { name, student: student.name });
  if (!isKept(student.name, listed?.name ?? "")) return words.say("page.school-outside");
  const posted = await waiting(name);
  const refused = posted.find((each) => each.refused !== undefined);
  if (refused?.refused !== undefined) return words.say("page.school-refused", { why: refused.refused });
  if (posted.length === 0) return words.say("page.school-kept", { name });
  return member.paused === undefined
    ? words.say("page.school-waiting", { takes: posted.length })
    : words.say("page.school-away", { takes: posted.length });
}
