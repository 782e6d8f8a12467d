import { saveFile } from '../../parts/index.ts';
import { svgText, type SvgWords } from './svg-text.ts';

/** Saves a plot of the page as a file of its own; see `svgText`. */
export function saveSvg(svg: SVGSVGElement, { name, ...words }: SvgWords & { readonly name: string }): void {
  saveFile(`${name}.svg`, svgText(svg, words), 'image/svg+xml');
}
