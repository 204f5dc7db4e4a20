import { cliProblemInEnglish, english, type Speaker, speakerOf } from "../words/index.js";

/** Words problems with what is given on the command line in English, with the message beside each. */
export const sayProblem: Speaker<"cli-problem"> = /* @__PURE__ */ speakerOf(english, cliProblemInEnglish);

/** What stands for the code of an error that has none. */
export const UNKNOWN_REASON = { key: "cli-problem.unknown-reason", parameters: {} } as const;
