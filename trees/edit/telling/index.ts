export { fieldLabel } from './field-label.ts';
export { labelOf } from './labels.ts';
export { tellConflict, type ToldConflict, type Versions } from './tell-conflict.ts';
export { tellDifferences, type Told } from './tell-differences.ts';
