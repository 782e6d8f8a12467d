import { countOf, type Problem } from '../../../trees/document/index.ts';

/** How many errors and warnings there are, in words. */
export function checksWords(problems: readonly Problem[]): string {
  const errors = countOf(problems.filter(({ severity }) => severity === 'error'));
  const warnings = countOf(problems.filter(({ severity }) => severity === 'warning'));
  if (errors + warnings === 0) return 'Nothing to mend';
  return [counted(errors, 'error'), counted(warnings, 'warning')].filter((words) => words !== '').join(', ');
}

function counted(count: number, what: string): string {
  if (count === 0) return '';
  return count === 1 ? `1 ${what}` : `${String(count)} ${what}s`;
}
