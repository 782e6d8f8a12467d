import { courseOf, type Course, type Tree } from '../document/index.ts';
import type { Way } from './fact.ts';
import type { Slice } from './slice.ts';

/** A tree's branches, numbered through, and the branches that each way goes along. */
export interface Walks {
  /** By a step's number in the tree's course, the number of its first branch; one more entry at the end. */
  readonly firsts: Uint32Array;
  /** By a way's code, where its branches begin in `gone`; one more entry at the end. Ways of other trees have none. */
  readonly starts: Uint32Array;
  /** Numbers of branches, in the order that they are gone along. */
  readonly gone: Uint32Array<ArrayBuffer>;
}

/**
 * Walks all ways of a tree down its current paths: each step whose test a way has an answer to, up to the first that it has
 * none to, a finding, or where no branch has that result. What is once walked is kept, and ways that came after it are added.
 */
export function walksOf(tree: Tree, ways: readonly (Way | undefined)[]): Walks {
  const known = walked.get(tree);
  if (known?.ways === ways) return known.walks;
  const walks = walkAll(tree, ways, known === undefined ? 0 : sameIn(known.ways, ways), known?.walks);
  walked.set(tree, { ways, walks });
  return walks;
}

interface Walked {
  readonly ways: readonly (Way | undefined)[];
  readonly walks: Walks;
}

// Every filter asks for the same ways down the same trees.
const walked = new WeakMap<Tree, Walked>();

/** How many ways were walked before: all that are the same, or none. */
function sameIn(before: Walked['ways'], ways: Walked['ways']): number {
  const isGrown = before.length <= ways.length && before.every((way, code) => way === ways[code]);
  return isGrown ? before.length : 0;
}

function walkAll(tree: Tree, ways: Walked['ways'], done: number, before: Walks | undefined): Walks {
  const course = courseOf(tree);
  const firsts = firstBranches(course);
  const starts = new Uint32Array(ways.length + 1);
  if (before !== undefined) starts.set(before.starts.subarray(0, done));
  let gone = done === 0 || before === undefined ? new Uint32Array() : before.gone;
  let end = gone.length;
  const walked: number[] = [];
  for (let code = done; code < ways.length; code += 1) {
    const way = ways[code];
    starts[code] = end;
    if (way?.tree !== tree.id) continue;
    walked.length = 0;
    walk(course, firsts, way, walked);
    if (end + walked.length > gone.length) gone = withRoom(gone, 2 * (end + walked.length));
    gone.set(walked, end);
    end += walked.length;
  }
  starts[ways.length] = end;
  return { firsts, starts, gone: gone.slice(0, end) };
}

function withRoom(numbers: Uint32Array<ArrayBuffer>, length: number): Uint32Array<ArrayBuffer> {
  const roomy = new Uint32Array(length);
  roomy.set(numbers);
  return roomy;
}

function firstBranches({ steps }: Course): Uint32Array {
  let count = 0;
  return Uint32Array.from([...steps, null], (step) => {
    const first = count;
    count += step?.branches.length ?? 0;
    return first;
  });
}

function walk({ firsts: entries, steps }: Course, firsts: Uint32Array, way: Way, gone: number[]): void {
  let at = entries.get(way.symptom);
  // A path of a checked tree has no loop; a way cannot be longer than all steps.
  for (let left = steps.length; at !== undefined && left > 0; left -= 1) {
    const step = steps[at];
    const answer = way.answers.find(({ test }) => test === step?.test);
    const place = step?.branches.findIndex(({ result }) => result === answer?.result) ?? -1;
    const lead = step?.branches[place]?.lead;
    if (lead === undefined) return;
    gone.push((firsts[at] ?? 0) + place);
    at = lead.kind === 'step' ? lead.index : undefined;
  }
}

/** By a way's code, 1 where it goes along a branch; for the jobs of such a slice. */
export function waysBy(
  tree: Tree,
  ways: readonly (Way | undefined)[],
  branch: Extract<Slice, { readonly kind: 'branch' }>,
): Uint8Array {
  const isBy = new Uint8Array(ways.length);
  const { firsts, starts, gone } = walksOf(tree, ways);
  const wanted = numberOf(courseOf(tree), firsts, branch);
  for (let code = 0; code < ways.length; code += 1) {
    const going = gone.subarray(starts[code] ?? 0, starts[code + 1] ?? 0);
    if (going.includes(wanted)) isBy[code] = 1;
  }
  return isBy;
}

/** -1 where there is none such. */
function numberOf(
  { steps }: Course,
  firsts: Uint32Array,
  { symptom, step, result }: { readonly symptom: string; readonly step: string; readonly result: string },
): number {
  const at = steps.findIndex((one) => one.symptom === symptom && one.step === step);
  const place = steps[at]?.branches.findIndex((one) => one.result === result) ?? -1;
  return place < 0 ? -1 : (firsts[at] ?? 0) + place;
}
