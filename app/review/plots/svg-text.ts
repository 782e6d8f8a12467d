import { lineOf } from './room.ts';
import { wrapWords } from './wrap-words.ts';

const SVG = 'http://www.w3.org/2000/svg';

/** Computed styles that a drawing needs, as SVG's own attributes, and what each is where nothing is said. */
const STYLES: Readonly<Record<string, string>> = {
  fill: 'rgb(0, 0, 0)',
  'fill-opacity': '1',
  stroke: 'none',
  'stroke-width': '1px',
  'stroke-opacity': '1',
  'stroke-dasharray': 'none',
  'stroke-linecap': 'butt',
  'stroke-linejoin': 'miter',
  opacity: '1',
  'paint-order': 'normal',
};
const TYPE_STYLES: Readonly<Record<string, string>> = {
  'font-family': '',
  'font-size': '',
  'font-weight': '400',
  'font-variant-numeric': 'normal',
  'text-anchor': 'start',
};

export interface SvgWords {
  readonly title: string;
  readonly caption: string;
}

/**
 * A plot as a file of its own: drawn as in the light theme on white, its styles as attributes, its typefaces by name, with its
 * title over it. `svg` must stand in the page.
 */
export function svgText(svg: SVGSVGElement, { title, caption }: SvgWords): string {
  const summary = svg.getAttribute('aria-label') ?? '';
  const copy = svg.cloneNode(true) as SVGSVGElement;
  const look = inLight(svg, copy);
  copy.querySelectorAll('[data-unsaved]').forEach((element) => element.remove());
  return new XMLSerializer().serializeToString(framed(copy, look, title, `${caption} ${summary}`));
}

/** What the title is set in. */
interface Look {
  readonly em: number;
  readonly fill: string;
  readonly family: string;
}

/**
 * Writes into `copy` the styles it has on white in the light theme. The whole page is in that theme for as long, as builds may
 * work colours out at its root; nothing of it is painted.
 */
function inLight(svg: SVGSVGElement, copy: SVGSVGElement): Look {
  const root = document.documentElement;
  const theme = root.dataset['theme'];
  const place = document.createElement('div');
  place.className = 'unseen';
  place.inert = true;
  place.style.setProperty('--ground', '#fff');
  place.append(copy);
  svg.after(place);
  root.dataset['theme'] = 'light';
  try {
    const { fontSize, fill, fontFamily: family } = getComputedStyle(copy);
    const look = { em: Number.parseFloat(fontSize), fill, family };
    withStyles(copy);
    return look;
  } finally {
    if (theme === undefined) delete root.dataset['theme'];
    else root.dataset['theme'] = theme;
    place.remove();
  }
}

function withStyles(copy: SVGSVGElement): void {
  const drawn = [...copy.querySelectorAll<SVGElement>('path, rect, circle, text, tspan')];
  for (const element of drawn) {
    const styles = getComputedStyle(element);
    const wanted = element instanceof SVGTextContentElement ? { ...STYLES, ...TYPE_STYLES } : STYLES;
    for (const [name, unsaid] of Object.entries(wanted)) {
      const value = styles.getPropertyValue(name);
      if (value !== unsaid) element.setAttribute(name, value);
    }
  }
  for (const element of [copy, ...copy.querySelectorAll('*')]) {
    for (const name of element.getAttributeNames()) if (isOfPage(name)) element.removeAttribute(name);
  }
}

function isOfPage(name: string): boolean {
  return (
    ['class', 'style', 'role', 'tabindex'].includes(name) || name.startsWith('aria-') || name === 'data-point'
  );
}

/** On white, with a margin, the title over it, and title and description for who cannot see it. */
function framed(copy: SVGSVGElement, look: Look, title: string, description: string): SVGSVGElement {
  const { em } = look;
  const [width, height] = [copy.width.baseVal.value, copy.height.baseVal.value];
  const line = lineOf({ em, width });
  const lines = wrapWords(title, width, em * 1.15);
  const top = em + lines.length * line * 1.15 + em / 2;
  const frame = make('svg', { width: width + 2 * em, height: height + top + em });
  frame.setAttribute('viewBox', `0 0 ${String(width + 2 * em)} ${String(height + top + em)}`);
  const content = make('g', { transform: `translate(${String(em)} ${String(top)})` });
  content.append(...copy.childNodes);
  frame.append(
    withText(make('title', {}), title),
    withText(make('desc', {}), description),
    make('rect', { width: '100%', height: '100%', fill: '#fff' }),
    ...lines.map((words, index) => withText(titleLine(look, index * line * 1.15), words)),
    content,
  );
  return frame;
}

function titleLine({ em, fill, family }: Look, down: number): SVGElement {
  return make('text', {
    x: em,
    y: em + down + em * 1.15,
    fill,
    'font-family': family,
    'font-size': `${String(em * 1.15)}px`,
    'font-weight': '700',
  });
}

function make<Name extends keyof SVGElementTagNameMap>(
  name: Name,
  attributes: Readonly<Record<string, string | number>>,
): SVGElementTagNameMap[Name] {
  const element = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, String(value));
  return element;
}

function withText<Kind extends SVGElement>(element: Kind, words: string): Kind {
  element.textContent = words;
  return element;
}
