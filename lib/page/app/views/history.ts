import { reportOf } from "../../../practice/index.js";
import { climbChart, driftChart } from "../../../render/chart/index.js";
import type { JournalEvent } from "../../../schema/index.js";
import { copySection } from "../history/copies.js";
import { eraseSection } from "../history/erase.js";
import { passedList } from "../history/passed.js";
import type { Page, ShowView } from "../page.js";
import { chart, chartWidth } from "../view/drawing.js";
import { h } from "../view/element.js";
import { problemList } from "../view/problems.js";

/** What a student has done: drift by length of silence over the weeks, rungs passed; copies of the journal, and its end. */
export const showHistory: ShowView = async (page) => {
  const { words, student } = page;
  const { name } = student!;
  const { course } = await page.course();
  const store = await page.store();
  const title = words.say("page.history", { student: name });
  const reported = await reportOf(store, {
    students: [name],
    curriculum: course.name,
    at: new Date().toISOString(),
    courseOf: async () => course,
  });
  const events: JournalEvent[] = [];
  for await (const event of store.events({ student: name, curriculum: course.name })) events.push(event);
  const shown = reported.ok ? charts(page, reported.value) : [problemList(reported.problems, words)];
  return {
    title,
    body: [
      h("div", { class: "head" }, h("h1", {}, title)),
      h(
        "div",
        { class: "two level" },
        h("div", { class: "body" }, shown, passedList(page, course, events)),
        h("div", { class: "side" }, await copySection(page), await eraseSection(page)),
      ),
    ],
  };
};

function charts(
  { words }: Page,
  { report, climbs }: Extract<Awaited<ReturnType<typeof reportOf>>, { ok: true }>["value"],
): Node[] {
  const width = chartWidth();
  const takes = report.students.flatMap(({ courses }) =>
    courses.map(({ takes }) => takes.within + takes.beyond + takes.unclear),
  );
  if (takes.every((count) => count === 0)) return [h("p", {}, words.say("page.nothing-played-yet"))];
  const drawn = [
    ...(report.drift.length > 0 ? [driftChart(report, { width })] : []),
    ...climbs.map(({ course, events }) => climbChart(course, events, { width })),
  ];
  return drawn.map((text) => h("figure", {}, chart(text)));
}
