import { destination } from '../../document/index.ts';
import type { Change } from '../change.ts';
import type { DraftDocument } from '../json.ts';
import { keysAt } from './keys-at.ts';
import { isLedTo, leadsOf, type Leads, type Target } from './leads.ts';
import { at, put } from './put.ts';
import { goTo, link, unlink, type BranchPlace } from './steps.ts';

/** Two steps of a path exchanged: the step that was the earlier one, and the changes; or why that is not certain. */
export type Exchange =
  | { readonly ok: true; readonly earlier: string; readonly changes: readonly Change[] }
  | { readonly ok: false; readonly because: string };

/**
 * Exchanges a step with the one before it. What led to that one leads to the step, the step leads to it by the result it went on
 * to another step by (by its test's first, of a sound unit, where it went on to none), and it goes on where that result led. All
 * other branches, and all weights, stay as they are. Refused, with the reason as the end of a sentence about the step, where the
 * step is not come to by one branch of its path alone, or goes on to several steps.
 */
export function exchangeWithBefore(document: DraftDocument, symptom: string, step: string): Exchange {
  const leads = leadsOf(document);
  const way = onlyWay(document, leads, symptom, step);
  if (typeof way === 'string') return no(way);
  const on = wayOn(document, symptom, step);
  if (typeof on === 'string') return no(on);
  const earlier: Target = { kind: 'step', symptom, step: way.step };
  if (leads.to(earlier).some((one) => one.symptom === symptom && [step, way.step].includes(one.step)))
    return no('it leads back to the step before it');
  const findings = goingOnAt(document, leads, earlier);
  if (findings === null)
    return no('a finding goes on at the step before it, and at one of that id in another path');
  const onward = at(document, ['symptoms', symptom, 'steps', step, 'then', on.result, 'go']);
  const starts = at(document, ['symptoms', symptom, 'first']) === way.step;
  return {
    ok: true,
    earlier: way.step,
    changes: [
      ...(starts ? put(document, ['symptoms', symptom, 'first'], step) : []),
      ...leads.to(earlier).flatMap((one) => link(document, one, goTo(one.symptom, symptom, step))),
      ...findings.flatMap(([finding, to]) => put(document, ['findings', finding, 'otherwise'], to(step))),
      ...(typeof onward === 'string' ? link(document, way, onward) : unlink(document, way)),
      ...link(document, on, way.step),
    ],
  };
}

/** {@link exchangeWithBefore} for the one step that a step leads to: the same, told from the earlier step. */
export function exchangeWithAfter(document: DraftDocument, symptom: string, step: string): Exchange {
  const after = new Set(stepsAfter(document, symptom, step).map(({ go }) => go));
  const [next] = after;
  if (next === undefined) return no('it leads to no other step of its path');
  if (after.size > 1) return no('it leads to several steps');
  const exchange = exchangeWithBefore(document, symptom, next);
  return exchange.ok ? exchange : no(`of the step after it: ${exchange.because}`);
}

function no(because: string): Exchange {
  return { ok: false, because };
}

/** The one branch that leads to a step, from its own path; else what is in the way of there being one. */
function onlyWay(document: DraftDocument, leads: Leads, symptom: string, step: string): BranchPlace | string {
  const target: Target = { kind: 'step', symptom, step };
  if (at(document, ['symptoms', symptom, 'first']) === step) return 'the path starts with it';
  const [way, ...others] = leads.to(target);
  if (way === undefined) return 'no branch leads to it';
  const isOtherwise = leads.otherwise.some(([, go]) => isLedTo(target, go, symptom));
  if (others.length > 0 || isOtherwise) return 'it is come to in more than one way';
  return way.symptom === symptom ? way : 'it is come to from another path';
}

/** The branch by which a step is to lead to the one that was before it; else why that is not certain. */
function wayOn(document: DraftDocument, symptom: string, step: string): BranchPlace | string {
  const results = branchesOf(document, symptom, step).filter(
    ({ go }) => destination(go, symptom).kind !== 'finding',
  );
  if (results.length > 1) return 'it goes on by more than one of its results';
  const test = at(document, ['symptoms', symptom, 'steps', step, 'test']);
  const result = results[0]?.result ?? keysAt(document, ['tests', String(test), 'results'])[0];
  return result === undefined ? 'its test has no results' : { symptom, step, result };
}

/** The steps of the same path that a step leads to, each with the result. */
function stepsAfter(document: DraftDocument, symptom: string, step: string) {
  return branchesOf(document, symptom, step).flatMap(({ result, go }) => {
    const place = destination(go, symptom);
    return place.kind === 'step' && place.symptom === symptom ? [{ result, go: place.step }] : [];
  });
}

function branchesOf(document: DraftDocument, symptom: string, step: string) {
  const then = ['symptoms', symptom, 'steps', step, 'then'];
  return keysAt(document, then).flatMap((result) => {
    const go = at(document, [...then, result, 'go']);
    return typeof go === 'string' ? [{ result, go }] : [];
  });
}

type GoingOn = readonly (readonly [finding: string, to: (step: string) => string])[];

/**
 * The findings that go on at a step, and how each would name another one of its path; null where one does so by a bare id that
 * other paths have too, which would go on there at a step that is not.
 */
function goingOnAt(document: DraftDocument, leads: Leads, target: Target & { kind: 'step' }): GoingOn | null {
  const { symptom } = target;
  const found = leads.otherwise.filter(([, go]) => isLedTo(target, go, symptom));
  const isElsewhere = keysAt(document, ['symptoms']).some(
    (other) => other !== symptom && at(document, ['symptoms', other, 'steps', target.step]) !== undefined,
  );
  if (isElsewhere && found.some(([, go]) => go === target.step)) return null;
  return found.map(([finding, go]) => [
    finding,
    (step) => (go === target.step ? step : goTo('', symptom, step)),
  ]);
}
