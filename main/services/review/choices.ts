import type { ReviewChoices } from '../../contract/index.ts';
import type { FactColumns, Facts } from '../../../trees/review/index.ts';

/** What the filters can be set to: what closed jobs have. Ids in their order, technicians by name. */
export function choicesOf(facts: Facts, nameOf: ReadonlyMap<string, string>): ReviewChoices {
  const { symptoms, boards, technicians } = facts.names;
  const name = (id: string): string => nameOf.get(id) ?? id;
  return {
    trees: [...new Set(used(facts, 'symptom', symptoms).map(({ tree }) => tree))].sort(),
    boards: used(facts, 'board', boards).toSorted(
      (a, b) => byText(a.tree, b.tree) || byText(a.board, b.board),
    ),
    technicians: used(facts, 'technician', technicians).toSorted((a, b) => byText(name(a), name(b))),
  };
}

/** Those of the names that a job has: one whose closing was taken back may have left its own. */
function used<T>(
  { blocks }: Facts,
  column: keyof Pick<FactColumns, 'symptom' | 'board' | 'technician'>,
  names: readonly T[],
): readonly T[] {
  const isUsed = new Uint8Array(names.length);
  for (const { rows, [column]: codes } of blocks) {
    for (let row = 0; row < rows; row += 1) isUsed[codes[row] ?? 0] = 1;
  }
  return names.filter((_, code) => code > 0 && isUsed[code] === 1);
}

function byText(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
