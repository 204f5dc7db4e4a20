import type { Heard } from "../../../browser/index.js";
import { type Rung, rungNumber } from "../../../drill/index.js";
import { beatBefore, type Screen, screenAt } from "../../../render/film/index.js";
import type { Score } from "../../../schema/index.js";
import type { Page } from "../page.js";
import { h } from "../view/element.js";
import { onKey } from "../view/keys.js";
import { drillTitle } from "../view/rungWords.js";
import type { Stand } from "./stand.js";

/** What is on the screen while something plays: the music, one line, and the way out. */
export interface PlayingScreen {
  readonly body: readonly Node[];
  /** Where taps are taken; the whole screen without a pad. */
  readonly pad: HTMLElement;
  focus(): void;
  /** Resolves when the student wants to stop. */
  readonly stopped: Promise<void>;
  /** Shows what is heard, picture by picture, until this is over. */
  until<Value>(heard: () => Heard, over: Promise<Value>): Promise<Value>;
}

export interface ScreenOptions {
  readonly rung: Rung;
  readonly score: Score;
  readonly stand: Stand;
  /** Whether the mark goes on through silences: nobody is tested. */
  readonly follows: boolean;
  /** Whether there is a pad to tap on. */
  readonly pad: boolean;
}

export function playingScreen(page: Page, { rung, score, stand, follows, pad }: ScreenOptions): PlayingScreen {
  const { words } = page;
  const heading = h("h1", { tabindex: -1 });
  const said = h("p", { class: "said" });
  const where = h("span", {});
  const stop = h(
    "button",
    { type: "button", id: "stop" },
    words.say("page.stop"),
    h("kbd", { class: "keys" }, words.say("page.escape")),
  );
  const tapping = h("button", { type: "button", class: "pad", id: "pad" }, words.say("page.tap-here"));
  const leaf = h(
    "div",
    { class: "leaf" },
    h(
      "p",
      { class: "where" },
      h("span", {}, words.say("page.drill-and-rung", { drill: drillTitle(rung.drill), number: rungNumber(rung) })),
      where,
    ),
    heading,
    h("div", { class: "stand" }, stand.element),
    said,
  );
  const steps = matchMedia("(prefers-reduced-motion: reduce)");
  let last: Screen | undefined;
  const show = (now: Screen): void => {
    // Whatever is equal looks alike: in a silence nothing is touched.
    if (last !== undefined && last.at === now.at && last.phase === now.phase && last.phrase === now.phrase) return;
    if (last?.phase !== now.phase) {
      const phase = follows ? "follows" : now.phase === "counting in" ? "counting-in" : now.phase;
      heading.textContent = words.say("page.playing", { phase });
      said.textContent = words.say("page.playing-said", { phase });
      document.body.classList.toggle("gone", (now.phase === "silence" || now.phase === "part") && !follows);
    }
    if (last?.phrase !== now.phrase) {
      where.textContent =
        now.phrase > rung.drill.phrases
          ? words.say("chart.outro")
          : words.say("page.phrase-of", { number: now.phrase, count: rung.drill.phrases });
      stand.showPhrase(now.phrase);
    }
    const at = steps.matches ? beatBefore(score, now.at) : now.at;
    stand.mark(at, now.phase !== "band" && !follows);
    last = now;
  };
  document.body.classList.add("playing");
  let askToStop = (): void => undefined;
  const stopped = new Promise<void>((resolve) => {
    askToStop = resolve;
  });
  stop.addEventListener("click", () => askToStop());
  const quiet = onKey((meaning) => {
    // The keys that start are taps where there is a pad.
    if (meaning === "start" && pad) return false;
    askToStop();
    return true;
  });
  show(screenAt(score, -1, follows));
  return {
    body: [leaf, pad && tapping, h("div", { class: "out" }, stop)].filter((each) => each !== false),
    pad: pad ? tapping : leaf,
    focus: () => (pad ? tapping : heading).focus(),
    stopped,
    until: async (heard, over) => {
      let isOver = false;
      const draw = (): void => {
        if (isOver) return;
        const { state, at } = heard();
        if (state === "playing" || state === "counting in") show(screenAt(score, at, follows));
        requestAnimationFrame(draw);
      };
      requestAnimationFrame(draw);
      try {
        return await over;
      } finally {
        isOver = true;
        quiet();
      }
    },
  };
}
