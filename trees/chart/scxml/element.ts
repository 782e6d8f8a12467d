/** An XML element of the export; attributes in the order they are written. */
export interface Element {
  readonly name: 'scxml' | 'state' | 'parallel' | 'final' | 'transition' | 'onentry' | 'raise';
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: readonly Element[];
}

/** A transition; without `target` the state is not left, without `event` it is eventless. */
export interface Way {
  /** Its event descriptors; any one of them takes the way. A descriptor also stands for all events that it begins. */
  readonly event?: string | readonly string[];
  /** Id of the state that must be active: the one `In()` of the condition. */
  readonly in?: string;
  readonly target?: string;
  /** Internal events raised on the way, in this order. */
  readonly raise?: string | readonly string[];
  /** Stays inside the state it is written in. A region's own transitions must, or they leave the whole parallel state. */
  readonly isInternal?: true;
}

/** What a state holds besides its id. The first of `states` is its initial one unless `initial` says otherwise. */
export interface Content {
  readonly initial?: string;
  readonly ways?: readonly Way[];
  readonly raiseOnEntry?: string;
  readonly states?: readonly Element[];
}

/** A compound state if it has states, else an atomic one. */
export function state(id: string, { initial, ways = [], raiseOnEntry, states = [] }: Content = {}): Element {
  const first = initial ?? states[0]?.attributes['id'];
  const entry = raiseOnEntry === undefined ? [] : [element('onentry', {}, [raise(raiseOnEntry)])];
  const attributes = first === undefined ? { id } : { id, initial: first };
  return element('state', attributes, [...entry, ...ways.map(transition), ...states]);
}

export function parallel(id: string, ways: readonly Way[], states: readonly Element[]): Element {
  return element('parallel', { id }, [...ways.map(transition), ...states]);
}

export function element(
  name: Element['name'],
  attributes: Readonly<Record<string, string>>,
  children: readonly Element[] = [],
): Element {
  return { name, attributes, children };
}

/** The element as XML text, indented by two spaces a level. */
export function written({ name, attributes, children }: Element, indent = ''): string {
  const pairs = Object.entries(attributes).map(([key, value]) => ` ${key}="${escaped(value)}"`);
  const open = `${indent}<${name}${pairs.join('')}`;
  if (children.length === 0) return `${open}/>\n`;
  return `${open}>\n${children.map((child) => written(child, `${indent}  `)).join('')}${indent}</${name}>\n`;
}

function transition({ event, in: active, target, raise: raised = [], isInternal }: Way): Element {
  const attributes = {
    ...(event === undefined ? {} : { event: [event].flat().join(' ') }),
    ...(active === undefined ? {} : { cond: `In('${active}')` }),
    ...(target === undefined ? {} : { target }),
    ...(isInternal === undefined ? {} : { type: 'internal' }),
  };
  return element('transition', attributes, [raised].flat().map(raise));
}

function raise(event: string): Element {
  return element('raise', { event });
}

function escaped(text: string): string {
  return text.replace(/[&<>"]/g, (character) => `&#${String(character.charCodeAt(0))};`);
}
