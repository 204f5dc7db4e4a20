import type { Curriculum } from "../../../curriculum/index.js";
import { contentFiles } from "../../publish/contentFiles.js";
import { singlePage } from "../../publish/singlePage.js";
import type { Page } from "../page.js";
import { fileText, isSingle } from "../state/files.js";
import { saveFile } from "../view/saveFile.js";

/** Saves a course as a page to hand out, one file that works by a double click; made of the parts of this page. */
export async function savePage({ words }: Page, course: Curriculum): Promise<void> {
  const apart = isSingle() || words.language === "en" ? undefined : `words/${words.language}.js`;
  const html = singlePage({
    content: contentFiles([{ course }], words.language),
    script: isSingle() ? partOf("script") : await fileText("single.js"),
    style: isSingle() ? partOf("style") : await fileText("page.css"),
    language: apart && (await fileText(apart)),
    words: { language: words.language, title: course.title, noScript: words.say("page.needs-script") },
  });
  saveFile(`${course.name}.html`, html, "text/html");
}

function partOf(name: "script" | "style"): string {
  return document.querySelector(`[data-part="${name}"]`)?.textContent ?? "";
}
