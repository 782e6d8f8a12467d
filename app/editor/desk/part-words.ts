import { destination, own, type Tree } from '../../../trees/document/index.ts';
import { numberedSteps, type NumberedStep } from '../drawing/numbered-steps.ts';
import { partOf, type Part } from './places.ts';

const UNTITLED = 'untitled';

/** A title, or a word for one that is not written yet. */
export function titled(title: string | undefined): string {
  const words = title?.trim() ?? '';
  return words === '' || words === '…' ? UNTITLED : words;
}

/** A part of a tree in a few words, as a sentence would name it: “step 4, 3.3 V rail”. */
export function partWords(tree: Tree, pointer: string): string {
  const part = partOf(pointer);
  switch (part.kind) {
    case 'tree':
      return 'the tree itself';
    case 'test':
      return resultOrTest(tree, part);
    case 'finding':
      return `finding ${titled(own(tree.findings, part.finding)?.title)}`;
    case 'symptom':
      return `symptom ${titled(own(tree.symptoms, part.symptom)?.title)}`;
    case 'step':
      return stepWords(tree, part.symptom, part.step);
    case 'axis':
      return `bench states ${titled(own(tree.bench, part.axis)?.title)}`;
    case 'interlock':
      return `interlock ${String(part.index + 1)}`;
  }
}

/** Where a `go` written in a symptom’s path leads, in a few words. */
export function goWords(tree: Tree, symptom: string, go: string): string {
  const place = destination(go, symptom);
  switch (place.kind) {
    case 'finding':
      return `finding ${titled(own(tree.findings, place.finding)?.title)}`;
    case 'symptom':
      return `the path of ${titled(own(tree.symptoms, place.symptom)?.title)}`;
    case 'step': {
      const words = stepWords(tree, place.symptom, place.step);
      if (place.symptom === symptom) return words;
      return `${words} of ${titled(own(tree.symptoms, place.symptom)?.title)}`;
    }
  }
}

/** A step by its number in its path and its test. */
export function stepWords(tree: Tree, symptom: string, step: string): string {
  const found = numbersOf(tree, symptom).get(step);
  const test = own(tree.symptoms, symptom)?.steps[step]?.test;
  const title = test === undefined ? undefined : own(tree.tests, test)?.title;
  return found === undefined ? `step ${step}, which is not there` : `step ${String(found)}, ${titled(title)}`;
}

/** The numbers of a path’s steps, counted once for as long as they are the same. */
export function numbersOf(tree: Tree, symptom: string): ReadonlyMap<string, number> {
  const steps = numberedSteps(tree, symptom);
  const known = numbers.get(steps);
  if (known !== undefined) return known;
  const counted = new Map(steps.map(({ step, number }) => [step, number]));
  numbers.set(steps, counted);
  return counted;
}

const numbers = new WeakMap<readonly NumberedStep[], ReadonlyMap<string, number>>();

function resultOrTest(tree: Tree, part: Extract<Part, { kind: 'test' }>): string {
  const test = own(tree.tests, part.test);
  const result = part.result === undefined ? undefined : own(test?.results ?? {}, part.result);
  const words = `test ${titled(test?.title)}`;
  return result === undefined ? words : `${titled(result.title)} of ${words}`;
}
