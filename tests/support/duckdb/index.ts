export { loadFacts } from './load.ts';
export { differences, reviewFigures } from './review-figures.ts';
export { sqlFigures, type NamedFigures } from './sql-figures.ts';
