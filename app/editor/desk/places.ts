import { destination, own, pathOf, pointerOf, valueAt, type Tree } from '../../../trees/document/index.ts';
import type { DraftDocument } from '../../../trees/edit/index.ts';

/** A part of a tree as the forms tell them apart, read off its pointer (or that of something in it). */
export type Part =
  | { readonly kind: 'tree' }
  | { readonly kind: 'test'; readonly test: string; readonly result?: string }
  | { readonly kind: 'finding'; readonly finding: string }
  | { readonly kind: 'symptom'; readonly symptom: string }
  | { readonly kind: 'step'; readonly symptom: string; readonly step: string; readonly result?: string }
  | { readonly kind: 'axis'; readonly axis: string }
  | { readonly kind: 'interlock'; readonly index: number };

/** The part that a pointer is at or in. */
export function partOf(pointer: string): Part {
  const [root, id, field, inner, deeper, last] = pathOf(pointer);
  if (id === undefined) return { kind: 'tree' };
  switch (root) {
    case 'tests':
      return field === 'results' && inner !== undefined
        ? { kind: 'test', test: id, result: inner }
        : { kind: 'test', test: id };
    case 'findings':
      return { kind: 'finding', finding: id };
    case 'symptoms':
      if (field !== 'steps' || inner === undefined) return { kind: 'symptom', symptom: id };
      return deeper === 'then' && last !== undefined
        ? { kind: 'step', symptom: id, step: inner, result: last }
        : { kind: 'step', symptom: id, step: inner };
    case 'bench':
      return { kind: 'axis', axis: id };
    case 'interlocks':
      return { kind: 'interlock', index: Number(id) };
    default:
      return { kind: 'tree' };
  }
}

/** The symptom whose path a pointer is in; null where it is in none. */
export function symptomOf(pointer: string): string | null {
  const part = partOf(pointer);
  return part.kind === 'symptom' || part.kind === 'step' ? part.symptom : null;
}

/** The pointer of where a `go` written in a symptom’s path leads. */
export function goPointer(go: string, symptom: string): string {
  const place = destination(go, symptom);
  switch (place.kind) {
    case 'finding':
      return pointerOf(['findings', place.finding]);
    case 'symptom':
      return pointerOf(['symptoms', place.symptom]);
    case 'step':
      return pointerOf(['symptoms', place.symptom, 'steps', place.step]);
  }
}

/** Whether there is such a part: a branch is there where its test has the result, even while it leads nowhere. */
export function hasPart(document: DraftDocument, tree: Tree, pointer: string): boolean {
  if (valueAt(document, pathOf(pointer)) !== undefined) return true;
  const part = partOf(pointer);
  if (part.kind !== 'step' || part.result === undefined) return false;
  const step = own(own(tree.symptoms, part.symptom)?.steps ?? {}, part.step);
  return step !== undefined && Object.hasOwn(own(tree.tests, step.test)?.results ?? {}, part.result);
}
