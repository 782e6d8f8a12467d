import { saveFile } from '../parts/index.ts';
import { markedName, type ExportMark } from './export-mark.ts';

/** Without this, some spreadsheets take UTF-8 for something else. */
const BYTE_ORDER_MARK = '\ufeff';

/** Saves a table as `ohmward-NAME-MARK.csv`: data only, so that which jobs it is of stands in its name. */
export function saveCsv(name: string, csv: string, mark: ExportMark): void {
  saveFile(`${markedName(`ohmward-${name}`, mark)}.csv`, BYTE_ORDER_MARK + csv, 'text/csv;charset=utf-8');
}
