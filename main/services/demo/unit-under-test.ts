import { compileFaultModel, NO_HISTORY, type FaultModel } from '../../../trees/belief/index.ts';
import { UNLISTED, type Tree } from '../../../trees/document/index.ts';
import type { Random } from './random.ts';

/** What an invented unit really has: a finding, or nothing; and how it answers a test because of that. */
export interface UnitUnderTest {
  readonly symptom: string;
  /** Null where the unit is sound. */
  readonly finding: string | null;
  /** The result a test gives, drawn from P(r|f,t) while the finding is there, and from a sound unit's once it is mended. */
  readonly answer: (test: string) => string;
  /** The finding's remedy was done; mends the unit or not, by the fix rate. A remedy for another finding does nothing. */
  readonly remedy: (finding: string) => void;
}

/** Draws units with the troubles that the tree's author expects. */
export function unitDrawer(tree: Tree, random: Random) {
  const model = compileFaultModel(tree, NO_HISTORY);
  const symptoms = Object.keys(tree.symptoms);
  const findingFor = (symptom: string) => random.choose(model.findings, model.prior(symptom).probability);
  return {
    /** A unit as it comes in, for the first time or, with the finding it had, again. */
    draw(again?: { readonly symptom: string; readonly finding: string | null }): UnitUnderTest {
      const symptom = again?.symptom ?? random.choose(symptoms);
      const sound = again === undefined && random.happens(SOUND);
      const same = again !== undefined && again.finding !== null && random.happens(SAME_AGAIN);
      return unitWith(model, symptom, sound ? null : same ? again.finding : findingFor(symptom), random);
    },
  };
}

/** Share of units in which nothing is wrong, and of comebacks that have the same finding again. Invented. */
const SOUND = 0.03;
const SAME_AGAIN = 0.6;

function unitWith(model: FaultModel, symptom: string, finding: string | null, random: Random): UnitUnderTest {
  let present = finding;
  return {
    symptom,
    finding,
    answer(test) {
      const { results, probability } = model.test(test);
      if (present === null) return soundAnswer(model.tree, test, results, random);
      const row = model.row(present) * results.length;
      return random.choose(results, probability.subarray(row, row + results.length));
    },
    remedy(tried) {
      const rate = tried === UNLISTED ? model.tree.defaults.fixRate : model.fixRate(tried);
      if (tried === present && random.happens(rate)) present = null;
    },
  };
}

/** The first result is the one that a sound unit gives, as reliably as the test is. */
function soundAnswer(tree: Tree, test: string, results: readonly string[], random: Random): string {
  const [first = ''] = results;
  return random.happens(tree.tests[test]?.reliability ?? tree.defaults.reliability)
    ? first
    : random.choose(results);
}
