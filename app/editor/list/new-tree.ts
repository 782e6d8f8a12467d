import { newId } from '../../../trees/edit/index.ts';

/** The caution that every tree begins with. */
const FIRST_CAUTION =
  'Follow the maker’s instructions, local rules and licensed practice; where they differ from this tree, they win.';

/** The text of a tree that has nothing yet but its name; its id is made of the title, and not among those taken. */
export function newTreeText(title: string, family: string, taken: Iterable<string>): string {
  const document = {
    format: 'ohmward-tree/1',
    id: newId(title, taken, 'tree'),
    title: title.trim(),
    unit: { family: family.trim() },
    cautions: [FIRST_CAUTION],
    tests: {},
    findings: {},
    symptoms: {},
  };
  return `${JSON.stringify(document, null, 2)}\n`;
}
