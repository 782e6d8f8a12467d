import type { Random } from './random.ts';

const MANY = 10_000_000;
/** Has no divisor in common with {@link MANY}, so that every number comes once. */
const STEP = 6_180_339;

/** Serials that no two units share, of seven digits in an order of their own. */
export function openSerials(random: Random): (treeId: string) => string {
  let number = Math.floor(random.next() * MANY);
  return (treeId) => {
    number = (number + STEP) % MANY;
    const [maker = 'u'] = treeId.split('-');
    return `${maker.toUpperCase()}-${String(number).padStart(7, '0')}`;
  };
}
