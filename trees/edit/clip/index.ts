export { clipSchema, type Clip } from './clip.ts';
export { copyOf } from './copy.ts';
export { pasteOf, type Pasted } from './paste.ts';
