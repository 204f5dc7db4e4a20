/** Milliseconds of processor time a job takes: the median of several runs after some to warm up; other work on the machine lengthens it less than the clock's. */
export function processorMs(job: () => void, { runs = 9, warm = 5 }: { runs?: number; warm?: number } = {}): number {
  for (let run = 0; run < warm; run++) job();
  const times = Array.from({ length: runs }, () => {
    const before = process.cpuUsage();
    job();
    const { user, system } = process.cpuUsage(before);
    return (user + system) / 1000;
  });
  return times.sort((a, b) => a - b)[(runs - 1) >> 1]!;
}
