/** Letters, figures, signs and separators: no bracket, colon, quote, slash or backslash, so nothing that could call or fetch. */
const PLAIN = /^[-+.,\s\w%#]*$/;
const ID = /^[\p{L}_][\p{L}\p{N}\-._]*$/u;
const FONT = /^[-\w\s,.'"]*$/;
const TRANSFORM = /^\s*(?:(?:matrix|translate|scale|rotate|skewX|skewY)\s*\([-+.,\s\deE]*\)[\s,]*)*$/;
const COLOUR = /^\s*(?:rgb|rgba|hsl|hsla)\([-+.,\s\d%/a-z]*\)\s*$/;
const LOCAL_URL = /^\s*url\(\s*(['"]?)#([^'"()\s]+)\1\s*\)([-\w#\s]*)$/;
const LONGEST_ID = 200;

type Clean = (value: string) => string | null;

const plain: Clean = (value) => (PLAIN.test(value) ? value : null);
const words: Clean = (value) => value;
const font: Clean = (value) => (FONT.test(value) ? value : null);
const transform: Clean = (value) => (TRANSFORM.test(value) ? value : null);
const id: Clean = (value) => (isId(value) ? value : null);
const reference: Clean = (value) => (value.trim() === 'none' ? 'none' : localUrl(value));
const paint: Clean = (value) => (COLOUR.test(value) ? value : (plain(value) ?? localUrl(value)));
const colour: Clean = (value) => (COLOUR.test(value) ? value : plain(value));
const href: Clean = (value) => (value.startsWith('#') && isId(value.slice(1)) ? value : null);

/** Presentation attributes: these may come out of a `style` as well. */
const PRESENTATION: Readonly<Record<string, Clean>> = {
  ...each(['fill', 'stroke'], paint),
  ...each(['color', 'stop-color'], colour),
  ...each(['clip-path', 'mask', 'marker-start', 'marker-mid', 'marker-end'], reference),
  ...each(['font-family'], font),
  ...each(['transform'], transform),
  ...each(['fill-opacity', 'fill-rule', 'stroke-width', 'stroke-opacity', 'stroke-linecap'], plain),
  ...each(['stroke-linejoin', 'stroke-miterlimit', 'stroke-dasharray', 'stroke-dashoffset'], plain),
  ...each(['opacity', 'stop-opacity', 'clip-rule', 'display', 'visibility', 'overflow'], plain),
  ...each(['font-size', 'font-weight', 'font-style', 'font-variant', 'font-stretch', 'text-anchor'], plain),
  ...each(['letter-spacing', 'word-spacing', 'text-decoration', 'dominant-baseline', 'direction'], plain),
  ...each(['alignment-baseline', 'baseline-shift', 'writing-mode', 'paint-order', 'vector-effect'], plain),
  ...each(['shape-rendering', 'text-rendering', 'color-interpolation', 'mask-type'], plain),
};

const OTHERS: Readonly<Record<string, Clean>> = {
  ...each(['x', 'y', 'x1', 'y1', 'x2', 'y2', 'cx', 'cy', 'r', 'rx', 'ry', 'fx', 'fy', 'fr'], plain),
  ...each(['dx', 'dy', 'rotate', 'width', 'height', 'd', 'points', 'pathLength', 'offset'], plain),
  ...each(['viewBox', 'preserveAspectRatio', 'textLength', 'lengthAdjust', 'startOffset', 'method'], plain),
  ...each(['spacing', 'side', 'gradientUnits', 'spreadMethod', 'patternUnits', 'patternContentUnits'], plain),
  ...each(['clipPathUnits', 'maskUnits', 'maskContentUnits', 'markerUnits', 'markerWidth'], plain),
  ...each(['markerHeight', 'orient', 'refX', 'refY', 'role', 'lang'], plain),
  ...each(['gradientTransform', 'patternTransform'], transform),
  ...each(['aria-label', 'aria-labelledby', 'aria-describedby'], words),
  id,
};

/**
 * An attribute's value as it may be written; null where the attribute, or this value of it, is not to be kept. `name` is the
 * local name of an attribute without a namespace.
 */
export function cleanAttribute(name: string, value: string): string | null {
  if (/^data-[a-z][a-z-]*$/.test(name)) return value;
  const clean = own(PRESENTATION, name) ?? own(OTHERS, name);
  return clean?.(value) ?? null;
}

/** The value of a style's property as an attribute of the same name; null where it is not to be kept. */
export function cleanProperty(name: string, value: string): string | null {
  return own(PRESENTATION, name)?.(value) ?? null;
}

/** A reference that stays in the drawing (`#id`); null for any other. */
export const cleanHref = href;

/** Whether a name is an id of which references are kept. */
export function isId(value: string): boolean {
  return value.length <= LONGEST_ID && ID.test(value);
}

/** The id that a `url(#id)` refers to; null where the value is none. */
export function urlTarget(value: string): string | null {
  return LOCAL_URL.exec(value)?.[2] ?? null;
}

function localUrl(value: string): string | null {
  const [, , target = '', otherwise = ''] = LOCAL_URL.exec(value) ?? [];
  if (!isId(target)) return null;
  return otherwise.trim() === '' ? `url(#${target})` : `url(#${target}) ${otherwise.trim()}`;
}

function each(names: readonly string[], clean: Clean): Record<string, Clean> {
  return Object.fromEntries(names.map((name) => [name, clean]));
}

function own(cleaners: Readonly<Record<string, Clean>>, name: string): Clean | undefined {
  return Object.hasOwn(cleaners, name) ? cleaners[name] : undefined;
}
