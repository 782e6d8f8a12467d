import { saveFile } from '../../parts/index.ts';
import { markedName, type ExportMark } from '../export-mark.ts';
import { svgText, type SvgWords } from './svg-text.ts';

/** Saves a plot of the page as a file of its own, with which jobs it is of in its name and under its title; see `svgText`. */
export function saveSvg(
  svg: SVGSVGElement,
  name: string,
  words: Omit<SvgWords, 'of'>,
  mark: ExportMark,
): void {
  saveFile(`${markedName(name, mark)}.svg`, svgText(svg, { ...words, of: mark.words }), 'image/svg+xml');
}
