import { state, type Element } from './element.ts';

/** One thing a gate waits for: this state active. `off` are the states of which one is active whenever it is not. */
export interface Condition {
  readonly on: string;
  readonly off: readonly string[];
}

/**
 * A region that is in `ID.open` exactly while all conditions hold, and in `ID.shut` otherwise. A condition of the null
 * data model is one `In()`, without `and` or `not`; so the gate goes through its conditions one by one, and goes back to
 * the start when one that it has passed no longer holds.
 */
export function gate(id: string, conditions: readonly Condition[]): Element {
  const stages = conditions.map(({ on }, stage) =>
    state(stageId(id, stage), {
      ways: [
        ...fallBacks(id, conditions.slice(0, stage)),
        { in: on, target: stage === conditions.length - 1 ? `${id}.open` : stageId(id, stage + 1) },
      ],
    }),
  );
  const open = state(`${id}.open`, { ways: fallBacks(id, conditions) });
  const straight = state(stageId(id, 0), { ways: [{ target: `${id}.open` }] });
  const shut = state(`${id}.shut`, { states: stages.length === 0 ? [straight] : stages });
  return state(id, { states: [shut, open] });
}

function fallBacks(id: string, passed: readonly Condition[]) {
  return passed.flatMap(({ off }) => off.map((active) => ({ in: active, target: stageId(id, 0) })));
}

function stageId(id: string, stage: number): string {
  return `${id}.shut.${String(stage)}`;
}
