import { failure, success } from "../../base/index.js";
import { rungNumber, rungs, scoreOf, settingsText } from "../../drill/index.js";
import { ASSUMED_FAMILY, familyOfPart, type InstrumentFamily, readMidiTake } from "../../listen/index.js";
import { type NamedTake, place, playedTo, requireNames, scoreFor, submit } from "../../practice/index.js";
import { checkTake, type Take } from "../../schema/index.js";
import { currentTake } from "../../take/index.js";
import { toldOutside } from "../answer/problemAnswer.js";
import { withoutMessages } from "../answer/withoutMessages.js";
import { serverProblem } from "../codes.js";
import type { Call } from "../model.js";
import type { Result } from "../problem.js";
import { sayProblem } from "../say.js";
import type { Handlers } from "./handler.js";
import { bodyOf, inUse } from "./reading.js";

/** Takes: assessed, counted once, decided on. */
export const takes: Handlers<"submit" | "place"> = {
  submit: async (call) => {
    const { school, parameters, at } = call;
    const heard = call.body !== undefined && "pieces" in call.body ? await heardTake(call, call.body) : undefined;
    const take = heard === undefined ? takeIn(call) : heard.ok ? success(heard.value.take) : heard;
    const submitted = await inUse(call, async (use) =>
      take.ok ? submit(school.store, parameters.student!, take.value, { ...use, at }) : take,
    );
    if (!take.ok) return submitted.ok ? take : submitted;
    if (!submitted.ok) return submitted;
    const { finding, decision } = submitted.value;
    return success({
      content: {
        take: take.value.id,
        ...(finding && { finding }),
        decision: withoutMessages(decision),
        ...(heard?.ok && { heard: heard.value.shown }),
      },
    });
  },
  place: async (call) => {
    const { school, parameters, at } = call;
    const wish = bodyOf<{ readonly drill?: string; readonly take?: unknown }>(call.body);
    const checked = wish.take === undefined ? undefined : checkTake(currentTake(wish.take));
    const take = checked?.ok ? requireNames(checked.value) : checked;
    const drill = wish.drill === undefined ? {} : { drill: wish.drill };
    const placed = await inUse(call, async (use) => {
      if (take?.ok === false) return take;
      const played = take === undefined ? {} : { take: take.value };
      return place(school.store, parameters.student!, { ...use, ...drill, ...played, at });
    });
    if (!placed.ok) return placed;
    const { placing, submitted } = placed.value;
    const { rung, done, says, tried } = placing;
    const content = {
      drill: rung.drill.name,
      rung: settingsText(rung.settings),
      number: rungNumber(rung),
      rungs: rungs(rung.drill).count,
      mix: scoreOf(rung).mix,
      done,
      says,
      tried: tried.map((each) => ({
        rung: settingsText(each.rung.settings),
        number: rungNumber(each.rung),
        verdict: each.verdict,
      })),
      ...(submitted?.finding && { finding: submitted.finding }),
    };
    return success({ content });
  },
};

/** The take of a request, under the id of its address. */
function takeIn(call: Call): Result<NamedTake> {
  const { body, parameters } = call;
  const id = parameters.take!;
  if (body !== undefined && "bytes" in body) return midiTake(call, body.bytes);
  const take = checkTake(currentTake(bodyOf(body)));
  if (!take.ok) return take;
  const other = (["id", "student"] as const).find((what) => {
    const addressed = what === "id" ? id : parameters.student;
    return (take.value[what] ?? addressed) !== addressed;
  });
  if (other === undefined) return requireNames({ ...take.value, id });
  const message = sayProblem("server-problem.take-not-as-addressed", { what: other });
  const remedy = sayProblem("server-problem.take-not-as-addressed-remedy");
  return failure(serverProblem("TAKE_NOT_AS_ADDRESSED", message, { pointer: `/${other}` }, remedy));
}

function midiTake({ parameters, query }: Call, bytes: Uint8Array): Result<NamedTake> {
  const { zero, ...says } = query as Partial<Take>;
  const read = readMidiTake(bytes, { id: parameters.take!, ...(zero && { zero }) });
  return read.ok ? requireNames({ ...read.value, ...says }) : read;
}

/** A take that was heard in a recording, and what is told of the recording. */
interface HeardTake {
  readonly take: NamedTake;
  readonly shown: object;
}

/** Hears a recording by the rung that the query names; nothing is taken in before it is known what was to be played. */
async function heardTake(
  call: Call,
  { pieces, most }: Extract<Call["body"], { readonly pieces: unknown }>,
): Promise<Result<HeardTake>> {
  const { school, parameters, person } = call;
  const {
    start,
    family: said,
    zero: _zero,
    ...says
  } = call.query as Partial<Take> & {
    readonly start?: number;
    readonly family?: InstrumentFamily;
  };
  const named = requireNames({ ...says, id: parameters.take!, onsets: [] });
  if (!named.ok) return named;
  const played = await inUse(call, async (use) => playedTo(named.value, use));
  if (!played.ok) return played;
  const { course, drill, rung } = played.value;
  const score = scoreFor(course, rung, named.value);
  const players = drill.players.map(({ instrument }) => instrument.name);
  const family = said ?? familyOfPart({ score, players }) ?? ASSUMED_FAMILY;
  const { latencyMs } = says;
  const heard = await school.hearing.hear(person!.name, pieces, {
    ...{ score, family, most, id: named.value.id },
    ...(start === undefined ? {} : { start }),
    ...(latencyMs === undefined ? {} : { latencyMs }),
  });
  if (!heard.ok) return heard as Result<never>;
  const { take, seconds } = heard.value;
  const shown = { seconds, notes: take.onsets.length, family, advice: heard.advice.map(toldOutside) };
  return success({ take: { ...named.value, ...take, id: named.value.id }, shown });
}
