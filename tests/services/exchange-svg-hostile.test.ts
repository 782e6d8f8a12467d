import { describe, expect, it } from 'vitest';
import { sanitiseSvg } from '../../main/services/exchange/index.ts';
import { clean, events, refusal } from '../support/drawings.ts';
import { svg } from '../support/pictures.ts';

/** What published collections of hostile SVG come down to; each must lose what could run or fetch, and nothing may be left of it. */
const HOSTILE: readonly (readonly [what: string, within: string])[] = [
  ['a script', '<script>alert(1)</script>'],
  ['a script in a CDATA section', '<script><![CDATA[alert(1)]]></script>'],
  ['a script from elsewhere', '<script href="https://example.com/a.js"/>'],
  ['a script by another prefix', '<s:script xmlns:s="http://www.w3.org/2000/svg">alert(1)</s:script>'],
  ['a script of HTML', '<script xmlns="http://www.w3.org/1999/xhtml">alert(1)</script>'],
  [
    'a script in a group of another namespace',
    '<g xmlns="http://www.w3.org/1999/xhtml"><script>alert(1)</script></g>',
  ],
  ['a script inside an unknown element', '<unknown><script>alert(1)</script></unknown>'],
  ['a script inside a title', '<title><script>alert(1)</script></title>'],
  ['an event on load', '<g onload="alert(1)"/>'],
  ['an event in capitals', '<g ONLOAD="alert(1)"/>'],
  ['an event on a focus', '<a href="#" onfocus="alert(1)" tabindex="1"><g/></a>'],
  ['an animation that begins', '<animate onbegin="alert(1)" attributeName="x" dur="1s"/>'],
  ['an animation of a reference', '<a><animate attributeName="href" values="javascript:alert(1)"/><g/></a>'],
  ['a set of an event', '<g><set attributeName="onmouseover" to="alert(1)"/></g>'],
  ['an animated transform', '<g><animateTransform attributeName="transform" onend="alert(1)"/></g>'],
  ['an animated motion', '<g><animateMotion onrepeat="alert(1)" path="M0 0h1"/></g>'],
  [
    'a handler',
    '<handler type="text/javascript" ev:event="load" xmlns:ev="http://www.w3.org/2001/xml-events">alert(1)</handler>',
  ],
  ['a listener', '<listener event="load" handler="#x" xmlns="http://www.w3.org/2001/xml-events"/>'],
  [
    'foreign content',
    '<foreignObject><body xmlns="http://www.w3.org/1999/xhtml"><img src="x" onerror="alert(1)"/></body></foreignObject>',
  ],
  ['a frame', '<iframe xmlns="http://www.w3.org/1999/xhtml" src="javascript:alert(1)"/>'],
  ['an embedded object', '<embed xmlns="http://www.w3.org/1999/xhtml" src="data:text/html,alert(1)"/>'],
  ['a link to a script', '<a href="javascript:alert(1)"><g/></a>'],
  ['a link to a script with a hidden tab', '<a href="java&#9;script:alert(1)"><g/></a>'],
  ['a use from elsewhere', '<use href="https://example.com/a.svg#b"/>'],
  ['a use of data', '<use href="data:image/svg+xml;base64,PHN2Zy8+#x"/>'],
  [
    'an older use from elsewhere',
    '<use xlink:href="//example.com/a#b" xmlns:xlink="http://www.w3.org/1999/xlink"/>',
  ],
  [
    'an older use by another prefix',
    '<use q:href="//example.com/a#b" xmlns:q="http://www.w3.org/1999/xlink"/>',
  ],
  [
    'a filter that fetches',
    '<filter id="f"><feComposite/></filter><g filter="url(https://example.com/#f)"/>',
  ],
  ['a fill from elsewhere', '<g fill="url(https://example.com/a#b)"/>'],
  ['a fill from elsewhere behind a space', '<g fill="url( \'//example.com/a#b\' )"/>'],
  ['a fill from elsewhere by escapes', '<g fill="u\\72l(https://example.com)"/>'],
  ['a fill from elsewhere after one of its own', '<g fill="url(#a) url(https://example.com)"/>'],
  ['a picture set by image()', '<g fill="image-set(\'https://example.com\' 1x)"/>'],
  [
    'a mask from elsewhere',
    '<g mask="url(//example.com#a)" clip-path="url(a.svg#b)" marker-end="url(data:,#x)"/>',
  ],
  [
    'a cursor from elsewhere',
    '<g cursor="url(https://example.com)" style="cursor:url(https://example.com)"/>',
  ],
  ['a style that fetches', '<g style="background:url(https://example.com)"/>'],
  [
    'a style that runs',
    '<g style="behavior:url(#x);-moz-binding:url(//example.com#x);width:expression(alert(1))"/>',
  ],
  ['a style that fetches by escapes', '<g style="fill:\\75rl(https://example.com)"/>'],
  ['a style sheet that imports', '<style>@import "https://example.com/a.css";</style>'],
  [
    'a style sheet that imports behind a comment',
    '<style>@im/**/port url(//example.com);*{fill:url(//example.com)}</style>',
  ],
  [
    'a style sheet with a typeface from elsewhere',
    '<style>@font-face{font-family:x;src:url(https://example.com/x)}</style>',
  ],
  [
    'a style sheet of HTML',
    '<style xmlns="http://www.w3.org/1999/xhtml">*{background:url(https://example.com)}</style>',
  ],
  ['a style sheet ended early', '<style>&lt;/style>&lt;script>alert(1)&lt;/script></style>'],
  ['a base', '<g xml:base="https://example.com/"/>'],
  ['a namespace in disguise', '<g xmlns:x="javascript:alert(1)" x:y="alert(1)"/>'],
  [
    'metadata',
    '<metadata><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">alert(1)</rdf:RDF></metadata>',
  ],
  ['a colour profile', '<color-profile href="https://example.com"/><g color-profile="url(//example.com)"/>'],
  [
    'a typeface',
    '<font-face><font-face-src><font-face-uri href="https://example.com"/></font-face-src></font-face>',
  ],
  [
    'sound and film',
    '<audio href="https://example.com"/><video xmlns="http://www.w3.org/1999/xhtml" src="https://example.com"/>',
  ],
  [
    'an included document',
    '<xi:include href="file:///etc/passwd" xmlns:xi="http://www.w3.org/2001/XInclude"/>',
  ],
  ['a comment that conditions', '<!--[if gte IE 4]><script>alert(1)</script><![endif]-->'],
  ['a class that a page would style', '<g class="ow-modal"/>'],
];

const SUSPECT =
  /script|alert|example|javascript|data:|url\((?!#)|@|import|expression|binding|file:|<!|<\?|\bon[a-z]+=|class=|style/i;

describe('a hostile drawing', () => {
  it.each(HOSTILE)('has %s left out of it', (_, within) => {
    const written = clean(svg(within));
    expect(written).not.toMatch(SUSPECT);
    expect(events(written)[0]).toMatch(/^svg \{http:\/\/www\.w3\.org\/2000\/svg\}/);
  });

  it('loses an event at its outermost element', () => {
    expect(
      clean(svg('', ' onload="alert(1)" ONCLICK="alert(1)" xmlns:x="urn:x" x:onload="alert(1)"')),
    ).not.toMatch(SUSPECT);
  });

  it.each([
    [
      'a document type',
      '<!DOCTYPE svg [<!ENTITY a "b">]><svg xmlns="http://www.w3.org/2000/svg"/>',
      /document type/,
    ],
    ['a bare document type', '<!DOCTYPE svg><svg xmlns="http://www.w3.org/2000/svg"/>', /document type/],
    [
      'a style sheet called in',
      '<?xml-stylesheet href="//example.com"?><svg xmlns="http://www.w3.org/2000/svg"/>',
      /calls in other files/,
    ],
    ['an entity of its own', svg('<text>&a;</text>'), /rules of XML/],
    ['an entity of HTML', svg('<text>&nbsp;</text>'), /rules of XML/],
    ['an attribute twice', svg('<g x="1" x="2"/>'), /rules of XML/],
    ['an attribute without quotes', svg('<g x=1/>'), /rules of XML/],
    ['an element not ended', svg('<g>'), /rules of XML/],
    ['something after its end', `${svg('')}<script/>`, /rules of XML/],
    ['text before its beginning', `x${svg('')}`, /rules of XML/],
    ['an unbound prefix', svg('<a:b/>'), /rules of XML/],
    ['a control character', svg('<text>\u0001</text>'), /rules of XML/],
    ['another encoding', `<?xml version="1.0" encoding="iso-8859-1"?>${svg('<text>é</text>')}`, /not UTF-8/],
    ['a photograph', svg('<image href="data:image/png;base64,AAAA"/>'), /photograph/],
    ['an outermost element of HTML', '<html xmlns="http://www.w3.org/1999/xhtml"/>', /no SVG/],
    ['an outermost element named svg of something else', '<svg xmlns="urn:x"/>', /no SVG/],
    ['no size', '<svg xmlns="http://www.w3.org/2000/svg"/>', /how large/],
    ['nothing', '', /empty|rules of XML/],
  ])('with %s is refused', (_, text, told) => {
    expect(refusal(text)).toMatch(told);
  });
});

describe('a drawing out of all proportion is refused', () => {
  const doubling = (levels: number, one: (level: number) => string): string =>
    Array.from({ length: levels }, (_, level) => one(level)).join('');

  it('for uses of uses, which a few lines make billions of', () => {
    const bomb = doubling(8, (level) => `<g id="u${level + 1}">${`<use href="#u${level}"/>`.repeat(10)}</g>`);
    expect(refusal(svg(`<g id="u0"><rect/></g>${bomb}`))).toMatch(/repeats its parts|levels deep/);
  });

  it('for patterns in patterns', () => {
    const bomb = doubling(8, (level) => {
      const rects = `<rect fill="url(#p${level})"/>`.repeat(10);
      return `<pattern id="p${level + 1}" width="1" height="1">${rects}</pattern>`;
    });
    expect(refusal(svg(`${bomb}<rect fill="url(#p8)"/>`))).toMatch(/repeats its parts/);
  });

  it('for a pattern that many parts inherit', () => {
    const pattern = `<pattern id="p" width="1" height="1">${'<rect/>'.repeat(600)}</pattern>`;
    expect(refusal(svg(`${pattern}<g fill="url(#p)">${'<rect/>'.repeat(600)}</g>`))).toMatch(
      /repeats its parts/,
    );
  });

  it('for markers at the corners of markers', () => {
    const corners = `M0 0${' 1 1'.repeat(200)}`;
    const bomb = doubling(
      3,
      (level) => `<marker id="m${level + 1}"><path d="${corners}" marker-mid="url(#m${level})"/></marker>`,
    );
    expect(refusal(svg(`${bomb}<path d="${corners}" marker-mid="url(#m3)"/>`))).toMatch(/repeats its parts/);
  });

  it.each([
    ['a use of itself', '<g id="a"><use href="#a"/></g>'],
    ['two uses of each other', '<g id="a"><use href="#b"/></g><g id="b"><use href="#a"/></g>'],
    ['a pattern of itself', '<pattern id="p"><rect fill="url(#p)"/></pattern>'],
    [
      'a chain of a thousand uses',
      `<g id="u0"/>${doubling(1000, (level) => `<use id="u${level + 1}" href="#u${level}"/>`)}<use href="#u1000"/>`,
    ],
    [
      'a chain of a thousand uses told backwards',
      `<use href="#u1000"/>${Array.from({ length: 1000 }, (_, level) => `<use id="u${1000 - level}" href="#u${999 - level}"/>`).join('')}`,
    ],
  ])('for %s', (_, within) => {
    expect(refusal(svg(within))).toMatch(/levels deep, or in a circle/);
  });

  it('for too many parts, too deep a nest, or too many characters', () => {
    expect(refusal(svg('<g/>'.repeat(20_001)))).toMatch(/more than 20000 parts/);
    expect(refusal(svg(`${'<g>'.repeat(64)}${'</g>'.repeat(64)}`))).toMatch(/64 levels deep/);
    expect(refusal(svg(`<text>${'x'.repeat(3 * 1024 * 1024)}</text>`))).toMatch(/3 MiB/);
  });

  it('for what is long only once it is written', () => {
    expect(refusal(svg(`<text><![CDATA[${'&'.repeat(1024 * 1024)}]]></text>`))).toMatch(/3 MiB/);
  });

  it('before long, however it is made: open comments, rules, declarations, functions and attributes without end', () => {
    const hostile = [
      svg(`<style>${'/*'.repeat(700_000)}</style>`),
      svg(`<style>${'a{fill:red}'.repeat(100_000)}</style>${'<rect/>'.repeat(19_000)}`),
      svg(`<style>${'rect{fill:red}'.repeat(15_000)}</style>${'<rect/>'.repeat(19_000)}`),
      svg(`<style>rect{${'fill:red;'.repeat(20_000)}}</style>${'<rect/>'.repeat(19_000)}`),
      svg(`<g style="${'fill:red;'.repeat(200_000)}"/>`),
      svg(`<g fill="url(#a)${' '.repeat(2_000_000)}!" style="fill:red!${' '.repeat(900_000)}x"/>`),
      svg(`<g transform="${'translate(1)'.repeat(200_000)}!"/>`),
      svg(`<g fill="${'url('.repeat(500_000)}"/>`),
      svg(`<g ${Array.from({ length: 100_000 }, (_, at) => `a${at}="b"`).join(' ')}/>`),
    ];
    for (const text of hostile) expect(sanitiseSvg(text).ok).toBe(true);
  });
});
