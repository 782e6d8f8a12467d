import { OUTCOMES } from '../../trees/chart/index.ts';
import { NO_TIME, NOT_SHOWN, SHOWN } from '../../trees/review/index.ts';
import type { FactColumns, Facts, JobFact, Way } from '../../trees/review/index.ts';

const DAY = 86_400_000;

/** Facts in columns, a block for each day of opening, as the records keep them; made row by row from plain ones. */
export function factsOf(jobs: readonly JobFact[]): Facts {
  const symptoms = codes<{ tree: string; symptom: string }>({ tree: '', symptom: '' });
  const findings = codes<{ tree: string; finding: string }>({ tree: '', finding: '' });
  const boards = codes<{ tree: string; board: string }>({ tree: '', board: '' });
  const technicians = codes('');
  const ways = codes<Way | undefined>(undefined);
  const byDay = Map.groupBy(
    jobs.toSorted((a, b) => a.place - b.place),
    ({ place }) => Math.floor(place / 1024 / DAY),
  );
  const blocks = [...byDay.values()].map((ofDay) => {
    const columns = blank(ofDay.length);
    ofDay.forEach((job, row) => {
      const { tree, symptom, finding, tried, board, technician, answers } = job;
      columns.symptom[row] = symptoms.of({ tree, symptom });
      columns.finding[row] = finding === null ? 0 : findings.of({ tree, finding });
      columns.tried[row] = tried === null ? 0 : findings.of({ tree, finding: tried });
      columns.board[row] = boards.of({ tree, board });
      columns.technician[row] = technicians.of(technician);
      columns.way[row] = finding === null || answers.length === 0 ? 0 : ways.of({ tree, symptom, answers });
      put(columns, row, job);
    });
    return columns;
  });
  const names = {
    symptoms: symptoms.list,
    findings: findings.list,
    boards: boards.list,
    technicians: technicians.list,
  };
  return { blocks, names, ways: ways.list };
}

function codes<Name>(unused: Name): { readonly list: Name[]; readonly of: (name: Name) => number } {
  const list = [unused];
  const known = new Map<string, number>();
  return {
    list,
    of(name) {
      const key = JSON.stringify(name);
      const code = known.get(key) ?? list.push(name) - 1;
      known.set(key, code);
      return code;
    },
  };
}

function put(columns: FactColumns, row: number, job: JobFact): void {
  columns.place[row] = job.place;
  columns.closedAt[row] = job.closedAt;
  columns.backAt[row] = job.backAt ?? 0;
  columns.parts[row] = job.parts;
  columns.toFinding[row] = job.toFinding ?? NO_TIME;
  columns.toProof[row] = job.toProof ?? NO_TIME;
  columns.atBench[row] = job.atBench;
  columns.tests[row] = job.tests;
  columns.outcome[row] = OUTCOMES.indexOf(job.outcome);
  columns.failed[row] = job.failed;
  columns.advised[row] = job.advised;
  columns.confirmed[row] = job.confirmed ?? NOT_SHOWN;
  columns.listed[row] = job.shown.length;
  columns.shown.set(job.shown, row * SHOWN);
}

function blank(rows: number): FactColumns {
  return {
    rows,
    place: new Float64Array(rows),
    closedAt: new Float64Array(rows),
    backAt: new Float64Array(rows),
    parts: new Float64Array(rows),
    toFinding: new Uint32Array(rows),
    toProof: new Uint32Array(rows),
    atBench: new Uint32Array(rows),
    way: new Uint32Array(rows),
    symptom: new Uint16Array(rows),
    finding: new Uint16Array(rows),
    tried: new Uint16Array(rows),
    board: new Uint16Array(rows),
    technician: new Uint16Array(rows),
    tests: new Uint16Array(rows),
    outcome: new Uint8Array(rows),
    failed: new Uint8Array(rows),
    advised: new Uint8Array(rows),
    confirmed: new Uint8Array(rows),
    listed: new Uint8Array(rows),
    shown: new Uint8Array(rows * SHOWN),
  };
}
