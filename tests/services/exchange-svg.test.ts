import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { sanitiseSvg } from '../../main/services/exchange/index.ts';
import { LIBRARY } from '../../main/services/index.ts';
import { clean, events } from '../support/drawings.ts';
import { svg } from '../support/pictures.ts';

const drawings = readdirSync(LIBRARY).filter((file) => file.endsWith('.svg'));

describe('a drawing that is harmless', () => {
  it.each(drawings)('%s of the library keeps every element, attribute and word', (file) => {
    const text = readFileSync(new URL(file, LIBRARY), 'utf8');
    expect(events(clean(text))).toEqual(events(text));
  });

  it('keeps uses, gradients, patterns, masks, clips and markers of its own', () => {
    const text = svg(
      '<defs><linearGradient id="l"><stop offset="0" stop-color="#fff"/></linearGradient><pattern id="p" width="4" height="4"><path d="M0 0h1"/></pattern>' +
        '<clipPath id="c"><rect width="3" height="3"/></clipPath><mask id="m"><circle r="2"/></mask><marker id="k"><path d="M0 0 1 1"/></marker><symbol id="s"><g/></symbol></defs>' +
        '<use href="#s"/><rect fill="url(#l)" clip-path="url(#c)" mask="url(#m)"/><path d="M0 0h3" marker-end="url(#k)" stroke="url(#p) red"/>',
    );
    expect(events(clean(text))).toEqual(events(text));
  });

  it('has its older references written as today’s', () => {
    const old = svg('<g id="a"/><use xlink:href="#a"/>', ' xmlns:xlink="http://www.w3.org/1999/xlink"');
    expect(clean(old)).toContain('<use href="#a"/>');
  });

  it('has its style sheet and styles made attributes: id over class over element, later over earlier, own over all', () => {
    const text = svg(
      '<style>/* a */ rect { fill: red; stroke: red } #i { fill: blue } .c, .d { fill: green !important } circle{r:9;fill:url(http://x)} @import url(x); .e { fill: red }</style>' +
        '<rect class="c d"/><rect class="c" id="i"/><rect style="stroke: none; position: fixed" stroke="blue"/><circle/>',
    );
    expect(clean(text)).toContain(
      '<rect fill="green" stroke="red"/><rect id="i" fill="blue" stroke="red"/><rect stroke="none" fill="red"/><circle/>',
    );
  });

  it('has what a link or a choice holds kept, and the link left out', () => {
    expect(clean(svg('<a href="https://example.com"><switch><g id="x"/></switch></a>'))).toContain(
      '><g id="x"/></svg>',
    );
  });

  it.each([
    ['width="210mm" height="297mm" viewBox="0 0 210 297"', 793.7, 1122.5],
    ['viewBox="0 0 80 60"', 80, 60],
    ['width="100%" height="100%" viewBox="0, 0, 80, 60"', 80, 60],
    ['width="160" viewBox="0 0 80 60"', 160, 120],
    ['width="1in" height="72pt"', 96, 96],
  ])('with %s is %d by %d pixels (to 0.05), and says so itself', (size, width, height) => {
    const sanitised = sanitiseSvg(`<svg xmlns="http://www.w3.org/2000/svg" ${size}/>`);
    if (!sanitised.ok) throw new Error(sanitised.message);
    expect(sanitised.value.width).toBeCloseTo(width, 1);
    expect(sanitised.value.height).toBeCloseTo(height, 1);
    expect(sanitised.value.text).toMatch(
      / width="\d[^%]*" .*height="\d[^%]*"| height="\d[^%]*" .*width="\d[^%]*"/,
    );
  });
});

describe('whatever comes, what is written', () => {
  const NAMES = [
    'svg',
    'g',
    'rect',
    'script',
    'style',
    'use',
    'text',
    'a',
    'title',
    'foreignObject',
    'animate',
    'x:g',
  ];
  const ATTRIBUTES = [
    'fill',
    'id',
    'href',
    'xlink:href',
    'onload',
    'style',
    'class',
    'd',
    'mask',
    'xml:space',
    'rx',
  ];
  const VALUES = [
    'red',
    'url(#a)',
    'url(x)',
    '#a',
    'javascript:x',
    '1 2',
    'fill:url(#a);x:y',
    'fill:red',
    '&lt;&quot;',
    '"',
    '<',
    '&amp;#x0;',
  ];
  const attribute = fc.tuple(fc.constantFrom(...ATTRIBUTES), fc.constantFrom(...VALUES));
  const { element } = fc.letrec<{ element: string; within: string[] }>((tie) => ({
    within: fc.array(
      fc.oneof(
        { maxDepth: 4 },
        fc.constantFrom('x', '&amp;', ' ', ']]&gt;', '<![CDATA[<b>]]>'),
        tie('element'),
      ),
      { maxLength: 4 },
    ),
    element: fc
      .tuple(
        fc.constantFrom(...NAMES),
        fc.uniqueArray(attribute, { maxLength: 3, selector: ([name]) => name }),
        tie('within'),
      )
      .map(([name, attributes, within]) => {
        const written = attributes.map(([key, value]) => ` ${key}="${value.replaceAll('"', "'")}"`).join('');
        return `<${name}${written}>${within.join('')}</${name}>`;
      }),
  }));
  const drawing = fc
    .array(element, { maxLength: 5 })
    .map((within) => svg(within.join(''), ' xmlns:x="urn:x" xmlns:xlink="http://www.w3.org/1999/xlink"'));

  const KEPT =
    /^(?:svg|g|defs|symbol|use|title|desc|path|rect|circle|ellipse|line|polyline|polygon|text|tspan|textPath|linearGradient|radialGradient|stop|pattern|clipPath|mask|marker) \{http:\/\/www\.w3\.org\/2000\/svg\}/;

  function expectKept(text: string): void {
    const sanitised = sanitiseSvg(text);
    if (!sanitised.ok) return;
    const written = sanitised.value.text;
    for (const told of events(written)) {
      if (!told.includes(' {')) continue;
      expect(told).toMatch(KEPT);
      expect(told).not.toMatch(/ on\w+=| style=| class=|url\((?!#)|xlink| href=(?!#)/);
    }
    expect(sanitiseSvg(written)).toEqual(sanitised);
  }

  it('parses, holds nothing but what is allowed, and is the same when sanitised again', () => {
    fc.assert(fc.property(drawing, expectKept), { numRuns: 1000 });
  });

  it('does so for a drawing of the library with pieces changed', () => {
    const good = readFileSync(new URL('usbc-plug.svg', LIBRARY), 'utf8');
    const piece = fc.oneof(
      fc.constantFrom('<', '>', '"', '&', '<script>', ' onload="x"', '</svg>', '<!--', ']]>'),
      fc.string({ maxLength: 4 }),
    );
    const change = fc.record({ at: fc.nat(good.length), cut: fc.nat(30), put: piece });
    fc.assert(
      fc.property(change, ({ at, cut, put }) => expectKept(good.slice(0, at) + put + good.slice(at + cut))),
      { numRuns: 300 },
    );
  });

  it('is never anything but an answer, for any text', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 200 }), (text) => void sanitiseSvg(text)),
      { numRuns: 500 },
    );
  });
});
