import { firstProblems, type Problem } from '../../../trees/document/index.ts';
import type { Change, DraftDocument } from '../../../trees/edit/index.ts';
import { orderProblems } from '../desk/order-problems.ts';
import { changed, type Checked } from './mirror.ts';
import type { Costed, FromReckoner, IsolateCost, Which } from './protocol.ts';
import type { CosterOf, Sortings } from './sorted-costers.ts';

/** One of the trees set side by side, with all that is remembered of it. */
export interface Side {
  readonly check: (document: DraftDocument) => Checked;
  readonly costerOf: CosterOf;
}

/** What there is to reckon with. */
export interface Reckoned {
  readonly version: number;
  readonly document: DraftDocument;
  readonly back: readonly Change[] | null;
  readonly published: DraftDocument | null;
  readonly symptom: string | null;
  /** Histories sorted as trees have it; null where all go by one. */
  readonly sortings: Sortings | null;
  readonly sides: Readonly<Record<Which, Side>>;
}

/** States of an evaluation to fix that are looked into at a time: some milliseconds' worth. */
const STATES_AT_ONCE = 100;

/**
 * All that is to be said of a version, what is wanted soonest first. Gives null where nothing is to be said yet, so that it can be
 * left off there. `now` gives milliseconds.
 */
export function* reckon(asked: Reckoned, now: () => number): Generator<FromReckoner | null, void> {
  const { version, document, back, published, symptom, sides } = asked;
  const from = now();
  const here = sides.now.check(document);
  yield { kind: 'checks', version, problems: shown(here.problems), milliseconds: now() - from };
  if (symptom !== null) yield costOf(version, 'now', sides.now, here, symptom, now);
  yield* totalsOf(version, sides.now, here);
  if (symptom === null) return;
  const others: [Which, Checked][] = [];
  if (back !== null) others.push(['before', sides.before.check(changed(document, back))]);
  if (published !== null) others.push(['published', sides.published.check(published)]);
  for (const [which, checked] of others) yield costOf(version, which, sides[which], checked, symptom, now);
  // After the costs, which are waited for: it is long, and the window shows nothing else while it takes it in.
  yield* trafficOf(version, sides.now, here, symptom);
  for (const [which, checked] of [['now', here] as [Which, Checked], ...others])
    yield* fixOf(version, which, sides[which], checked, symptom);
}

/** In the order they are listed in; the rest of very many is only counted. */
function shown(problems: readonly Problem[]): readonly Problem[] {
  const ordered = orderProblems(problems);
  const errors = ordered.filter(({ severity }) => severity === 'error');
  const warnings = ordered.filter(({ severity }) => severity === 'warning');
  return [...firstProblems(errors), ...firstProblems(warnings)].map(
    ({ severity, rule, at, message, help, standsFor }) => ({
      severity,
      rule,
      at,
      message,
      help,
      ...(standsFor !== undefined && { standsFor }),
    }),
  );
}

const ERRORS = { ok: false, because: 'errors' } as const;

function costOf(
  version: number,
  which: Which,
  { costerOf }: Side,
  { tree, isSound }: Checked,
  symptom: string,
  now: () => number,
): FromReckoner {
  const from = now();
  const coster = isSound ? costerOf(tree) : null;
  if (isSound && coster === null) return { kind: 'unsorted', version, which };
  const costed = coster === null ? ERRORS : coster.isolate(tree, symptom).costed;
  return { kind: 'cost', version, which, symptom, costed, milliseconds: now() - from };
}

function* trafficOf(
  version: number,
  { costerOf }: Side,
  { tree, isSound }: Checked,
  symptom: string,
): Generator<FromReckoner, void> {
  const coster = isSound ? costerOf(tree) : null;
  if (coster === null) return;
  const { costed, traffic } = coster.isolate(tree, symptom);
  if (costed.ok) yield { kind: 'traffic', version, traffic: { symptom, steps: traffic } };
}

function* totalsOf(
  version: number,
  { costerOf }: Side,
  { tree, isSound }: Checked,
): Generator<FromReckoner | null, void> {
  const coster = isSound ? costerOf(tree) : null;
  if (coster === null) return;
  const totals: [string, Costed<IsolateCost>][] = [];
  for (const symptom of Object.keys(tree.symptoms)) {
    totals.push([symptom, coster.isolate(tree, symptom).costed]);
    yield null;
  }
  yield { kind: 'totals', version, totals };
}

function* fixOf(
  version: number,
  which: Which,
  { costerOf }: Side,
  { tree, isSound }: Checked,
  symptom: string,
): Generator<FromReckoner | null, void> {
  const coster = isSound ? costerOf(tree) : null;
  if (coster === null) return;
  const goOn = coster.fix(tree, symptom);
  let costed = goOn(STATES_AT_ONCE);
  for (; costed === null; costed = goOn(STATES_AT_ONCE)) yield null;
  yield { kind: 'fix', version, which, symptom, costed };
}
