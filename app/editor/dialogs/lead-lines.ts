import { courseOf, own, type Tree } from '../../../trees/document/index.ts';
import {
  addFinding,
  addStep,
  addTest,
  applyChanges,
  goTo,
  link,
  put,
  type Change,
  type DraftDocument,
} from '../../../trees/edit/index.ts';
import type { SearchLine } from '../../parts/index.ts';
import { numbersOf, titled } from '../desk/part-words.ts';

/** A branch that is to lead somewhere, or (with none) the start of a path. */
export interface Leading {
  readonly symptom: string;
  readonly branch: { readonly step: string; readonly result: string } | null;
}

/** An edit in words, and the pointer of what it is about afterwards. */
export interface LeadEdit {
  readonly what: string;
  readonly changes: readonly Change[];
  readonly selects: string;
}

const ROUND = 'would go round in a loop';

/**
 * Everywhere that a branch can lead: steps of its path, a new step for a test, findings, and other symptoms’ paths; last, and marked,
 * those from which one comes back to the branch.
 */
export function leadLines(tree: Tree, leading: Leading): readonly SearchLine[] {
  const { branch, symptom } = leading;
  const lines = targetLines(tree, leading);
  if (branch === null) return lines;
  const back = comingBack(tree, symptom, branch.step);
  const marked = lines.map((line) => (back.has(line.id) ? { ...line, notes: [ROUND], last: true } : line));
  return [...marked.filter(({ id }) => !back.has(id)), ...marked.filter(({ id }) => back.has(id))];
}

/** The lines of the steps in a path, and of the other paths, from which some way leads to a step: each is passed once. */
function comingBack(tree: Tree, symptom: string, step: string): ReadonlySet<string> {
  const { steps, firsts } = courseOf(tree);
  const before = steps.map((): number[] => []);
  steps.forEach(({ branches }, index) => {
    for (const { lead } of branches) if (lead.kind === 'step') before[lead.index]?.push(index);
  });
  const found = new Set([steps.findIndex((one) => one.symptom === symptom && one.step === step)]);
  for (const index of found) for (const former of before[index] ?? []) found.add(former);
  return new Set([
    ...[...found].flatMap((index) =>
      steps[index]?.symptom === symptom ? [`step:${steps[index].step}`] : [],
    ),
    ...[...firsts].flatMap(([id, first]) => (found.has(first) ? [`symptom:${id}`] : [])),
  ]);
}

function targetLines(tree: Tree, { symptom, branch }: Leading): readonly SearchLine[] {
  const steps = [...numbersOf(tree, symptom)].filter(([step]) => step !== branch?.step);
  const testOf = (step: string): string => own(tree.symptoms, symptom)?.steps[step]?.test ?? '';
  const stepLines = steps.map(([step, number]) => ({
    id: `step:${step}`,
    title: titled(own(tree.tests, testOf(step))?.title),
    notes: [`step ${String(number)}`],
  }));
  const testLines = Object.entries(tree.tests).map(([id, { title, minutes }]) => ({
    id: `test:${id}`,
    title: titled(title),
    notes: ['a new step', `${String(minutes)} min`],
  }));
  if (branch === null) return [...testLines, ...stepLines];
  const findingLines = Object.entries(tree.findings).map(([id, { title }]) => ({
    id: `finding:${id}`,
    title: titled(title),
    notes: ['finding'],
  }));
  const symptomLines = Object.entries(tree.symptoms)
    .filter(([id]) => id !== symptom)
    .map(([id, { title }]) => ({ id: `symptom:${id}`, title: titled(title), notes: ['its path'] }));
  return [...findingLines, ...stepLines, ...testLines, ...symptomLines];
}

/** What can be made anew of a name that was typed, in the same order wherever it is asked. */
export function newLeadLines(search: string, { branch }: Leading): readonly SearchLine[] {
  if (search === '') return [];
  const test = { id: 'new-test', title: `Make a new test called “${search}”`, notes: ['a new step'] };
  return branch === null
    ? [test]
    : [test, { id: 'new-finding', title: `Make a new finding called “${search}”`, notes: ['finding'] }];
}

/** The edit that has a branch lead to what was chosen, or begins the path with it. */
export function leadEdit(document: DraftDocument, leading: Leading, id: string, search: string): LeadEdit {
  const { symptom, branch } = leading;
  const [kind = '', ...rest] = id.split(':');
  const chosen = rest.join(':');
  switch (kind) {
    case 'new-test': {
      const test = addTest(document, search);
      const onward = newStep(after(document, test.changes), leading, test.id);
      return { ...onward, what: `Add the test ${search}`, changes: [...test.changes, ...onward.changes] };
    }
    case 'new-finding': {
      const finding = addFinding(document, search);
      const onward = leads(after(document, finding.changes), leading, `finding:${finding.id}`);
      const selects = `/findings/${finding.id}`;
      return { what: `Add the finding ${search}`, changes: [...finding.changes, ...onward], selects };
    }
    case 'test':
      return newStep(document, leading, chosen);
    case 'step':
      return {
        what: branch === null ? 'Begin the path elsewhere' : 'Lead a branch to a step',
        changes: leads(document, leading, goTo(symptom, symptom, chosen)),
        selects: branch === null ? `/symptoms/${symptom}/steps/${chosen}` : pointerTo(leading),
      };
    default:
      return {
        what: kind === 'finding' ? 'Lead a branch to a finding' : 'Lead a branch into another path',
        changes: leads(document, leading, id),
        selects: pointerTo(leading),
      };
  }
}

function newStep(document: DraftDocument, { symptom, branch }: Leading, test: string): LeadEdit {
  const made = addStep(document, symptom, test, branch === null ? undefined : { symptom, ...branch });
  return { what: 'Add a step', changes: made.changes, selects: `/symptoms/${symptom}/steps/${made.id}` };
}

function leads(document: DraftDocument, { symptom, branch }: Leading, go: string): readonly Change[] {
  return branch === null
    ? put(document, ['symptoms', symptom, 'first'], go)
    : link(document, { symptom, ...branch }, go);
}

function pointerTo({ symptom, branch }: Leading): string {
  return branch === null
    ? `/symptoms/${symptom}`
    : `/symptoms/${symptom}/steps/${branch.step}/then/${branch.result}`;
}

function after(document: DraftDocument, changes: readonly Change[]): DraftDocument {
  const applied = applyChanges(document, changes);
  if (!applied.ok) throw new Error(`edit-unsteady: ${applied.message}`);
  return applied.document;
}
