import type { Course } from './course.ts';
import { branchesOf, type Branches } from './ways.ts';

/**
 * The part of `Flows.passing` that ends in one finding, numbered as {@link Course.slots}: of all symptoms' units together, the
 * flow that leaves a test by each of its results and ends there. A new table each time; steps x branches.
 */
export function passingTo(course: Course, finding: string): Float64Array {
  const branches = branchesOf(course);
  const { from, slot, share, step, order, through } = branches;
  const table = new Float64Array(branches.slots);
  const reaching = new Float64Array(through.length);
  const wanted = branches.findings.get(finding) ?? -2;
  for (let turn = order.length - 1; turn >= 0; turn -= 1) {
    const index = order[turn] ?? 0;
    const end = from[index + 1] ?? 0;
    for (let at = from[index] ?? 0; at < end; at += 1) {
      const next = step[at] ?? -1;
      const ends = next >= 0 ? (reaching[next] ?? 0) : Number(branches.finding[at] === wanted);
      if (ends === 0) continue;
      const onward = (share[at] ?? 0) * ends;
      if (onward === 0) continue;
      reaching[index] = (reaching[index] ?? 0) + onward;
      const place = slot[at] ?? -1;
      if (place >= 0) table[place] = (table[place] ?? 0) + (through[index] ?? 0) * onward;
    }
  }
  return table;
}

/** One test's flow out of {@link passingTo}'s table, in the order of its results; undefined where there is none. */
export function passedTest(
  table: Float64Array,
  { start, end }: { readonly start: number; readonly end: number },
): readonly number[] | undefined {
  let total = 0;
  for (let slot = start; slot < end; slot += 1) total += table[slot] ?? 0;
  if (total === 0) return undefined;
  const flow: number[] = [];
  for (let slot = start; slot < end; slot += 1) flow.push(table[slot] ?? 0);
  return flow;
}

/** The flow that leaves one test, by the finding it ends in and the result it leaves with. */
export interface LeavingFlow {
  /** Row by finding (as {@link LeavingFlow.rows} numbers them), column by the test's result. */
  readonly flow: Float64Array;
  /** Only findings that a branch leads to. */
  readonly rows: ReadonlyMap<string, number>;
}

/**
 * The part of `Flows.passing` that belongs to one test, of all findings at once: what leaves it by each result is sent on down
 * the paths. Results x branches, so that a few tests of a large tree cost far less than all its findings do.
 */
export function passingFrom(
  course: Course,
  { start, end }: { readonly start: number; readonly end: number },
): LeavingFlow {
  const branches = branchesOf(course);
  const flow = new Float64Array(branches.findings.size * (end - start));
  for (let slot = start; slot < end; slot += 1) {
    const arriving = leavingBy(branches, slot);
    for (let row = 0; row < arriving.length; row += 1)
      flow[row * (end - start) + slot - start] = arriving[row] ?? 0;
  }
  return { flow, rows: branches.findings };
}

/** The flow that leaves by one test's result, by the number of the finding it ends in. */
function leavingBy({ from, slot, share, step, finding, through, order, findings }: Branches, wanted: number) {
  const inflow = new Float64Array(through.length);
  const arriving = new Float64Array(findings.size);
  for (const index of order) {
    const [here, all] = [inflow[index] ?? 0, through[index] ?? 0];
    const last = from[index + 1] ?? 0;
    for (let at = from[index] ?? 0; at < last; at += 1) {
      const leaving = (here + (slot[at] === wanted ? all : 0)) * (share[at] ?? 0);
      if (leaving === 0) continue;
      const [next, end] = [step[at] ?? -1, finding[at] ?? -1];
      if (next >= 0) inflow[next] = (inflow[next] ?? 0) + leaving;
      else if (end >= 0) arriving[end] = (arriving[end] ?? 0) + leaving;
    }
  }
  return arriving;
}
