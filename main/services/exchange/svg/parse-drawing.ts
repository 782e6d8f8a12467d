import { SaxesParser, type SaxesTagNS } from 'saxes';
import { refuse, taken, type Refusal, type Taken } from '../refusal.ts';
import { cleanAttribute, cleanHref } from './attribute.ts';
import {
  KEPT_ELEMENTS,
  OPENED_ELEMENTS,
  REFERRING_ELEMENTS,
  SVG_NAMESPACE,
  TEXT_ELEMENTS,
  XLINK_NAMESPACE,
  type Drawn,
} from './drawing.ts';
import { propertiesOf, sheetOf, styleOf, type Property } from './style.ts';

const DEEPEST = 64;
const ELEMENTS_AT_MOST = 20_000;
const LONGEST_SHEET = 256 * 1024;

/** An element kept, with what its style sheet classes are and what its own style gives, which only the end of the file settles. */
interface Styled {
  readonly drawn: Drawn;
  readonly classes: readonly string[];
  readonly style: readonly Property[];
}

interface Parse {
  /** What is open, outermost first: where its content goes, or why that is left out. */
  readonly open: ('left-out' | 'sheet' | Drawn)[];
  readonly styled: Styled[];
  readonly sheet: string[];
  namespace: string;
  root: Drawn | null;
  elements: number;
  refusal: Refusal | null;
}

/** Ends the parse; a handler has no other way to stop. */
const STOP = new Error('The parse of a drawing has stopped.');

/**
 * Reads a drawing strictly as XML, without a document type and without entities but XML's own five, and gives the elements and
 * attributes of it that may be kept. Style sheets and `style` attributes end up as attributes.
 */
export function parseDrawing(text: string): Taken<Drawn> {
  const parse: Parse = {
    open: [],
    styled: [],
    sheet: [],
    namespace: '',
    root: null,
    elements: 0,
    refusal: null,
  };
  try {
    parserFor(parse, text)
      .write(text.replace(/^\uFEFF/, ''))
      .close();
  } catch (thrown) {
    if (thrown !== STOP || parse.refusal === null) throw thrown;
    return parse.refusal;
  }
  if (parse.root === null) return refuse('The drawing is empty.', SAVE_AGAIN);
  applyStyles(parse);
  return taken(parse.root);
}

const SAVE_AGAIN = 'Open it in a drawing program, save it as a plain SVG, and take that.';

function parserFor(parse: Parse, text: string): SaxesParser<{ xmlns: true }> {
  const parser = new SaxesParser({ xmlns: true });
  const stop = (message: string, help = SAVE_AGAIN): never => {
    parse.refusal = refuse(message, help);
    throw STOP;
  };
  parser.on('error', () => stop(`Line ${String(parser.line)} breaks the rules of XML.`));
  parser.on('doctype', () =>
    stop('The drawing has a document type (<!DOCTYPE …>), which can hold other files.', NO_DOCTYPE),
  );
  parser.on('processinginstruction', () => stop('The drawing calls in other files (<?…?>).'));
  parser.on('xmldecl', ({ encoding = 'utf-8' }) => {
    if (!/^(?:utf-8|us-ascii)$/i.test(encoding) && !isAscii(text))
      stop('The drawing’s text is not UTF-8.', 'Save it with the encoding UTF-8 and take that.');
  });
  parser.on('opentag', (tag) => {
    parse.elements += 1;
    if (parse.elements > ELEMENTS_AT_MOST)
      stop(`The drawing has more than ${String(ELEMENTS_AT_MOST)} parts.`, SIMPLER);
    if (parse.open.length >= DEEPEST)
      stop(`The drawing nests more than ${String(DEEPEST)} levels deep.`, SIMPLER);
    if (isImage(parse, tag)) stop('The drawing has a photograph in it.', PHOTOGRAPH);
    parse.open.push(opened(parse, tag) ?? stop('This is no SVG drawing.'));
  });
  parser.on('closetag', () => void parse.open.pop());
  parser.on('text', (words) => addText(parse, words));
  parser.on('cdata', (words) => addText(parse, words));
  return parser;
}

const NO_DOCTYPE = 'Delete that line in a text editor, or save it again as a plain SVG, and take that.';
const SIMPLER = 'Simplify it in a drawing program, or save it as a PNG, and take that.';
const PHOTOGRAPH = 'Save the whole as a PNG or JPEG and take that.';

function isImage({ namespace, open }: Parse, { uri, local }: SaxesTagNS): boolean {
  return local === 'image' && uri === namespace && open.at(-1) !== 'left-out';
}

/** What an element's content goes into; null where the file's outermost element is none of a drawing. */
function opened(parse: Parse, tag: SaxesTagNS): Parse['open'][number] | null {
  const above = parse.open.at(-1);
  if (above === undefined) {
    if (tag.local !== 'svg' || (tag.uri !== SVG_NAMESPACE && tag.uri !== '')) return null;
    parse.namespace = tag.uri;
    parse.root = kept(parse, tag);
    return parse.root;
  }
  if (above === 'left-out' || above === 'sheet' || tag.uri !== parse.namespace) return 'left-out';
  if (tag.local === 'style') return 'sheet';
  if (OPENED_ELEMENTS.has(tag.local)) return above;
  if (!KEPT_ELEMENTS.has(tag.local) || above.name === 'title' || above.name === 'desc') return 'left-out';
  const drawn = kept(parse, tag);
  above.within.push(drawn);
  return drawn;
}

function kept(parse: Parse, { local: name, attributes }: SaxesTagNS): Drawn {
  const drawn: Drawn = { name, attributes: new Map(), within: [] };
  let classes: readonly string[] = [];
  let style: readonly Property[] = [];
  for (const { prefix, local, uri, value } of Object.values(attributes)) {
    if (local === 'href' && (uri === '' || uri === XLINK_NAMESPACE)) setHref(drawn, value);
    else if (prefix === 'xml' && local === 'space') drawn.attributes.set('xml:space', spaceOf(value));
    else if (uri !== '') continue;
    else if (local === 'class') classes = value.split(/\s+/);
    else if (local === 'style') style = propertiesOf(value);
    else setClean(drawn, local, cleanAttribute(local, value));
  }
  parse.styled.push({ drawn, classes, style });
  return drawn;
}

function setHref(drawn: Drawn, value: string): void {
  if (REFERRING_ELEMENTS.has(drawn.name) && !drawn.attributes.has('href'))
    setClean(drawn, 'href', cleanHref(value));
}

function spaceOf(value: string): string {
  return value === 'preserve' ? 'preserve' : 'default';
}

function setClean({ attributes }: Drawn, name: string, value: string | null): void {
  if (value !== null) attributes.set(name, value);
}

function addText({ open, sheet }: Parse, words: string): void {
  const above = open.at(-1);
  if (above === 'sheet') sheet.push(words);
  else if (above !== undefined && above !== 'left-out' && TEXT_ELEMENTS.has(above.name))
    above.within.push(words);
}

function applyStyles({ styled, sheet }: Parse): void {
  const rules = sheetOf(sheet.join('\n').slice(0, LONGEST_SHEET));
  for (const { drawn, classes, style } of styled) {
    const named = { name: drawn.name, id: drawn.attributes.get('id'), classes };
    for (const [name, value] of [...styleOf(rules, named), ...style]) drawn.attributes.set(name, value);
  }
}

function isAscii(text: string): boolean {
  return /^[\0-\x7f]*$/.test(text);
}
