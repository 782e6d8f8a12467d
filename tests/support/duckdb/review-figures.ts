import type { Estimate, FirstTimeFix, Group, Review, Spread } from '../../../trees/review/index.ts';
import type { NamedFigures } from './sql-figures.ts';

/** A review's figures under the names that `sqlFigures` gives them. */
export function reviewFigures(review: Review): NamedFigures {
  const named = new Map<string, number>();
  const put = (of: readonly (string | number)[], figures: Readonly<Record<string, number>>): void => {
    for (const [figure, value] of Object.entries(figures)) named.set([...of, figure].join(' '), value);
  };
  const groups = (of: string, all: readonly Group[]): void => {
    for (const group of all)
      put(
        [of, ...(group.tree === null || of === 'tree' ? [] : [group.tree]), group.id].filter(isSaid),
        fix(group),
      );
  };
  put(['all'], fix(review.firstTimeFix));
  groups('tree', review.byTree);
  groups('symptom', review.bySymptom);
  groups('finding', review.byFinding);
  groups('board', review.byBoard);
  groups('technician', review.byTechnician);
  for (const { month, closed, fixed, provisional, low, high, outOfControl } of review.byMonth)
    put(['month', month], {
      closed,
      fixed,
      provisional: Number(provisional),
      low,
      high,
      out: Number(outOfControl),
    });
  if (review.trend !== null) {
    const { months, perMonth, deviations } = review.trend;
    put(['trend'], { months, perMonth, deviations });
  }
  for (const { outcome, count, minutes } of review.outcomes)
    if (count > 0) put(['outcome', outcome], { count, minutes });
  for (const { tree, finding, jobs, minutes, parts } of review.pareto)
    put(['pareto', tree, finding], { jobs, minutes, parts });
  spread(put, ['to_finding'], review.toFinding);
  spread(put, ['to_proof'], review.toProof);
  for (const { tree, symptom, toFinding, toProof } of review.minutes) {
    spread(put, ['to_finding by', tree, symptom], toFinding);
    spread(put, ['to_proof by', tree, symptom], toProof);
  }
  for (const { days, atRisk, back, survival, error } of review.comebackFree)
    if (back > 0) put(['back-free', days], { atRisk, back, survival, error });
  for (const { tree, finding, fixed, back, expected, atWindow } of review.comebacksByFinding) {
    put(['finding-back', tree, finding], { fixed, back, expected });
    if (atWindow !== null) put(['finding-free', tree, finding], { survival: atWindow.survival });
  }
  for (const { technician, closed, fixed, expected } of review.likeForLike)
    put(['like for like', technician], { closed, fixed, expected });
  for (const { technician, tree, symptom, closed, fixed, expected } of review.technicianSymptoms)
    put(['like for like', technician, tree, symptom], { closed, fixed, expected });
  for (const { tree, symptom, step, result, took } of review.branches)
    if (took > 0) put(['branch', tree, symptom, step, result], { took });
  calibration(put, review.calibration);
  for (const { tree, finding, count, of, instead } of review.triedFirst) {
    put(['tried', tree, finding], { tried: of, right: count });
    for (const other of instead) put(['tried', tree, finding, other.finding], { jobs: other.jobs });
  }
  for (const { tree, finding, now, before } of review.change?.findings ?? [])
    put(['mix', tree, finding], { now, before });
  const { taken, notTaken, kinds, saved, wouldSave } = review.planner;
  put(['planner'], { taken, notTaken, kinds });
  estimate(put, ['planner saved'], saved);
  estimate(put, ['planner wouldSave'], wouldSave);
  return named;
}

type Put = (of: readonly (string | number)[], figures: Readonly<Record<string, number>>) => void;

function isSaid(part: string): boolean {
  return part !== '';
}

function fix({ closed, fixed, stillOpen, judged }: FirstTimeFix) {
  return { closed, fixed, stillOpen, judgedClosed: judged.closed, judgedFixed: judged.fixed };
}

function spread(put: Put, of: readonly string[], times: Spread | null): void {
  if (times === null) return;
  const { jobs, mean, lower, median, upper, error } = times;
  put(of, { jobs, mean, lower, median, upper, ...(error === null ? {} : { error }) });
}

function calibration(
  put: Put,
  { jobs, percentages, brier, reliability, resolution, uncertainty }: Review['calibration'],
): void {
  put(['calibration'], { jobs });
  if (brier !== null && reliability !== null && resolution !== null && uncertainty !== null)
    put(['calibration'], { percentages, brier, reliability, resolution, uncertainty });
}

function estimate(put: Put, of: readonly string[], worth: Estimate | null): void {
  if (worth === null) return;
  const { jobs, minutes, error, degrees } = worth;
  put(of, { jobs, minutes, error, degrees });
}

/** Where two sets of figures differ by more than `tolerance` relative, or only one of them has a figure. */
export function differences(ours: NamedFigures, theirs: NamedFigures, tolerance: number): readonly string[] {
  return [...new Set([...ours.keys(), ...theirs.keys()])].flatMap((name) => {
    const [one, other] = [ours.get(name), theirs.get(name)];
    const same =
      one !== undefined &&
      other !== undefined &&
      Math.abs(one - other) <= tolerance * Math.max(Math.abs(one), Math.abs(other));
    return same ? [] : [`${name}: ${String(one)} here, ${String(other)} in SQL`];
  });
}
