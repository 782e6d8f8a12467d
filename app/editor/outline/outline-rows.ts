import { own, pointerOf, type Tree } from '../../../trees/document/index.ts';
import { goWords, numbersOf, titled } from '../desk/part-words.ts';

/** The headings of the outline, each a row of its own, and what is added under it. */
export const HEADINGS = {
  symptoms: { title: 'Symptoms and their paths', adds: 'symptom' },
  tests: { title: 'Tests', adds: 'test' },
  findings: { title: 'Findings', adds: 'finding' },
  bench: { title: 'Bench states', adds: 'axis' },
  interlocks: { title: 'Interlocks', adds: 'interlock' },
} as const;

export type Heading = keyof typeof HEADINGS;

/** One line of the outline. */
export interface OutlineRow {
  /** Its part’s pointer; a heading’s is its name after `#`. */
  readonly id: string;
  readonly level: 1 | 2 | 3 | 4;
  readonly kind:
    'tree' | 'heading' | 'symptom' | 'step' | 'branch' | 'test' | 'finding' | 'axis' | 'interlock';
  readonly words: string;
  /** What stands behind the words, dimmer. */
  readonly note: string;
  /** Null where there is nothing to unfold. */
  readonly open: boolean | null;
  /** Its place among those of its level under the same row, and how many there are. */
  readonly place: number;
  readonly of: number;
  /** Where a branch leads, as written; undefined where to nowhere yet, or no branch. */
  readonly go?: string | undefined;
}

/** A row before it knows its brothers. */
type Loose = Omit<OutlineRow, 'place' | 'of' | 'open'> & {
  /** The rows under it, asked for where it is unfolded; null where there can be none. */
  readonly inner: (() => readonly Loose[]) | null;
};

/** The lines of the outline that can be seen, those in `unfolded` with what is under them. */
export function outlineRows(tree: Tree, unfolded: ReadonlySet<string>): readonly OutlineRow[] {
  const rows: OutlineRow[] = [];
  const lay = (loose: readonly Loose[]): void => {
    loose.forEach(({ inner, ...row }, index) => {
      const open = inner === null ? null : unfolded.has(row.id);
      rows.push({ ...row, open, place: index + 1, of: loose.length });
      if (inner !== null && open === true) lay(inner());
    });
  };
  lay([treeRow(tree), ...(Object.keys(HEADINGS) as Heading[]).map((heading) => headingRow(tree, heading))]);
  return rows;
}

function treeRow(tree: Tree): Loose {
  return { id: '', level: 1, kind: 'tree', words: titled(tree.title), note: 'the tree itself', inner: null };
}

function headingRow(tree: Tree, heading: Heading): Loose {
  const inner = (): readonly Loose[] => UNDER[heading](tree);
  const count = heading === 'interlocks' ? tree.interlocks.length : Object.keys(tree[heading]).length;
  return {
    id: `#${heading}`,
    level: 1,
    kind: 'heading',
    words: HEADINGS[heading].title,
    note: String(count),
    inner,
  };
}

const UNDER: { readonly [H in Heading]: (tree: Tree) => readonly Loose[] } = {
  symptoms: (tree) =>
    Object.entries(tree.symptoms).map(([id, { title, steps }]) => {
      const count = Object.keys(steps).length;
      const note = count === 0 ? 'no path yet' : `${String(count)} ${count === 1 ? 'step' : 'steps'}`;
      return row(2, 'symptom', ['symptoms', id], title, note, () => stepRows(tree, id));
    }),
  tests: (tree) =>
    Object.entries(tree.tests).map(([id, { title, minutes }]) =>
      row(2, 'test', ['tests', id], title, `${String(minutes)} min`, null),
    ),
  findings: (tree) =>
    Object.entries(tree.findings).map(([id, { title }]) =>
      row(2, 'finding', ['findings', id], title, '', null),
    ),
  bench: (tree) =>
    Object.entries(tree.bench).map(([id, { title, states }]) =>
      row(2, 'axis', ['bench', id], title, `${String(Object.keys(states).length)} states`, null),
    ),
  interlocks: (tree) =>
    [...tree.interlocks.keys()].map((index) =>
      row(2, 'interlock', ['interlocks', index], interlockWords(tree, index), '', null),
    ),
};

/** A path’s steps in the order of their numbers, each with its branches under it. */
function stepRows(tree: Tree, symptom: string): readonly Loose[] {
  const steps = own(tree.symptoms, symptom)?.steps ?? {};
  const numbers = numbersOf(tree, symptom);
  const places = stepPlaces(symptom, numbers);
  return [...numbers].map(([step, number], place): Loose => {
    const test = own(tree.tests, own(steps, step)?.test ?? '');
    const words = `${String(number)}  ${titled(test?.title)}`;
    const inner = (): readonly Loose[] => branchRows(tree, symptom, step);
    return { id: places[place] ?? '', level: 3, kind: 'step', words, note: '', inner };
  });
}

/** The pointers of a path’s steps, made once for as long as the steps are numbered the same. */
function stepPlaces(symptom: string, numbers: ReadonlyMap<string, number>): readonly string[] {
  const known = places.get(numbers);
  if (known !== undefined) return known;
  const made = [...numbers.keys()].map((step) => pointerOf(['symptoms', symptom, 'steps', step]));
  places.set(numbers, made);
  return made;
}

const places = new WeakMap<ReadonlyMap<string, number>, readonly string[]>();

function branchRows(tree: Tree, symptom: string, id: string): readonly Loose[] {
  const step = own(tree.symptoms, symptom)?.steps[id];
  if (step === undefined) return [];
  const results = own(tree.tests, step.test)?.results ?? {};
  const keys = [...new Set([...Object.keys(results), ...Object.keys(step.then)])];
  return keys.map((result) => {
    const go = own(step.then, result)?.go;
    const title = own(results, result)?.title ?? `${result}, which the test does not give`;
    const words =
      go === undefined
        ? `${titled(title)}: leads nowhere yet`
        : `${titled(title)}: ${goWords(tree, symptom, go)}`;
    return { ...row(4, 'branch', ['symptoms', symptom, 'steps', id, 'then', result], words, '', null), go };
  });
}

/** What an interlock bars, and the tests that open it, by which two of one changeover are told apart. */
function interlockWords(tree: Tree, index: number): string {
  const interlock = tree.interlocks[index];
  const [axis = '', state = ''] = Object.entries(interlock?.change ?? {})[0] ?? [];
  const found = own(tree.bench, axis);
  const barred = `${titled(found?.title)}: ${titled(own(found?.states ?? {}, state)?.title)}`;
  const tests = Object.keys(interlock?.until ?? {}).map((test) => titled(own(tree.tests, test)?.title));
  return tests.length === 0 ? barred : `${barred}, until ${tests.join(' and ')}`;
}

function row(
  level: OutlineRow['level'],
  kind: OutlineRow['kind'],
  path: readonly (string | number)[],
  words: string,
  note: string,
  inner: Loose['inner'],
): Loose {
  return { id: pointerOf(path), level, kind, words: titled(words), note, inner };
}
