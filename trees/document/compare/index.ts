export { alignLists } from './align.ts';
export { compareTrees, type Difference } from './compare-trees.ts';
export { fieldDifferences, type FieldDifference } from './fields.ts';
export { holdsThings, isOneStatement, isOrdered, type Place } from './place.ts';
export { sameMeaning, sameText } from './same.ts';
export { commonPairs, stayingOf, type Pair } from './sequence.ts';
export { titleOf } from './title.ts';
