/** A set of numbers below a bound, a bit each. */
export type Marks = Uint32Array;

/** An empty set of numbers below `bound`. */
export function noMarks(bound: number): Marks {
  return new Uint32Array(Math.ceil(bound / 32));
}

/** Whether a number is in the set. */
export function isMarked(marks: Marks, at: number): boolean {
  return (((marks[at >> 5] ?? 0) >>> (at & 31)) & 1) === 1;
}

/** Whether it was not marked before. */
export function mark(marks: Marks, at: number): boolean {
  const word = marks[at >> 5] ?? 0;
  marks[at >> 5] = word | (1 << (at & 31));
  return marks[at >> 5] !== word;
}

/** Whether any was not marked before. */
export function markAll(marks: Marks, others: Marks): boolean {
  let isNew = false;
  for (let at = 0; at < others.length; at += 1) {
    const word = marks[at] ?? 0;
    marks[at] = word | (others[at] ?? 0);
    isNew = isNew || marks[at] !== word;
  }
  return isNew;
}
