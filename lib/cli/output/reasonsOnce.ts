import type { Reason } from "../../schema/index.js";
import type { Words } from "../../words/index.js";

/** The reasons of a finding as sentences with their codes; what is the same of several silences is said once, with the silences it concerns. */
export function reasonsOnce(reasons: readonly Reason[], words: Words): readonly { sentence: string; code: string }[] {
  const few = new Map<string, Reason[]>();
  for (const reason of reasons)
    if (reason.message?.key === "take.few-played") few.set(reason.code, [...(few.get(reason.code) ?? []), reason]);
  return reasons.flatMap((reason) => {
    const { code, says, message } = reason;
    const alike = message?.key === "take.few-played" ? few.get(code)! : [reason];
    if (alike.length === 1) return [{ sentence: words.word(message, says), code }];
    if (alike[0] !== reason) return [];
    const given = (name: string): number[] => alike.map((each) => Number(each.message?.parameters[name]));
    const sum = (name: string): number => given(name).reduce((total, each) => total + each, 0);
    const silences = given("silence").map(String);
    return [
      { sentence: words.say("chart.few-played-in", { silences, played: sum("played"), notes: sum("notes") }), code },
    ];
  });
}
