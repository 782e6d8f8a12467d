import type { LikeForLike, Review } from '../../../trees/review/index.ts';
import { ENOUGH } from './enough.ts';
import { chanceWords, counted } from './figures.ts';

/** Whether somebody fixes more or fewer units the first time than all do, where the symptoms are the same. */
export function likeWords({ likeForLike, technicianSymptoms, firstTimeFix }: Review): string {
  if (firstTimeFix.judged.closed === 0)
    return 'That cannot be said yet: of no job here has the comeback window passed.';
  if (likeForLike.length < 2)
    return 'One technician closed all the jobs that can be judged here, so that there is nobody to hold them against.';
  const differ = technicianSymptoms.filter(({ differs }) => differs).length;
  const looked = counted(
    technicianSymptoms.length,
    'pair of technician and symptom',
    'pairs of technician and symptom',
  );
  if (differ === 0) {
    const none = `Nobody in anything, as far as this tells: none of ${looked} differs by more than chance from how all do with that symptom, all looked at together`;
    return technicianSymptoms.some(({ closed }) => closed >= ENOUGH.jobs)
      ? `${none}.`
      : `${none}; but there is no pair with ${String(ENOUGH.jobs)} jobs to judge, from which on that starts to mean something.`;
  }
  return `Of ${looked}, looked at together, ${String(differ)} ${differ === 1 ? 'differs' : 'differ'} by more than chance from how all do with that symptom: ask who could show it to whom.`;
}

/** How the units fixed the first time stand to all, in a word with its chance. */
export function likeChance({ fixed, expected, corrected, differs }: LikeForLike): string {
  const chance = chanceWords(corrected);
  if (!differs) return chance;
  return `${chance} ${fixed > expected ? 'above' : 'below'}`;
}
