import type { Result } from "../../base/index.js";
import type { Curriculum } from "../../curriculum/index.js";
import type { FilmFormat } from "../../node/index.js";
import type { Engraver } from "../../render/sheet/index.js";
import type { Words } from "../../words/index.js";
import { type Format, planOf, type RenderOptions, type RenderPlan, type SOUNDS } from "../render/plan.js";

export type SoundFormat = (typeof SOUNDS)[number];

export interface PublishOptions
  extends Pick<
    RenderOptions,
    "out" | "mix" | "for" | "rungs" | "bank" | "loudness" | "paper" | "largePrint" | "font" | "upright"
  > {
  readonly as: readonly SoundFormat[];
  /** Films of each version; none when left out. */
  readonly films?: readonly FilmFormat[];
  /** Where the folder is served. */
  readonly address?: string;
  /** Says how many files and bytes there would be: makes them all, and puts none into the folder. */
  readonly dryRun?: true;
}

/** What is published of a course. */
export interface PublishPlan extends RenderPlan {
  /** SHA-256 of the text of the course. */
  readonly sum: string;
  /** Where it is served, with a slash at its end; absent when nothing was said. */
  readonly address?: string;
  readonly options: RenderOptions & { readonly as: readonly Format[] };
  readonly formats: readonly SoundFormat[];
  readonly films: readonly FilmFormat[];
}

/** What the steps of publishing have in common. */
export interface Publishing {
  readonly words: Words;
  /** Stops all steps; what is finished stays. */
  readonly signal: AbortSignal;
  /** The notation engraver, opened when it is first needed. */
  readonly engraver: () => Promise<Result<Engraver>>;
}

/** Raised whenever the same course gives other sheets or pages than before, so that older files are made anew. */
export const PUBLISH_EDITION = 3;

/** Resolves what is asked for to a plan. Problems: those of `planOf`. */
export function publishPlan(
  course: Curriculum,
  of: { readonly file: string; readonly sum: string; readonly address: string | undefined },
  options: PublishOptions,
): Result<PublishPlan> {
  const { as, out, mix, for: players, rungs, bank, loudness, paper, largePrint, font, upright } = options;
  const asked: RenderOptions = {
    as,
    out,
    paper,
    folders: "drill",
    ...(mix && { mix }),
    ...(players && { for: players }),
    ...(rungs === undefined ? {} : { rungs }),
    ...(bank === undefined ? {} : { bank }),
    ...(loudness === undefined ? {} : { loudness }),
    ...(largePrint && { largePrint }),
    ...(font === undefined ? {} : { font }),
    ...(upright && { upright }),
  };
  const plan = planOf(course, { file: of.file, drill: undefined, rung: undefined }, asked);
  if (!plan.ok) return plan;
  const address = of.address === undefined ? {} : { address: of.address };
  return {
    ...plan,
    value: { ...plan.value, sum: of.sum, options: asked, formats: as, films: options.films ?? [], ...address },
  };
}
