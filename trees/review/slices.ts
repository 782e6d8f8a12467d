import { OUTCOMES } from '../chart/index.ts';
import { daysToBack, FIRST_TIME, FIXED, STILL_OPEN, type Chosen, type ChosenBlock } from './choose.ts';
import { DAY, firstDayOf, monthFrom } from './day.ts';
import { NO_TIME, SHOWN, type FactColumns, type FactNames } from './fact.ts';
import type { GroupSlice, Slice } from './slice.ts';

/** Whether the job at a place of a block's rows is one of a slice. */
export type Belongs = (at: number) => boolean;

/** A slice that is told by the facts alone: all but the branches of a tree. */
export type FactSlice = Exclude<Slice, { readonly kind: 'branch' }>;

/** Tells, block by block, the jobs of a slice by what its figure is counted from. */
export function belongingTo(slice: FactSlice, chosen: Chosen): Telling {
  const { names } = chosen;
  switch (slice.kind) {
    case 'all':
      return () => () => true;
    case 'first-time-fixed':
      return ({ flags }) =>
        (at) =>
          ((flags[at] ?? 0) & FIRST_TIME) !== 0;
    case 'not-first-time-fixed':
      return ({ flags }) =>
        (at) =>
          ((flags[at] ?? 0) & FIRST_TIME) === 0;
    case 'month':
      return closedIn(monthFrom(slice.month));
    case 'outcome':
      return coded('outcome', (code) => OUTCOMES[code] === slice.outcome);
    case 'tree':
    case 'symptom':
    case 'finding':
    case 'board':
    case 'technician':
      return slice.judged === true ? both(named(slice, names), windowPassed) : named(slice, names);
    case 'back':
      return backWithin(slice.within, chosen.now);
    case 'finding-fixed':
      return both(
        named({ ...slice, kind: 'finding' }, names),
        coded('outcome', (code) => code === FIXED),
      );
    case 'finding-back':
      return both(named({ ...slice, kind: 'finding' }, names), backWithin(slice.within, chosen.now));
    case 'tried':
      return findingIs('tried', slice, names);
    case 'tried-in-vain':
      return both(findingIs('tried', slice, names), not(findingIs('finding', slice, names)));
    case 'tried-instead':
      return both(
        findingIs('tried', slice, names),
        findingIs('finding', { ...slice, finding: slice.was }, names),
      );
    case 'found':
      return both(named({ ...slice, kind: 'symptom' }, names), hasTime('toFinding'));
    case 'proven':
      return both(named({ ...slice, kind: 'symptom' }, names), hasTime('toProof'));
    case 'judged':
      return both(
        both(named({ ...slice, kind: 'symptom' }, names), named({ ...slice, kind: 'technician' }, names)),
        windowPassed,
      );
    case 'shown':
      return shownBetween(slice.from, slice.to);
    case 'advised':
      return ({ columns: { finding, advised }, rows }) =>
        (at) =>
          finding[rows[at] ?? 0] !== 0 && (advised[rows[at] ?? 0] ?? 0) > 0 === slice.taken;
  }
}

function named(slice: GroupSlice, names: FactNames): Telling {
  switch (slice.kind) {
    case 'tree':
      return coded('symptom', (code) => names.symptoms[code]?.tree === slice.tree);
    case 'symptom':
      return coded('symptom', (code) => {
        const name = names.symptoms[code];
        return name?.tree === slice.tree && name.symptom === slice.symptom;
      });
    case 'finding':
      return findingIs('finding', slice, names);
    case 'board':
      return coded('board', (code) => {
        const name = names.boards[code];
        return name?.tree === slice.tree && name.board === slice.board;
      });
    case 'technician':
      return coded('technician', (code) => names.technicians[code] === slice.technician);
  }
}

/** Whether a column of findings has this one. */
function findingIs(
  column: 'finding' | 'tried',
  { tree, finding }: { readonly tree: string; readonly finding: string },
  { findings }: FactNames,
): Telling {
  return coded(
    column,
    (code) => code > 0 && findings[code]?.tree === tree && findings[code].finding === finding,
  );
}

/** A way to tell, block by block, whether jobs belong. */
type Telling = (block: ChosenBlock) => Belongs;

function both(one: Telling, other: Telling): Telling {
  return (block) => {
    const [isOne, isOther] = [one(block), other(block)];
    return (at) => isOne(at) && isOther(at);
  };
}

function not(one: Telling): Telling {
  return (block) => {
    const isOne = one(block);
    return (at) => !isOne(at);
  };
}

function hasTime(column: 'toFinding' | 'toProof'): Telling {
  return ({ columns: { [column]: times }, rows }) =>
    (at) =>
      times[rows[at] ?? 0] !== NO_TIME;
}

function windowPassed({ flags }: ChosenBlock): Belongs {
  return (at) => ((flags[at] ?? 0) & STILL_OPEN) === 0;
}

type CodeColumn = keyof Pick<
  FactColumns,
  'outcome' | 'symptom' | 'finding' | 'tried' | 'board' | 'technician'
>;

function coded(column: CodeColumn, isWanted: (code: number) => boolean): Telling {
  return ({ columns, rows }) => {
    const codes = columns[column];
    return (at) => isWanted(codes[rows[at] ?? 0] ?? 0);
  };
}

function closedIn(month: number): Telling {
  const [from, to] = [firstDayOf(month) * DAY, firstDayOf(month + 1) * DAY];
  return ({ columns: { closedAt }, rows }) =>
    (at) => {
      const closed = closedAt[rows[at] ?? 0] ?? 0;
      return closed >= from && closed < to;
    };
}

function backWithin(within: number, now: number): Telling {
  return ({ columns: { outcome, closedAt, backAt }, rows }) =>
    (at) => {
      const row = rows[at] ?? 0;
      if (outcome[row] !== FIXED) return false;
      const days = daysToBack(closedAt[row] ?? 0, backAt[row] ?? 0, now);
      return days > 0 && days <= within;
    };
}

/** Confirmed jobs beside one of whose findings such a percentage was shown. */
function shownBetween(from: number, to: number): Telling {
  return ({ columns: { finding, listed, shown }, rows }) =>
    (at) => {
      const row = rows[at] ?? 0;
      if (finding[row] === 0) return false;
      const first = row * SHOWN;
      for (let place = first; place < first + (listed[row] ?? 0); place += 1) {
        const share = (shown[place] ?? 0) / 100;
        if (share >= from && (share < to || to === 1)) return true;
      }
      return false;
    };
}
