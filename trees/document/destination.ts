/** Where a branch goes on. `step` names its symptom too, as paths may cross into one another. */
export type Destination =
  | { readonly kind: 'step'; readonly symptom: string; readonly step: string }
  | { readonly kind: 'symptom'; readonly symptom: string }
  | { readonly kind: 'finding'; readonly finding: string };

/**
 * Reads a branch's `go` (or a finding's `otherwise`) as written in `symptom`'s path: a step id of that path,
 * `finding:ID`, `symptom:ID` or `symptom:ID/STEP`. Only the form is read; whether the place exists is the checker's.
 */
export function destination(go: string, symptom: string): Destination {
  if (go.startsWith('finding:')) return { kind: 'finding', finding: go.slice('finding:'.length) };
  if (!go.startsWith('symptom:')) return { kind: 'step', symptom, step: go };
  const [id = '', step] = go.slice('symptom:'.length).split('/', 2);
  return step === undefined ? { kind: 'symptom', symptom: id } : { kind: 'step', symptom: id, step };
}
