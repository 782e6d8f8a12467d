import type { Course } from './course.ts';
import { passingTo } from './passing.ts';
import { branchesOf, type Branches } from './ways.ts';

/** Of the flow that passes a test and ends in a finding, the share that leaves by each of the test's results. */
export interface PassingShares {
  /** Row by finding as `findings` numbers them, column by slot (see {@link Course.slots}); 0 where nothing flows. */
  readonly shares: Float64Array;
  /** Row by finding, column by test in the order of {@link Course.slots}: 1 where any flow of the finding passes the test. */
  readonly isFlowing: Uint8Array;
  /** Only findings that a branch leads to; no flow ends in the others. */
  readonly findings: ReadonlyMap<string, number>;
  readonly slots: number;
  readonly tests: number;
}

/** Above this many numbers the shares of all findings together are not kept, nor are all findings' flows added up at once. */
const MOST_KEPT = 2_000_000;

const kept = new WeakMap<Course, PassingShares>();

/**
 * The shares of all findings at all tests, worked out once for a course and not to be written to; null where all of so many
 * findings together would take too much room. Findings x branches.
 */
export function passingShares(course: Course, findings: number): PassingShares | null {
  const known = kept.get(course);
  if (known !== undefined) return known;
  const branches = branchesOf(course);
  if (branches.slots * findings > MOST_KEPT) return null;
  const made = sharesOf(course, branches);
  kept.set(course, made);
  return made;
}

function sharesOf(course: Course, branches: Branches): PassingShares {
  const { slots, findings } = branches;
  const tests = course.slots.size;
  const shares = passingToAll(course, branches);
  const isFlowing = new Uint8Array(findings.size * tests);
  const starts = Int32Array.from(course.slots.values(), ({ start }) => start);
  for (let row = 0; row < findings.size; row += 1)
    for (let place = 0; place < tests; place += 1) {
      const start = row * slots + (starts[place] ?? 0);
      const end = row * slots + (starts[place + 1] ?? slots);
      isFlowing[row * tests + place] = Number(toShares(shares, start, end));
    }
  return { shares, isFlowing, findings, slots, tests };
}

/** Turns flows into shares of their sum, in place; whether there was any flow to be shared. */
export function toShares(flow: Float64Array, start: number, end: number): boolean {
  let total = 0;
  for (let slot = start; slot < end; slot += 1) total += flow[slot] ?? 0;
  if (total === 0) return false;
  for (let slot = start; slot < end; slot += 1) flow[slot] = (flow[slot] ?? 0) / total;
  return true;
}

/** {@link passingTo} of all findings, to the last digit: row by finding, column by slot. */
export function passingToAll(course: Course, branches: Branches): Float64Array {
  const { slots, findings, through } = branches;
  if (through.length * findings.size <= MOST_KEPT) return turned(addedUp(branches), findings.size, slots);
  const flow = new Float64Array(findings.size * slots);
  for (const [finding, row] of findings) flow.set(passingTo(course, finding), row * slots);
  return flow;
}

/**
 * Goes through the branches once, at each one through all findings, in the order in which {@link passingTo} adds up for each by
 * itself. Row by slot, column by finding.
 */
function addedUp(branches: Branches): Float64Array {
  const { from, slot, step, finding, share, through, order } = branches;
  const count = branches.findings.size;
  // One row more, for branches of results that their tests do not have.
  const flow = new Float64Array((branches.slots + 1) * count);
  // Row by step, column by finding: of the flow through a step, the share that ends there.
  const reaching = new Float64Array(through.length * count);
  for (let turn = order.length - 1; turn >= 0; turn -= 1) {
    const index = order[turn] ?? 0;
    const [here, all, end] = [index * count, through[index] ?? 0, from[index + 1] ?? 0];
    for (let at = from[index] ?? 0; at < end; at += 1) {
      const [next, part, place] = [step[at] ?? -1, share[at] ?? 0, slot[at] ?? -1];
      const row = (place < 0 ? branches.slots : place) * count;
      if (next >= 0) addRow(flow, row, reaching, { here, there: next * count, count }, part, all);
      else if ((finding[at] ?? -1) >= 0) {
        const column = finding[at] ?? 0;
        reaching[here + column] = (reaching[here + column] ?? 0) + part;
        flow[row + column] = (flow[row + column] ?? 0) + all * part;
      }
    }
  }
  return flow;
}

/** What goes on along one branch to another step, of all findings. */
function addRow(
  flow: Float64Array,
  row: number,
  reaching: Float64Array,
  { here, there, count }: { readonly here: number; readonly there: number; readonly count: number },
  share: number,
  through: number,
): void {
  for (let column = 0; column < count; column += 1) {
    const onward = share * (reaching[there + column] ?? 0);
    reaching[here + column] = (reaching[here + column] ?? 0) + onward;
    flow[row + column] = (flow[row + column] ?? 0) + through * onward;
  }
}

/** Rows become columns; what is past the last is left out. */
function turned(flow: Float64Array, findings: number, slots: number): Float64Array {
  const table = new Float64Array(findings * slots);
  for (let slot = 0; slot < slots; slot += 1)
    for (let row = 0; row < findings; row += 1) table[row * slots + slot] = flow[slot * findings + row] ?? 0;
  return table;
}
