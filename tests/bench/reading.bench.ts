/**
 * What reading a large course takes: 5,000 drills in about 2 MB of YAML, and the shipped course beside it, each in a process of its own, so that the
 * memory is its own. Seconds of processor time of the first reading, collecting garbage included, and the largest resident set of the whole process; needs the build.
 */
import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { largeCourse } from "../curriculum/largeCourse.js";

const SHIPPED = "curricula/quayside-first-course.yaml";

/** Most that the large course may take: our choice. */
const MOST = { seconds: 2, megabytes: 200 };

const READ = `
import { readFileSync } from "node:fs";
import { readCurriculum } from "./dist/index.js";
const text = readFileSync(process.argv[1], "utf8");
const began = process.cpuUsage();
const read = readCurriculum(text, { file: "course.yaml", readFile: () => undefined });
const { user, system } = process.cpuUsage(began);
const seconds = (user + system) / 1e6;
if (!read.ok) throw new Error(JSON.stringify(read.problems[0]));
console.log(JSON.stringify({ characters: text.length, drills: read.value.drills.length, seconds, kilobytes: process.resourceUsage().maxRSS }));
`;

const folder = mkdtempSync(join(tmpdir(), "leeway-reading-"));
try {
  const large = join(folder, "large.yaml");
  writeFileSync(large, largeCourse());
  console.log(`reading a course, at most ${MOST.seconds} s and ${MOST.megabytes} MB for the large one`);
  for (const file of [SHIPPED, large]) {
    const { stdout, stderr, status } = spawnSync(process.execPath, ["--input-type=module", "--eval", READ, file], {
      encoding: "utf8",
    });
    if (status !== 0) throw new Error(stderr);
    const { characters, drills, seconds, kilobytes } = JSON.parse(stdout) as Readonly<Record<string, number>>;
    const size = `${drills} drills, ${(characters! / 1e6).toFixed(2)} million characters`;
    console.log(`${size.padEnd(42)} ${seconds!.toFixed(2)} s, ${(kilobytes! / 1000).toFixed(0)} MB in all`);
  }
} finally {
  rmSync(folder, { force: true, recursive: true });
}
