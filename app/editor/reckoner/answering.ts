import { alike } from '../desk/alike.ts';
import { changed, documentOf, openChecking } from './mirror.ts';
import type { FromReckoner, ShopFigures, ToReckoner, Traffic, Which } from './protocol.ts';
import { reckon, type Reckoned, type Side } from './reckon.ts';
import { heldSortings, openCosters, type Sortings } from './sorted-costers.ts';

/** The reckoner's side of the talk. */
export interface Answering {
  /** Takes what the window tells; what was left to be said of the version before is not said any more. */
  readonly take: (message: ToReckoner) => void;
  /** Does some of what is left to do: gives an answer, null where there is none yet, `done` where nothing is left. */
  readonly work: () => FromReckoner | null | 'done';
}

/** Mirrors a draft's document by its changes and answers each version. `now` gives milliseconds. */
export function openAnswering(now: () => number): Answering {
  let held: Reckoned | null = null;
  let running: Generator<FromReckoner | null, void> | null = null;
  const withoutRepeats = keepTraffic();
  return {
    take(message) {
      try {
        // At once, since the next message goes by the document that this one leaves.
        held = taken(held, message);
        running = held === null ? null : reckon(held, now);
      } catch (error) {
        held = null;
        running = once(failed(message.version, error));
      }
    },
    work() {
      try {
        const next = running?.next();
        return next === undefined || next.done === true ? 'done' : withoutRepeats(next.value);
      } catch (error) {
        running = null;
        return failed(held?.version ?? 0, error);
      }
    },
  };
}

/** Leaves the traffic out of an answer where it is what was said last: of a large tree it takes longer to tell than all the rest. */
function keepTraffic(): (answer: FromReckoner | null) => FromReckoner | null {
  let said: Traffic | null = null;
  return (answer) => {
    if (answer?.kind !== 'traffic' || answer.traffic === null) return answer;
    if (said !== null && alike(said, answer.traffic)) return { ...answer, traffic: null };
    said = answer.traffic;
    return answer;
  };
}

function* once(answer: FromReckoner): Generator<FromReckoner, void> {
  yield answer;
}

function failed(version: number, error: unknown): FromReckoner {
  return { kind: 'failed', version, message: error instanceof Error ? error.message : String(error) };
}

function taken(held: Reckoned | null, message: ToReckoner): Reckoned | null {
  const { version } = message;
  switch (message.kind) {
    case 'open': {
      const { text, back, published, figures, sorted, symptom } = message;
      const document = documentOf(text);
      const base = published === null ? null : published === text ? document : documentOf(published);
      const sortings = sorted && heldSortings(sorted);
      const sides = sidesFor(figures, sortings);
      return { version, document, back, published: base, symptom, sortings, sides };
    }
    case 'edit':
      if (held === null) return null;
      return { ...held, version, document: changed(held.document, message.changes), back: message.back };
    case 'show':
      return held === null ? null : { ...held, version, symptom: message.symptom };
    case 'figures':
      if (held === null) return null;
      return { ...held, version, sides: sidesFor(message.figures, held.sortings, held.sides) };
    case 'sorted':
      held?.sortings?.add(message.sorted);
      return held === null ? null : { ...held, version };
  }
}

/**
 * Sides that check as they did; what things cost follows from the shop's figures, and is reckoned anew. What is published goes by the
 * history as the shop has it.
 */
function sidesFor(
  figures: ShopFigures,
  sortings: Sortings | null,
  former?: Reckoned['sides'],
): Reckoned['sides'] {
  const side = (which: Which): Side => ({
    check: former?.[which].check ?? openChecking(),
    costerOf: openCosters(figures, which === 'published' ? null : sortings),
  });
  return { now: side('now'), before: side('before'), published: side('published') };
}
