import { driftChart } from "../../render/chart/index.js";
import { driftWords, landingWords } from "../../report/index.js";
import type { LengthDrift } from "../../schema/index.js";
import type { Words } from "../../words/index.js";
import { chart, chartWidth } from "../app/view/drawing.js";
import { h } from "../app/view/element.js";
import { dateText } from "./date.js";

/** Drift by length of silence over the weeks, as a picture and in figures. */
export function driftSection(words: Words, drift: readonly LengthDrift[]): HTMLElement {
  return h(
    "section",
    { "aria-labelledby": "drift" },
    h("h2", { id: "drift" }, words.say("school.drift")),
    drift.length === 0
      ? h("p", {}, words.say("report.no-silence-yet"))
      : [
          h("figure", {}, chart(driftChart({ drift }, { width: chartWidth(), words }))),
          h(
            "details",
            {},
            h("summary", {}, words.say("school.in-figures")),
            h("p", {}, words.say("report.how-to-read")),
            h("p", {}, words.say("school.landings-is")),
            drift.map((row) => figures(words, row)),
          ),
        ],
  );
}

/** Landings by length of silence, over all and week by week. */
export function landingsSection(words: Words, drift: readonly LengthDrift[]): HTMLElement | false {
  const rows = drift.filter(({ landings }) => landings !== undefined);
  if (rows.length === 0) return false;
  return h(
    "section",
    { "aria-labelledby": "landings" },
    h("h2", { id: "landings" }, words.say("school.landings")),
    h("p", {}, words.say("school.landings-is")),
    h(
      "ul",
      { class: "register" },
      rows.map((row) =>
        h(
          "li",
          {},
          h("h3", {}, lengthWords(row.length, words)),
          h("p", {}, landingWords(row, words)),
          h(
            "ol",
            { class: "weeks" },
            row.weeks.map((week) =>
              h(
                "li",
                {},
                words.say("school.week-told", {
                  date: dateText(week.week, words),
                  landings: landingWords(week, words),
                }),
              ),
            ),
          ),
        ),
      ),
    ),
  );
}

/** "1/2 bar", of all silences of this length. */
function lengthWords(length: string | undefined, { say }: Words): string {
  return length === undefined ? say("report.unknown-length") : say("report.length", { told: "each-silence", length });
}

function figures(words: Words, { length, weeks }: LengthDrift): HTMLElement {
  const head = (text: string): HTMLElement => h("th", { scope: "col" }, text);
  return h(
    "div",
    { class: "figures", tabindex: 0, role: "group", "aria-label": lengthWords(length, words) },
    h(
      "table",
      {},
      h("caption", {}, words.say("school.figures-caption", { length: length ?? words.say("report.unknown-length") })),
      h(
        "thead",
        {},
        h(
          "tr",
          {},
          head(words.say("school.week")),
          head(words.say("school.takes")),
          head(words.say("school.measured")),
          head(words.say("school.drift-head")),
          head(words.say("school.landing-head")),
        ),
      ),
      h(
        "tbody",
        {},
        weeks.map((week) =>
          h(
            "tr",
            {},
            h("th", { scope: "row" }, dateText(week.week, words)),
            h("td", {}, `${week.takes}`),
            h("td", {}, `${week.measured}`),
            h("td", {}, driftWords(week, words)),
            h("td", {}, landingWords(week, words)),
          ),
        ),
      ),
    ),
  );
}
