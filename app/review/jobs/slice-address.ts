import { reviewSliceSchema, type ReviewSlice } from '../../../main/contract/index.ts';

/** What each kind of slice says besides its kind, in the order of the address. */
const FIELDS = {
  all: [],
  'first-time-fixed': [],
  'not-first-time-fixed': [],
  month: ['month'],
  outcome: ['outcome'],
  tree: ['tree'],
  symptom: ['tree', 'symptom'],
  finding: ['tree', 'finding'],
  board: ['tree', 'board'],
  technician: ['technician'],
  back: ['within'],
  'finding-fixed': ['tree', 'finding'],
  'finding-back': ['tree', 'finding', 'within'],
  tried: ['tree', 'finding'],
  'tried-in-vain': ['tree', 'finding'],
  'tried-instead': ['tree', 'finding', 'was'],
  found: ['tree', 'symptom'],
  proven: ['tree', 'symptom'],
  judged: ['technician', 'tree', 'symptom'],
  branch: ['tree', 'symptom', 'step', 'result'],
  shown: ['from', 'to'],
  advised: ['taken'],
} as const satisfies Readonly<Record<ReviewSlice['kind'], readonly string[]>>;

/** A slice as an address has it: `finding:TREE:FINDING`. */
export function wordOfSlice(slice: ReviewSlice): string {
  const values = FIELDS[slice.kind].map((field) => encodeURIComponent(String(Reflect.get(slice, field))));
  return [slice.kind, ...values, ...('judged' in slice && slice.judged === true ? [JUDGED] : [])].join(':');
}

/** Stands behind a group of which only those are meant whose comeback window has passed. */
const JUDGED = 'judged';

/** Reads a slice off an address; null where it is none. */
export function sliceIn(word: string): ReviewSlice | null {
  const [kind = '', ...values] = word.split(':');
  const fields = isKind(kind) ? FIELDS[kind] : null;
  const more = values.slice(fields?.length);
  if (fields === null || values.length < fields.length || more.length > 1) return null;
  if (more[0] !== undefined && more[0] !== JUDGED) return null;
  const said = fields.map((field, index) => [field, valueOf(field, values[index] ?? '')] as const);
  const judged = more.length === 0 ? {} : { judged: true };
  const slice = reviewSliceSchema.safeParse({ kind, ...Object.fromEntries(said), ...judged });
  return slice.success ? slice.data : null;
}

function isKind(kind: string): kind is ReviewSlice['kind'] {
  return Object.hasOwn(FIELDS, kind);
}

/** What cannot be read stays what it is, and is refused. */
function valueOf(field: string, text: string): unknown {
  if (['within', 'from', 'to'].includes(field)) return text === '' ? text : Number(text);
  if (field === 'taken') return text === 'true' ? true : text === 'false' ? false : text;
  try {
    return decodeURIComponent(text);
  } catch {
    return text;
  }
}
