import { openBuiltPage, type BuiltPage } from './built-page.ts';

/** A page with nothing but the drawing; add `?TREE/SYMPTOM`. */
export function openDrawingPage(): Promise<BuiltPage> {
  return openBuiltPage('drawing-page');
}
