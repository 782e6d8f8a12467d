import { compileFaultModel, NO_HISTORY, type FaultModel } from '../../../trees/belief/index.ts';
import { UNLISTED, type Tree } from '../../../trees/document/index.ts';
import type { Random } from './random.ts';
import { isFirstSymptom, STORY, truthAgainstAuthor } from './story.ts';

/** What an invented unit really has: a finding, or nothing; and how it answers a test because of that. */
export interface UnitUnderTest {
  readonly symptom: string;
  /** Null where the unit is sound. */
  readonly finding: string | null;
  /** The result a test gives, drawn from P(r|f,t) while the finding is there, and from a sound unit's once it is mended. */
  readonly answer: (test: string) => string;
  /**
   * The finding's remedy was done, with this much care (1: as well as can be); mends the unit or not, by the fix rate times
   * that. A remedy for another finding does nothing.
   */
  readonly remedy: (finding: string, care: number) => void;
}

/** Draws units with the troubles that the tree's author expects, but for what the story says. */
export function unitDrawer(tree: Tree, random: Random) {
  const model = compileFaultModel(tree, NO_HISTORY);
  const symptoms = Object.keys(tree.symptoms);
  const ranks = new Map(symptoms.map((symptom) => [symptom, ranksOf(model, symptom)]));
  const findingFor = (symptom: string, passed: number): string => {
    const isFirst = isFirstSymptom(tree, symptom);
    const expected = model.prior(symptom).probability;
    if (!isFirst) return random.choose(model.findings, expected);
    const rank = ranks.get(symptom) ?? [];
    const truth = expected.map((share, row) => share * truthAgainstAuthor(rank[row] ?? -1, isFirst, passed));
    return random.choose(model.findings, truth);
  };
  return {
    /** A unit as it comes in, for the first time or, with the finding it had, again; `passed` is how far (0 to 1) the history has come. */
    draw(passed: number, again?: Pick<UnitUnderTest, 'symptom' | 'finding'>): UnitUnderTest {
      const symptom = again?.symptom ?? random.choose(symptoms);
      const sound = again === undefined && random.happens(STORY.sound);
      const same = again !== undefined && again.finding !== null && random.happens(STORY.sameAgain);
      const finding = sound ? null : same ? again.finding : findingFor(symptom, passed);
      return unitWith(model, symptom, finding, random);
    },
  };
}

/** The place of each finding among the symptom's, the author's likeliest being 0; -1 for what is not in the tree. */
function ranksOf(model: FaultModel, symptom: string): readonly number[] {
  const { probability } = model.prior(symptom);
  const listed = [...probability.keys()].filter((row) => model.findings[row] !== UNLISTED);
  const order = listed.sort((a, b) => (probability[b] ?? 0) - (probability[a] ?? 0));
  return model.findings.map((_, row) => order.indexOf(row));
}

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
    remedy(tried, care) {
      const rate = tried === UNLISTED ? model.tree.defaults.fixRate : model.fixRate(tried);
      if (tried === present && random.happens(rate * care)) present = null;
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
