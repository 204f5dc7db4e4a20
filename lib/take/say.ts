import type { Message, Worded } from "../base/index.js";
import type { Reason, Unmeasured } from "../schema/index.js";
import {
  english,
  type KeyIn,
  type MessageParameters,
  type Speaker,
  settingInEnglish,
  speakerOf,
  takeInEnglish,
} from "../words/index.js";

/** Words a finding's sentences in English, with the message beside each; the settings of another rung are among them. */
export const say: Speaker<"setting" | "take"> = /* @__PURE__ */ speakerOf<"setting" | "take">(english, {
  ...settingInEnglish,
  ...takeInEnglish,
});

/** A reason of a finding, on one dropout or on the whole take. */
export function reasonOf(code: string, { says, message }: Worded<Message>, dropout?: number): Reason {
  return { code, says, message, ...(dropout === undefined ? {} : { dropout }) };
}

/** Messages that say why something could not be measured; they hold no phrase. */
type Why = Extract<KeyIn<"take">, `take.unmeasured.${string}`>;

/** A value that could not be measured. */
export function unmeasured<Key extends Why>(
  ...said: keyof MessageParameters[Key] extends never ? [key: Key] : [key: Key, parameters: MessageParameters[Key]]
): Unmeasured {
  const { says, message } = (say as (key: Key, parameters?: object) => Worded)(said[0], said[1]);
  return { unmeasured: says, message: message as NonNullable<Unmeasured["message"]> };
}

/** Early, late, or on the beat when it rounds to nothing. */
function sideOf(ms: number): "early" | "late" | "on" {
  return Math.round(Math.abs(ms)) === 0 ? "on" : ms < 0 ? "early" : "late";
}

/** Size in whole milliseconds and side. */
export function offBy(ms: number): { readonly ms: number; readonly side: "early" | "late" | "on" } {
  return { ms: Math.round(Math.abs(ms)), side: sideOf(ms) };
}
