import type { Message, Problem, Worded } from "../../base/index.js";
import { english, journalProblemInEnglish, type Speaker, speakerOf } from "../../words/index.js";
import { progressProblem } from "../codes.js";
import type { Complaint } from "./complaint.js";

const say: Speaker<"journal-problem"> = /* @__PURE__ */ speakerOf(english, journalProblemInEnglish);

/** A complaint in words. */
export function complaintProblem({ code, message, remedy }: Complaint): Problem {
  return progressProblem(code, sentence(message), {}, remedy && sentence(remedy));
}

function sentence({ key, parameters }: Complaint["message"]): Worded {
  return (say as (key: string, parameters: Message["parameters"]) => Worded)(key, parameters);
}
