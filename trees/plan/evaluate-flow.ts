/**
 * How many units, of one, are at a state, by what they have: a row for each finding and one for those mended. After them in
 * the same table, row by row, the tests made so far times the units, so that a mean position can be had where ways of
 * several lengths meet.
 */
export interface Flow {
  readonly table: Float64Array;
  /** Units that were stood for by others like them somewhere on the way here. */
  stoodFor: number;
}

/** Flows to be had, and given back once what was in them has gone on: a table taken again costs less than one made. */
export interface Flows {
  /** A flow without units. */
  readonly take: () => Flow;
  readonly giveBack: (flow: Flow) => void;
}

export function openFlows(rows: number): Flows {
  const free: Flow[] = [];
  return {
    take: () => free.pop() ?? { table: new Float64Array(2 * rows), stoodFor: 0 },
    giveBack(flow) {
      flow.table.fill(0);
      flow.stoodFor = 0;
      free.push(flow);
    },
  };
}

/** The units of a flow. */
export function unitsIn({ table }: Flow): number {
  return sum(table, 0, table.length / 2);
}

/** The units of one row. */
export function unitsOf({ table }: Flow, row: number): number {
  return table[row] ?? 0;
}

/** The tests that the units of a flow have been put to, added up. */
export function testsOf({ table }: Flow): number {
  return sum(table, table.length / 2, table.length);
}

/** Adds the units of a flow that give a result, their shares being by row; one more test is then made. */
export function pour(from: Flow, into: Flow, shares: Float64Array): void {
  const rows = shares.length;
  let all = 0;
  let poured = 0;
  for (let row = 0; row < rows; row += 1) {
    const units = from.table[row] ?? 0;
    if (units === 0) continue;
    const share = shares[row] ?? 0;
    const made = rows + row;
    all += units;
    poured += share * units;
    into.table[row] = (into.table[row] ?? 0) + share * units;
    into.table[made] = (into.table[made] ?? 0) + share * ((from.table[made] ?? 0) + units);
  }
  if (from.stoodFor > 0) into.stoodFor += (from.stoodFor * poured) / all;
}

/** The units of a flow that give a result. */
export function unitsGiving({ table }: Flow, shares: Float64Array): number {
  let units = 0;
  for (let row = 0; row < shares.length; row += 1) units += (table[row] ?? 0) * (shares[row] ?? 0);
  return units;
}

/** Whether any unit of a flow gives a result. */
export function anyOf({ table }: Flow, shares: Float64Array): boolean {
  for (let row = 0; row < shares.length; row += 1)
    if ((table[row] ?? 0) * (shares[row] ?? 0) > 0) return true;
  return false;
}

/** Moves a share of one row's units to another. */
export function move({ table }: Flow, from: number, to: number, share: number): void {
  const rows = table.length / 2;
  for (const start of [0, rows]) {
    const part = (table[start + from] ?? 0) * share;
    table[start + from] = (table[start + from] ?? 0) - part;
    table[start + to] = (table[start + to] ?? 0) + part;
  }
}

/** Makes of a flow one of so many times as many units, all of which are stood for. */
export function standFor(flow: Flow, times: number): void {
  for (let at = 0; at < flow.table.length; at += 1) flow.table[at] = (flow.table[at] ?? 0) * times;
  flow.stoodFor = unitsIn(flow);
}

function sum(table: Float64Array, from: number, to: number): number {
  let total = 0;
  for (let at = from; at < to; at += 1) total += table[at] ?? 0;
  return total;
}
