import type { Problem } from "../base/index.js";
import { compareEvents, fold, takeEventId } from "../progress/index.js";
import type { Advanced, DrillCompleted, JournalEvent, TakeAssessed } from "../schema/index.js";
import { dateOfDay, dayNumber, durationText } from "../time/index.js";
import { recordProblem } from "./codes.js";
import type { Statement } from "./model.js";
import type { Records } from "./openRecords.js";
import { sayProblem } from "./say.js";
import { extensions, VERBS } from "./vocabulary.js";
import { wellFormed } from "./wellFormed.js";

export interface StatementOptions {
  /** Length of a take in seconds (that of its score), where it is known. Otherwise the record has no duration. */
  readonly durationOf?: (take: TakeAssessed) => number | undefined;
}

export interface Recorded {
  /** In the order of the journal. */
  readonly statements: readonly Statement[];
  /** Events that could not be recorded (RECORD_TIME_IMPOSSIBLE). */
  readonly problems: readonly Problem[];
}

type Recordable = TakeAssessed | Advanced | DrillCompleted;

/**
 * Learning records of one journal, as statements of xAPI 1.0.3: a rung was attempted (a take; successful or not, or neither when it was
 * unclear), a rung was passed (its gate was met), a drill was completed. There is no score. Measured figures are extensions, in milliseconds.
 *
 * Each statement is made from its event alone, so that it is the same whenever it is written again. Events without effect in the journal
 * are not recorded: duplicates, decisions overtaken by another device, refused events. Nor are events of other kinds.
 *
 * @example
 * const { statements } = statementsOf(records, events);
 */
export function statementsOf(
  records: Records,
  events: readonly JournalEvent[],
  options: StatementOptions = {},
): Recorded {
  const problems: Problem[] = [];
  const statements = new Map<string, Statement>();
  for (const event of effective(events)) {
    const timestamp = recordTime(event.at);
    if (timestamp === undefined) {
      const message = sayProblem("record-problem.record-time-impossible", { turn: String(event.turn), at: event.at });
      problems.push(recordProblem("RECORD_TIME_IMPOSSIBLE", message));
      continue;
    }
    for (const statement of written(records, event, { ...options, timestamp }))
      if (!statements.has(statement.id)) statements.set(statement.id, statement);
  }
  return { statements: [...statements.values()], problems };
}

/** Takes, advances and completions that have an effect, in the journal's order. */
function effective(events: readonly JournalEvent[]): readonly Recordable[] {
  const refused = new Set(
    fold(events).problems.flatMap(({ code, where }) => (code === "JOURNAL_GAP" ? [] : [where.pointer])),
  );
  return events
    .filter((_, i) => !refused.has(`/${i}`))
    .filter((event): event is Recordable => ["take assessed", "advanced", "drill completed"].includes(event.kind))
    .sort(compareEvents);
}

interface Writing extends StatementOptions {
  readonly timestamp: string;
}

/** Statements of one event: a completion passes the last rung as well. */
function written(records: Records, event: Recordable, writing: Writing): readonly Statement[] {
  const { curriculum, drill } = event;
  const { activities } = records;
  const ofDrill = activities.drill(curriculum, drill);
  if (event.kind === "take assessed") {
    const object = activities.rung(curriculum, drill, event.rung);
    return [
      {
        ...frame(records, event, { verb: "attempted", parent: ofDrill, ...writing }),
        object,
        result: takeResult(records, event, writing),
      },
    ];
  }
  const passed: Statement = {
    ...frame(records, event, { verb: "passed", parent: ofDrill, ...writing }),
    object: activities.rung(curriculum, drill, event.from),
    result: { success: true, extensions: evidence(records, event) },
  };
  if (event.kind === "advanced") return [passed];
  const completed: Statement = {
    ...frame(records, event, { verb: "completed", ...writing }),
    object: ofDrill,
    result: { success: true, completion: true, extensions: evidence(records, event) },
  };
  return [passed, completed];
}

interface Framing {
  readonly verb: keyof typeof VERBS;
  readonly parent?: Statement["object"];
  readonly timestamp: string;
}

/** The parts that statements of all kinds have. */
function frame(
  { home, naming, identity, activities }: Records,
  event: Recordable,
  { verb, parent, timestamp }: Framing,
): Omit<Statement, "object" | "result"> {
  const { student, curriculum } = event;
  const own = event.kind === "take assessed" && event.mix !== undefined ? { mix: wellFormed(event.mix) } : {};
  return {
    id: identity.idOf(student, curriculum, [verb, event.id]),
    actor: {
      objectType: "Agent",
      ...(naming === "names" ? { name: wellFormed(student) } : {}),
      account: { homePage: home, name: identity.nameOf(student) },
    },
    verb: VERBS[verb],
    context: {
      registration: identity.idOf(student, curriculum, ["registration"]),
      ...(event.kind === "take assessed" ? { revision: wellFormed(event.edition) } : {}),
      platform: "leeway",
      contextActivities: {
        ...(parent === undefined ? {} : { parent: [parent] }),
        grouping: [activities.course(curriculum)],
      },
      ...(Object.keys(own).length === 0 ? {} : { extensions: extensions(own) }),
    },
    timestamp,
    version: "1.0.0",
  };
}

/** Result of an attempt. */
function takeResult({ naming }: Records, event: TakeAssessed, { durationOf }: StatementOptions): Statement["result"] {
  const { verdict, probability, measured, take } = event;
  const lasted = durationOf?.(event);
  return {
    // An unclear take is neither.
    ...(verdict === "unclear" ? {} : { success: verdict === "within" }),
    ...(lasted === undefined ? {} : { duration: durationText(lasted) }),
    // A take is often named by a file, with the player's name in it: the name is left out with pseudonyms.
    extensions: extensions({
      verdict,
      probability,
      ...measured,
      ...(naming === "names" ? { take: wellFormed(take) } : {}),
    }),
  };
}

/** Evidence of a decision: the ids of the statements of its takes, and the gate. */
function evidence({ identity }: Records, event: Advanced | DrillCompleted): Statement["result"]["extensions"] {
  const ids = (takes: readonly string[]): readonly string[] =>
    takes.map((take) => identity.idOf(event.student, event.curriculum, ["attempted", takeEventId(take)]));
  const { gate, credit } = event;
  return extensions({
    gate,
    evidence: ids(event.evidence),
    against: ids(event.against),
    ...(credit === undefined ? {} : { earnedBefore: true }),
  });
}

/**
 * Timestamp of a record for a time of a journal (both RFC 3339); `undefined` for a date that does not exist, such as 30 February (RFC 3339,
 * section 5.7). An unknown offset, written -00:00, is not allowed in records: the instant is the same in UTC.
 */
function recordTime(at: string): string | undefined {
  const [year, month, day] = at.slice(0, 10).split("-").map(Number) as [number, number, number];
  return dateOfDay(dayNumber({ year, month, day })).day === day ? at.replace(/-00:00$/, "Z") : undefined;
}
