import { aheadOf } from './evaluate-ahead.ts';
import type { Layout } from './evaluate-layout.ts';
import { hasTried, isFresh, NO_ANSWER, type Spot } from './evaluate-spot.ts';
import type { Goal } from './question.ts';

/**
 * By spot: for each test, 1 where the course may yet go by its answer. To isolate that is where a step ahead asks it. To
 * fix, also where the course may come past it anew: after a remedy that is ahead and does not disturb it, or where an
 * interlock's test will be made again and may change the way here.
 */
export function askedLater(layout: Layout, goal: Goal): (spot: Spot) => Uint8Array {
  const { step, all } = aheadOf(layout);
  const none = new Uint8Array(layout.tests.length);
  if (goal === 'isolate')
    return ({ place }) => (place.kind === 'step' ? (step(place.at)?.tests ?? none) : none);
  const besides = layout.findings.map(({ disturbs }) =>
    all.tests.map((asked, test) => (disturbs.includes(test) ? 0 : asked)),
  );
  const known = new Map<string, Uint8Array>();
  return (spot) => {
    const { kind, at } = spot.place;
    if (kind === 'remedy') return besides[at] ?? none;
    const ahead = kind === 'step' ? step(at) : undefined;
    if (ahead === undefined || mayTurnBack(layout, all.tests, spot)) return all.tests;
    const name = String.fromCharCode(at) + spot.tried;
    const asked = known.get(name) ?? ahead.tests.slice();
    if (known.has(name)) return asked;
    for (const [finding, spared] of besides.entries()) {
      if (ahead.findings[finding] === 1 && !hasTried(spot, finding))
        spared.forEach((mark, test) => (asked[test] = (asked[test] ?? 0) | mark));
    }
    known.set(name, asked);
    return asked;
  };
}

/** Whether an interlock's test that the way here may have gone by has not been made since the last remedy. */
function mayTurnBack({ tests }: Layout, asked: Uint8Array, { answers }: Spot): boolean {
  return tests.some(({ opens }, test) => {
    const code = answers[test] ?? NO_ANSWER;
    return opens && code !== NO_ANSWER && !isFresh(code) && asked[test] === 1;
  });
}
