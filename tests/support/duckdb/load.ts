import { DuckDBInstance, type DuckDBAppender, type DuckDBConnection } from '@duckdb/node-api';
import { courseOf, type Tree } from '../../../trees/document/index.ts';
import { factAt, SHOWN, type Facts, type JobFact } from '../../../trees/review/index.ts';

const PLACES = Array.from({ length: SHOWN }, (_, place) => `shown${String(place)}`);

const TABLES = `
  CREATE TABLE job (tree VARCHAR, symptom VARCHAR, board VARCHAR, technician VARCHAR, outcome VARCHAR, finding VARCHAR, tried VARCHAR,
    closed_at BIGINT, back_at BIGINT, failed INTEGER, to_finding UINTEGER, to_proof UINTEGER, at_bench UINTEGER, parts DOUBLE,
    advised INTEGER, way UINTEGER, listed INTEGER, confirmed INTEGER, ${PLACES.map((name) => `${name} INTEGER`).join(', ')});
  CREATE TABLE answer (way UINTEGER, test VARCHAR, result VARCHAR);
  CREATE TABLE path_first (tree VARCHAR, symptom VARCHAR, step INTEGER);
  CREATE TABLE path_branch (tree VARCHAR, step INTEGER, symptom VARCHAR, step_id VARCHAR, test VARCHAR, result VARCHAR, next INTEGER);
`;

/** The facts, decoded, and the trees' paths as rows in a database in memory. */
export async function loadFacts(facts: Facts, trees: readonly Tree[]): Promise<DuckDBConnection> {
  const connection = await (await DuckDBInstance.create(':memory:')).connect();
  await connection.run(TABLES);
  await fill(connection, 'job', (row) => {
    for (const block of facts.blocks) {
      for (let at = 0; at < block.rows; at += 1) {
        appendJob(row, factAt(block, at, facts.names, facts.ways), block.way[at] ?? 0);
      }
    }
  });
  await fill(connection, 'answer', (row) => {
    for (const [way, known] of facts.ways.entries())
      for (const { test, result } of known?.answers ?? []) values(row, way, test, result);
  });
  await fill(connection, 'path_first', (row) => {
    for (const tree of trees)
      for (const [symptom, step] of courseOf(tree).firsts) values(row, tree.id, symptom, step);
  });
  await fill(connection, 'path_branch', (row) => {
    for (const tree of trees)
      for (const [step, of] of courseOf(tree).steps.entries()) appendStep(row, tree, step, of);
  });
  return connection;
}

async function fill(
  connection: DuckDBConnection,
  table: string,
  rows: (row: DuckDBAppender) => void,
): Promise<void> {
  const appender = await connection.createAppender(table);
  rows(appender);
  appender.closeSync();
}

function appendJob(row: DuckDBAppender, fact: JobFact, way: number): void {
  const { tree, symptom, board, technician, outcome, finding, closedAt, backAt } = fact;
  for (const text of [tree, symptom, board, technician, outcome]) row.appendVarchar(text);
  append(row, finding);
  append(row, fact.tried);
  row.appendBigInt(BigInt(closedAt));
  if (backAt === null) row.appendNull();
  else row.appendBigInt(BigInt(backAt));
  row.appendInteger(fact.failed);
  for (const time of [fact.toFinding, fact.toProof, fact.atBench]) {
    if (time === null) row.appendNull();
    else row.appendUInteger(time);
  }
  row.appendDouble(fact.parts);
  row.appendInteger(fact.advised);
  row.appendUInteger(way);
  row.appendInteger(fact.shown.length);
  append(row, fact.confirmed);
  for (const place of PLACES.keys()) append(row, fact.shown[place] ?? null);
  row.endRow();
}

function appendStep(
  row: DuckDBAppender,
  tree: Tree,
  step: number,
  of: ReturnType<typeof courseOf>['steps'][number],
): void {
  for (const { result, lead } of of.branches)
    values(
      row,
      tree.id,
      step,
      of.symptom,
      of.step,
      of.test,
      result,
      lead.kind === 'step' ? lead.index : null,
    );
}

function values(row: DuckDBAppender, ...all: readonly (string | number | null)[]): void {
  for (const value of all) append(row, value);
  row.endRow();
}

function append(row: DuckDBAppender, value: string | number | null): void {
  if (value === null) row.appendNull();
  else if (typeof value === 'string') row.appendVarchar(value);
  else row.appendInteger(value);
}
