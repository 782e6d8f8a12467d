import {
  isHolder,
  PART_SCHEMAS,
  pointerOf,
  shapeProblems,
  TEXT,
  valueAt,
  type Problem,
  type Tree,
} from '../document/index.ts';
import type { z } from 'zod';
import { isList, isRecord, type DraftDocument, type Json, type JsonObject } from './json.ts';

/** A draft as the checker and the arithmetic take it, and what still keeps it from being a tree document by its shape alone. */
export interface LiveTree {
  /** Every default filled in, `…` where a text is still blank. What no edit has touched keeps its identity. */
  readonly tree: Tree;
  /** Texts that are still blank, and anything else that has not the shape of its place; at their pointers, as errors. */
  readonly blanks: readonly Problem[];
}

/**
 * Reads a draft's document part by part; a part is read once, however often the rest of the document changes. What has not the
 * shape of its part at all is left out of the tree, and said.
 */
export function liveTree(document: DraftDocument): LiveTree {
  const known = read.get(document);
  if (known !== undefined) return known;
  const live = readWhole(document);
  read.set(document, live);
  return live;
}

const read = new WeakMap<DraftDocument, LiveTree>();

function readWhole(document: DraftDocument): LiveTree {
  const unit = part('unit', document.unit ?? null, ['unit']);
  const title = part('title', document.title ?? null, ['title']);
  const summary = part('summary', document.summary ?? '', ['summary']);
  const cautions = part('cautions', document.cautions ?? EMPTY_LIST, ['cautions']);
  const defaults = part('defaults', document.defaults ?? EMPTY, ['defaults']);
  const bench = record('axis', document.bench, 'bench');
  const interlocks = interlocksOf(document.interlocks);
  const tests = record('test', document.tests, 'tests');
  const findings = record('finding', document.findings, 'findings');
  const symptoms = symptomsOf(document.symptoms);
  const blanks = [
    title,
    unit,
    summary,
    cautions,
    defaults,
    bench,
    interlocks,
    tests,
    findings,
    symptoms,
  ].flatMap((one) => one.blanks);
  const tree: Tree = {
    format: 'ohmward-tree/1',
    id: typeof document.id === 'string' ? document.id : 'draft',
    title: title.value ?? TEXT,
    unit: unit.value ?? NO_UNIT,
    summary: summary.value ?? '',
    cautions: cautions.value ?? [],
    defaults: defaults.value ?? DEFAULTS,
    bench: bench.value,
    interlocks: interlocks.value,
    tests: tests.value,
    findings: findings.value,
    symptoms: symptoms.value,
  };
  return { tree, blanks };
}

type Parts = typeof PART_SCHEMAS;
type Name = keyof Parts;
type Value<N extends Name> = z.output<Parts[N]>;

/** A part as read, null where it has not its shape at all, with problems at pointers from the part's own root. */
interface PartRead<N extends Name> {
  readonly value: Value<N> | null;
  readonly problems: readonly Problem[];
}

interface Found<T> {
  readonly value: T;
  readonly blanks: readonly Problem[];
}

const EMPTY: JsonObject = {};
const EMPTY_LIST: readonly Json[] = [];
const NO_UNIT = { family: TEXT, boards: [] };
const DEFAULTS = PART_SCHEMAS.defaults.parse({});

const partsRead: { readonly [N in Name]: WeakMap<object, PartRead<N>> } = {
  title: new WeakMap(),
  unit: new WeakMap(),
  summary: new WeakMap(),
  cautions: new WeakMap(),
  defaults: new WeakMap(),
  axis: new WeakMap(),
  interlock: new WeakMap(),
  test: new WeakMap(),
  finding: new WeakMap(),
  symptom: new WeakMap(),
  step: new WeakMap(),
};

function part<N extends Name>(
  name: N,
  value: Json,
  at: readonly (string | number)[],
): Found<Value<N> | null> {
  const { value: found, problems } = readPart(name, value);
  return { value: found, blanks: placed(problems, at) };
}

function placed(problems: readonly Problem[], at: readonly (string | number)[]): readonly Problem[] {
  return problems.length === 0
    ? problems
    : problems.map((problem) => ({ ...problem, at: `${pointerOf(at)}${problem.at}` }));
}

function readPart<N extends Name>(name: N, value: Json): PartRead<N> {
  if (!isHolder(value)) return parsePart(name, value);
  const memo = partsRead[name];
  const known = memo.get(value);
  if (known !== undefined) return known;
  const found = parsePart(name, value);
  memo.set(value, found);
  return found;
}

function parsePart<N extends Name>(name: N, value: Json): PartRead<N> {
  const schema: z.ZodType = PART_SCHEMAS[name];
  const strict = schema.safeParse(value);
  if (strict.success) return { value: strict.data as Value<N>, problems: [] };
  const problems = shapeProblems(strict.error.issues, value);
  const written = withTexts(value, strict.error.issues);
  const second = schema.safeParse(written);
  return { value: second.success ? (second.data as Value<N>) : null, problems };
}

/** A copy in which something stands wherever a text is blank, so that the rest can be reckoned with meanwhile. */
function withTexts(value: Json, issues: readonly z.core.$ZodIssue[]): unknown {
  const copy: { root: unknown } = { root: JSON.parse(JSON.stringify(value)) };
  for (const issue of issues) {
    if (issue.code !== 'too_small' || issue.origin !== 'string') continue;
    const path = ['root', ...issue.path];
    const holder = valueAt(copy, path.slice(0, -1));
    if (isHolder(holder)) holder[path.at(-1) ?? ''] = TEXT;
  }
  return copy.root;
}

const NOTHING: Found<Record<string, never>> = {
  value: Object.create(null) as Record<string, never>,
  blanks: [],
};
const NO_ENTRIES: Found<readonly never[]> = { value: [], blanks: [] };

const recordsRead = new WeakMap<object, Found<Record<string, never>>>();

/** Entries by id, without a prototype, as the reader gives them. */
function record<N extends Name>(
  name: N,
  entries: Json | undefined,
  at: string,
): Found<Record<string, Value<N>>> {
  return assembled(entries, at, (value, place) => part(name, value, place));
}

function symptomsOf(entries: Json | undefined): Found<Tree['symptoms']> {
  return assembled(entries, 'symptoms', (value, place) => readSymptom(value, place));
}

const symptomsRead = new WeakMap<object, Found<Tree['symptoms'][string] | null>>();

function readSymptom(value: Json, at: readonly (string | number)[]): Found<Tree['symptoms'][string] | null> {
  if (!isRecord(value)) return { value: null, blanks: placed(readPart('symptom', value).problems, at) };
  const known = symptomsRead.get(value);
  if (known !== undefined) return { value: known.value, blanks: placed(known.blanks, at) };
  const found = symptomOf(value);
  symptomsRead.set(value, found);
  return { value: found.value, blanks: placed(found.blanks, at) };
}

function symptomOf({ steps, ...rest }: JsonObject): Found<Tree['symptoms'][string] | null> {
  const own = part('symptom', rest, []);
  const found = record('step', steps, 'steps');
  const value = own.value === null ? null : { ...own.value, steps: found.value };
  return { value, blanks: [...own.blanks, ...found.blanks] };
}

const interlocksRead = new WeakMap<object, Found<Tree['interlocks']>>();

function interlocksOf(entries: Json | undefined): Found<Tree['interlocks']> {
  if (!isList(entries)) return NO_ENTRIES;
  const known = interlocksRead.get(entries);
  if (known !== undefined) return known;
  const each = entries.map((value, place) => part('interlock', value, ['interlocks', place]));
  const found = {
    value: each.flatMap(({ value }) => value ?? []),
    blanks: each.flatMap(({ blanks }) => blanks),
  };
  interlocksRead.set(entries, found);
  return found;
}

function assembled<V>(
  entries: Json | undefined,
  at: string,
  entry: (value: Json, at: readonly (string | number)[]) => Found<V | null>,
): Found<Record<string, V>> {
  if (!isRecord(entries)) return NOTHING;
  const known = recordsRead.get(entries);
  if (known !== undefined) return known as Found<Record<string, V>>;
  const value = Object.create(null) as Record<string, V>;
  const blanks: Problem[] = [];
  for (const [id, one] of Object.entries(entries)) {
    const found = entry(one, [at, id]);
    if (found.value !== null) value[id] = found.value;
    if (found.blanks.length > 0) blanks.push(...found.blanks);
  }
  const found: Found<Record<string, V>> = { value, blanks };
  recordsRead.set(entries, found as Found<Record<string, never>>);
  return found;
}
