import { expect } from "vitest";
import type { Drill } from "../../lib/drill/index.js";
import { canonicalJson, fold } from "../../lib/progress/index.js";
import type {
  Advanced,
  DrillCompleted,
  DrillOpened,
  EditionChanged,
  GoneBack,
  JournalEvent,
  SetByTeacher,
} from "../../lib/schema/index.js";
import { type Board, clearStay, drillIn, type Editions, ladderOf, placeIn, playedTo, put } from "./board.js";
import { meets } from "./gates.js";

/**
 * Goes through a journal as a referee who trusts nobody: keeps the board by the events' own words and looks at each decision when it was taken.
 * What only holds when each decision was taken on all that is known (one store, however many devices use it at once) is looked at when `alone`.
 */
export interface Terms {
  readonly editions: Editions;
  readonly alone: boolean;
}

/** The events of a journal that counted. */
function counted(events: readonly JournalEvent[]): readonly JournalEvent[] {
  const idle = new Set(
    fold(events)
      .problems.filter(({ code }) => code !== "JOURNAL_GAP")
      .map(({ where }) => Number(where.pointer!.slice(1))),
  );
  const ids = new Set<string>();
  return events.filter(({ id }, i) => !idle.has(i) && !ids.has(id) && ids.add(id));
}

/** The board after the events of a journal, given in its order. */
export function judge(events: readonly JournalEvent[], terms: Terms): Board {
  const board: Board = { edition: "", places: new Map(), takes: new Map(), decided: new Set() };
  for (const event of counted(events)) {
    switch (event.kind) {
      case "enrolled":
        board.edition = event.edition;
        break;
      case "take assessed": {
        const { take, drill, rung, verdict } = event;
        expect(board.takes.has(take), `take ${take} counts once`).toBe(false);
        board.takes.set(take, { drill, rung, verdict });
        playedTo(placeIn(board, drill), rung).takes.push({ take, verdict });
        break;
      }
      case "advanced":
      case "drill completed":
        judgeAdvance(board, event, terms);
        break;
      case "gone back":
        judgeGoingBack(board, event, terms);
        break;
      case "drill opened":
        judgeOpening(board, event, terms);
        break;
      case "edition changed":
        judgeEdition(board, event, terms);
        break;
      case "set by teacher":
        placeByWish(board, event);
        break;
    }
  }
  return board;
}

/** The drill as the edition in force has it, or as any edition had it. */
function stated(board: Board, name: string, { editions, alone }: Terms): readonly Drill[] {
  const courses = alone ? [editions.get(board.edition)] : [...editions.values()];
  const drills = courses.flatMap((course) => drillIn(course, name) ?? []);
  expect(drills.length, `an edition has drill ${name}`).toBeGreaterThan(0);
  return drills;
}

/** The takes a decision names: of that rung, of that verdict, played in this stay, each once, and none decided on before. */
function judgeEvidence(board: Board, event: Advanced | DrillCompleted | GoneBack, fresh: readonly string[]): void {
  const place = placeIn(board, event.drill);
  expect(place.state, `${event.id}: the drill was open`).toBe("open");
  expect(place.rung, `${event.id}: the student was on that rung`).toBe(event.from);
  expect(new Set(event.evidence).size, `${event.id} names a take twice`).toBe(event.evidence.length);
  const verdict = event.kind === "gone back" ? "beyond" : "within";
  for (const take of event.evidence)
    expect(board.takes.get(take), `${event.id}, take ${take}`).toEqual({
      drill: event.drill,
      rung: event.from,
      verdict,
    });
  const last = event.evidence.at(-1)!;
  expect(board.decided.has(last), `two decisions rest on take ${last}`).toBe(false);
  board.decided.add(last);
  const stay = clearStay(place, event.from).map(({ take }) => take);
  expect(fresh.length, `${event.id} rests on a new take`).toBeGreaterThan(0);
  for (const take of fresh) expect(stay, `${event.id} names a take of an earlier stay`).toContain(take);
}

/** Whether a completion comes too late, as another device moved the student, used its takes or withdrew its credit. */
function isOvertaken(place: ReturnType<typeof placeIn>, { from, evidence, against, credit }: DrillCompleted): boolean {
  if (place.rung !== from) return true;
  if (credit !== undefined) return place.credits.get(from)?.event !== credit;
  const stay = clearStay(place, from).map(({ take }) => take);
  return [...evidence, ...against].some((take) => !stay.includes(take));
}

/** A completion that comes too late counts all the same, as its own takes prove it; who was put on a rung stays there. */
function judgeOvertaken(board: Board, event: DrillCompleted): void {
  const { drill, from, evidence, against, gate } = event;
  const place = placeIn(board, drill);
  expect(place.state, `${event.id}: the drill was open`).toBe("open");
  expect(place.completed, `${event.id}: the drill was not complete before`).toBeUndefined();
  for (const take of evidence) expect(board.takes.get(take)).toEqual({ drill, rung: from, verdict: "within" });
  for (const take of against) expect(board.takes.get(take)).toEqual({ drill, rung: from, verdict: "beyond" });
  const own = event.credit === undefined ? evidence.length : evidence.length - 1;
  expect(meets(gate, own, against.length), `${event.id}: its takes meet its gate`).toBe(true);
  place.completed = event.id;
  if (["set by teacher", "placement test", "edition changed"].includes(place.by ?? "")) return;
  place.credits.set(from, { event: event.id, evidence });
  const left = playedTo(place, from);
  left.from = left.takes.length;
  place.state = "complete";
  place.rung = from;
  place.takenFrom = undefined;
}

function judgeAdvance(board: Board, event: Advanced | DrillCompleted, terms: Terms): void {
  const { drill, from, evidence, against, gate } = event;
  const place = placeIn(board, drill);
  if (event.kind === "drill completed" && !terms.alone && isOvertaken(place, event)) {
    judgeOvertaken(board, event);
    return;
  }
  const credit = event.credit === undefined ? undefined : place.credits.get(from);
  const fresh = evidence.filter((take) => credit?.evidence.includes(take) !== true);
  judgeEvidence(board, event, fresh);
  const stay = clearStay(place, from);
  if (event.credit === undefined) {
    expect(meets(gate, evidence.length, against.length), `${event.id}: its takes meet its gate`).toBe(true);
    const named = stay.slice(stay.length - evidence.length - against.length);
    // The latest clear takes of the stay, none of them passed over.
    if (terms.alone)
      expect(named.map(({ take }) => take).sort(), `${event.id}`).toEqual([...evidence, ...against].sort());
    for (const take of against) expect(board.takes.get(take)).toEqual({ drill, rung: from, verdict: "beyond" });
    place.credits.set(from, { event: event.id, evidence });
  } else {
    expect(credit?.event, `${event.id} rests on a credit that stands`).toBe(event.credit);
    expect(evidence.slice(0, credit!.evidence.length)).toEqual(credit!.evidence);
    if (terms.alone) expect(stay.at(-1)?.take).toBe(evidence.at(-1));
  }
  const fitting = stated(board, drill, terms).filter((each) => {
    const ladder = ladderOf(each);
    const next = ladder[ladder.indexOf(from) + 1];
    const to = event.kind === "advanced" ? event.to : undefined;
    return ladder.includes(from) && next === to && canonicalJson(each.gate) === canonicalJson(gate);
  });
  expect(fitting.length, `${event.id} goes up one rung by the gate of the drill`).toBeGreaterThan(0);
  const left = playedTo(place, from);
  left.from = left.takes.length;
  if (event.kind === "advanced") put(place, event.to, event.kind);
  else {
    place.state = "complete";
    place.completed = event.id;
  }
}

function judgeGoingBack(board: Board, event: GoneBack, terms: Terms): void {
  const { drill, from, to, after, evidence, lapsed } = event;
  const place = placeIn(board, drill);
  judgeEvidence(board, event, evidence);
  if (terms.alone)
    expect(
      clearStay(place, from)
        .slice(-after)
        .map(({ take }) => take),
    ).toEqual(evidence);
  expect(evidence.length).toBeGreaterThanOrEqual(after);
  const fitting = stated(board, drill, terms).filter((each) => {
    const ladder = ladderOf(each);
    const target = Math.max(0, ladder.indexOf(from) - (each.goBack?.by ?? 0));
    return ladder.includes(from) && each.goBack?.after === after && to !== from && ladder[target] === to;
  });
  expect(fitting.length, `${event.id} goes down as the drill says, and never below its first rung`).toBeGreaterThan(0);
  const left = playedTo(place, from);
  left.from = left.takes.length;
  for (const rung of lapsed) place.credits.delete(rung);
  put(place, to, event.kind);
  if (terms.alone)
    expect(place.credits.has(to), `${event.id}: the rung gone back to has to be earned anew`).toBe(false);
}

function judgeOpening(board: Board, event: DrillOpened, terms: Terms): void {
  for (const need of event.needs)
    expect(board.places.get(need)?.completed, `${event.id}: ${need} was completed on evidence`).toBeDefined();
  const fitting = stated(board, event.drill, terms).filter(
    (each) => [...each.needs].sort().join() === [...event.needs].sort().join() && ladderOf(each)[0] === event.to,
  );
  expect(fitting.length, `${event.id} opens by the drill's own needs, on its first rung`).toBeGreaterThan(0);
  const place = placeIn(board, event.drill);
  expect(place.state).toBe("closed");
  put(place, event.to, event.kind);
}

function placeByWish(board: Board, { drill, to, kind }: SetByTeacher): void {
  const place = placeIn(board, drill);
  put(place, to, kind);
  // To be shown anew, whatever was shown there before; and nothing becomes complete by it.
  place.credits.delete(to);
}

function judgeEdition(board: Board, event: EditionChanged, terms: Terms): void {
  expect(event.from).toBe(board.edition);
  if (terms.alone) judgeLosses(board, event, terms);
  board.edition = event.to;
  for (const { from, to } of event.renamed) rename(board, from, to);
  for (const { drill, from, to } of event.moved) {
    const place = placeIn(board, drill);
    if (place.rung !== from) continue;
    const { state } = place;
    const origin = place.takenFrom ?? { rung: from, state: state === "complete" ? "complete" : "open" };
    if (origin.rung === to) {
      // Back where an edition took them from: the stay there goes on.
      place.rung = to;
      place.by = event.kind;
    } else put(place, to, event.kind);
    place.state = state;
    place.takenFrom = origin;
  }
  for (const drill of event.reopened) {
    const place = placeIn(board, drill);
    if (place.state !== "complete") continue;
    place.takenFrom ??= { rung: place.rung!, state: "complete" };
    place.state = "open";
  }
  for (const drill of event.completeAgain ?? []) {
    const place = placeIn(board, drill);
    if (terms.alone) expect(place.completed, `${event.id}: ${drill} had been completed on evidence`).toBeDefined();
    // A journal with holes may no longer have the evidence: then the drill stays open.
    if (place.state === "open" && place.completed !== undefined) place.state = "complete";
  }
  for (const place of board.places.values())
    if (place.takenFrom?.rung === place.rung && place.takenFrom?.state === place.state) place.takenFrom = undefined;
}

/** Every credit whose rung the new edition lacks is listed, and nothing else; nobody is moved up, but back where an edition took them from; nobody is left on a rung that is gone. */
function judgeLosses(board: Board, event: EditionChanged, { editions }: Terms): void {
  const [before, now] = [editions.get(event.from), editions.get(event.to)!];
  const nameNow = (name: string): string => event.renamed.find(({ from }) => from === name)?.to ?? name;
  const gone: string[] = [];
  for (const [name, { credits, rung, state, takenFrom }] of board.places) {
    const drill = drillIn(now, nameNow(name));
    expect(event.withdrawn.includes(name), `${event.id}: ${name} is withdrawn when no drill carries it on`).toBe(
      drill === undefined,
    );
    const ladder = drill === undefined ? [] : ladderOf(drill);
    for (const earned of credits.keys()) if (!ladder.includes(earned)) gone.push(`${nameNow(name)} ${earned}`);
    const move = event.moved.find((each) => each.drill === nameNow(name));
    if (drill === undefined || rung === undefined || state === "closed") continue;
    if (takenFrom !== undefined && ladder.includes(takenFrom.rung)) {
      expect(move?.to ?? rung, `${event.id}: ${name} goes back where an edition took it from`).toBe(takenFrom.rung);
      continue;
    }
    expect(move === undefined, `${event.id}: ${name} stays on a rung that stands`).toBe(ladder.includes(rung));
    if (move === undefined) continue;
    expect(ladder).toContain(move.to);
    const old = drillIn(before, name);
    const [from, to] = old === undefined ? [-1, -1] : [rung, move.to].map((each) => ladderOf(old).indexOf(each));
    // Down, or to the first rung where the new ladder begins above the student.
    if (from! >= 0 && to! >= 0 && move.to !== ladder[0])
      expect(to, `${event.id} moves ${name} down`).toBeLessThan(from!);
  }
  expect(event.lost.map(({ drill, rung }) => `${drill} ${rung}`).sort(), `${event.id} lists what is lost`).toEqual(
    gone.sort(),
  );
}

function rename(board: Board, from: string, to: string): void {
  const old = board.places.get(from);
  const present = board.places.get(to);
  if (old === undefined || (present !== undefined && present.state !== "closed")) return;
  for (const [rung, { takes }] of present?.played ?? []) {
    const played = playedTo(old, rung);
    played.takes.push(...takes);
    if (old.rung !== rung && old.takenFrom?.rung !== rung) played.from = played.takes.length;
  }
  board.places.delete(from);
  board.places.set(to, old);
  for (const [take, each] of board.takes) if (each.drill === from) board.takes.set(take, { ...each, drill: to });
}
