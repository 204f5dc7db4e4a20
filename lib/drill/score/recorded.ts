import { negate, toNumber } from "../../base/index.js";
import {
  barLineOf,
  intervalBetween,
  type Part,
  type RecordedTake,
  readKeyPlace,
  secondsPerWhole,
} from "../../pattern/index.js";
import type { RecordedStretch } from "../../schema/index.js";
import type { Drill, Settings } from "../model.js";
import { recordedOf } from "../variants.js";
import { outside, type Stretch } from "./stretch.js";
import { paceIn, rounded, type TakeContext, tempoAt } from "./take.js";

/**
 * Where the recordings of a part are heard: its bars round and round outside the gaps (joined), each phrase from the recording with the nearest tempo;
 * `undefined` for a part that was not recorded.
 */
export function scoreRecorded(
  take: TakeContext,
  part: Part,
  gaps: readonly Stretch[],
): readonly RecordedStretch[] | undefined {
  const { settings, bars, time, pattern, does } = take;
  const recordings = recordedOf(part, settings.variant);
  if (recordings === undefined) return undefined;
  if (does.get(part.name) === "off") return [];
  const semitones = part.staysInKey ? 0 : semitonesTo(take.drill, settings);
  return passesOf(take, recordings).flatMap(({ source, from, to, speed }) => {
    const first = bars[from]!;
    const recorded = source.first + (from % source.bars);
    const start = barLineOf(source, recorded, pattern);
    const origin = time.straight(first.position);
    const taken = (bar: number): number => rounded(barLineOf(source, bar, pattern));
    const [takenFrom, takenTo] = [taken(source.first), taken(source.first + source.bars)];
    const whole = { from: from === 0 ? negate(pattern.pickup) : first.position, to: bars[to - 1]!.end };
    return outside(whole, gaps).map((sounding) => {
      const at = time.at(sounding.from);
      return {
        from: at,
        to: time.at(sounding.to),
        file: source.file,
        sha256: source.sha256,
        start: rounded(start + (at - origin) * speed),
        takenFrom,
        takenTo,
        speed,
        ...(semitones === 0 ? {} : { semitones }),
      };
    });
  });
}

/** Bars of a take that follow on one another in one recording, at one tempo: from bar `from`, counted from 0, to before bar `to`. */
interface Pass {
  readonly source: RecordedTake;
  readonly from: number;
  to: number;
  readonly speed: number;
}

function passesOf({ bars, time, drill, pattern }: TakeContext, recordings: readonly RecordedTake[]): readonly Pass[] {
  const passes: Pass[] = [];
  bars.forEach(({ position, number }, i) => {
    const own = secondsPerWhole({ tempo: tempoAt(time.tempi, position).tempo, beat: drill.beat });
    const source = nearest(recordings, own);
    // A recording that the grid follows goes at one speed, whatever its bars do.
    const speed = rounded(secondsPerWhole(source) / own / (source.lines ? toNumber(paceIn(pattern, number)) : 1));
    const last = passes.at(-1);
    if (last?.source === source && last.speed === speed && i % source.bars > 0) last.to++;
    else passes.push({ source, from: i, to: i + 1, speed });
  });
  return passes;
}

/** The recording that has to be stretched least, by ratio; of two the slower. */
function nearest(recordings: readonly RecordedTake[], own: number): RecordedTake {
  const away = (recording: RecordedTake): number => Math.abs(Math.log(secondsPerWhole(recording) / own));
  return recordings.reduce((best, each) => (away(each) < away(best) ? each : best));
}

function semitonesTo({ pattern }: Drill, { key }: Settings): number {
  const place = key === undefined ? undefined : readKeyPlace(key);
  if (place === undefined) return 0;
  return intervalBetween(pattern.key.tonic, place.key.tonic).chromatic + 12 * place.octaves;
}
