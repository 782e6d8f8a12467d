import { pathOf } from '../../document/index.ts';
import { isList, isRecord, type DraftDocument, type JsonObject } from '../json.ts';
import type { Clip } from './clip.ts';
import {
  entriesOf,
  findingsOfSymptom,
  needsOf,
  pictureOf,
  recordIn,
  referencesOf,
  testOfStep,
  textsIn,
} from './parts-of.ts';

/**
 * Copies tests, findings, symptoms and steps, named by their pointers or those of something in them, with all that they cannot
 * do without: a step's test, a symptom's tests and findings, a finding's proofs, what ratios refer to, the bench states that
 * they need, and the interlocks of those with the tests that open them.
 */
export function copyOf(document: DraftDocument, pointers: readonly string[]): Clip {
  const asked = askedFor(document, pointers);
  const symptoms = pickedOf(document, 'symptoms', asked.symptoms);
  const steps = asked.steps.map(({ symptom, id, step }) => ({ symptom, id, step }));
  const findings = pickedOf(document, 'findings', [
    ...asked.findings,
    ...Object.values(symptoms).flatMap(findingsOfSymptom),
  ]);
  const allSteps = [
    ...steps.map(({ step }) => step),
    ...Object.values(symptoms).flatMap((symptom) =>
      entriesOf(recordIn(symptom, 'steps')).map(([, step]) => step),
    ),
  ];
  const wanted = [
    ...asked.tests,
    ...allSteps.flatMap((step) => testOfStep(step) ?? []),
    ...Object.values(findings).flatMap((finding) => textsIn(finding, 'prove')),
  ];
  const { tests, bench, interlocks } = withFooting(document, wanted, Object.values(findings));
  return {
    format: 'ohmward-clip/1',
    asked: { tests: asked.tests, findings: asked.findings, symptoms: asked.symptoms },
    tests,
    findings,
    symptoms,
    steps,
    bench,
    interlocks,
    pictures: [...new Set(Object.values(tests).flatMap((test) => pictureOf(test) ?? []))],
  };
}

interface Asked {
  tests: string[];
  findings: string[];
  symptoms: string[];
  steps: { symptom: string; id: string; step: JsonObject }[];
}

function askedFor(document: DraftDocument, pointers: readonly string[]): Asked {
  const asked: Asked = { tests: [], findings: [], symptoms: [], steps: [] };
  const whole = new Set(pointers.map((pointer) => pathOf(pointer)).flatMap(wholeSymptom));
  const seen = new Set<string>();
  for (const pointer of pointers) {
    const [group = '', id = '', , inner] = pathOf(pointer);
    const isStep = group === 'symptoms' && inner !== undefined;
    const name = [group, id, isStep ? inner : ''].join('/');
    const part = recordIn(document, group)[id];
    if (seen.has(name) || !isRecord(part) || (isStep && whole.has(id))) continue;
    seen.add(name);
    if (isStep) {
      const step = recordIn(part, 'steps')[inner];
      if (isRecord(step)) asked.steps.push({ symptom: id, id: inner, step });
    } else if (group === 'tests' || group === 'findings' || group === 'symptoms') asked[group].push(id);
  }
  return asked;
}

function wholeSymptom([group, id, , inner]: readonly string[]): readonly string[] {
  return group === 'symptoms' && id !== undefined && inner === undefined ? [id] : [];
}

function pickedOf(
  document: DraftDocument,
  group: string,
  ids: readonly string[],
): Record<string, JsonObject> {
  const wanted = new Set(ids);
  return Object.fromEntries(entriesOf(recordIn(document, group)).filter(([id]) => wanted.has(id)));
}

/** Tests with what they refer to, the axes they need, the interlocks of those, and so on until nothing is wanting. */
function withFooting(document: DraftDocument, wanted: readonly string[], findings: readonly JsonObject[]) {
  const all = recordIn(document, 'tests');
  const interlocks = isList(document.interlocks) ? document.interlocks.filter(isRecord) : [];
  const tests = new Set<string>();
  const axes = new Set(
    findings.flatMap((finding) => needsOf(recordIn(finding, 'remedy')).map(([axis]) => axis)),
  );
  const barred = () =>
    interlocks.filter((interlock) =>
      Object.keys(recordIn(interlock, 'change')).some((axis) => axes.has(axis)),
    );
  for (let more = [...wanted]; more.length > 0 || tests.size === 0;) {
    for (const id of more) {
      const test = all[id];
      if (!isRecord(test)) continue;
      tests.add(id);
      needsOf(test).forEach(([axis]) => axes.add(axis));
    }
    const named = [...tests].flatMap((id) => referencesOf(recordIn(all, id)));
    const openers = barred().flatMap((interlock) => Object.keys(recordIn(interlock, 'until')));
    more = [...named, ...openers].filter((id) => isRecord(all[id]) && !tests.has(id));
    if (more.length === 0) break;
  }
  return {
    tests: pickedOf(document, 'tests', [...tests]),
    bench: pickedOf(document, 'bench', [...axes]),
    interlocks: barred(),
  };
}
