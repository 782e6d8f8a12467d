export { mendOf, type Mend } from './mend-of.ts';
