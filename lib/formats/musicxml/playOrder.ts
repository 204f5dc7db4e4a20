/** What a bar says about repeats. */
export interface RepeatMarks {
  readonly forward: boolean;
  /** Times the section is played, when a backward repeat ends the bar. */
  readonly backward: number | undefined;
  readonly endings: readonly { readonly numbers: readonly number[]; readonly type: string }[];
}

/**
 * The indices of the bars in the order they are played: sections between repeat signs as often as they say, endings on their passes.
 * A backward repeat without a forward one goes back to the end of the repeat before, or to the start. At most `most` indices.
 */
export function playOrder(bars: readonly RepeatMarks[], most: number): readonly number[] {
  const endings = endingNumbers(bars);
  const order: number[] = [];
  let start = 0;
  let pass = 1;
  for (let i = 0; i < bars.length && order.length < most; i++) {
    if (bars[i]!.forward && i !== start) {
      start = i;
      pass = 1;
    }
    const numbers = endings[i];
    if (numbers && !numbers.includes(pass)) {
      if (leaves(endings, i, pass)) [start, pass] = [i + 1, 1];
      continue;
    }
    order.push(i);
    const times = bars[i]!.backward;
    if (times === undefined) continue;
    if (pass < Math.max(times, numbers ? lastPass(endings, i) : 0)) {
      pass++;
      i = start - 1;
    } else [start, pass] = [i + 1, 1];
  }
  return order;
}

/** Whether skipping bar `i` leaves the endings of its section behind without one for this pass: the music goes on after them. */
function leaves(endings: readonly (readonly number[] | undefined)[], i: number, pass: number): boolean {
  return endings[i + 1] === undefined && pass > 1;
}

/** The last pass that the endings from bar `i` on provide for. */
function lastPass(endings: readonly (readonly number[] | undefined)[], i: number): number {
  let last = 0;
  for (let j = i; endings[j] !== undefined; j++) last = Math.max(last, ...endings[j]!);
  return last;
}

/** The numbers of the ending each bar lies in; undefined outside endings, and in endings whose number cannot be read. */
function endingNumbers(bars: readonly RepeatMarks[]): (readonly number[] | undefined)[] {
  let open: readonly number[] | undefined;
  return bars.map((bar) => {
    const starts = bar.endings.find((e) => e.type === "start");
    if (starts) open = starts.numbers.length > 0 ? starts.numbers : undefined;
    const here = open;
    if (bar.endings.some((e) => e.type === "stop" || e.type === "discontinue")) open = undefined;
    return here;
  });
}
