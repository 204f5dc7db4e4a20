import { type Curriculum, compileCourse } from "../curriculum/index.js";
import { beliefText, type History, type Learning, learnFrom, type Population, readBelief } from "../plan/index.js";
import { fingerprint } from "../progress/index.js";
import { isStoreProblem, type JournalKey, type Store } from "../store/index.js";

/** Raised whenever the same takes would teach something else. */
const VERSION = 2;

/**
 * What a student's takes teach, gone on from what the store keeps of it, and kept there for the next time. The same takes, course and population teach the same,
 * whether anything was kept or not. A store that cannot keep it now, or keeps nothing of it, is no problem.
 */
export async function learntOf(
  store: Store,
  key: JournalKey,
  {
    course,
    history,
    population,
  }: { readonly course: Curriculum; readonly history: History; readonly population?: Population | undefined },
): Promise<Learning> {
  const basisOf = (from: number, to: number): string =>
    fingerprint([VERSION, courseMark(course), population ?? null, from, history.takes.slice(from, to)]);
  const kept = await store.learnt?.read(key);
  const read = kept === undefined ? undefined : readLearning(kept.body);
  const known = read !== undefined && read.to <= history.takes.length && kept?.basis === basisOf(read.from, read.to);
  const learning = learnFrom(course, history, { population, known: known ? read : undefined });
  if (store.learnt !== undefined && !(known && read?.from === learning.from && read.to === learning.to)) {
    const { belief, from, to } = learning;
    const body = `${from} ${to} ${beliefText(belief)}`;
    await store.learnt.keep(key, { basis: basisOf(from, to), takes: to, body }).catch((error: unknown) => {
      if (!isStoreProblem(error)) throw error;
    });
  }
  return learning;
}

function readLearning(body: string): Learning | undefined {
  const [, from, to, text] = /^(\d+) (\d+) (.*)$/s.exec(body) ?? [];
  const belief = text === undefined ? undefined : readBelief(text);
  return belief === undefined ? undefined : { belief, from: Number(from), to: Number(to) };
}

const marks = new WeakMap<Curriculum, string>();

/** What a course is, so that one of other rungs or tolerances under the same edition is told from it. */
function courseMark(course: Curriculum): string {
  const mark = marks.get(course) ?? fingerprint(compileCourse(course));
  marks.set(course, mark);
  return mark;
}
