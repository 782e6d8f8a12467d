import { destination } from '../../document/index.ts';
import { isLedTo, type Target } from './leads.ts';
import { at, drop, isAt, keysAt, make, resultOf, stepOf, titleOf, type Work } from './removal-work.ts';

/** Takes out what leads to a finding, and its weights. */
export function leaveFinding(work: Work, finding: string): void {
  const target: Target = { kind: 'finding', finding };
  leaveBranches(work, target);
  for (const symptom of keysAt(work, ['symptoms'])) {
    const weight = ['symptoms', symptom, 'weights', finding];
    const says = `Its weight for ${titleOf(work, ['symptoms', symptom])} goes.`;
    make(work, drop(work, weight), weight, says);
  }
  leaveOtherwise(work, target);
}

/** Takes out what leads from elsewhere to a symptom or into its path. */
export function leaveSymptom(work: Work, symptom: string): void {
  const target: Target = { kind: 'symptom', symptom };
  leaveBranches(work, target, symptom);
  leaveOtherwise(work, target);
}

/** Takes out what leads to a step. */
export function leaveStep(work: Work, symptom: string, step: string): void {
  const target: Target = { kind: 'step', symptom, step };
  leaveBranches(work, target);
  leaveOtherwise(work, target);
  const first = ['symptoms', symptom, 'first'];
  if (at(work, first) !== step) return;
  const says = `The path of ${titleOf(work, ['symptoms', symptom])} no longer starts anywhere.`;
  make(work, drop(work, first), first, says);
}

/** Takes out the branches that lead to a target, those of one path excepted. */
function leaveBranches(work: Work, target: Target, except?: string): void {
  for (const { symptom, step, result } of work.leads().to(target)) {
    const branch = ['symptoms', symptom, 'steps', step, 'then', result];
    if (symptom === except || !isAt(work, branch)) continue;
    const says = `The branch ${resultOf(work, symptom, step, result)} of ${stepOf(work, symptom, step)} is left open.`;
    make(work, drop(work, branch), branch, says);
  }
}

/** Takes out where findings go on, where that leads to the target from every path that has it. */
function leaveOtherwise(work: Work, target: Target): void {
  for (const [finding, go] of work.leads().otherwise) {
    const path = ['findings', finding, 'otherwise'];
    if (!isAt(work, path) || !leadsOnlyTo(work, target, go)) continue;
    make(
      work,
      drop(work, path),
      path,
      `${titleOf(work, ['findings', finding])} no longer says where to go on.`,
    );
  }
}

/** A bare step is one of whichever path the job came in by, so it goes only where no path has it any more. */
function leadsOnlyTo(work: Work, target: Target, go: string): boolean {
  const place = destination(go, '');
  if (place.kind !== 'step' || place.symptom !== '') return isLedTo(target, go, '');
  const isElsewhere = target.kind === 'finding' || (target.kind === 'step' && target.step !== place.step);
  if (isElsewhere) return false;
  const from = keysAt(work, ['symptoms']).filter((symptom) =>
    isAt(work, ['symptoms', symptom, 'steps', place.step]),
  );
  return from.length > 0 && from.every((symptom) => isLedTo(target, go, symptom));
}
