import { describe, expect, test } from "vitest";
import { CAUTIONS } from "../../../lib/base/index.js";
import { renderOverview } from "../../../lib/render/sheet/index.js";
import { layOutOverview } from "../../../lib/render/sheet/layOutOverview.js";
import { markedWords, unmarked } from "../../words/marked.js";
import { FONTS, SHIPPED } from "./material.js";

const [COURSE] = SHIPPED;
const options = { paper: "a4", fonts: FONTS } as const;

function textsOf(asked: Parameters<typeof layOutOverview>[1], course = COURSE!): readonly string[] {
  const laid = layOutOverview(course, asked);
  if (!laid.ok) throw new Error(JSON.stringify(laid.problems));
  return laid.value.pages.flatMap(({ marks }) => marks.flatMap((mark) => (mark.kind === "text" ? [mark.text] : [])));
}

describe("the overview of a course", () => {
  test("has its title, every drill with its rungs and the cautions on every page", () => {
    const texts = textsOf(options);
    const whole = texts.join(" ");
    expect(texts).toContain(COURSE!.title);
    for (const { title } of COURSE!.drills) expect(whole).toContain(title);
    expect(texts.filter((text) => text === "A take is clean when").length).toBe(COURSE!.drills.length);
    const laid = layOutOverview(COURSE!, options);
    const pages = laid.ok ? laid.value.pages : [];
    expect(pages.length).toBeGreaterThan(1);
    for (const { marks } of pages) {
      const text = marks.flatMap((mark) => (mark.kind === "text" ? [mark.text] : [])).join(" ");
      for (const caution of CAUTIONS) expect(text).toContain(caution);
    }
  });

  test("speaks another language throughout", () => {
    const texts = textsOf({ ...options, words: markedWords() });
    expect(texts.some((text) => text.includes("⟦"))).toBe(true);
    const data = [
      "plain",
      COURSE!.title,
      COURSE!.about,
      ...COURSE!.drills.flatMap(({ title, about }) => [title, about]),
    ].join(" ");
    const beside = unmarked(texts.join(" "))
      .outside.split(/\s+/)
      .filter((word) => /\p{L}{2}/u.test(word));
    expect(beside.filter((word) => !data.includes(word))).toEqual([]);
  });

  test("is the same bytes again, in large print on more pages, and of no drills one page", async () => {
    const [one, again] = await Promise.all([renderOverview(COURSE!, options), renderOverview(COURSE!, options)]);
    if (!one.ok || !again.ok) throw new Error("not rendered");
    expect(Buffer.compare(one.value.pdf, again.value.pdf)).toBe(0);
    const large = await renderOverview(COURSE!, { ...options, size: "large" });
    expect(large.ok && large.value.svg.length).toBeGreaterThan(one.value.svg.length);
    const none = await renderOverview({ title: "Quay", drills: [] }, options);
    expect(none.ok && none.value.svg.length).toBe(1);
  });

  test("is refused for a paper that is not known", async () => {
    const made = await renderOverview(COURSE!, { ...options, paper: "a9" as "a4" });
    expect(made.ok ? [] : made.problems).toMatchObject([{ code: "PAPER_UNKNOWN" }]);
  });
});
