import { z } from 'zod';
import { draftSchema } from './drafts.ts';
import { base } from './failures.ts';
import { recordIdSchema } from './records.ts';

/**
 * A file's bytes on their way, in base64: somewhat more than the largest that is taken, so that a file which is too large can be
 * refused in plain words.
 */
const MOST_BASE64 = 11 * 1024 * 1024;

/** A file from outside, under the name it had there. Names are only shown. */
export const fileSchema = z.strictObject({
  name: z.string().max(1000),
  base64: z.string().max(MOST_BASE64),
});

export const keptPictureSchema = z.strictObject({
  /** The name under which the draft has it. */
  file: z.string(),
  checksum: z.string(),
  width: z.number(),
  height: z.number(),
});

export type KeptPicture = z.output<typeof keptPictureSchema>;

/** Trees as files, in and out. */
export const exchange = {
  /**
   * A zip of a tree and its pictures, or a bare tree document, becomes a draft: of the tree it names, standing on that one's
   * current revision, where the shop has it, else of a new tree.
   */
  importFile: base.input(fileSchema.extend({ technicianId: recordIdSchema })).output(draftSchema),
  /** A revision or draft with its pictures as one zip. Equal content gives equal bytes. */
  exportFile: base
    .input(
      z.union([z.strictObject({ revisionId: recordIdSchema }), z.strictObject({ draftId: recordIdSchema })]),
    )
    .output(z.strictObject({ name: z.string(), base64: z.string() })),
};

/**
 * Takes a picture into a draft, under a name made from its own that no other picture of the tree has had. A picture that the
 * draft has already keeps its name. Drawings are sanitised first.
 */
export const addPicture = base
  .input(
    z.strictObject({
      draftId: recordIdSchema,
      file: z.string().max(1000),
      base64: z.string().max(MOST_BASE64),
    }),
  )
  .output(keptPictureSchema);
