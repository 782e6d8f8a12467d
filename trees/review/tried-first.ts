import { rateOf } from '../statistics/index.ts';
import { byText } from './by-text.ts';
import type { Chosen, ChosenBlock } from './choose.ts';
import type { FactNames } from './fact.ts';
import type { TriedFirst } from './figures.ts';
import type { Tally } from './tally.ts';

/** So many others are told of each: with all, a large record's answer would be mostly of these. */
const MOST_TOLD = 5;

interface Counts {
  /** By the code of the finding that was tried first; 0 is none. */
  readonly tried: Uint32Array;
  readonly right: Uint32Array;
  /** Jobs in which it was another, by the codes of both: tried x codes + the other. */
  readonly instead: Map<number, number>;
}

/**
 * How often the finding whose remedy was the first to be proved was the one that the unit had; those most often tried in vain first.
 * In vain are all jobs that its remedy did not mend, those too in which nothing did.
 */
export function openTriedFirst({ names }: Chosen): Tally<readonly TriedFirst[]> {
  const codes = names.findings.length;
  const counts: Counts = { tried: new Uint32Array(codes), right: new Uint32Array(codes), instead: new Map() };
  return {
    add: (block) => count(counts, codes, block),
    result: () => triedFirst(counts, names.findings),
  };
}

function count({ tried, right, instead }: Counts, codes: number, { columns, rows }: ChosenBlock): void {
  const { tried: first, finding } = columns;
  for (let at = 0; at < rows.length; at += 1) {
    const row = rows[at] ?? 0;
    const [was, is] = [first[row] ?? 0, finding[row] ?? 0];
    tried[was] = (tried[was] ?? 0) + 1;
    if (was === is) right[was] = (right[was] ?? 0) + 1;
    else if (was !== 0 && is !== 0) instead.set(was * codes + is, (instead.get(was * codes + is) ?? 0) + 1);
  }
}

function triedFirst(
  { tried, right, instead }: Counts,
  findings: FactNames['findings'],
): readonly TriedFirst[] {
  const codes = findings.length;
  const others = Map.groupBy(instead, ([pair]) => Math.floor(pair / codes));
  return findings
    .map(({ tree, finding }, code): TriedFirst => {
      const was = (others.get(code) ?? []).map(([pair, jobs]) => ({
        finding: findings[pair % codes]?.finding ?? '',
        jobs,
      }));
      return {
        tree,
        finding,
        ...rateOf(right[code] ?? 0, tried[code] ?? 0),
        instead: was.toSorted((a, b) => b.jobs - a.jobs || byText(a.finding, b.finding)).slice(0, MOST_TOLD),
      };
    })
    .filter(({ of }, code) => code > 0 && of > 0)
    .sort(
      (a, b) =>
        b.of - b.count - (a.of - a.count) ||
        b.of - a.of ||
        byText(a.tree, b.tree) ||
        byText(a.finding, b.finding),
    );
}
