import { quote, type Tree } from '../../document/index.ts';
import { liveTree } from '../live-tree.ts';
import type { MendAt } from './mend-of.ts';

/**
 * Adds the branches that a step lacks, each to the one finding of which `expects` says that it gives the result for certain. Null
 * where for any of them there is none, or more than one.
 */
export const mendBranches: MendAt = (document, path) => {
  const [, symptom = '', , id = ''] = path;
  const { tree } = liveTree(document);
  const step = tree.symptoms[String(symptom)]?.steps[String(id)];
  const test = step === undefined ? undefined : tree.tests[step.test];
  if (step === undefined || test === undefined) return null;
  const missing = Object.keys(test.results).filter((result) => !Object.hasOwn(step.then, result));
  const branches = missing.flatMap((result) => {
    const [finding, ...others] = findingsGiving(tree, step.test, result);
    return finding === undefined || others.length > 0 ? [] : [{ result, finding }];
  });
  if (branches.length < missing.length || missing.length === 0) return null;
  const leads = branches.map(({ result, finding }) => {
    const title = tree.findings[finding]?.title ?? finding;
    return `${quote(test.results[result]?.title ?? result)} to ${quote(title)}`;
  });
  return {
    what: `Lead ${leads.join(', ')}, as the findings’ “What it makes tests give” has it`,
    changes: branches.map(({ result, finding }) => ({
      do: 'set',
      path: [...path, result],
      value: { go: `finding:${finding}` },
    })),
  };
};

function findingsGiving({ findings }: Tree, test: string, result: string): readonly string[] {
  return Object.entries(findings)
    .filter(([, { expects }]) => Object.hasOwn(expects, test) && expects[test] === result)
    .map(([id]) => id);
}
