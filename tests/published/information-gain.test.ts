import { expect, test } from 'vitest';
import { beliefOf, NO_EVIDENCE } from '../../trees/belief/index.ts';
import { informationGain } from '../../trees/plan/index.ts';
import { frequencies } from './frequencies.ts';
import { modelOf, SYMPTOM } from './model-of.ts';
import values from './values/information-gain.json' with { type: 'json' };
import table from './values/naive-bayes.json' with { type: 'json' };

const [{ columns, rows } = { columns: [], rows: [] }] = table.checks;
const BRANCHES = [
  { branch: 'root', rows, ...values.root },
  { branch: 'sunny', rows: rows.filter(([outlook]) => outlook === 'sunny'), ...values.sunny },
];

test.each(BRANCHES)(`gains in the branch $branch: ${values.source} (${values.basis})`, (branch) => {
  const problem = frequencies(branch.rows, columns);
  const model = modelOf(problem);
  const belief = beliefOf(model, SYMPTOM, NO_EVIDENCE);
  for (const [attribute, gain] of Object.entries(branch.gains)) {
    expect(Math.abs(informationGain(model, belief, attribute) - gain)).toBeLessThan(values.tolerance.printed);
  }
  for (const [attribute, gain] of Object.entries(branch.recomputed)) {
    const actual = informationGain(model, belief, attribute);
    expect(Math.abs(actual - gain)).toBeLessThanOrEqual(values.tolerance.recomputed);
  }
});

test.each(BRANCHES)(
  `a test that gives the class itself gains the entropy of the branch $branch: ${values.source} (${values.basis})`,
  (branch) => {
    const { weights } = frequencies(branch.rows, columns);
    const classes = Object.keys(weights);
    const expects = Object.fromEntries(classes.map((label) => [label, { itself: label }]));
    const model = modelOf({ weights, tests: { itself: classes }, expects });
    const gain = informationGain(model, beliefOf(model, SYMPTOM, NO_EVIDENCE), 'itself');
    expect(Math.abs(gain - branch.entropy)).toBeLessThan(values.tolerance.printed);
  },
);
