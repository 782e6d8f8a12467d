import { quote } from '../../document/index.ts';
import { keysAt } from '../acts/keys-at.ts';
import { at } from '../acts/put.ts';
import type { Path } from '../change.ts';
import { isRecord, type DraftDocument, type Json } from '../json.ts';
import { testName } from '../telling/names.ts';
import type { Mend, MendAt } from './mend-of.ts';
import { scaled } from './shares.ts';

/** Takes an entry that names nothing out of its list. */
export const dropEntry: MendAt = (document, path) => dropped(path, quote(String(at(document, path))));

/** Takes the second of two equal entries out of their list. */
export const dropRepeat: MendAt = (document, path) => {
  const entry = String(at(document, path));
  // Boards are written out; all else that is listed once is a test.
  return dropped(path, `the second ${path[0] === 'unit' ? quote(entry) : testName(document, entry)}`);
};

/** Takes out what a finding expects of a test or result that is gone; what is left of shares is scaled to sum to 1. */
export const dropExpectation: MendAt = (document, path) => {
  const [, , , test = '', result] = path;
  const whole = path.slice(0, 4);
  if (result === undefined) return dropped(whole, `what is expected of ${quote(String(test))}`);
  const rest = scaled(without(at(document, whole), String(result)));
  const what = `the share of ${quote(String(result))}, which is gone`;
  if (rest === null) return dropped(whole, what);
  return { what: `Take out ${what}`, changes: [{ do: 'set', path: whole, value: rest }] };
};

/** Takes out the weight of a finding that is gone; null where none would be left that counts. */
export const dropWeight: MendAt = (document, path) => {
  const whole = path.slice(0, -1);
  const rest = without(at(document, whole), String(path.at(-1)));
  const what = `the weight of ${quote(String(path.at(-1)))}, which is gone`;
  if (Object.keys(rest).length > 0)
    return Object.values(rest).some((weight) => Number(weight) > 0) ? dropped(path, what) : null;
  return at(document, [...path.slice(0, -2), 'first']) === undefined ? null : dropped(whole, what);
};

/** Takes out the branch of a result that is gone; null where none would be left that counts. */
export const dropBranch: MendAt = (document, path) => {
  const rest = Object.values(without(at(document, path.slice(0, -1)), String(path.at(-1))));
  if (rest.length > 0 && !rest.some((branch) => weightOf(branch) > 0)) return null;
  return dropped(path, `the branch of ${quote(String(path.at(-1)))}, which is gone`);
};

/** Takes out a first step where there are no steps, the weights say what occurs, and no other path goes on in this one. */
export const dropFirst: MendAt = (document, path) => {
  const weights = at(document, [...path.slice(0, -1), 'weights']);
  if (!isRecord(weights) || Object.keys(weights).length === 0) return null;
  if (placesLedTo(document).has(`symptom:${String(path[1])}`)) return null;
  return dropped(path, 'the first step, and leave the order to the planner');
};

/** Everywhere that a branch or an `otherwise` leads, as written. */
function placesLedTo(document: DraftDocument): ReadonlySet<Json | undefined> {
  const branches = keysAt(document, ['symptoms']).flatMap((symptom) =>
    keysAt(document, ['symptoms', symptom, 'steps']).flatMap((step) => {
      const then = ['symptoms', symptom, 'steps', step, 'then'];
      return keysAt(document, then).map((result) => at(document, [...then, result, 'go']));
    }),
  );
  const onward = keysAt(document, ['findings']).map((finding) =>
    at(document, ['findings', finding, 'otherwise']),
  );
  return new Set([...branches, ...onward]);
}

function dropped(path: Path, what: string): Mend {
  return { what: `Take out ${what}`, changes: [{ do: 'remove', path }] };
}

function without(record: Json | undefined, key: string): DraftDocument {
  return isRecord(record) ? Object.fromEntries(Object.entries(record).filter(([one]) => one !== key)) : {};
}

function weightOf(branch: Json): number {
  return isRecord(branch) && branch.weight !== undefined ? Number(branch.weight) : 1;
}
