import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { OUTCOMES } from '../../trees/chart/index.ts';
import {
  blankColumns,
  columnsOf,
  columnsOver,
  factAt,
  packColumns,
  ROW_BYTES,
  rowAt,
  rowOf,
  unpackColumns,
  withoutRow,
  withRow,
  type FactColumns,
  type FactNames,
  type JobFact,
  type Way,
} from '../../trees/review/index.ts';

const NAMES: FactNames = {
  symptoms: [
    { tree: '', symptom: '' },
    { tree: 'small', symptom: 'dark' },
    { tree: 'small', symptom: 'mute' },
  ],
  findings: [
    { tree: '', finding: '' },
    { tree: 'small', finding: 'panel' },
    { tree: 'small', finding: 'unlisted' },
  ],
  boards: [
    { tree: '', board: '' },
    { tree: 'small', board: '' },
    { tree: 'small', board: 'A1' },
  ],
  technicians: ['', 'ada', 'bo'],
};
const ANSWERS = [[], [{ test: 'rail', result: 'low' }], [{ test: 'rail', result: 'dead' }]];
const WAYS: readonly (Way | undefined)[] = ANSWERS.map((answers, id) =>
  id === 0 ? undefined : { tree: 'small', symptom: 'dark', answers },
);

const moment = fc.integer({ min: 1, max: 4_000_000_000_000 });
const time = fc.integer({ min: 0, max: 0xffff_fffe });
const few = fc.integer({ min: 0, max: 255 });

const arbitraryFact: fc.Arbitrary<JobFact> = fc.record({
  place: fc.integer({ min: 0, max: 60 }),
  closedAt: moment,
  tree: fc.constant('small'),
  symptom: fc.constantFrom('dark', 'mute'),
  board: fc.constantFrom('', 'A1'),
  technician: fc.constantFrom('ada', 'bo'),
  outcome: fc.constantFrom(...OUTCOMES),
  finding: fc.constantFrom(null, 'panel', 'unlisted'),
  tried: fc.constantFrom(null, 'panel', 'unlisted'),
  failed: few,
  backAt: fc.option(moment),
  toFinding: fc.option(time),
  toProof: fc.option(time),
  atBench: time,
  tests: fc.integer({ min: 0, max: 65535 }),
  parts: fc.double({ min: 0, max: 1e9, noNaN: true, noDefaultInfinity: true }).map((price) => price + 0),
  advised: few,
  answers: fc.constantFrom(...ANSWERS),
  shown: fc.array(fc.integer({ min: 0, max: 100 }), { maxLength: 6 }),
  confirmed: fc.option(fc.integer({ min: 0, max: 5 })),
});

function codeOfFinding(finding: string | null): number {
  return finding === null ? 0 : NAMES.findings.findIndex((name) => name.finding === finding);
}

function codesOf({ symptom, finding, tried, board, technician, answers }: JobFact) {
  return {
    symptom: NAMES.symptoms.findIndex((name) => name.symptom === symptom),
    finding: codeOfFinding(finding),
    tried: codeOfFinding(tried),
    board: NAMES.boards.findIndex((name, code) => code > 0 && name.board === board),
    technician: NAMES.technicians.indexOf(technician),
    way: ANSWERS.indexOf(answers as (typeof ANSWERS)[number]),
  };
}

function put(columns: FactColumns, fact: JobFact): FactColumns {
  return withRow(columns, rowOf(fact, codesOf(fact)));
}

function factsIn(columns: FactColumns): readonly JobFact[] {
  return Array.from({ length: columns.rows }, (_, row) => factAt(columns, row, NAMES, WAYS));
}

describe('columns of facts', () => {
  it('give back each fact that was put in or in the stead of another, by place, and none that was taken out', () => {
    const act = fc.oneof(
      { weight: 3, arbitrary: arbitraryFact },
      { weight: 1, arbitrary: fc.record({ drop: fc.integer({ min: 0, max: 60 }) }) },
    );
    fc.assert(
      fc.property(fc.array(act, { maxLength: 60 }), (acts) => {
        const plain = new Map<number, JobFact>();
        let columns = blankColumns(0);
        for (const done of acts) {
          if ('drop' in done) {
            plain.delete(done.drop);
            columns = withoutRow(columns, done.drop);
          } else {
            plain.set(done.place, done);
            columns = put(columns, done);
          }
        }
        const ordered = [...plain.values()].sort((a, b) => a.place - b.place);
        expect(factsIn(columns)).toEqual(ordered);
        ordered.forEach(({ place }, row) => expect(rowAt(columns, place)).toBe(row));
        expect(rowAt(columns, 61)).toBe(-1);
      }),
    );
  });

  it('are the same packed and unpacked, wherever the bytes lie, and stay so when those are written over', () => {
    fc.assert(
      fc.property(fc.array(arbitraryFact), fc.integer({ min: 0, max: 9 }), (facts, offset) => {
        const columns = facts.reduce(put, blankColumns(0));
        const packed = packColumns(columns);
        expect(packed.byteLength).toBe(columns.rows * ROW_BYTES);
        const elsewhere = new Uint8Array(packed.byteLength + offset).subarray(offset);
        elsewhere.set(packed);
        const unpacked = unpackColumns(columns.rows, elsewhere);
        elsewhere.fill(255);
        expect(factsIn(unpacked)).toEqual(factsIn(columns));
        expect(packColumns(unpacked)).toEqual(packed);
      }),
    );
  });

  it('read the same laid over the bytes, which are not copied where they are a buffer of their own', () => {
    fc.assert(
      fc.property(fc.array(arbitraryFact, { minLength: 1 }), (facts) => {
        const columns = facts.reduce(put, blankColumns(0));
        const packed = Uint8Array.from(packColumns(columns));
        const over = columnsOver(columns.rows, packed);
        expect(factsIn(over)).toEqual(factsIn(columns));
        expect(over.place.buffer).toBe(packed.buffer);
        const larger = new Uint8Array(packed.byteLength + 8);
        larger.set(packed, 8);
        const apart = columnsOver(columns.rows, larger.subarray(8));
        expect(factsIn(apart)).toEqual(factsIn(columns));
        expect(apart.place.buffer).not.toBe(larger.buffer);
      }),
    );
    expect(() => columnsOver(2, new Uint8Array(ROW_BYTES))).toThrow('facts-damaged');
  });

  it('are made at once of rows as by adding one after another', () => {
    fc.assert(
      fc.property(fc.uniqueArray(arbitraryFact, { selector: ({ place }) => place }), (facts) => {
        const ascending = [...facts].sort((a, b) => a.place - b.place);
        const rows = ascending.map((fact) => rowOf(fact, codesOf(fact)));
        expect(packColumns(columnsOf(rows))).toEqual(packColumns(ascending.reduce(put, blankColumns(0))));
      }),
    );
  });

  it('leave the columns that a row is added to as they were', () => {
    const [first, second] = fc.sample(arbitraryFact, { numRuns: 2, seed: 4 });
    if (first === undefined || second === undefined) throw new Error('no sample');
    const columns = put(blankColumns(0), { ...first, place: 1 });
    const before = packColumns(columns);
    put(columns, { ...second, place: 1 });
    put(columns, { ...second, place: 2 });
    expect(packColumns(columns)).toEqual(before);
  });

  it('hold the most that they can of what is too much for them', () => {
    const [fact] = fc.sample(arbitraryFact, { numRuns: 1, seed: 4 });
    if (fact === undefined) throw new Error('no sample');
    const much = {
      ...fact,
      toFinding: 1e12,
      toProof: null,
      atBench: 1e12,
      tests: 1e6,
      failed: 300,
      advised: 300,
    };
    expect(factsIn(put(blankColumns(0), much))).toEqual([
      {
        ...much,
        toFinding: 0xffff_fffe,
        toProof: null,
        atBench: 0xffff_fffe,
        tests: 65535,
        failed: 255,
        advised: 255,
      },
    ]);
  });

  it('are refused where the bytes are not those of so many rows', () => {
    expect(() => unpackColumns(2, new Uint8Array(ROW_BYTES))).toThrow('facts-damaged');
  });
});
