import { pointerOf } from '../../document/index.ts';
import type { Change } from '../change.ts';
import { isList, isRecord, type DraftDocument, type JsonObject } from '../json.ts';
import { changesTo } from '../merge/changes-to.ts';
import type { Clip } from './clip.ts';
import { pasteFinding } from './paste-findings.ts';
import { pasteNeeds } from './paste-bench.ts';
import { bringOpeners, guardsOf } from './paste-interlocks.ts';
import { symptomCopy, withSteps } from './paste-steps.ts';
import { pasteTest } from './paste-tests.ts';
import { freeId, type Pasting } from './pasting.ts';
import { nameOf, pictureOf, recordIn, textsIn } from './parts-of.ts';

export interface Pasted {
  readonly changes: readonly Change[];
  /** The parts asked for, where they stand now. */
  readonly selected: readonly string[];
  /** What came along, what is called otherwise here, and what is left open, in sentences. */
  readonly notes: readonly string[];
  /** Picture files that tests put in show. */
  readonly pictures: readonly string[];
}

/**
 * Puts a clip into a document; its steps into the path of `symptom` (left out where there is none of that id). Tests and
 * findings that the document has already, with the same content, are used as they are; with other content the copies get new
 * ids. Steps and symptoms are always put in anew. A branch stays where it leads to something copied or to something that is
 * here, and is left open otherwise.
 */
export function pasteOf(
  document: DraftDocument,
  clip: Clip,
  { symptom }: { readonly symptom: string | null },
): Pasted {
  const symptoms = recordIn(document, 'symptoms');
  const path = symptom !== null && isRecord(symptoms[symptom]) ? symptom : null;
  const pasting = begun(document, clip, path);
  nameSymptoms(pasting, symptoms);
  if (path !== null) nameSteps(pasting, recordIn(symptoms, path));
  bringTests(pasting);
  bringOpeners(pasting);
  for (const id of Object.keys(clip.findings)) pasteFinding(pasting, id);
  const guards = guardsOf(pasting);
  const to = assembled(pasting, guards);
  return {
    changes: changesTo(document, to),
    selected: selectedOf(pasting),
    notes: notesOf(pasting, guards),
    pictures: [...new Set([...pasting.added.tests.values()].flatMap((test) => pictureOf(test) ?? []))],
  };
}

function begun(document: DraftDocument, clip: Clip, path: string | null): Pasting {
  return {
    document,
    clip,
    path,
    tests: new Map(),
    findings: new Map(),
    symptoms: new Map(),
    steps: new Map(),
    added: { tests: new Map(), findings: new Map(), bench: new Map() },
    states: new Set(),
    notes: [],
    open: 0,
    dropped: 0,
  };
}

function nameSymptoms({ clip, symptoms: names, notes }: Pasting, here: JsonObject): void {
  for (const [id, symptom] of Object.entries(clip.symptoms)) {
    const name = freeId(id, (one) => Object.hasOwn(here, one) || [...names.values()].includes(one));
    names.set(id, name);
    if (name !== id)
      notes.push(`Another symptom has the id ${id} here: the copy of ${nameOf(symptom, id)} is ${name}.`);
  }
}

function nameSteps({ clip, steps: names }: Pasting, path: JsonObject): void {
  const here = recordIn(path, 'steps');
  for (const { symptom, id, step } of clip.steps) {
    if (typeof step.test !== 'string' || clip.tests[step.test] === undefined) continue;
    const name = freeId(id, (one) => Object.hasOwn(here, one) || [...names.values()].includes(one));
    names.set(`${symptom}/${id}`, name);
  }
}

/** All tests and bench states that what is pasted cannot do without; before the findings, which speak of those that are here. */
function bringTests(pasting: Pasting): void {
  const { clip, path } = pasting;
  const steps = [
    ...(path !== null ? clip.steps.map(({ step }) => step) : []),
    ...Object.values(clip.symptoms).flatMap((symptom) => Object.values(recordIn(symptom, 'steps'))),
  ];
  for (const test of clip.asked.tests) pasteTest(pasting, test);
  for (const step of steps)
    if (isRecord(step) && typeof step.test === 'string') pasteTest(pasting, step.test);
  for (const finding of Object.values(clip.findings)) {
    pasteNeeds(pasting, recordIn(finding, 'remedy'));
    for (const test of textsIn(finding, 'prove')) pasteTest(pasting, test);
  }
}

function assembled(pasting: Pasting, guards: readonly JsonObject[]): DraftDocument {
  const { document, clip, path, added } = pasting;
  const here = recordIn(document, 'symptoms');
  const copies = Object.entries(clip.symptoms).map(([id, symptom]) => {
    const name = pasting.symptoms.get(id) ?? id;
    return [name, symptomCopy(pasting, id, symptom, name)] as const;
  });
  const symptoms = {
    ...here,
    ...(path === null ? {} : { [path]: withSteps(pasting, path, recordIn(here, path)) }),
    ...Object.fromEntries(copies),
  };
  return {
    ...document,
    ...withEntries(document, 'bench', added.bench),
    ...(guards.length === 0
      ? {}
      : { interlocks: [...(isList(document.interlocks) ? document.interlocks : []), ...guards] }),
    ...withEntries(document, 'tests', added.tests),
    ...withEntries(document, 'findings', added.findings),
    symptoms,
  };
}

function withEntries(
  document: DraftDocument,
  key: string,
  added: ReadonlyMap<string, JsonObject>,
): JsonObject {
  return added.size === 0 ? {} : { [key]: { ...recordIn(document, key), ...Object.fromEntries(added) } };
}

function selectedOf({ clip, path, tests, findings, symptoms, steps }: Pasting): readonly string[] {
  const named = (group: string, ids: readonly string[], names: ReadonlyMap<string, string>) =>
    ids.flatMap((id) => (names.has(id) ? [pointerOf([group, names.get(id) ?? id])] : []));
  return [
    ...named('symptoms', clip.asked.symptoms, symptoms),
    ...(path === null ? [] : [...steps.values()].map((step) => pointerOf(['symptoms', path, 'steps', step]))),
    ...named('findings', clip.asked.findings, findings),
    ...named('tests', clip.asked.tests, tests),
  ];
}

function notesOf(
  { clip, path, notes, open, dropped }: Pasting,
  guards: readonly JsonObject[],
): readonly string[] {
  const stray = path === null ? clip.steps.length : 0;
  return [
    ...notes,
    ...guards.map(({ because }) => `The interlock that guards it comes along: ${String(because)}`),
    ...counted(
      stray,
      'step was left out: no path is shown that it could go into.',
      'steps were left out: no path is shown that they could go into.',
    ),
    ...counted(open, 'branch leads nowhere yet.', 'branches lead nowhere yet.'),
    ...counted(
      dropped,
      'statement about something that this tree lacks was left out.',
      'statements about things that this tree lacks were left out.',
    ),
  ];
}

function counted(count: number, one: string, many: string): readonly string[] {
  return count === 0 ? [] : [`${String(count)} ${count === 1 ? one : many}`];
}
