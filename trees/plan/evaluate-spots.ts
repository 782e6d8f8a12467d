import { answerTo, codeOf, isFresh, NO_ANSWER, NO_ANSWERS, withAnswer } from './evaluate-answers.ts';
import { forgetter } from './evaluate-forget.ts';
import type { Layout } from './evaluate-layout.ts';
import { inHand, type Walking } from './evaluate-leg.ts';
import { follow, setOut, type PassBranch, type Place, type Spot } from './evaluate-spot.ts';

/** Spots as the sweep meets them: equal keys go on equally, and a spot's rank is lower than that of all that follow it. */
export interface Spots {
  readonly first: Spot;
  /** The spot that a result of the test made now leads to; `pass` is told the branches that the course goes along by it. */
  readonly after: (spot: Spot, test: number, result: number, pass?: PassBranch) => Spot;
  readonly key: (spot: Spot) => string;
  readonly rank: (spot: Spot) => number;
}

/** Ranks leave room for this many answers, and as many fresh ones. */
const ANSWERS = 1e5;

export function spotsOf(walking: Walking): Spots {
  const { layout, ways, goal } = walking;
  const forget = forgetter(walking);
  const keepsOrder = goal === 'fix' && layout.findings.some(({ prove }) => prove.length === 0);
  const nothing = { answers: NO_ANSWERS, tried: '', passed: '', prove: [], unsound: [], isOver: false };
  return {
    first: { ...nothing, bench: ways.start, ...setOut(layout, nothing) },
    after(spot, test, result, pass) {
      const answers = withAnswer(spot.answers, test, codeOf(result, true));
      const unsound = keepsOrder ? unsoundAfter(spot.unsound, test, result) : spot.unsound;
      const at = { ...spot, answers, unsound };
      const there = { ...at, ...whereAfter(layout, at, answerTo(spot.answers, test) !== NO_ANSWER, pass) };
      return forget(goal === 'fix' && takesInHand(walking, there) ? inHand(layout, there) : there);
    },
    key: keyOf,
    rank: goal === 'isolate' ? onwardRank(layout) : triedRank,
  };
}

function unsoundAfter(unsound: readonly number[], test: number, result: number): readonly number[] {
  const others = unsound.filter((one) => one !== test);
  return result === 0 ? others : [...others, test];
}

/**
 * The course goes onward, and may have forgotten what led to where it is; but where an answer takes the place of one that
 * stood, it may change what the course so far went by. Neither moves a remedy in hand or being proved.
 */
function whereAfter(
  layout: Layout,
  spot: Spot,
  isAgain: boolean,
  pass?: PassBranch,
): Pick<Spot, 'place' | 'passed'> {
  const { place, passed } = spot;
  if (place.kind === 'remedy' || place.kind === 'proof' || place.kind === 'mended') return { place, passed };
  const onward =
    place.kind === 'step'
      ? follow(layout, spot, { kind: 'step', index: place.at }, passed, pass)
      : { place, passed };
  return isAgain ? setOut(layout, spot) : onward;
}

/** At a finding the remedy is taken in hand at once, unless safety comes first. */
function takesInHand({ ways }: Walking, spot: Spot): boolean {
  if (spot.place.kind !== 'finding') return false;
  const { changes, end } = ways.towards(spot, { kind: 'none' });
  return changes.length === 0 && end.kind === 'there';
}

const KINDS: readonly Place['kind'][] = ['step', 'finding', 'remedy', 'proof', 'adrift', 'mended'];

/** Fields of no fixed length come with their length or an end, so that no two spots have one key. */
function keyOf({ place, passed, bench, answers, tried, prove, unsound }: Spot): string {
  let key = String.fromCharCode(KINDS.indexOf(place.kind), place.at, bench, tried.length, passed.length);
  key += tried + passed;
  key += `${prove.join()}-${unsound.join()}|`;
  for (const [at, test] of answers.tests.entries())
    key += String.fromCharCode(test, answers.codes[at] ?? NO_ANSWER);
  return key;
}

/** The further onward the later; at one step the more answers the later. */
function onwardRank({ order }: Layout): Spots['rank'] {
  const turns = new Map(order.map((index, turn) => [index, turn]));
  return (spot) =>
    (spot.place.kind === 'step' ? (turns.get(spot.place.at) ?? 0) : order.length) * ANSWERS + answered(spot);
}

/**
 * Remedies that failed first, then whether the course is walked, a remedy in hand or its proof made; at each of these
 * every test made adds an answer or gives one anew since the last remedy.
 */
function triedRank(spot: Spot): number {
  const { place, tried } = spot;
  const phase = place.kind === 'remedy' ? 1 : place.kind === 'proof' ? 2 : 0;
  return (tried.length * 3 + phase) * ANSWERS + answered(spot);
}

function answered({ answers: { codes } }: Spot): number {
  let count = 0;
  for (const code of codes) count += isFresh(code) ? 2 : 1;
  return count;
}
