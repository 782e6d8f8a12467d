import { isRecord, type Json, type JsonObject } from '../json.ts';
import { pasteNeeds } from './paste-bench.ts';
import { pasteTest } from './paste-tests.ts';
import { leadsHere } from './paste-ways.ts';
import { idFor, type Pasting } from './pasting.ts';
import { nameOf, recordIn, textsIn } from './parts-of.ts';

/** {@link pasteTest} for a finding. What it says of tests that are not here is left out, but its proofs come along. */
export function pasteFinding(pasting: Pasting, id: string): string | undefined {
  const known = pasting.findings.get(id);
  if (known !== undefined) return known;
  const here = recordIn(pasting.document, 'findings');
  const source = pasting.clip.findings[id];
  if (source === undefined) return Object.hasOwn(here, id) ? id : undefined;
  const finding = rewritten(pasting, source);
  const found = idFor(id, finding, 'findings', (name) => {
    const other = pasting.added.findings.get(name) ?? (Object.hasOwn(here, name) ? here[name] : undefined);
    return isRecord(other) ? other : undefined;
  });
  pasting.findings.set(id, found.id);
  if (found.isNew) pasting.added.findings.set(found.id, finding);
  tell(pasting, id, source, found);
  return found.id;
}

function rewritten(pasting: Pasting, source: JsonObject): JsonObject {
  const remedy = recordIn(source, 'remedy');
  const disturbs = named(pasting, textsIn(remedy, 'disturbs'));
  const { otherwise } = source;
  const leads = typeof otherwise !== 'string' || leadsHere(pasting, otherwise);
  if (!leads) pasting.dropped += 1;
  const written = {
    ...source,
    remedy: {
      ...remedy,
      ...(Object.hasOwn(remedy, 'needs') ? { needs: pasteNeeds(pasting, remedy) } : {}),
      ...(Object.hasOwn(remedy, 'disturbs') ? { disturbs } : {}),
    },
    ...(Object.hasOwn(source, 'prove')
      ? { prove: textsIn(source, 'prove').flatMap((test) => pasteTest(pasting, test) ?? []) }
      : {}),
    ...(Object.hasOwn(source, 'expects') ? { expects: expected(pasting, recordIn(source, 'expects')) } : {}),
  };
  return leads ? written : Object.fromEntries(Object.entries(written).filter(([key]) => key !== 'otherwise'));
}

/** The tests that are here, by their ids here; those that are not are counted as dropped. */
function named(pasting: Pasting, tests: readonly string[]): readonly string[] {
  const ids = tests.flatMap((test) => testHere(pasting, test) ?? []);
  pasting.dropped += tests.length - ids.length;
  return ids;
}

function testHere({ document, tests }: Pasting, test: string): string | undefined {
  return tests.get(test) ?? (Object.hasOwn(recordIn(document, 'tests'), test) ? test : undefined);
}

function expected(pasting: Pasting, expects: JsonObject): JsonObject {
  const kept = Object.entries(expects).flatMap(([test, share]): readonly (readonly [string, Json])[] => {
    const id = testHere(pasting, test);
    const results = id === undefined ? {} : resultsHere(pasting, id);
    const names = isRecord(share) ? Object.keys(share) : [String(share)];
    return id === undefined || !names.every((name) => Object.hasOwn(results, name)) ? [] : [[id, share]];
  });
  pasting.dropped += Object.keys(expects).length - kept.length;
  return Object.fromEntries(kept);
}

function resultsHere({ document, added }: Pasting, test: string): JsonObject {
  return recordIn(added.tests.get(test) ?? recordIn(recordIn(document, 'tests'), test), 'results');
}

function tell(
  { clip, notes }: Pasting,
  id: string,
  finding: JsonObject,
  found: { id: string; isNew: boolean },
): void {
  const name = nameOf(finding, id);
  const asked = clip.asked.findings.includes(id);
  if (!found.isNew) {
    if (asked) notes.push(`The finding ${name} is here already and is used as it is.`);
    return;
  }
  if (!asked) notes.push(`The finding ${name} comes along.`);
  if (found.id !== id)
    notes.push(`Another finding has the id ${id} here: the copy of ${name} is ${found.id}.`);
}
