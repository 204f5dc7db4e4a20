import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { openCourse, readCurriculum } from "../../lib/curriculum/index.js";
import { contentFiles, folderFiles, singlePage } from "../../lib/page/index.js";
import { ROOT } from "../sources.js";

const text = readFileSync(join(ROOT, "curricula/quayside-first-course.yaml"), "utf8");
const read = readCurriculum(
  text.replace("title: Quayside first course", 'title: "</script><script>alert(1)</script>"'),
  {
    file: "course.yaml",
    readFile: () => undefined,
  },
);
if (!read.ok) throw new Error(JSON.stringify(read.problems));
const course = read.value;
const words = { language: "en", title: course.title, noScript: "Scripts & more are needed." };
const parts = ["app.js", "page.css", "single.js", "service-worker.js"].map((path) => ({
  path,
  content: `/* ${path} */`,
}));

describe("the files of a page", () => {
  test("hold each course as it is opened again", () => {
    const files = new Map(contentFiles([{ course }], "en").map(({ path, content }) => [path, content]));
    const index = JSON.parse(String(files.get("page.json")));
    expect(index.courses).toEqual([
      { name: course.name, edition: course.edition, title: course.title, file: "courses/1.json" },
    ]);
    const opened = openCourse(String(files.get("courses/1.json")));
    expect(opened.ok && opened.value).toEqual(course);
  });

  test("write a picture once that several drills and readers share", () => {
    const picture = { form: "variant=plain", svg: "<path/>", width: 300, height: 80, bars: [] };
    const sheets = ["a", "b"].flatMap((drill) =>
      (["narrow", "wide"] as const).map((width) => ({ drill, reader: "tuba", width, pictures: [picture] })),
    );
    const files = contentFiles([{ course, sheets }], "en");
    expect(files.filter(({ path }) => path.startsWith("sheets/")).map(({ path }) => path)).toEqual(["sheets/1.json"]);
  });

  test("are all fetched ahead by the service worker, but for itself, under a version that every change of a file changes", () => {
    const made = folderFiles({ content: contentFiles([{ course }], "en"), parts, words });
    const prepared = preparedOf(made);
    expect([...prepared.files, "service-worker.js"].sort()).toEqual(made.map(({ path }) => path).sort());
    const changed = parts.map((part) => (part.path === "page.css" ? { ...part, content: "/* other */" } : part));
    const again = folderFiles({ content: contentFiles([{ course }], "en"), parts: changed, words });
    expect(preparedOf(again).version).not.toBe(prepared.version);
  });

  test("have a document that runs no script but the page's own file, whatever a course is called", () => {
    const made = folderFiles({ content: [], parts, words });
    const html = String(made.find(({ path }) => path === "index.html")!.content);
    expect(html.match(/<script/g)).toHaveLength(1);
    expect(html).toContain(`<script type="module" src="app.js">`);
    const policy = html.match(/Content-Security-Policy" content="([^"]+)"/)![1]!.replaceAll("&#39;", "'");
    expect(policy).toContain("script-src 'self';");
    expect(policy).toContain("default-src 'none'");
    expect(policy).not.toMatch(/unsafe|\*|https?:/);
  });
});

describe("a page in one file", () => {
  const script = `const a = "</script>"; const b = "<!-- x";`;
  const html = singlePage({
    content: contentFiles([{ course }], "en"),
    script,
    style: "p { color: red }",
    words,
  });

  test("allows its one script and its one style by their digests", () => {
    const code = html.match(/<script data-part="script">([\s\S]*?)<\/script>/)![1]!;
    const style = html.match(/<style data-part="style">([\s\S]*?)<\/style>/)![1]!;
    const digest = (part: string): string => createHash("sha256").update(part).digest("base64");
    const policy = html.replaceAll("&#39;", "'");
    expect(policy).toContain(`script-src 'sha256-${digest(code)}' data:`);
    expect(policy).toContain(`style-src 'sha256-${digest(style)}'`);
    // The same program: a string in JavaScript reads "<\/" as "</".
    expect(new Function(`${code}; return a + b;`)()).toBe("</script><!-- x");
  });

  test("holds its courses as data that nothing ends early", () => {
    expect(html.match(/<script/g)).toHaveLength(3);
    expect(html).not.toContain("<script>alert");
  });
});

function preparedOf(files: ReturnType<typeof folderFiles>): {
  readonly version: string;
  readonly files: readonly string[];
} {
  const worker = String(files.find(({ path }) => path === "service-worker.js")!.content);
  return JSON.parse(worker.match(/^self\.prepared = (.*);$/m)![1]!);
}
