import { failureIn, type Problem, type Result, success } from "../../base/index.js";
import type { Drill, Rung } from "../../drill/index.js";
import {
  ladderChart,
  midiOf,
  musicXmlOf,
  stripChart,
  studentMidiOf,
  takePage,
  writtenScore,
} from "../../render/index.js";
import type { Score } from "../../schema/index.js";
import type { Words } from "../../words/index.js";
import type { Setting } from "../outcome.js";
import { type ManifestFile, writeRendered } from "./manifest.js";
import { CHART, CONCERT_SCORE, STUDENT } from "./names.js";
import { type PlannedDrill, type Player, type RenderOptions, type RenderPlan, renderJobs } from "./plan.js";

/** One MIDI or MusicXML file. */
interface NotesFile {
  /** The end of its name, after the rung and the mix. */
  readonly suffix: string;
  /** Its content is that of every mix: it is written with the first, under a name without one. */
  readonly everyMix?: boolean;
  readonly format: "midi" | "musicxml" | "chart";
  readonly player?: string;
  readonly make: () => Result<Uint8Array>;
}

/** The MIDI and MusicXML files of a plan, of every part that sounds and of the student's part alone, and a strip chart. */
export async function notesFiles(
  { words }: Setting,
  plan: RenderPlan,
  options: RenderOptions,
): Promise<Result<readonly ManifestFile[]>> {
  const files: ManifestFile[] = [];
  const advice = new Map<string, Problem>();
  for (const planned of plan.drills) {
    const { drill, mixes, rungs: chosen } = planned;
    const jobs = renderJobs(plan, planned);
    if (!jobs.ok) return jobs;
    if (options.as.includes("chart")) {
      const ladders = await laddersFile(drill, plan, { out: options.out, words });
      if (!ladders.ok) return ladders;
      files.push(ladders.value);
    }
    for (let i = 0; i < jobs.value.count; i++) {
      const { file: path, score } = jobs.value.at(i);
      const name = path.slice(path.lastIndexOf("/") + 1);
      const rung = chosen[Math.floor(i / mixes.length)]!;
      for (const { suffix, format, player, everyMix, make } of notesOf(score, rung, {
        planned,
        plan,
        options,
        words,
      })) {
        if (everyMix && i % mixes.length > 0) continue;
        const called = everyMix ? jobs.value.everyMixAt(i) : name;
        const file = plan.names.place(`${called}${suffix}`, { drill: drill.name, rung: jobs.value.rungAt(i), player });
        const made = make();
        if (!made.ok) return failureIn(file, made.problems);
        for (const each of made.advice) advice.set(each.message, each);
        const about = { file, format, drill: drill.name, rung: score.rung, ...(everyMix ? {} : { mix: score.mix }) };
        const written = await writeRendered(
          options.out,
          made.value,
          player === undefined ? about : { ...about, player },
        );
        if (!written.ok) return written;
        files.push(written.value);
      }
    }
  }
  return success(files, [...advice.values()]);
}

/** The ladder chart of a drill over all its rungs. */
function laddersFile(
  drill: Drill,
  { names }: RenderPlan,
  { out, words }: { readonly out: string; readonly words: Words },
): Promise<Result<ManifestFile>> {
  const bytes = new TextEncoder().encode(ladderChart(drill, { words }));
  const file = names.place(`${names.drill(drill.name)}-ladders.svg`, { drill: drill.name });
  return writeRendered(out, bytes, { file, format: "chart", drill: drill.name });
}

function notesOf(
  score: Score,
  rung: Rung,
  { planned, plan, options, words }: { planned: PlannedDrill; plan: RenderPlan; options: RenderOptions; words: Words },
): readonly NotesFile[] {
  const { instruments } = plan.course;
  const textOf = (mix: string, staves: "student" | "every", player?: Player): Result<string> => {
    const pitch = player === undefined ? "concert" : "transposed";
    return musicXmlOf(takePage(rung, { mix, staves, player, pitch, instruments, words }));
  };
  const xml = (staves: "student" | "every", player?: Player): Result<Uint8Array> => {
    const made = textOf(score.mix, staves, player);
    return made.ok ? success(new TextEncoder().encode(made.value)) : made;
  };
  /** Whether the student reads the same in all mixes of the drill, also in those that were not asked for: a file has one name whatever was asked for. */
  const isAlike = (player: Player): boolean => {
    const texts = rung.drill.mixes.map(({ name }) => textOf(name, "student", player));
    return texts.every((text) => text.ok && texts[0]!.ok && text.value === texts[0]!.value);
  };
  const midi: readonly NotesFile[] = [
    { suffix: ".mid", format: "midi", make: () => midiOf(score, { words }) },
    {
      suffix: `_${STUDENT}.mid`,
      format: "midi",
      make: () => studentMidiOf({ ...score, parts: writtenScore(rung).parts }, { words }),
    },
  ];
  const everybody: NotesFile = { suffix: `_${CONCERT_SCORE}.musicxml`, format: "musicxml", make: () => xml("every") };
  const players = planned.players.map((player): NotesFile => {
    const { name } = player.instrument;
    return {
      suffix: `_${plan.names.player(name)}.musicxml`,
      format: "musicxml",
      player: name,
      everyMix: isAlike(player),
      make: () => xml("student", player),
    };
  });
  const chart: NotesFile = {
    suffix: `_${CHART}.svg`,
    format: "chart",
    make: () => success(new TextEncoder().encode(stripChart(score, { words }))),
  };
  return [
    ...(options.as.includes("midi") ? midi : []),
    ...(options.as.includes("musicxml") ? [everybody, ...players] : []),
    ...(options.as.includes("chart") ? [chart] : []),
  ];
}
