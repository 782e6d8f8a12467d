import { calibrationOf } from './calibration.ts';
import { choose } from './choose.ts';
import { comebackFree } from './comeback-free.ts';
import { dayOf, dayText } from './day.ts';
import type { Facts, ReviewFilter } from './fact.ts';
import type { Review } from './figures.ts';
import { byText, fixOfAll, fixTablesOf, groupsOf, treesOf } from './groups.ts';
import { mixChange } from './mix-change.ts';
import { monthChart, monthsOf } from './months.ts';
import { outcomesOf } from './outcomes.ts';
import { paretoOf } from './pareto.ts';
import { plannerWorth } from './planner-worth.ts';
import { spreadsOf } from './spreads.ts';
import { waysTaken } from './ways-taken.ts';

/** The figures that need no tree, and what those that do are made of. */
export interface FactReview {
  /** `expected` of all `minutes` is null. */
  readonly figures: Omit<Review, 'branches'>;
  /** By the code of a way, how many confirmed jobs went it. */
  readonly wayCounts: Uint32Array;
}

/**
 * All figures of a filter that need no tree, as they are known at `now` (milliseconds since 1970 UTC). A few passes over the
 * columns: rows x figures, and no object a row. The order of the blocks does not matter. `withTrees` adds the rest.
 */
export function reviewOf(facts: Facts, filter: ReviewFilter, now: number): FactReview {
  const chosen = choose(facts, filter, now);
  const { names } = chosen;
  const tables = fixTablesOf(chosen);
  const trees = treesOf(tables.symptoms, names.symptoms);
  const figures = {
    asOf: now,
    record: recordOf(facts),
    jobs: chosen.jobs,
    firstTimeFix: fixOfAll(tables.symptoms),
    outcomes: outcomesOf(chosen),
    byTree: groupsOf(trees.table, trees.names),
    bySymptom: groupsOf(
      tables.symptoms,
      names.symptoms.map(({ tree, symptom }) => ({ id: symptom, tree })),
    ),
    byFinding: groupsOf(
      tables.findings,
      names.findings.map(({ tree, finding }) => ({ id: finding, tree })),
    ),
    byBoard: groupsOf(
      tables.boards,
      names.boards.map(({ tree, board }) => ({ id: board, tree })),
    ),
    // In a funnel nobody comes first.
    byTechnician: groupsOf(
      tables.technicians,
      names.technicians.map((id) => ({ id, tree: null })),
    ).toSorted((a, b) => byText(a.id, b.id)),
    ...monthChart(monthsOf(chosen), chosen),
    ...comebackFree(chosen),
    pareto: paretoOf(chosen),
    ...spreadsOf(chosen),
    calibration: calibrationOf(chosen),
    change: mixChange(chosen),
    planner: plannerWorth(chosen),
  };
  return { figures, wayCounts: waysTaken(chosen, facts.ways.length) };
}

function recordOf({ blocks }: Facts): Review['record'] {
  let jobs = 0;
  let first = Infinity;
  let last = -Infinity;
  for (const { rows, closedAt } of blocks) {
    jobs += rows;
    for (let row = 0; row < rows; row += 1) {
      const closed = closedAt[row] ?? 0;
      if (closed < first) first = closed;
      if (closed > last) last = closed;
    }
  }
  if (jobs === 0) return { jobs, first: null, last: null };
  return { jobs, first: dayText(dayOf(first)), last: dayText(dayOf(last)) };
}
