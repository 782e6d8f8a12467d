import type { Part } from '../desk/places.ts';

/** The same for two parts that have one form between them: a step and its branches, a test and its results. */
export function keyOfPart(part: Part): string {
  switch (part.kind) {
    case 'tree':
      return 'tree';
    case 'test':
      return `test ${part.test}`;
    case 'finding':
      return `finding ${part.finding}`;
    case 'symptom':
      return `symptom ${part.symptom}`;
    case 'step':
      return `step ${part.symptom}/${part.step}`;
    case 'axis':
      return `axis ${part.axis}`;
    case 'interlock':
      return `interlock ${String(part.index)}`;
  }
}
