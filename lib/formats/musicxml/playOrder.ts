/** Repeat signs and endings of a bar. */
export interface RepeatMarks {
  readonly forward: boolean;
  /** Times the section is played, when a backward repeat ends the bar. */
  readonly backward: number | undefined;
  readonly endings: readonly { readonly numbers: readonly number[]; readonly type: string }[];
}

/**
 * The indices of the bars in playing order. Sections between repeat signs are repeated as often as the signs say; endings are played on their
 * passes. A backward repeat without a forward repeat goes back to the end of the repeat before, or to the start. At most `most` indices.
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

/** Whether, when bar `i` is skipped, no ending of its section is left for this pass: the music then continues after the endings. */
function leaves(endings: readonly (readonly number[] | undefined)[], i: number, pass: number): boolean {
  return endings[i + 1] === undefined && pass > 1;
}

/** The last pass that has an ending from bar `i` on. */
function lastPass(endings: readonly (readonly number[] | undefined)[], i: number): number {
  let last = 0;
  for (let j = i; endings[j] !== undefined; j++) last = Math.max(last, ...endings[j]!);
  return last;
}

/** The pass numbers of the ending at each bar; `undefined` outside endings, and where the number cannot be read. */
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
