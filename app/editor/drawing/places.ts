import { destination } from '../../../trees/document/index.ts';

/** Pointers into the document by ids. Ids are kebab-case, so nothing in them needs escaping. */
export const symptomAt = (symptom: string): string => `/symptoms/${symptom}`;
export const firstAt = (symptom: string): string => `/symptoms/${symptom}/first`;
export const stepAt = (symptom: string, step: string): string => `/symptoms/${symptom}/steps/${step}`;
export const branchAt = (symptom: string, step: string, result: string): string =>
  `/symptoms/${symptom}/steps/${step}/then/${result}`;
export const findingAt = (finding: string): string => `/findings/${finding}`;

/** The id in `symptom`'s drawing of the box that a `go` leads to: own steps and findings by their pointer, other paths by the `go`. */
export function placeOfGo(go: string, symptom: string): string {
  const lead = destination(go, symptom);
  if (lead.kind === 'finding') return findingAt(lead.finding);
  if (lead.kind === 'step' && lead.symptom === symptom) return stepAt(symptom, lead.step);
  return lead.kind === 'step' ? `symptom:${lead.symptom}/${lead.step}` : `symptom:${lead.symptom}`;
}
