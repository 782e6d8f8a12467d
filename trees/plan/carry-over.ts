import type { z } from 'zod';
import {
  expectationOf,
  flows,
  own,
  treeSchema,
  type Flows,
  type Step,
  type Symptom,
  type Tree,
} from '../document/index.ts';
import { UNITS, type Path } from './path.ts';
import { tidyShares, tidyWeights } from './tidy.ts';

/**
 * The tree with another path for one symptom, and otherwise saying what it said: what followed from the former path alone
 * is written out. The symptom gets its `weights`, and so do others whose paths go on in its; a finding's `expects` names the
 * tests of which the flow of the paths would now say something else.
 */
export function withPath(tree: Tree, symptomId: string, { first, steps }: Path): Tree {
  const before = flows(tree);
  const symptom = tree.symptoms[symptomId];
  if (symptom === undefined) return tree;
  const changed = { ...tree.symptoms, [symptomId]: { ...symptom, first, steps } };
  const now = flows({ ...tree, symptoms: changed });
  const symptoms = Object.fromEntries(
    Object.entries(changed).map(([id, one]): [string, Symptom] => [id, weighted(one, id, before, now)]),
  );
  // Read like a file, so that records come without a prototype as everywhere.
  return treeSchema.parse({ ...tree, symptoms, findings: expecting(tree, before, now) });
}

/** A symptom with the weights that its former flow came to, where it has none and the flow is another now. */
function weighted(symptom: Symptom, id: string, before: Flows, now: Flows): Symptom {
  if (Object.keys(symptom.weights).length > 0) return symptom;
  const [was, is] = [before, now].map(({ arriving }) => arriving.get(id) ?? new Map<string, number>());
  const findings = new Set([...(was?.keys() ?? []), ...(is?.keys() ?? [])]);
  const isSame = [...findings].every((one) => Math.abs((was?.get(one) ?? 0) - (is?.get(one) ?? 0)) <= SAME);
  return isSame ? symptom : { ...symptom, weights: writtenWeights(was ?? new Map()) };
}

/** The units in a thousand that arrive at each finding. */
function writtenWeights(arriving: ReadonlyMap<string, number>): Symptom['weights'] {
  const weights = tidyWeights(
    [...arriving.values()].map((share) => UNITS * share),
    UNITS,
  );
  return Object.fromEntries([...arriving.keys()].map((finding, at) => [finding, weights[at] ?? 0]));
}

function expecting(tree: Tree, before: Flows, now: Flows): Tree['findings'] {
  return Object.fromEntries(
    Object.entries(tree.findings).map(([id, finding]) => {
      const missing = Object.entries(tree.tests).flatMap(([testId, test]) => {
        if (Object.hasOwn(finding.expects, testId)) return [];
        const was = expectationOf(testId, test, finding, before.passing.get(testId)?.get(id));
        const is = expectationOf(testId, test, finding, now.passing.get(testId)?.get(id));
        const isSame = was.shares.every((share, at) => Math.abs(share - (is.shares[at] ?? 0)) <= SAME);
        return isSame && was.known === is.known ? [] : [[testId, written(test.results, was.shares)] as const];
      });
      return [id, { ...finding, expects: { ...finding.expects, ...Object.fromEntries(missing) } }];
    }),
  );
}

const SAME = 1e-12;

/** A sure result by its id, else the shares of those that can be. */
function written(results: object, shares: readonly number[]): string | Record<string, number> {
  const ids = Object.keys(results);
  const sure = shares.indexOf(1);
  if (sure >= 0) return ids[sure] ?? '';
  const tidy = tidyShares(shares);
  return Object.fromEntries(
    tidy.flatMap((share, at) => (share > 0 ? [[ids[at] ?? '', share] as const] : [])),
  );
}

type TreeDocument = z.input<typeof treeSchema>;

/** A document with the path, weights and expectations of a tree made from it by {@link withPath}; all else stays as it was written. */
export function documentWith(document: TreeDocument, tree: Tree, symptomId: string): TreeDocument {
  const findings = Object.entries(document.findings).map(([id, finding]) => {
    const expects = tree.findings[id]?.expects ?? {};
    return [id, Object.keys(expects).length === 0 ? finding : { ...finding, expects }] as const;
  });
  const symptoms = Object.entries(document.symptoms).map(([id, symptom]) => {
    const { first, weights = {}, steps } = tree.symptoms[id] ?? {};
    const carried = Object.keys(weights).length === 0 ? symptom : { ...symptom, weights };
    if (id !== symptomId || first === undefined) return [id, carried] as const;
    return [id, { ...carried, first, steps: stepsAsWritten(document, symptomId, steps ?? {}) }] as const;
  });
  return structuredCopy({
    ...document,
    findings: Object.fromEntries(findings),
    symptoms: Object.fromEntries(symptoms),
  });
}

/** Steps that stay what they were stay as they were written, defaults left out. */
function stepsAsWritten(document: TreeDocument, symptomId: string, steps: Readonly<Record<string, Step>>) {
  const written = new Map(Object.entries(document.symptoms[symptomId]?.steps ?? {}));
  const read = treeSchema.parse(document).symptoms[symptomId]?.steps ?? {};
  return Object.fromEntries(
    Object.entries(steps).map(([id, step]) => {
      const isSame = JSON.stringify(own(read, id)) === JSON.stringify(step);
      return [id, isSame ? (written.get(id) ?? step) : step] as const;
    }),
  );
}

function structuredCopy(document: object): TreeDocument {
  return JSON.parse(JSON.stringify(document)) as TreeDocument;
}
