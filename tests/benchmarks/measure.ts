/** One figure of a benchmark. Each is set against something measured in the same run, or says nothing of the machine. */
export interface Measure {
  readonly name: string;
  readonly figure: number;
  readonly unit: string;
  /** The benchmark fails past this. */
  readonly limit?: { readonly atMost: number };
  /** What the figure is to be compared with. */
  readonly against?: string;
}

/** The median time of one call in milliseconds, over `rounds` timed calls after one that warms up. */
export function medianMs(rounds: number, call: () => unknown): number {
  call();
  const times = Array.from({ length: rounds }, () => {
    const start = performance.now();
    call();
    return performance.now() - start;
  }).sort((a, b) => a - b);
  return times[Math.floor(rounds / 2)] ?? 0;
}
