import type {
  Advanced,
  DrillCompleted,
  DrillOpened,
  EditionChanged,
  GoneBack,
  JournalEvent,
  TakeAssessed,
} from "../../schema/index.js";
import { gateMet } from "../gate/gate.js";
import { OUTCOMES } from "./applyEvent.js";
import { type Complaint, complaint } from "./complaint.js";
import { type MutableStanding, type Outcome, outcomeAt, placeOf, rungsOf } from "./mutableStanding.js";

/**
 * What devices told that did not count, because another device was first. It tells an honest decision that rests on it (DECISION_OVERTAKEN, advice) from a
 * forged one (an error). It changes no standing.
 */
export interface Divergence {
  /** A take that was counted already: told in another way, or the same at another place of the journal. */
  noteTelling(event: TakeAssessed, told: "otherwise" | "the same"): void;
  /** The names of drills that an edition renamed, also when the change came too late. */
  noteRenaming(event: EditionChanged): void;
  /** What is wrong with an event, once it is known what other devices told. */
  weigh(standing: MutableStanding, event: JournalEvent, wrong: Complaint): Complaint;
}

type Decision = Advanced | DrillCompleted | GoneBack;

export function openDivergence(): Divergence {
  const tellings = new Map<string, TakeAssessed[]>();
  const retold = new Set<string>();
  /** Name of a drill -> all names it had, shared by all of them. */
  const names = new Map<string, Set<string>>();
  const overtakenCompletions = new Set<string>();
  const namesOf = (drill: string): Iterable<string> => names.get(drill) ?? [drill];

  const isTold = (
    standing: MutableStanding,
    take: string,
    { drill: called, from }: Decision,
    outcome: Outcome,
  ): boolean => {
    for (const name of namesOf(called)) {
      const drill = standing.drills.get(name);
      const rung = drill && rungsOf(drill).get(from);
      const place = rung && outcomeIn(standing, rung, take);
      if (place === outcome) return true;
      for (const told of tellings.get(take) ?? [])
        if (told.drill === name && told.rung === from && OUTCOMES[told.verdict] === outcome) return true;
    }
    return false;
  };
  /** Whether every take was told as a decision says, by some device; and the decision is right by these takes. */
  const isHonest = (standing: MutableStanding, event: Decision): boolean => {
    const against = "against" in event ? event.against : [];
    const takes = [...event.evidence, ...against];
    if (new Set(takes).size < takes.length) return false;
    if (event.kind === "gone back")
      return event.evidence.length >= event.after && takes.every((take) => isTold(standing, take, event, "b"));
    if (event.credit === undefined && !gateMet(event.gate, event.evidence.length, against.length)) return false;
    return (
      event.evidence.every((take) => isTold(standing, take, event, "w")) &&
      against.every((take) => isTold(standing, take, event, "b"))
    );
  };
  const isCompletedSomewhere = (standing: MutableStanding, drill: string): boolean => {
    for (const name of namesOf(drill))
      if (overtakenCompletions.has(name) || standing.drills.get(name)?.completed !== undefined) return true;
    return false;
  };
  const weighed = (standing: MutableStanding, event: JournalEvent, wrong: Complaint): Complaint => {
    if (event.kind === "drill opened" && wrong.code === "NEEDS_NOT_MET") {
      const isHonestly = event.needs.every((need) => isCompletedSomewhere(standing, need));
      return isHonestly ? overtakenNeeds(event) : wrong;
    }
    const isEvidence = wrong.code === "EVIDENCE_UNKNOWN" || wrong.code === "EVIDENCE_CONTRADICTED";
    if (!isEvidence || !isDecision(event)) return wrong;
    // All takes count as the decision says, and still it is wrong: it lists them out of order, as the device that heard of one of them later.
    const isOrder = isCountedAsListed(standing, event) && !event.evidence.some((take) => retold.has(take));
    if (isOrder || !isHonest(standing, event)) return wrong;
    return complaint("DECISION_OVERTAKEN", "journal-problem.overtaken-told", { id: event.id });
  };
  return {
    noteTelling: (event, how) => {
      if (how === "the same") retold.add(event.take);
      else tellings.set(event.take, [...(tellings.get(event.take) ?? []), event]);
    },
    noteRenaming: ({ renamed }) => {
      for (const { from, to } of renamed) {
        const all = new Set([...namesOf(from), ...namesOf(to)]);
        for (const name of all) names.set(name, all);
      }
    },
    weigh: (standing, event, wrong) => {
      const found = weighed(standing, event, wrong);
      if (event.kind !== "drill completed" || found.code !== "DECISION_OVERTAKEN") return found;
      overtakenCompletions.add(event.drill);
      const isKept = standing.drills.get(event.drill)?.completed !== undefined;
      return isKept
        ? found
        : {
            ...found,
            remedy: { key: "journal-problem.overtaken-completion-remedy", parameters: { drill: event.drill } },
          };
    },
  };
}

function isDecision(event: JournalEvent): event is Decision {
  return event.kind === "advanced" || event.kind === "drill completed" || event.kind === "gone back";
}

/** Whether all listed takes are counted for the very rung, with the verdict that the decision needs. */
function isCountedAsListed(standing: MutableStanding, event: Decision): boolean {
  const drill = standing.drills.get(event.drill);
  const rung = drill && rungsOf(drill).get(event.from);
  if (rung === undefined) return false;
  const [evidence, against] = event.kind === "gone back" ? [[], event.evidence] : [event.evidence, event.against];
  return (
    evidence.every((take) => outcomeIn(standing, rung, take) === "w") &&
    against.every((take) => outcomeIn(standing, rung, take) === "b")
  );
}

/** The verdict with which a take counts on a rung; `undefined` when it does not count there. */
function outcomeIn(standing: MutableStanding, rung: Parameters<typeof placeOf>[1], take: string): string | undefined {
  const place = placeOf(standing, rung, take);
  return place === undefined ? undefined : outcomeAt(rung, place);
}

function overtakenNeeds({ id, drill, needs }: DrillOpened): Complaint {
  return complaint("DECISION_OVERTAKEN", "journal-problem.overtaken-needs", { id, drill, needs });
}
