import type { Message, Worded } from "../../base/index.js";
import { type Curriculum, drillCalled } from "../../curriculum/index.js";
import { type Drill, lengthsInTake, readSettings, settingsText } from "../../drill/index.js";
import type { Finding, JournalEvent, Standing, TakeAssessed } from "../../schema/index.js";
import { drillUnknown, progressProblem } from "../codes.js";
import { editionDraft } from "../editions/changeEdition.js";
import { editionBehind } from "../editions/editionBehind.js";
import { takeEventId } from "../journal/event/id.js";
import { LONGEST_NAME } from "../journal/event/shape.js";
import { type EventWriter, openEventWriter, writeEvent } from "../journal/event/writer.js";
import { findingSummary } from "../journal/findingSummary.js";
import { openDrills } from "../openDrills.js";
import type { Problem } from "../problem.js";
import { say, sayProblem } from "../say.js";
import { drillStanding, takeIn } from "../standing.js";
import { openedSaid } from "./reasonSaid.js";
import type { RungDecision } from "./rungDecision.js";
import { decideTake } from "./takeDecision.js";

/** The decision after a take. */
export interface Decision {
  /** `hold`: the student stays where they are. `not counted`: the finding cannot be used, see `problems`. */
  readonly what: "advance" | "complete" | "go back" | "hold" | "not counted";
  readonly drill: string | undefined;
  /** Settings text of the student's rung before and after; absent while the drill is closed. */
  readonly from: string | undefined;
  readonly to: string | undefined;
  /** Whether the take was counted before, so that it does not count again. */
  readonly known: boolean;
  /** One plain sentence or two. */
  readonly reason: string;
  /** The same sentences before they are worded. */
  readonly messages: readonly Message[];
  /** The takes the decision rests on, by name. */
  readonly evidence: readonly string[];
  /** Names of the drills that opened. */
  readonly opened: readonly string[];
  /** New events, to be appended to the journal together. The same arguments give the same events with the same ids. */
  readonly events: readonly JournalEvent[];
  /** The standing after these events. */
  readonly standing: Standing;
  readonly problems: readonly Problem[];
}

/**
 * Counts an assessed take and decides whether the student goes on, stays or goes back. A take counts once, for the rung on which it was
 * played. A take is clean when its verdict is `within`; an unclear take changes nothing. When the curriculum is a later edition, the standing
 * is first moved into it; by an earlier one nothing is decided, as only `changeEdition` moves a standing back.
 *
 * A take that was counted before moves nobody, whatever the edition. There is one exception: the take is the latest event of the journal, and the edition
 * is the same. Then its decision was never written, and the same decision is made again.
 *
 * `at` is the time of the decision, RFC 3339. Problems (nothing is counted then): FINDING_INCOMPLETE, CURRICULUM_OTHER,
 * EDITION_BEHIND, PROGRESS_DRILL_UNKNOWN. Throws `RangeError` when `at` is not such a time.
 *
 * @example
 * const { what, reason, events } = decide(curriculum, standing, finding, "2026-03-02T17:30:00Z");
 */
export function decide(curriculum: Curriculum, standing: Standing, finding: Finding, at: string): Decision {
  const writer = openEventWriter(standing, at);
  const { take, rung } = finding;
  const problems = problemsWith(curriculum, standing, finding);
  const drill = finding.drill === undefined ? undefined : drillCalled(curriculum, finding.drill);
  if (problems.length > 0 || drill === undefined || take === undefined || rung === undefined)
    return { ...nothing(finding, standing), problems };
  const known = takeIn(standing, take);
  if (known !== undefined) {
    const isLatest = standing.edition === curriculum.edition && standing.latest.id === takeEventId(take);
    const isUndecided = isLatest && known.drill === drill.name && known.rung === canonicalRung(rung);
    return isUndecided ? decideDue(curriculum, standing, finding, at) : countedBefore(curriculum, writer, take);
  }
  const edition = editionDraft(curriculum, standing);
  if (edition !== undefined) writeEvent(writer, edition);
  const from = drillStanding(writer.standing, drill.name)?.rung;
  const played = canonicalRung(rung);
  writeEvent(writer, {
    kind: "take assessed",
    drill: drill.name,
    rung: played,
    take,
    edition: curriculum.edition,
    ...findingSummary(finding),
    ...growingLengths(drill, played, finding),
  });
  const result = decideTake(drill, writer.standing, { rung: played, verdict: finding.verdict });
  if (result.draft !== undefined) writeEvent(writer, result.draft);
  // An unclear take changes nothing. Any other take also opens drills that an interrupted writer left closed.
  const opened = finding.verdict === "unclear" && edition === undefined ? [] : openDrills(curriculum, writer);
  return told(writer, { drill: drill.name, from, known: false, reasons: result.reasons, opened, result });
}

/**
 * The decision that is due on a take that was counted before, in this same edition: an interrupted writer lost it, or journals that were merged meet a gate on
 * which nobody has decided. The caller knows that the take was counted in the edition given. Not for the public door: `decide` and `submit` ask for it.
 */
export function decideDue(curriculum: Curriculum, standing: Standing, { take }: Finding, at: string): Decision {
  const writer = openEventWriter(standing, at);
  const counted = takeIn(standing, take!)!;
  const drill = curriculum.drills.find(({ name }) => name === counted.drill);
  if (drill === undefined || standing.edition !== curriculum.edition) return countedBefore(curriculum, writer, take!);
  const from = drillStanding(standing, drill.name)?.rung;
  const result = decideTake(drill, standing, counted);
  if (result.draft !== undefined) writeEvent(writer, result.draft);
  const opened = counted.verdict === "unclear" ? [] : openDrills(curriculum, writer);
  const reasons = [say("progress.counted-before", { take: take! }), ...result.reasons];
  return told(writer, { drill: drill.name, from, known: true, reasons, opened, result });
}

/** The answer to a take that was counted before: it moves nobody. In the same edition, drills that an interrupted writer left closed are opened. */
function countedBefore(curriculum: Curriculum, writer: EventWriter, take: string): Decision {
  const counted = takeIn(writer.standing, take)!;
  const from = drillStanding(writer.standing, counted.drill)?.rung;
  const isSame = writer.standing.edition === curriculum.edition;
  const opened = isSame && counted.verdict !== "unclear" ? openDrills(curriculum, writer) : [];
  return told(writer, {
    drill: counted.drill,
    from,
    known: true,
    reasons: [say("progress.counted-before", { take })],
    opened,
    result: undefined,
  });
}

interface Told extends Pick<Decision, "drill" | "from" | "known" | "opened"> {
  readonly drill: string;
  readonly reasons: readonly Worded[];
  readonly result: RungDecision | undefined;
}

function told(writer: EventWriter, { drill, from, known, reasons, opened, result }: Told): Decision {
  return {
    what: result?.what ?? "hold",
    drill,
    from,
    to: drillStanding(writer.standing, drill)?.rung,
    known,
    ...saidTogether([...reasons, ...openedSaid(opened)]),
    evidence: result?.evidence ?? [],
    opened,
    events: writer.events,
    standing: writer.standing,
    problems: [],
  };
}

/** Reasons as one text, and as messages. */
export function saidTogether(reasons: readonly Worded[]): Pick<Decision, "reason" | "messages"> {
  return { reason: reasons.map(({ says }) => says).join(" "), messages: reasons.map(({ message }) => message) };
}

function problemsWith(curriculum: Curriculum, standing: Standing, finding: Finding): readonly Problem[] {
  const problems: Problem[] = [];
  if (standing.curriculum !== curriculum.name) {
    const given = { standing: standing.curriculum, given: curriculum.name };
    problems.push(progressProblem("CURRICULUM_OTHER", sayProblem("progress-problem.curriculum-other", given)));
  }
  // A take that was counted is recalled whatever the edition.
  if (takeIn(standing, finding.take ?? "") === undefined) problems.push(...editionBehind(curriculum, standing));
  for (const key of ["take", "drill", "rung"] as const) {
    if (finding[key] !== undefined && (finding[key] !== "" || key === "rung")) continue;
    const message = sayProblem("progress-problem.finding-incomplete", { missing: key });
    problems.push(progressProblem("FINDING_INCOMPLETE", message, { pointer: `/${key}` }));
  }
  if ((finding.take ?? "").length > LONGEST_NAME) {
    const message = sayProblem("progress-problem.take-name-long", { most: LONGEST_NAME, found: finding.take!.length });
    const remedy = sayProblem("progress-problem.take-name-long-remedy");
    problems.push(progressProblem("FINDING_INCOMPLETE", message, { pointer: "/take" }, remedy));
  }
  if (finding.drill && drillCalled(curriculum, finding.drill) === undefined) {
    problems.push(drillUnknown(curriculum, finding.drill, { where: { pointer: "/drill" } }));
  }
  return problems;
}

/** The length of each silence, for takes in which silences grow; in all others the settings of the rung say it. */
function growingLengths(drill: Drill, rung: string, { dropouts }: Finding): Pick<TakeAssessed, "lengths"> {
  const settings = readSettings(rung);
  const lengths = settings === undefined ? [] : lengthsInTake(drill, settings);
  return lengths.length === dropouts.length && new Set(lengths).size > 1 ? { lengths } : {};
}

/** Settings text in canonical form; a text that cannot be read as settings stays as it is. */
function canonicalRung(rung: string): string {
  const settings = readSettings(rung);
  return settings === undefined ? rung : settingsText(settings);
}

function nothing(finding: Finding, standing: Standing): Decision {
  const reason = saidTogether([say("progress.not-counted")]);
  const place = { drill: finding.drill, from: undefined, to: undefined };
  return {
    what: "not counted",
    ...place,
    known: false,
    ...reason,
    evidence: [],
    opened: [],
    events: [],
    standing,
    problems: [],
  };
}
