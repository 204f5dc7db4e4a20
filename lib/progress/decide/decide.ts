import { nearestName, type Problem } from "../../base/index.js";
import { type Curriculum, drillCalled } from "../../curriculum/index.js";
import { type Drill, lengthsInTake, parseSettings, settingsText } from "../../drill/index.js";
import type { Finding, JournalEvent, Standing, TakeAssessed } from "../../schema/index.js";
import { progressProblem } from "../codes.js";
import { editionDraft } from "../editions/changeEdition.js";
import { LONGEST_NAME } from "../journal/eventShape.js";
import { type EventWriter, openEventWriter, writeEvent } from "../journal/eventWriter.js";
import { findingSummary } from "../journal/findingSummary.js";
import { openDrills } from "../openDrills.js";
import { rungIndex } from "../rungIndex.js";
import { drillStanding, takeIn } from "../standing.js";
import { changeText, decideRung, type RungDecision } from "./rungDecision.js";

/** The decision after a take. */
export interface Decision {
  /** `hold`: the student stays where they are. `not counted`: the finding cannot be used, see `problems`. */
  readonly what: "advance" | "complete" | "go back" | "hold" | "not counted";
  readonly drill: string | undefined;
  /** Settings text of the student's rung before and after; absent while the drill is closed. */
  readonly from: string | undefined;
  readonly to: string | undefined;
  /** One plain sentence or two. */
  readonly reason: string;
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
 * played. A take is clean when its verdict is `within`; an unclear take changes nothing. When the curriculum is a new edition, the standing
 * is first moved into it.
 *
 * `at` is the time of the decision, RFC 3339. Problems (nothing is counted then): FINDING_INCOMPLETE, CURRICULUM_OTHER,
 * PROGRESS_DRILL_UNKNOWN. Throws `RangeError` when `at` is not such a time.
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
  const edition = editionDraft(curriculum, standing);
  if (edition !== undefined) writeEvent(writer, edition);
  const from = drillStanding(writer.standing, drill.name)?.rung;
  const counted = takeIn(writer.standing, take);
  const essentials = findingSummary(finding);
  const played = canonicalRung(rung);
  if (counted === undefined)
    writeEvent(writer, {
      kind: "take assessed",
      drill: drill.name,
      rung: played,
      take,
      edition: curriculum.edition,
      ...essentials,
      ...growingLengths(drill, played, finding),
    });
  const verdict = counted?.verdict ?? finding.verdict;
  const result =
    counted?.rung === played || counted === undefined ? outcome(drill, writer, { rung: played, verdict }) : undefined;
  if (result?.draft !== undefined) writeEvent(writer, result.draft);
  // An unclear take changes nothing. Any other take also opens drills that an interrupted writer left closed.
  const opened = verdict === "unclear" && edition === undefined ? [] : openDrills(curriculum, writer);
  const again = counted === undefined ? "" : `Take ${take} was counted before. `;
  const also = opened.length === 0 ? "" : ` Now open: ${opened.join(", ")}.`;
  return {
    what: result?.what ?? "hold",
    drill: drill.name,
    from,
    to: drillStanding(writer.standing, drill.name)?.rung,
    reason: `${again}${result?.reason ?? ""}${also}`.trim(),
    evidence: result?.evidence ?? [],
    opened,
    events: writer.events,
    standing: writer.standing,
    problems: [],
  };
}

/** The decision after a counted take of this verdict on this rung. */
function outcome(
  drill: Drill,
  writer: EventWriter,
  { rung, verdict }: { readonly rung: string; readonly verdict: Finding["verdict"] },
): RungDecision {
  const held = drillStanding(writer.standing, drill.name);
  const hold = (reason: string): RungDecision => ({ what: "hold", reason, evidence: [] });
  if (verdict === "unclear") return hold("The take is unclear, so it changes nothing.");
  if (held === undefined || held.state === "closed")
    return hold(`Drill ${drill.name} is not open yet: it needs ${drill.needs.join(", ")}. The take is kept.`);
  if (held.state === "complete") return hold(`Drill ${drill.name} is complete; the take is kept.`);
  if (rungIndex(drill, rung) === undefined) return hold("This edition has no such rung; the take is kept.");
  if (held.rung !== rung)
    return hold(
      `The take was played to another rung than the student's (${changeText(rung, held.rung!)}); it is kept.`,
    );
  return decideRung(drill, held);
}

function problemsWith(curriculum: Curriculum, standing: Standing, finding: Finding): readonly Problem[] {
  const problems: Problem[] = [];
  if (standing.curriculum !== curriculum.name) {
    const message = `the standing is in ${standing.curriculum}, the curriculum given is ${curriculum.name}`;
    problems.push(progressProblem("CURRICULUM_OTHER", message));
  }
  for (const key of ["take", "drill", "rung"] as const) {
    if (finding[key] !== undefined && (finding[key] !== "" || key === "rung")) continue;
    const message = `a finding must name its take, drill and rung to be counted, and ${key} is missing`;
    problems.push(progressProblem("FINDING_INCOMPLETE", message, { pointer: `/${key}` }));
  }
  if ((finding.take ?? "").length > LONGEST_NAME) {
    const message = `the name of a take must have at most ${LONGEST_NAME} characters, found ${finding.take!.length}`;
    problems.push(progressProblem("FINDING_INCOMPLETE", message, { pointer: "/take" }, "give the take a shorter name"));
  }
  if (finding.drill && drillCalled(curriculum, finding.drill) === undefined) {
    const names = curriculum.drills.map((drill) => drill.name);
    const nearest = nearestName(finding.drill, names);
    const message = `the drills of ${curriculum.name} are ${names.join(", ")}; found ${finding.drill}`;
    const remedy = nearest && `write ${nearest}`;
    problems.push(progressProblem("PROGRESS_DRILL_UNKNOWN", message, { pointer: "/drill" }, remedy));
  }
  return problems;
}

/** Settings text in canonical form; a text that cannot be read as settings stays as it is. */
/** The length of each silence, for takes in which silences grow; in all others the settings of the rung say it. */
function growingLengths(drill: Drill, rung: string, { dropouts }: Finding): Pick<TakeAssessed, "lengths"> {
  const settings = parseSettings(rung);
  const lengths = settings.ok ? lengthsInTake(drill, settings.value) : [];
  return lengths.length === dropouts.length && new Set(lengths).size > 1 ? { lengths } : {};
}

function canonicalRung(rung: string): string {
  const settings = parseSettings(rung);
  return settings.ok ? settingsText(settings.value) : rung;
}

function nothing(finding: Finding, standing: Standing): Decision {
  const reason = "The finding cannot be counted.";
  const place = { drill: finding.drill, from: undefined, to: undefined };
  return { what: "not counted", ...place, reason, evidence: [], opened: [], events: [], standing, problems: [] };
}
