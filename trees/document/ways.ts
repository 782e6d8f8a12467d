import type { Course } from './course.ts';

/** Where a course's branches lead, row by row in plain arrays, as its arithmetic goes through all of them again and again. */
export interface Ways {
  /** By step, its first branch; and the number after the last of all. */
  readonly from: Int32Array;
  readonly slot: Int32Array;
  /** The step a branch leads to, or -1. */
  readonly step: Int32Array;
  /** The number of the finding a branch leads to, or -1. */
  readonly finding: Int32Array;
  /** Only findings that a branch leads to. */
  readonly findings: ReadonlyMap<string, number>;
  readonly order: Int32Array;
  readonly slots: number;
}

/** A course's branches with what the weights say of them. */
export interface Branches extends Ways {
  readonly share: Float64Array;
  /** The flow through each step, of all symptoms' units together. */
  readonly through: Float64Array;
}

const laidOut = new WeakMap<Course, Branches>();
/** Courses that differ in shares alone have the same order by identity. */
const ways = new WeakMap<Course['order'], Ways>();

/** A course's branches, laid out once; where they lead once for all courses that differ in shares alone. */
export function branchesOf(course: Course): Branches {
  const known = laidOut.get(course);
  if (known !== undefined) return known;
  const led = ways.get(course.order) ?? layOut(course);
  ways.set(course.order, led);
  const share = sharesOf(course, led.slot.length);
  const branches = { ...led, share, through: throughOf(course, led, share) };
  laidOut.set(course, branches);
  return branches;
}

function layOut({ steps, order, slots }: Course): Ways {
  const all = steps.flatMap(({ branches }) => branches);
  const from = new Int32Array(steps.length + 1);
  steps.forEach(({ branches }, index) => (from[index + 1] = (from[index] ?? 0) + branches.length));
  const findings = new Map<string, number>();
  const numbers = all.map(({ lead }) => {
    if (lead.kind !== 'finding') return -1;
    const number = findings.get(lead.finding) ?? findings.size;
    findings.set(lead.finding, number);
    return number;
  });
  return {
    from,
    slot: new Int32Array(all.map(({ slot }) => slot)),
    step: new Int32Array(all.map(({ lead }) => (lead.kind === 'step' ? lead.index : -1))),
    finding: new Int32Array(numbers),
    findings,
    order: Int32Array.from(order),
    slots: [...slots.values()].at(-1)?.end ?? 0,
  };
}

function sharesOf({ steps }: Course, count: number): Float64Array {
  const shares = new Float64Array(count);
  let at = 0;
  for (const { branches } of steps) for (const { share } of branches) shares[at++] = share;
  return shares;
}

function throughOf({ firsts }: Course, { from, step, order }: Ways, share: Float64Array): Float64Array {
  const through = new Float64Array(from.length - 1);
  for (const first of firsts.values()) {
    const inflow = new Float64Array(through.length);
    inflow[first] = 1;
    for (const index of order) {
      const flow = inflow[index] ?? 0;
      if (flow === 0) continue;
      through[index] = (through[index] ?? 0) + flow;
      const end = from[index + 1] ?? 0;
      for (let at = from[index] ?? 0; at < end; at += 1) {
        const next = step[at] ?? -1;
        if (next >= 0) inflow[next] = (inflow[next] ?? 0) + flow * (share[at] ?? 0);
      }
    }
  }
  return through;
}
