import { destination } from '../../document/index.ts';
import type { DraftDocument } from '../json.ts';
import { keysAt } from './keys-at.ts';
import { at, drop } from './put.ts';
import { make, resultOf, stepOf, steps, titleOf, type Work } from './removal-work.ts';

/** Takes out what leads to a finding, and its weights. */
export function leaveFinding(work: Work, finding: string): void {
  leavePlaces(work, (go) => isFinding(go, finding), finding);
}

/** Takes out what leads from elsewhere to a symptom or into its path. */
export function leaveSymptom(work: Work, symptom: string): void {
  leavePlaces(work, (go, from) => from !== symptom && isIn(go, symptom, from), null);
  leaveOtherwise(work, (go, from) => isIn(go, symptom, from));
}

/** Takes out what leads to a step. */
export function leaveStep(work: Work, symptom: string, step: string): void {
  leavePlaces(work, (go, from) => isStep(go, from, symptom, step), null);
  const first = ['symptoms', symptom, 'first'];
  if (at(work.document, first) === step)
    make(
      work,
      drop(work.document, first),
      first,
      `The path of ${titleOf(work, ['symptoms', symptom])} no longer starts anywhere.`,
    );
}

/** Takes out the branches, weights and `otherwise` that lead to a place. */
function leavePlaces(
  work: Work,
  leads: (go: string, symptom: string) => boolean,
  finding: string | null,
): void {
  for (const [symptom, step] of steps(work.document)) {
    const then = ['symptoms', symptom, 'steps', step, 'then'];
    for (const result of keysAt(work.document, then)) {
      const go = at(work.document, [...then, result, 'go']);
      if (typeof go !== 'string' || !leads(go, symptom)) continue;
      const branch = [...then, result];
      make(
        work,
        drop(work.document, branch),
        branch,
        `The branch ${resultOf(work, symptom, step, result)} of ${stepOf(work, symptom, step)} is left open.`,
      );
    }
  }
  for (const symptom of finding === null ? [] : keysAt(work.document, ['symptoms'])) {
    const weight = ['symptoms', symptom, 'weights', finding ?? ''];
    make(
      work,
      drop(work.document, weight),
      weight,
      `Its weight for ${titleOf(work, ['symptoms', symptom])} goes.`,
    );
  }
  leaveOtherwise(work, leads);
}

/** Takes out where findings go on, where that leads to the place from every path that has it. */
function leaveOtherwise(work: Work, leads: (go: string, symptom: string) => boolean): void {
  for (const each of keysAt(work.document, ['findings'])) {
    const path = ['findings', each, 'otherwise'];
    const go = at(work.document, path);
    // A bare step is one of whichever path the job came in by, so it goes only where no path has it any more.
    const from = typeof go === 'string' ? symptomsWith(work.document, go) : [];
    if (typeof go !== 'string' || from.length === 0 || !from.every((symptom) => leads(go, symptom))) continue;
    make(
      work,
      drop(work.document, path),
      path,
      `${titleOf(work, ['findings', each])} no longer says where to go on.`,
    );
  }
}

function symptomsWith(document: DraftDocument, go: string): readonly string[] {
  const place = destination(go, '');
  if (place.kind !== 'step' || place.symptom !== '') return [''];
  return keysAt(document, ['symptoms']).filter(
    (symptom) => at(document, ['symptoms', symptom, 'steps', place.step]) !== undefined,
  );
}

function isFinding(go: string, finding: string): boolean {
  const place = destination(go, '');
  return place.kind === 'finding' && place.finding === finding;
}

function isIn(go: string, symptom: string, from: string): boolean {
  const place = destination(go, from);
  return place.kind !== 'finding' && place.symptom === symptom;
}

function isStep(go: string, from: string, symptom: string, step: string): boolean {
  const place = destination(go, from);
  return place.kind === 'step' && place.symptom === symptom && place.step === step;
}
