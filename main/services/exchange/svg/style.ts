import { cleanProperty } from './attribute.ts';
import type { Named } from './drawing.ts';

/** A property that a style gives, cleaned. */
export type Property = readonly [name: string, value: string];

/** A value that a rule gives, and how strong it is: by its selector first, then by its place. */
interface Given {
  readonly value: string;
  readonly weight: number;
  readonly place: number;
}

/** A drawing’s own style sheet: by selector what it gives, by property. Rules of one selector are one here. */
export type Sheet = ReadonlyMap<string, ReadonlyMap<string, Given>>;

const CLASSES_AT_MOST = 20;
const SELECTOR = /^([a-zA-Z]+|\*)?(?:#([-\w]+))?(?:\.([-\w]+))?$/;

/** The properties of a `style` attribute or of a rule's body that may be kept. Anything not understood is left out. */
export function propertiesOf(style: string): readonly Property[] {
  return withoutComments(style)
    .split(';')
    .flatMap((declaration): Property[] => {
      const colon = declaration.indexOf(':');
      if (colon < 0) return [];
      const name = declaration.slice(0, colon).trim().toLowerCase();
      const value = cleanProperty(name, withoutImportant(declaration.slice(colon + 1)));
      return value === null ? [] : [[name, value]];
    });
}

/**
 * The rules of a style sheet whose selectors are an element, an id, a class or one of each, as drawing programs write them. All
 * other rules, and everything that begins with `@`, are left out.
 */
export function sheetOf(text: string): Sheet {
  const sheet = new Map<string, Map<string, Given>>();
  for (const [place, block] of withoutComments(text).split('}').entries()) {
    const brace = block.indexOf('{');
    const body = block.slice(brace + 1);
    if (brace < 0 || body.includes('{')) continue;
    const properties = propertiesOf(body);
    for (const written of properties.length === 0 ? [] : block.slice(0, brace).split(',')) {
      const [whole = '', name = '*', id, className] = SELECTOR.exec(written.trim()) ?? [];
      if (whole === '') continue;
      const selector = selectorOf(name, id, className);
      const weight = (id === undefined ? 0 : 4) + (className === undefined ? 0 : 2) + (name === '*' ? 0 : 1);
      const given = sheet.get(selector) ?? new Map<string, Given>();
      for (const [property, value] of properties) given.set(property, { value, weight, place });
      sheet.set(selector, given);
    }
  }
  return sheet;
}

/** What a style sheet gives an element: by id over by class over by name, later over earlier (CSS Cascade 4, 6.4). */
export function styleOf(sheet: Sheet, { name, id, classes }: Named): readonly Property[] {
  if (sheet.size === 0) return [];
  const strongest = new Map<string, Given>();
  const ids = id === undefined ? [undefined] : [undefined, id];
  for (const className of [undefined, ...classes.slice(0, CLASSES_AT_MOST)])
    for (const ofId of ids)
      for (const ofName of ['*', name])
        for (const [property, given] of sheet.get(selectorOf(ofName, ofId, className)) ?? []) {
          const former = strongest.get(property);
          if (former === undefined || isStronger(given, former)) strongest.set(property, given);
        }
  return [...strongest].map(([property, { value }]) => [property, value]);
}

function isStronger(a: Given, b: Given): boolean {
  return a.weight === b.weight ? a.place >= b.place : a.weight > b.weight;
}

function selectorOf(name: string, id: string | undefined, className: string | undefined): string {
  return `${name}#${id ?? ''}.${className ?? ''}`;
}

function withoutImportant(value: string): string {
  return value.replace(/!\s*important\s*$/i, '').trim();
}

/** By hand, since a pattern would look for the end of an open comment once for each of its beginnings. */
function withoutComments(style: string): string {
  const kept: string[] = [];
  let at = 0;
  for (let start = style.indexOf('/*'); start >= 0; start = style.indexOf('/*', at)) {
    kept.push(style.slice(at, start));
    const end = style.indexOf('*/', start + 2);
    if (end < 0) return kept.join('');
    at = end + 2;
  }
  return [...kept, style.slice(at)].join('');
}
