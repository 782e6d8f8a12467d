import { SaxesParser } from 'saxes';
import { sanitiseSvg } from '../../main/services/exchange/index.ts';

/** A drawing sanitised; throws where it is refused. */
export function clean(text: string): string {
  const sanitised = sanitiseSvg(text);
  if (!sanitised.ok) throw new Error(sanitised.message);
  return sanitised.value.text;
}

/** Why a drawing is refused, and that it is said what to do; throws where it is taken. */
export function refusal(text: string): string {
  const sanitised = sanitiseSvg(text);
  if (sanitised.ok) throw new Error(`taken: ${sanitised.value.text}`);
  if (sanitised.help === '') throw new Error('it is not said what to do');
  return sanitised.message;
}

/** A drawing as its elements, attributes and words, with nothing between them. */
export function events(text: string): readonly string[] {
  const told: string[] = [];
  const parser = new SaxesParser({ xmlns: true });
  parser.on('error', (error) => {
    throw error;
  });
  parser.on('opentag', ({ local, uri, attributes }) => {
    const each = Object.values(attributes).map(({ name, value }) => `${name}=${value}`);
    told.push(`${local} {${uri}} ${each.sort().join(' ')}`);
  });
  parser.on('closetag', ({ local }) => void told.push(`/${local}`));
  parser.on('text', (words) => (words.trim() === '' ? undefined : void told.push(words)));
  parser.on('processinginstruction', ({ target }) => void told.push(`?${target}`));
  parser.on('doctype', () => void told.push('!doctype'));
  parser.write(text).close();
  return told;
}
