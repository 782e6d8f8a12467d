export { destination, type Destination } from './destination.ts';
export { idSchema, INSTRUMENTS, READING_UNITS, treeSchema, UNLISTED } from './schema.ts';
export type { Problem } from './problem.ts';
export type * from './tree.ts';
