import type { StateValue } from 'xstate';
import type { Tree } from '../document/index.ts';
import type { AdriftBecause, StepRef } from './standing.ts';

/** Where the course is: the state of the machine's region `course`, read back. */
export type Place =
  | { readonly kind: 'step'; readonly step: StepRef; readonly test: string }
  | { readonly kind: 'aside'; readonly test: string }
  | { readonly kind: 'finding' | 'remedy' | 'proof'; readonly finding: string }
  | { readonly kind: 'adrift'; readonly because: AdriftBecause }
  | { readonly kind: 'contradiction' | 'mended' | 'closed' };

/** Reads the place from a snapshot's value. */
export function placeOf(tree: Tree, value: StateValue): Place {
  const [kind = '', one = '', two = ''] = pathOf(child(value, 'course'));
  switch (kind) {
    case 'path':
      return {
        kind: 'step',
        step: { symptom: one, step: two },
        test: tree.symptoms[one]?.steps[two]?.test ?? '',
      };
    case 'aside':
      return { kind, test: one };
    case 'finding':
    case 'remedy':
    case 'proof':
      return { kind, finding: one };
    case 'contradiction':
    case 'mended':
    case 'closed':
      return { kind };
    default:
      return { kind: 'adrift', because: one === 'no-path' || one === 'skipped' ? one : 'path-ended' };
  }
}

function child(value: StateValue, key: string): StateValue {
  return typeof value === 'string' ? value : (value[key] ?? '');
}

/** The keys from the outermost state to the innermost, there being no parallel states in the course. */
function pathOf(value: StateValue): readonly string[] {
  if (typeof value === 'string') return [value];
  return Object.entries(value).flatMap(([key, inner]) => [
    key,
    ...(inner === undefined ? [] : pathOf(inner)),
  ]);
}
