import { referenceOf, type Test, type Tree } from '../../document/index.ts';
import { standsIn } from './bench.ts';
import { state, type Element, type Way } from './element.ts';
import { gate, type Condition } from './gate.ts';
import { stepsOf, type Reach } from './reach.ts';

/** Active exactly while the job takes up new acts; the other states of the course. */
export const WORKING: Condition = { on: 'working', off: ['routing', 'contradiction', 'mended'] };

/** Regions of one test: its answer, its skip, and whether the bench stands for it and an answer is taken. */
export function testRegions(tree: Tree, reach: Reach, id: string, test: Test): readonly Element[] {
  const needs = Object.entries(test.needs).map(([axis, wanted]) => standsIn(tree, axis, wanted));
  const reference = referenceOf(test);
  const given = (of: string) => ({ on: `answer.${of}.given`, off: [`answer.${of}.none`] });
  return [
    answerRegion(tree, id, test),
    skipRegion(reach, id, test),
    gate(`ready.${id}`, needs),
    gate(
      `taking.${id}`,
      [
        WORKING,
        { on: 'safe.open', off: ['safe.shut'] },
        { on: `ready.${id}.open`, off: [`ready.${id}.shut`] },
        ...(reference === undefined ? [] : [given(reference)]),
      ].filter(({ on }) => on !== `ready.${id}.open` || needs.length > 0),
    ),
    gate(`passable.${id}`, [
      { on: `aside.${id}`, off: [...WORKING.off, 'diagnosis', 'remedy', 'proof', ...otherAsides(tree, id)] },
      { on: `answer.${id}.none`, off: [`answer.${id}.given`] },
    ]),
  ];
}

/** `now` holds an answer of this era, `old` one from before the last remedy. */
function answerRegion(tree: Tree, id: string, { results }: Test): Element {
  const names = Object.keys(results);
  const at = (era: 'now' | 'old', result: string) => `answer.${id}.${era}.${result}`;
  const taken = names.map((result): Way => ({
    event: `answer.${id}.${result}`,
    in: `taking.${id}.open`,
    target: at('now', result),
  }));
  const corrections = (era: 'now' | 'old') =>
    names.map((result): Way => ({
      event: `correct.${id}.${result}`,
      target: at(era, result),
      raise: `rewritten.${id}`,
    }));
  const disturbed = disturbing(tree, id).map((finding): Way => ({
    event: `era.${finding}`,
    target: `answer.${id}.none`,
  }));
  const now = names.map((result) =>
    state(at('now', result), {
      ways: [
        ...names
          .filter((other) => other !== result)
          .map((other): Way => ({
            event: `answer.${id}.${other}`,
            in: `taking.${id}.open`,
            raise: `contradict.${id}.${other}`,
          })),
        ...disturbed,
        { event: 'era', target: at('old', result) },
      ],
    }),
  );
  const old = names.map((result) => state(at('old', result)));
  return state(`answer.${id}`, {
    states: [
      state(`answer.${id}.none`, { ways: taken }),
      state(`answer.${id}.given`, {
        states: [
          state(`answer.${id}.now`, {
            ways: [...corrections('now'), ...settlings(id, names)],
            states: now,
          }),
          state(`answer.${id}.old`, { ways: [...taken, ...corrections('old'), ...disturbed], states: old }),
        ],
      }),
    ],
  });
}

function settlings(id: string, results: readonly string[]): readonly Way[] {
  return [
    ...results.map((result): Way => ({
      event: `settle.${id}.${result}`,
      in: `contradiction.${id}.${result}`,
      target: `answer.${id}.now.${result}`,
      raise: `rewritten.${id}`,
    })),
    {
      event: `settle-neither.${id}`,
      in: `contradiction.${id}`,
      target: `answer.${id}.none`,
      raise: `rewritten.${id}`,
    },
  ];
}

/** A skip is taken at any step that asks the test, and aside where the test has no answer. An answer ends it. */
function skipRegion(reach: Reach, id: string, { results }: Test): Element {
  const places = [...stepsOf(reach, id), `passable.${id}.open`];
  const ways = Object.keys(results).flatMap((result) =>
    places.map((place): Way => ({
      event: `skip.${id}.${result}`,
      in: place,
      target: `skip.${id}.as.${result}`,
    })),
  );
  const answered: Way = { event: `answer.${id}`, in: `taking.${id}.open`, target: `skip.${id}.none` };
  return state(`skip.${id}`, {
    states: [
      state(`skip.${id}.none`, { ways }),
      state(`skip.${id}.as`, {
        ways: [answered, ...ways],
        states: Object.keys(results).map((result) => state(`skip.${id}.as.${result}`)),
      }),
    ],
  });
}

function disturbing(tree: Tree, test: string): readonly string[] {
  return Object.entries(tree.findings).flatMap(([finding, { remedy }]) =>
    remedy.disturbs.includes(test) ? [finding] : [],
  );
}

function otherAsides(tree: Tree, id: string): readonly string[] {
  return Object.keys(tree.tests).flatMap((test) => (test === id ? [] : [`aside.${test}`]));
}
