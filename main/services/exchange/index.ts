export { packTree, type PackedTree } from './pack-tree.ts';
export { readImport, type ImportedTree } from './read-import.ts';
export { quoted, readPicture, type ReadPicture } from './read-picture.ts';
export type { Refusal, Taken } from './refusal.ts';
export { sanitiseSvg, type CleanDrawing } from './svg/sanitise-svg.ts';
export { exchangeServices, pictureServices } from './exchange-services.ts';
