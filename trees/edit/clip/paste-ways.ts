import { destination } from '../../document/index.ts';
import { isRecord, type Json, type JsonObject } from '../json.ts';
import type { Pasting } from './pasting.ts';
import { recordIn } from './parts-of.ts';

/**
 * A `go` written in `source`'s path of the clip, as it is to be written in the path of `symptom` here: to what has been
 * copied with it, else to where it leads in this document; undefined where that is nowhere.
 */
export function wayHere(pasting: Pasting, go: string, source: string, symptom: string): string | undefined {
  const place = destination(go, source);
  if (place.kind === 'finding') {
    const id = pasting.findings.get(place.finding) ?? place.finding;
    return pasting.added.findings.has(id) || hasFinding(pasting, id) ? `finding:${id}` : undefined;
  }
  if (place.kind === 'symptom') {
    const copied = pasting.symptoms.get(place.symptom);
    if (copied !== undefined)
      return firstOf(pasting.clip.symptoms[place.symptom]) ? `symptom:${copied}` : undefined;
    return firstOf(symptomHere(pasting, place.symptom)) ? go : undefined;
  }
  const step = pasting.steps.get(`${place.symptom}/${place.step}`);
  if (step !== undefined && pasting.path !== null)
    return pasting.path === symptom ? step : `symptom:${pasting.path}/${step}`;
  const copied = pasting.symptoms.get(place.symptom);
  const id = copied ?? place.symptom;
  const path = copied === undefined ? symptomHere(pasting, id) : pasting.clip.symptoms[place.symptom];
  if (!Object.hasOwn(recordIn(path, 'steps'), place.step)) return undefined;
  return id === symptom ? place.step : `symptom:${id}/${place.step}`;
}

/** Whether a finding's `otherwise` leads somewhere in the document as it is: a bare step is one of any path. */
export function leadsHere(pasting: Pasting, otherwise: string): boolean {
  const place = destination(otherwise, '');
  if (place.kind === 'finding') return hasFinding(pasting, place.finding);
  if (place.kind === 'symptom') return firstOf(symptomHere(pasting, place.symptom));
  const paths =
    place.symptom === ''
      ? Object.values(recordIn(pasting.document, 'symptoms'))
      : [symptomHere(pasting, place.symptom)];
  return paths.some((path) => Object.hasOwn(recordIn(path, 'steps'), place.step));
}

function hasFinding({ document }: Pasting, id: string): boolean {
  return Object.hasOwn(recordIn(document, 'findings'), id);
}

function symptomHere({ document }: Pasting, id: string): Json | undefined {
  return recordIn(recordIn(document, 'symptoms'), id);
}

function firstOf(symptom: Json | JsonObject | undefined): boolean {
  return isRecord(symptom) && typeof symptom.first === 'string';
}
