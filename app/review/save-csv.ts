import { saveFile } from '../parts/index.ts';

/** Without this, some spreadsheets take UTF-8 for something else. */
const BYTE_ORDER_MARK = '\ufeff';

/** Saves a table as `ohmward-NAME.csv`. */
export function saveCsv(name: string, csv: string): void {
  saveFile(`ohmward-${name}.csv`, BYTE_ORDER_MARK + csv, 'text/csv;charset=utf-8');
}
