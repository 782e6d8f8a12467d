import type { Told } from '../../../trees/edit/index.ts';

/** What is told of one kind of part, in the order it is told. */
export interface Group<One> {
  readonly title: string;
  readonly told: readonly One[];
}

const TITLES = {
  '': 'The tree itself',
  bench: 'Bench states',
  interlocks: 'Interlocks',
  tests: 'Tests',
  findings: 'Findings',
  symptoms: 'Symptoms and their paths',
} as const;

/** Differences or conflicts by kind of part; kinds of which nothing is told are left out. */
export function groupsOf<One extends { readonly part: string }>(told: readonly One[]): readonly Group<One>[] {
  return Object.entries(TITLES).flatMap(([group, title]) => {
    const some = told.filter(({ part }) => (part.split('/')[1] ?? '') === group);
    return some.length === 0 ? [] : [{ title, told: some }];
  });
}

export const KIND_WORDS = { added: 'new', removed: 'taken out', changed: 'changed', moved: 'moved' } as const;
export const KIND_SIGNS = { added: '+', removed: '−', changed: '≠', moved: '↕' } as const;

/** How many parts are new, changed and taken out, in a sentence. */
export function countWords(told: readonly Told[]): string {
  if (told.length === 0) return 'Nothing differs in what the two say.';
  const counts = Object.entries(KIND_WORDS).flatMap(([kind, words]) => {
    const count = told.filter((one) => one.kind === kind).length;
    return count === 0 ? [] : [`${String(count)} ${words}`];
  });
  return `${told.length === 1 ? '1 part differs' : `${String(told.length)} parts differ`}: ${counts.join(', ')}.`;
}
