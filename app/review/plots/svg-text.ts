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
  /** Which jobs it is of; nothing stands of it where it is empty. */
  readonly of: string;
}

/**
 * A plot as a file of its own: drawn as in the light theme on white, its styles as attributes, its typefaces by name, with its
 * title over it. `svg` must stand in the page.
 */
export function svgText(svg: SVGSVGElement, { title, caption, of }: SvgWords): string {
  const summary = svg.getAttribute('aria-label') ?? '';
  const copy = svg.cloneNode(true) as SVGSVGElement;
  const look = inLight(svg, copy);
  copy.querySelectorAll('[data-unsaved]').forEach((element) => element.remove());
  return new XMLSerializer().serializeToString(
    framed(copy, look, { title, of, description: [of, caption, summary].join(' ').trim() }),
  );
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

interface FrameWords {
  readonly title: string;
  readonly of: string;
  readonly description: string;
}

/** On white, with a margin, the title over it, and title and description for who cannot see it. */
function framed(copy: SVGSVGElement, look: Look, { title, of, description }: FrameWords): SVGSVGElement {
  const { em } = look;
  const [width, height] = [copy.width.baseVal.value, copy.height.baseVal.value];
  const heads = headLines(title, of, width, look);
  const top = 1.5 * em + heads.reduce((sum, { down }) => sum + down, 0);
  const frame = make('svg', { width: width + 2 * em, height: height + top + em });
  frame.setAttribute('viewBox', `0 0 ${String(width + 2 * em)} ${String(height + top + em)}`);
  const content = make('g', { transform: `translate(${String(em)} ${String(top)})` });
  content.append(...copy.childNodes);
  frame.append(
    withText(make('title', {}), title),
    withText(make('desc', {}), description),
    make('rect', { width: '100%', height: '100%', fill: '#fff' }),
    ...headTexts(heads, look),
    content,
  );
  return frame;
}

/** A line over the plot: how large and heavy it is set, and how far down the next one begins, in CSS pixels. */
interface HeadLine {
  readonly words: string;
  readonly size: number;
  readonly weight: string;
  readonly down: number;
}

/** The title, and smaller under it which jobs the plot is of. */
function headLines(title: string, of: string, width: number, { em }: Look): readonly HeadLine[] {
  const line = lineOf({ em, width });
  const large = em * 1.15;
  return [
    ...wrapWords(title, width, large).map((words) => ({
      words,
      size: large,
      weight: '700',
      down: line * 1.15,
    })),
    ...(of === '' ? [] : wrapWords(of, width, em)).map((words) => ({
      words,
      size: em,
      weight: '400',
      down: line,
    })),
  ];
}

function headTexts(heads: readonly HeadLine[], { em, fill, family }: Look): readonly SVGElement[] {
  let down = em;
  return heads.map((head) => {
    const text = make('text', { x: em, y: down + head.size, fill, 'font-family': family });
    text.setAttribute('font-size', `${String(head.size)}px`);
    text.setAttribute('font-weight', head.weight);
    down += head.down;
    return withText(text, head.words);
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
