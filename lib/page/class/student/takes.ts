import { drillCalled } from "../../../curriculum/index.js";
import { type Drill, rungCalled } from "../../../drill/index.js";
import { type KeptSilence, silencesOf } from "../../../progress/index.js";
import type { TakeAssessed } from "../../../schema/index.js";
import type { Words } from "../../../words/index.js";
import { landingGauge } from "../../app/take/landingGauge.js";
import { mark } from "../../app/take/mark.js";
import { h } from "../../app/view/element.js";
import { drillTitle } from "../../app/view/rungWords.js";
import { dateText } from "../date.js";
import type { ClassPage } from "../page.js";
import type { StudentRecord } from "./record.js";

/** Takes shown at once, the latest first: our choice, some days of practice. */
const SHOWN = 10;

/** The takes of a student, each with its silences and landings. */
export function takesSection({ words }: ClassPage, { events, own }: StudentRecord): HTMLElement {
  const takes = events.filter((event) => event.kind === "take assessed").reverse();
  const list = h("ol", { class: "takes", reversed: true, start: takes.length });
  const more = h("button", { type: "button" }, words.say("school.more-takes"));
  let shown = 0;
  const showMore = (): void => {
    const added = takes.slice(shown, shown + SHOWN).map((take) => takeItem(words, drillCalled(own, take.drill), take));
    list.append(...added);
    shown += added.length;
    if (shown >= takes.length) more.remove();
  };
  more.addEventListener("click", () => {
    const from = list.children.length;
    showMore();
    // Whoever listens goes on where the new ones begin.
    list.children[from]?.querySelector<HTMLElement>("h3")?.focus();
  });
  showMore();
  return h(
    "section",
    { "aria-labelledby": "takes" },
    h("h2", { id: "takes" }, words.say("school.takes-of")),
    takes.length === 0 ? h("p", {}, words.say("school.no-takes")) : [list, h("div", { class: "presses" }, more)],
  );
}

function takeItem(words: Words, drill: Drill | undefined, take: TakeAssessed): HTMLElement {
  const { at, verdict, rung: settings } = take;
  const rung = rungCalled(drill, settings);
  const kept = silencesOf(take);
  const said = words.say("school.take-of", {
    date: dateText(at, words),
    drill: drill === undefined ? take.drill : drillTitle(drill),
    rung: rung === undefined ? settings : `${rung.index + 1}`,
  });
  return h(
    "li",
    {},
    h(
      "h3",
      { tabindex: -1 },
      said,
      " ",
      h("span", { class: `verdict ${verdict}` }, mark(verdict), words.say("school.take-verdict", { verdict })),
    ),
    kept !== undefined &&
      h(
        "ul",
        { class: "landings" },
        kept.silences.map((silence, i) =>
          silenceItem(words, silence, { number: i + 1, limit: drill?.tolerance.landing }),
        ),
      ),
  );
}

/** A silence of a take: its landing as a picture, and in words with its drift. */
function silenceItem(
  words: Words,
  { length, landingMs, standardErrorMs, driftPercent }: KeptSilence,
  { number, limit }: { readonly number: number; readonly limit: number | undefined },
): HTMLElement {
  const name =
    length === undefined ? words.say("school.silence", { number }) : words.say("school.silence-of", { number, length });
  const isWithin = limit === undefined || Math.abs(landingMs ?? 0) <= limit;
  return h(
    "li",
    {},
    h("p", { class: "kicker" }, name),
    landingMs !== undefined &&
      landingGauge({ ms: landingMs, standardErrorMs: standardErrorMs ?? 0 }, { limit, isWithin }),
    h(
      "p",
      {},
      words.say("school.silence-told", {
        landed: landedText(words, landingMs, limit),
        drifted: driftedText(words, driftPercent),
      }),
    ),
  );
}

function landedText(words: Words, landingMs: number | undefined, limit: number | undefined): string {
  if (landingMs === undefined) return words.say("school.not-landed");
  const ms = Math.round(Math.abs(landingMs));
  const side = ms === 0 ? "on" : landingMs < 0 ? "early" : "late";
  return limit === undefined
    ? words.say("school.landed", { side, ms })
    : words.say("school.landed-limit", { side, ms, limit: Math.round(limit) });
}

function driftedText(words: Words, driftPercent: number | undefined): string {
  if (driftPercent === undefined) return words.say("school.not-drifted");
  const percent = Math.abs(driftPercent);
  return words.say("school.drifted", { side: percent < 0.05 ? "on" : driftPercent < 0 ? "fast" : "slow", percent });
}
