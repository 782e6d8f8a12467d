import { destination, type Destination } from '../../document/index.ts';
import type { DraftDocument } from '../json.ts';
import { keysAt } from './keys-at.ts';
import { at } from './put.ts';
import type { BranchPlace } from './steps.ts';

/** What may be led to. A symptom stands for its path, whichever step of it. */
export type Target =
  | { readonly kind: 'finding'; readonly finding: string }
  | { readonly kind: 'step'; readonly symptom: string; readonly step: string }
  | { readonly kind: 'symptom'; readonly symptom: string };

/** What leads where in a document, and what is made where. */
export interface Leads {
  /** The steps that make a test, each with its symptom, in the document's order. */
  readonly making: (test: string) => readonly (readonly [symptom: string, step: string])[];
  /** The branches that lead to a target, in the document's order. */
  readonly to: (target: Target) => readonly BranchPlace[];
  /** The findings that say where to go on when the remedy does not mend, and the `go` they say. */
  readonly otherwise: readonly (readonly [finding: string, go: string])[];
}

export function leadsOf(document: DraftDocument): Leads {
  const branches = new Map<string, BranchPlace[]>();
  const making = new Map<string, [string, string][]>();
  for (const symptom of keysAt(document, ['symptoms']))
    for (const step of keysAt(document, ['symptoms', symptom, 'steps'])) {
      addTo(making, String(at(document, ['symptoms', symptom, 'steps', step, 'test'])), [symptom, step]);
      for (const [result, go] of branchesOf(document, symptom, step))
        for (const target of targetsOf(destination(go, symptom)))
          addTo(branches, nameOf(target), { symptom, step, result });
    }
  const otherwise = keysAt(document, ['findings']).flatMap((finding): [string, string][] => {
    const go = at(document, ['findings', finding, 'otherwise']);
    return typeof go === 'string' ? [[finding, go]] : [];
  });
  return {
    making: (test) => making.get(test) ?? [],
    to: (target) => branches.get(nameOf(target)) ?? [],
    otherwise,
  };
}

/** Whether a `go` read in a symptom's path leads to a target. */
export function isLedTo(target: Target, go: string, symptom: string): boolean {
  return targetsOf(destination(go, symptom)).some((one) => nameOf(one) === nameOf(target));
}

function addTo<Value>(lists: Map<string, Value[]>, name: string, value: Value): void {
  const known = lists.get(name);
  if (known === undefined) lists.set(name, [value]);
  else known.push(value);
}

function branchesOf(document: DraftDocument, symptom: string, step: string): readonly [string, string][] {
  const then = ['symptoms', symptom, 'steps', step, 'then'];
  return keysAt(document, then).flatMap((result): [string, string][] => {
    const go = at(document, [...then, result, 'go']);
    return typeof go === 'string' ? [[result, go]] : [];
  });
}

function targetsOf(place: Destination): readonly Target[] {
  return place.kind === 'step' ? [place, { kind: 'symptom', symptom: place.symptom }] : [place];
}

function nameOf(target: Target): string {
  switch (target.kind) {
    case 'finding':
      return `finding:${target.finding}`;
    case 'symptom':
      return `symptom:${target.symptom}`;
    case 'step':
      return `symptom:${target.symptom}/${target.step}`;
  }
}
