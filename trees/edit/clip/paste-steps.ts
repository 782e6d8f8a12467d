import { isRecord, type JsonObject } from '../json.ts';
import { pasteTest } from './paste-tests.ts';
import { wayHere } from './paste-ways.ts';
import type { Pasting } from './pasting.ts';
import { entriesOf, recordIn } from './parts-of.ts';

/** A step of `source`'s path as it is to stand in the path of `symptom`; undefined where its test is nowhere. */
export function stepHere(
  pasting: Pasting,
  step: JsonObject,
  source: string,
  symptom: string,
): JsonObject | undefined {
  const test = typeof step.test === 'string' ? pasteTest(pasting, step.test) : undefined;
  if (test === undefined) return undefined;
  const then = entriesOf(recordIn(step, 'then')).flatMap(([result, branch]) => {
    const go = typeof branch.go === 'string' ? wayHere(pasting, branch.go, source, symptom) : undefined;
    if (go === undefined) pasting.open += 1;
    return go === undefined ? [] : [[result, { ...branch, go }] as const];
  });
  return { ...step, test, then: Object.fromEntries(then) };
}

/** The path with the copied steps behind its own; where it had none it starts at one that no other of them leads to. */
export function withSteps(pasting: Pasting, symptom: string, path: JsonObject): JsonObject {
  const own = recordIn(path, 'steps');
  const copied = pasting.clip.steps.flatMap(({ symptom: source, id, step }) => {
    const name = pasting.steps.get(`${source}/${id}`);
    const here = name === undefined ? undefined : stepHere(pasting, step, source, symptom);
    return name === undefined || here === undefined ? [] : [[name, here] as const];
  });
  if (copied.length === 0) return path;
  const steps = { ...own, ...Object.fromEntries(copied) };
  if (Object.keys(own).length > 0) return { ...path, steps };
  const led = new Set(copied.flatMap(([, { then }]) => (isRecord(then) ? leadsOf(then) : [])));
  const first = copied.find(([id]) => !led.has(id))?.[0] ?? copied[0]?.[0];
  return { ...path, ...(first === undefined ? {} : { first }), steps };
}

function leadsOf(then: JsonObject): readonly string[] {
  return entriesOf(then).flatMap(([, { go }]) => (typeof go === 'string' ? [go] : []));
}

/** A symptom of the clip with its whole path, as it is to stand here under its new id. */
export function symptomCopy(pasting: Pasting, source: string, symptom: JsonObject, id: string): JsonObject {
  const weights = Object.entries(recordIn(symptom, 'weights')).flatMap(([finding, weight]) => {
    const name = pasting.findings.get(finding);
    if (name === undefined) pasting.dropped += 1;
    return name === undefined ? [] : [[name, weight] as const];
  });
  const steps = entriesOf(recordIn(symptom, 'steps')).flatMap(([name, step]) => {
    const here = stepHere(pasting, step, source, id);
    return here === undefined ? [] : [[name, here] as const];
  });
  return {
    ...symptom,
    ...(Object.hasOwn(symptom, 'weights') ? { weights: Object.fromEntries(weights) } : {}),
    ...(Object.hasOwn(symptom, 'steps') ? { steps: Object.fromEntries(steps) } : {}),
  };
}
