import { isPreparation, rungCalled, rungNumber, settingsText } from "../../../drill/index.js";
import type { Plan, PlayLine } from "../../../plan/index.js";
import { takeChart } from "../../../render/index.js";
import type { Page, PlayedTake, ShowView } from "../page.js";
import { routeText } from "../route.js";
import { placeOf, todaysPlan } from "../state/todaysPlan.js";
import { gateSection } from "../take/gate.js";
import { ownSound } from "../take/ownSound.js";
import { refusedSection } from "../take/refused.js";
import { silencesSection } from "../take/silences.js";
import { chart, chartWidth } from "../view/drawing.js";
import { h } from "../view/element.js";
import { onKey } from "../view/keys.js";
import { drillTitle } from "../view/rungWords.js";

/** What a take showed, what it means for the gate, and what comes next and why. */
export const showTake: ShowView = async (page) => {
  const played = page.played.current!;
  const { words } = page;
  const { finding, rung, submitted } = played;
  const sound = ownSound(page, played);
  const next = submitted === undefined ? undefined : await nextSection(page, played);
  const title = words.word(finding.message, finding.sentence);
  const body = h(
    "div",
    { class: "two plan" },
    h(
      "div",
      { class: "head" },
      h(
        "p",
        { class: "kicker" },
        words.say("page.drill-and-rung", { drill: drillTitle(rung.drill), number: rungNumber(rung) }),
        played.placing && ` · ${words.say("page.to-find-rung")}`,
      ),
      h("h1", {}, title),
      finding.verdict === "unclear" && h("p", { class: "lead" }, words.say("page.unclear-counts-not")),
      played.advice.length > 0 && adviceList(page, played),
    ),
    refusedSection(page, played),
    next?.element,
    h(
      "div",
      { class: "body tall" },
      silencesSection(page, played),
      h(
        "section",
        { "aria-labelledby": "whole" },
        h("h2", { id: "whole" }, words.say("page.whole-take-seen")),
        h("figure", {}, chart(wholeTake(played, words))),
        sound.element,
      ),
    ),
    h("div", { class: "side last" }, gateSection(page, played)),
  );
  const quiet = onKey((meaning) => {
    if (meaning !== "start" || next === undefined) return false;
    next.go();
    return true;
  });
  return {
    title,
    body: [body],
    leave: () => {
      quiet();
      sound.close();
      if (page.played.current === played) page.played.current = undefined;
    },
  };
};

/** The chart of the take, without the name that keeps it apart from others: it says nothing to anybody. */
function wholeTake(
  { score, take: { id: _, ...take }, finding: { take: __, ...finding } }: PlayedTake,
  words: Page["words"],
): string {
  return takeChart(score, take, finding, { width: chartWidth(), words });
}

/** What should be known of how the take was heard; each thing once, as the finding may say it too. */
function adviceList({ words }: Page, { advice, finding }: PlayedTake): HTMLElement {
  const all = new Map([...advice, ...(finding.advice ?? [])].map((each) => [each.message, each]));
  return h(
    "ul",
    { class: "steps" },
    [...all.values()].map((each) =>
      h("li", {}, "words" in each ? words.word(each.words?.message, each.message) : each.message),
    ),
  );
}

/** The decision with its reason, and what the plan, made anew, says to play now. */
async function nextSection(
  page: Page,
  { submitted, rung, placing }: PlayedTake,
): Promise<{ element: HTMLElement; go: () => void }> {
  const { words } = page;
  const { decision } = submitted!;
  const plan = await todaysPlan(page, new Date());
  const line = plan.ok ? plan.value.lines.find((each) => each.kind !== "rest") : undefined;
  const here = { view: "drill", drill: rung.drill.name } as const;
  const goes = decision.what === "advance" || decision.what === "go back";
  const own = goes ? decision.to : (decision.from ?? decision.to);
  // The plan, made anew, says what comes now; where its time is over, the student's own rung.
  const main = placing
    ? { ...here, asked: { place: "1" } }
    : line !== undefined
      ? placeOf(line)
      : { ...here, rung: own ?? "1" };
  const target = goes ? rungCalled(rung.drill, decision.to) : undefined;
  const stays = line === undefined || (line.drill === rung.drill.name && line.rung === own);
  const same = line !== undefined && isPreparation(rung) && line.rung === settingsText(rung.settings);
  const label =
    !stays && !same && !placing
      ? words.say("page.start-with", { drill: line.title })
      : target !== undefined
        ? words.say("page.go-to-rung", { way: decision.what === "advance" ? "on" : "back", number: target.index + 1 })
        : words.say("page.play-again");
  const go = (): void => page.go(main);
  const element = h(
    "section",
    { class: "side first", "aria-labelledby": "next" },
    h("h2", { id: "next" }, words.say("page.what-next")),
    h("p", { id: "decision", "data-what": decision.what }, decisionText(page, submitted!)),
    h(
      "div",
      { class: "presses" },
      h(
        "a",
        { class: "button go", id: "next-take", href: routeText(main) },
        label,
        h("kbd", { class: "keys" }, words.say("page.space")),
      ),
      listenFirst(page, rung, main.rung),
    ),
    plan.ok && planNote(page, plan.value, line),
  );
  return { element, go };
}

function decisionText({ words }: Page, { decision }: NonNullable<PlayedTake["submitted"]>): string {
  const { reason, messages } = decision as typeof decision & { messages?: readonly { key: string }[] };
  const said = messages?.map((message) => words.word(message as never, ""));
  return said === undefined || said.includes("") ? reason : said.join(" ");
}

/** A link to the version in which the riff can be heard, where there is one. */
function listenFirst({ words }: Page, { drill }: PlayedTake["rung"], rung: string | undefined): HTMLElement | false {
  const heard = drill.mixes.find(({ parts }) => parts[drill.student] !== undefined && parts[drill.student] !== "off");
  if (heard === undefined) return false;
  const href = routeText({
    view: "drill",
    drill: drill.name,
    ...(rung === undefined ? {} : { rung }),
    asked: { mix: heard.name },
  });
  return h("a", { class: "button", href }, words.say("page.listen-first"));
}

/** What the rest of the plan begins with, and why. */
function planNote({ words }: Page, plan: Plan, line: PlayLine | undefined): Node[] {
  if (line === undefined) return [h("p", { class: "small" }, words.say("page.plan-over"))];
  const minutes = Math.ceil(plan.seconds / 60);
  const place = words.say("page.drill-and-rung", { drill: line.title, number: line.number ?? 0 });
  const text = words.say("page.plan-now", { place, takes: line.takes, minutes });
  return [
    h("p", { class: "small" }, text),
    h("p", { class: "small why" }, words.word(line.message, line.because)),
    h("p", { class: "small" }, h("a", { href: routeText({ view: "today" }) }, words.say("page.whole-plan"))),
  ];
}
