import type { Curriculum } from "../../../curriculum/index.js";
import { rungs, scoreOf } from "../../../drill/index.js";
import { stripChart } from "../../../render/index.js";
import type { Page } from "../page.js";
import { thePlayer } from "../playing/hands.js";
import { cautions } from "../view/cautions.js";
import { chart, chartWidth } from "../view/drawing.js";
import { fill, h } from "../view/element.js";
import { drillTitle, settingsLine } from "../view/rungWords.js";

/** Any rung of a course in any version: its strip, and its sound. */
export async function preview({ words }: Page, course: Curriculum): Promise<{ element: HTMLElement; leave(): void }> {
  const figure = h("figure", {});
  const drills = h(
    "select",
    { id: "preview-drill" },
    course.drills.map((drill) => h("option", { value: drill.name }, drillTitle(drill))),
  );
  const number = h("input", { type: "number", id: "preview-rung", min: 1, value: 1, inputmode: "numeric" });
  const mixes = h("select", { id: "preview-mix" });
  const said = h("p", { class: "hint", role: "status" });
  let isPlaying = false;

  const chosen = (): ReturnType<typeof scoreOf> => {
    const drill = course.drills.find(({ name }) => name === drills.value) ?? course.drills[0]!;
    const all = rungs(drill);
    const index = Math.min(all.count, Math.max(1, Math.floor(Number(number.value) || 1))) - 1;
    const rung = all.at(index);
    said.textContent =
      words.say("page.rung-of", { number: index + 1, count: all.count }) +
      (drill.ladders.length > 0 ? ` · ${settingsLine(rung, words)}` : "");
    return scoreOf(rung, drill.mixes.some(({ name }) => name === mixes.value) ? mixes.value : undefined);
  };
  const draw = (): void => fill(figure, chart(stripChart(chosen(), { width: chartWidth(), words })));
  const changeDrill = (): void => {
    const drill = course.drills.find(({ name }) => name === drills.value) ?? course.drills[0]!;
    fill(
      mixes,
      drill.mixes.map(({ name }) => h("option", { value: name }, name)),
    );
    number.max = `${rungs(drill).count}`;
    draw();
  };
  const stop = (): void => {
    if (isPlaying) void thePlayer().then((player) => player.stop());
    isPlaying = false;
  };
  const hear = async (): Promise<void> => {
    const player = await thePlayer();
    isPlaying = true;
    await player.load([chosen()]);
    await player.play();
  };
  drills.addEventListener("change", changeDrill);
  number.addEventListener("input", draw);
  mixes.addEventListener("change", draw);
  changeDrill();
  const field = (label: string, control: HTMLElement): HTMLElement =>
    h("div", { class: "field" }, h("label", { class: "label", for: control.id }, label), control);
  const element = h(
    "section",
    { "aria-labelledby": "preview" },
    h("h2", { id: "preview" }, words.say("page.preview")),
    h(
      "div",
      { class: "pair" },
      field(words.say("page.drill-asked"), drills),
      field(words.say("page.rung-asked"), number),
      field(words.say("page.version-asked"), mixes),
    ),
    said,
    h(
      "div",
      { class: "presses" },
      h("button", { type: "button", id: "hear", click: () => void hear() }, words.say("page.hear")),
      h("button", { type: "button", click: stop }, words.say("page.stop")),
    ),
    figure,
    cautions(words),
  );
  return { element, leave: stop };
}
