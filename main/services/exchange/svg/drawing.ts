/** An element of a drawing that may be kept: its name, its attributes as they will be written, and what is in it. */
export interface Drawn {
  readonly name: string;
  readonly attributes: Map<string, string>;
  readonly within: (Drawn | string)[];
}

export const SVG_NAMESPACE = 'http://www.w3.org/2000/svg';
export const XLINK_NAMESPACE = 'http://www.w3.org/1999/xlink';

/** Elements that may be kept. Whatever is not here is left out with all that is in it. */
export const KEPT_ELEMENTS: ReadonlySet<string> = new Set([
  ...['svg', 'g', 'defs', 'symbol', 'use', 'title', 'desc'],
  ...['path', 'rect', 'circle', 'ellipse', 'line', 'polyline', 'polygon'],
  ...['text', 'tspan', 'textPath'],
  ...['linearGradient', 'radialGradient', 'stop', 'pattern', 'clipPath', 'mask', 'marker'],
]);

/** Elements that are left out while what is in them is kept. */
export const OPENED_ELEMENTS: ReadonlySet<string> = new Set(['a', 'switch']);

/** Elements whose text is text; anywhere else it shows nothing. */
export const TEXT_ELEMENTS: ReadonlySet<string> = new Set(['text', 'tspan', 'textPath', 'title', 'desc']);

/** Elements that may refer to another by `href`. */
export const REFERRING_ELEMENTS: ReadonlySet<string> = new Set([
  ...['use', 'textPath', 'linearGradient', 'radialGradient', 'pattern'],
]);

/** What an element's name or class in a drawing's own style sheet can be held against. */
export interface Named {
  readonly name: string;
  readonly id: string | undefined;
  readonly classes: readonly string[];
}
