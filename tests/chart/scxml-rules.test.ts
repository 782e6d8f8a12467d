import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { toScxml } from '../../trees/chart/index.ts';
import { arbitraryTree } from '../support/arbitrary-tree.ts';
import { smallTree } from '../support/trees.ts';
import { allNodes, readDocument, type Node } from './scxml-document.ts';

/*
 * Rules of section 3 of "State Chart XML (SCXML): State Machine Notation for Control Abstraction", W3C Recommendation,
 * 1 September 2015 (3.2 scxml, 3.3 state, 3.4 parallel, 3.5 transition, 3.7 final, 3.8 onentry, 3.11 legal state
 * specifications, 3.12 event descriptors, 3.14 ids), 4.2 raise, and B.1 the null data model. Basis: recalled, save for
 * second-hand: 3.11, that `initial` names descendants (quoted on the W3C's www-voice list, 18 October 2014), and B.1.2,
 * that a condition is one `In` of a state's id, which the W3C's own test 436 writes in single quotes.
 */
const CHILDREN: Readonly<Record<string, readonly string[]>> = {
  scxml: ['state', 'parallel', 'final', 'datamodel', 'script'],
  state: [
    'onentry',
    'onexit',
    'transition',
    'initial',
    'state',
    'parallel',
    'final',
    'history',
    'datamodel',
    'invoke',
  ],
  parallel: ['onentry', 'onexit', 'transition', 'state', 'parallel', 'history', 'datamodel', 'invoke'],
  final: ['onentry', 'onexit', 'donedata'],
  transition: ['raise'],
  onentry: ['raise'],
  raise: [],
};
const ATTRIBUTES: Readonly<Record<string, readonly string[]>> = {
  scxml: ['initial', 'name', 'xmlns', 'version', 'datamodel', 'binding'],
  state: ['id', 'initial'],
  parallel: ['id'],
  final: ['id'],
  transition: ['event', 'cond', 'target', 'type'],
  onentry: [],
  raise: ['event'],
};
const NC_NAME = /^[A-Za-z_][A-Za-z0-9_.-]*$/;

interface Read {
  readonly root: Node;
  readonly nodes: readonly Node[];
  readonly byId: ReadonlyMap<string, Node>;
}

const small = read(toScxml(smallTree()));

function read(text: string): Read {
  const root = readDocument(text);
  const nodes = allNodes(root);
  return {
    root,
    nodes,
    byId: new Map(nodes.flatMap((node) => (isState(node) ? [[node.attributes['id'] ?? '', node]] : []))),
  };
}

function isState({ name }: Node): boolean {
  return name === 'state' || name === 'parallel' || name === 'final';
}

function isWithin(node: Node | null, outer: Node): boolean {
  return node !== null && (node.parent === outer || isWithin(node.parent, outer));
}

/** Holds a rule against the exports of the small tree and of random trees. */
function always(rule: (document: Read) => void): void {
  rule(small);
  fc.assert(
    fc.property(arbitraryTree(), (tree) => {
      rule(read(toScxml(tree)));
    }),
    { numRuns: 40 },
  );
}

describe('an SCXML export, by section 3 of the Recommendation,', () => {
  it('is an scxml element of its namespace and version, whose initial state is a child', () => {
    always(({ root, byId }) => {
      expect(root.name).toBe('scxml');
      expect(root.attributes).toMatchObject({
        xmlns: 'http://www.w3.org/2005/07/scxml',
        version: '1.0',
        datamodel: 'null',
      });
      expect(byId.get(root.attributes['initial'] ?? '')?.parent).toBe(root);
    });
  });

  it('has only elements, children and attributes that their parents may have', () => {
    always(({ nodes }) => {
      const strays = nodes.flatMap(({ name, attributes, children }) => [
        ...children
          .filter((child) => CHILDREN[name]?.includes(child.name) !== true)
          .map((child) => `${name}/${child.name}`),
        ...Object.keys(attributes)
          .filter((key) => ATTRIBUTES[name]?.includes(key) !== true)
          .map((key) => `${name}@${key}`),
      ]);
      expect(strays).toEqual([]);
    });
  });

  it('gives every state an id of its own that is an XML name without a colon', () => {
    always(({ nodes, byId }) => {
      const states = nodes.filter(isState);
      expect(byId.size).toBe(states.length);
      for (const { attributes } of states) expect(attributes['id']).toMatch(NC_NAME);
    });
  });

  it('names an initial state exactly in compound states, and there a descendant', () => {
    always(({ nodes, byId }) => {
      for (const node of nodes.filter(({ name }) => name === 'state')) {
        const initial = node.attributes['initial'];
        expect(initial !== undefined).toBe(node.children.some(isState));
        if (initial !== undefined) expect(isWithin(byId.get(initial) ?? null, node)).toBe(true);
      }
    });
  });

  it('gives a parallel state at least two regions', () => {
    always(({ nodes }) => {
      for (const { children } of nodes.filter(({ name }) => name === 'parallel'))
        expect(children.filter(isState).length).toBeGreaterThan(1);
    });
  });

  it('gives every transition an event, a condition or a target, and targets that are there', () => {
    always(({ nodes, byId }) => {
      for (const { attributes, children } of nodes.filter(({ name }) => name === 'transition')) {
        const { event, cond, target, type } = attributes;
        expect(event ?? cond ?? target).toBeDefined();
        if (target !== undefined) expect(byId.has(target)).toBe(true);
        else expect(event !== undefined && children.length > 0).toBe(true);
        if (type !== undefined) expect(['internal', 'external']).toContain(type);
      }
    });
  });

  it('enters the parallel state only by saying the symptom, at a state of that region', () => {
    always(({ root, nodes, byId }) => {
      const outside = nodes.filter(({ name, parent }) => name === 'transition' && parent?.parent === root);
      const entering = outside.filter(({ parent }) => parent?.name !== 'parallel');
      expect(entering.length).toBeGreaterThan(0);
      for (const { parent, attributes } of entering) {
        const region = byId.get(attributes['target'] ?? '')?.parent;
        expect([parent?.attributes['id'], region?.attributes['id'], region?.parent?.name]).toEqual([
          root.attributes['initial'],
          'complaint',
          'parallel',
        ]);
      }
    });
  });

  it('keeps transitions of a region inside it, so that none leaves the parallel state but by closing', () => {
    always(({ root, nodes, byId }) => {
      for (const { parent, attributes } of nodes.filter(({ name }) => name === 'transition')) {
        const target = byId.get(attributes['target'] ?? '');
        if (parent === null || target === undefined || parent.parent === root) continue;
        const isRegion = parent.parent?.name === 'parallel';
        if (isRegion) expect([attributes['type'], isWithin(target, parent)]).toEqual(['internal', true]);
        else expect(regionOf(target)).toBe(regionOf(parent));
      }
    });
  });

  it('lets no region but the course rest where an eventless transition is tried in every microstep', () => {
    always(({ nodes, byId }) => {
      const course = byId.get('course');
      for (const { attributes, parent } of nodes.filter(({ name }) => name === 'transition')) {
        if (attributes['event'] !== undefined || parent === null || regionOf(parent) === course) continue;
        const goesOn = parent.children.some(
          ({ name, attributes: { event, cond } }) =>
            name === 'transition' && event === undefined && cond === undefined,
        );
        expect([parent.attributes['id'], goesOn]).toEqual([parent.attributes['id'], true]);
      }
    });
  });

  it('conditions on nothing but one active state that is there (the null data model)', () => {
    always(({ nodes, byId }) => {
      for (const { attributes } of nodes) {
        const { cond } = attributes;
        if (cond === undefined) continue;
        const [, id = ''] = /^In\('([^']*)'\)$/.exec(cond) ?? [];
        expect([cond, byId.has(id)]).toEqual([cond, true]);
      }
    });
  });

  it('names events in dotted tokens, several only where it waits for one of them, and raises none of the platform’s', () => {
    always(({ nodes }) => {
      for (const { name, attributes } of nodes) {
        const { event } = attributes;
        if (name !== 'raise' && event === undefined) continue;
        const descriptors = name === 'transition' ? event?.split(' ') : [event];
        for (const one of descriptors ?? []) expect(one).toMatch(/^[a-z][a-z0-9-]*(\.[a-z0-9-]+)*$/);
        expect(new Set(descriptors).size).toBe(descriptors?.length);
        if (name === 'raise') expect(event).not.toMatch(/^(error|done)\b/);
      }
    });
  });
});

function regionOf(node: Node): Node | null {
  return node.parent === null || node.parent.name === 'parallel' ? node : regionOf(node.parent);
}
