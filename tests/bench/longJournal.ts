import { random } from "../../lib/base/index.js";
import { journalText, readJournal } from "../../lib/progress/index.js";
import type { JournalEvent, Verdict } from "../../lib/schema/index.js";
import { courseOf } from "../progress/course.js";
import { beginLessons, type Lessons, play } from "../progress/lessons.js";

/** Takes of one round: enough for a few drills from bottom to top. */
const TAKES_A_ROUND = 500;

/** One student's journal of so many events: the same term of lessons over and over, each time in drills of other names. */
export function longJournal(count: number): string {
  const term = aTerm().journal;
  const journal: JournalEvent[] = [term[0]!];
  for (let round = 1; journal.length < count; round++) {
    for (const event of term.slice(1)) journal.push(ofRound(event, `r${round}/`, journal.length + 1));
  }
  return journalText(journal.slice(0, count));
}

function aTerm(): Lessons {
  const names = ["steady", "half-bar", "one-bar", "two-bars"];
  const course = courseOf(
    names.map((name, i) => ({ name, tempi: [60, 4, 12], goBack: { after: 3, by: 2 }, needs: names.slice(0, i) })),
  );
  const lessons = beginLessons(course);
  const chance = random("a term");
  for (let take = 0; take < TAKES_A_ROUND; take++) {
    const drill = lessons.standing.drills.find(({ state }) => state === "open")?.drill ?? "steady";
    const verdict: Verdict = chance.uniform() < 0.04 ? "unclear" : chance.uniform() < 0.72 ? "within" : "beyond";
    play(lessons, course, { drill, verdict });
  }
  return lessons;
}

function ofRound(event: JournalEvent, round: string, turn: number): JournalEvent {
  const named = (names: readonly string[]): readonly string[] => names.map((name) => round + name);
  const id = event.kind === "take assessed" ? `take:${round}${event.take}` : `${event.id}/${round}`;
  return {
    ...event,
    id,
    turn,
    ...("drill" in event ? { drill: round + event.drill } : {}),
    ...("take" in event ? { take: round + event.take } : {}),
    ...("evidence" in event ? { evidence: named(event.evidence) } : {}),
    ...("against" in event ? { against: named(event.against) } : {}),
    ...("needs" in event ? { needs: named(event.needs) } : {}),
  } as JournalEvent;
}

/** The same student over and over, in few drills: the same four drills, as somebody who goes on playing. */
export function faithful(count: number): readonly JournalEvent[] {
  const { events } = readJournal(longJournal(2000));
  const [enrolled, ...term] = events;
  const opening = term.filter(({ kind }) => kind === "drill opened").slice(0, 1);
  const played = term.filter((event) => event.kind === "take assessed");
  const journal = [enrolled!, ...opening];
  for (let n = 0; journal.length < count; n++) {
    const event = played[n % 200]!;
    const drill = opening[0]!.kind === "drill opened" ? opening[0]!.drill : "";
    journal.push({ ...event, drill, id: `take:f${n}`, take: `f${n}`, turn: journal.length + 1 } as JournalEvent);
  }
  return journal;
}
