export { clipSchema, readClip, type Clip } from './clip.ts';
export { copyOf, cutOf } from './copy.ts';
export { pasteOf, type Pasted } from './paste.ts';
